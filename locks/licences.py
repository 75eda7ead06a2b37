"""The licence of every package, as SPDX says it, from what is installed; and which licences we take.

A package states its licence as an SPDX expression, as a classifier, or in words of its own. Where it states none, or one that may be
several, we read its licence file and recorded here what it is; the words that we went by must still be in that file.
A wheel may carry libraries of others. Where its licence file lists them (Name, Files, License), they are reported too.
"""

from __future__ import annotations

import re
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from importlib.metadata import Distribution
from pathlib import Path

from packaging.licenses import InvalidLicenseExpression, canonicalize_license_expression
from packaging.utils import canonicalize_name

__all__ = ["ALLOWED", "ALLOWED_CARRIED", "READ", "Licence", "carried", "is_allowed", "licence", "of_words"]

ALLOWED = frozenset(
    {
        "0BSD",
        "Apache-2.0",
        "BSD-2-Clause",
        "BSD-3-Clause",
        "BSL-1.0",
        "CC0-1.0",
        "ISC",
        "MIT",
        "MIT-CMU",
        "MPL-2.0",
        "OFL-1.1",
        "PSF-2.0",
        "Unlicense",
        "Zlib",
    }
)
# A library that a wheel carries as a file of its own may also have one of these. Kitwright uses the wheels as their makers
# ship them; who passes one on, in an installer for instance, has to pass on these texts too (the wheel has them).
ALLOWED_CARRIED = ALLOWED | {
    "BSD-3-Clause-Open-MPI",
    "EPL-2.0",
    "GPL-3.0-or-later WITH GCC-exception-3.1",
    "LGPL-2.1-only",
    "LGPL-2.1-or-later",
}

# Classifiers and free words, where they can only mean one licence; "BSD License" is therefore not among them.
WORDS = {
    "Apache 2.0": "Apache-2.0",
    "OSI Approved :: Apache Software License": "Apache-2.0",
    "3-Clause BSD License": "BSD-3-Clause",
    "BSD 2-Clause License": "BSD-2-Clause",
    "LGPLv2.1": "LGPL-2.1-only",
    "OSI Approved :: MIT License": "MIT",
    "OSI Approved :: Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
    "OSI Approved :: SIL Open Font License 1.1 (OFL-1.1)": "OFL-1.1",
}


@dataclass(frozen=True)
class Reading:
    """What we read a licence file to be, the words it is known by, and why it had to be read."""

    expression: str
    words: str
    reason: str


READ = {
    "axe-playwright-python": Reading("MIT", "MIT License", "its metadata states none"),
    "jinja2": Reading("BSD-3-Clause", "Neither the name of the copyright holder", "its metadata says only BSD"),
    "pypdfium2": Reading(
        "Apache-2.0 AND BSD-3-Clause",
        "Apache License",
        "its metadata also says 'dependency licenses': see its many licence files",
    ),
}

# what a wheel carries without saying so: seen from the names of its files, the licences as these projects publish them
CARRIED_UNTOLD = {"python-sat": {"MiniCard, MiniSat, CaDiCaL, Glucose, Lingeling and others": "MIT"}}


@dataclass(frozen=True)
class Licence:
    """An SPDX expression; `reason` is empty where the package states it itself, and says why not where we read it."""

    expression: str
    reason: str = ""


def of_words(words: str) -> str | None:
    """The SPDX expression of a licence's name; None if it is none or may mean several."""
    try:
        return canonicalize_license_expression(WORDS.get(words, words))
    except InvalidLicenseExpression:
        return None


def licence(of: Distribution) -> Licence | None:
    """The licence of an installed package; None if it states none that can be told and none was recorded."""
    reading = READ.get(canonicalize_name(of.name))
    if reading is not None:
        known = any(reading.words in text for text in licence_files(of))
        return Licence(reading.expression, reading.reason) if known else None
    classifiers = [line.removeprefix("License :: ") for line in of.metadata.get_all("Classifier") or []]
    stated = [words for key in ("License-Expression", "License") for words in of.metadata.get_all(key) or []]
    expressions = (of_words(words) for words in (*stated, *classifiers))
    return next((Licence(expression) for expression in expressions if expression), None)


def licence_files(of: Distribution) -> list[str]:
    """The texts of the licence files that the package brings."""
    told = re.compile(r"\.dist-info/(.*/)?(licenses/|LICEN[CS]E|COPYING)", re.IGNORECASE)
    files = [each for each in of.files or [] if told.search(each.as_posix())]
    return [Path(str(each.locate())).read_text(encoding="utf-8", errors="replace") for each in files]


def carried(by: Distribution) -> dict[str, str | None]:
    """The libraries of others that a wheel is known to carry, by name, with their licences (None: not understood)."""
    blocks = re.compile(r"^Name: (.+)\n(?:(?!Name: ).*\n)*?License: (.+)$", re.MULTILINE)
    told = {name: of_words(words) for text in licence_files(by) for name, words in blocks.findall(text)}
    return {**told, **CARRIED_UNTOLD.get(canonicalize_name(by.name), {})}


def is_allowed(expression: str, among: AbstractSet[str] = ALLOWED) -> bool:
    """Whether an SPDX expression can be met by licences among these: all of an AND, one of an OR.

    packaging.licenses.InvalidLicenseExpression (a ValueError) if it is no SPDX expression.
    """
    return is_met(canonicalize_license_expression(expression), among)


def is_met(expression: str, among: AbstractSet[str]) -> bool:
    for word, needed in ((" OR ", any), (" AND ", all)):  # OR binds less tightly, so it is split first
        terms = split(expression, word)
        if len(terms) > 1:
            return needed(is_met(term, among) for term in terms)
    if expression.startswith("("):
        return is_met(expression[1:-1], among)
    return expression in among


def split(expression: str, word: str) -> list[str]:
    """The terms between a word that stands in no brackets."""
    terms = [""]
    for part in expression.split(word):
        if terms[-1].count("(") > terms[-1].count(")"):
            terms[-1] += word + part
        else:
            terms.append(part)
    return terms[1:]
