"""Whatever is written for a key and cannot be read, the example in what is told can be put in its place."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

import pytest

import kitwright.forms  # noqa: F401  (fills the catalogue)
from kitwright.catalogue import CATALOGUE, parameters
from kitwright.errors import Mistake, Mistakes
from kitwright.kit import read_kit
from kitwright.kit.keys import (
    ACCURACY_KEYS,
    EXTRA_KEYS,
    FIT_KEYS,
    KEEP_KEYS,
    KIT_KEYS,
    MACHINE_KEYS,
    MARGIN_KEYS,
    OFFCUT_KEYS,
    PAPER_KEYS,
    PART_KEYS,
    PURPOSE_KEYS,
    SCAN_KEYS,
    TRIMMER_KEYS,
    Key,
)
from kitwright.kit.read_part import key_of

WRONG: Final = (
    "[]",
    '["six by four"]',
    '{ odd = "one" }',
    "true",
    "-7",
    "2.5",
    "4000",
    "1000000000000",
    "nan",
    '""',
    '"six by four"',
    '"3 x 3 x 3 x 3"',
    '"1 x"',
)

TABLES: Final[Mapping[str, Mapping[str, Key]]] = {
    "kit": KIT_KEYS,
    "kit.fit": FIT_KEYS,
    "kit.accuracy": ACCURACY_KEYS,
    "kit.trimmer": TRIMMER_KEYS,
    "kit.machine": MACHINE_KEYS,
    "kit.keep": KEEP_KEYS,
    "kit.for": PURPOSE_KEYS,
    "paper.kraft": PAPER_KEYS,
    "paper.kraft.margins": MARGIN_KEYS,
    "paper.kraft.scan": SCAN_KEYS,
    "offcut": OFFCUT_KEYS,
    "part": PART_KEYS,
    "extra": EXTRA_KEYS,
}
"""Every table of a document with its keys. A part is here a flat card; the keys that other forms have of their own come apart."""

COMPANY: Final = {"border": "on", "face": "on", "goes": "wraps", "contents": "holds", "post": "holds"}
"""Keys of a part that say nothing without another."""

KIND: Final = {"length": "ribbon", "loop": "ribbon", "film": "bag", "label-kept": "glue"}
"""Keys that only one kind of extra has."""


def sized(form: str) -> str:
    """A size that every form can have."""
    return " x ".join(("125", "100", "50")[: len(CATALOGUE[form].size)]) + " mm"


def document(table: str, lines: Mapping[str, str], *, units: str, form: str = "flat card") -> str:
    """A kit whose table has these lines, in place of its own lines for the same keys."""
    own: dict[str, dict[str, str]] = {
        "kit": {"name": '"k"', "units": f'"{units}"'},
        "paper.kraft": {"sheet": '"A3"', "weight": '"216 gsm"'},
        "paper.kraft.scan": {"picture": '"gingham"'},
        "offcut": {"paper": '"kraft"', "size": '"130 x 300 mm"'},
        "part": {"name": '"thing"', "form": f'"{form}"', "paper": '"kraft"', "size": f'"{sized(form)}"'},
        "extra": {"name": '"ring"', "size": '"30 x 30 x 3 mm"'},
    }
    if {"inside", "outside"} & lines.keys():
        del own["part"]["size"]
    tables = {**own, table: {**own.get(table, {}), **lines}}
    text = "\n".join(
        f"{f'[[{name}]]' if name in ('offcut', 'part', 'extra') else f'[{name}]'}\n"
        + "".join(f"{key} = {value}\n" for key, value in found.items())
        for name, found in tables.items()
        if not (name == "paper.kraft.scan" and "scan" in lines)
    )
    for name, made in (("card", "flat card"), ("recipe card", "flat card"), ("box", "tray")):
        if lines.get("name") != f'"{name}"':
            text += f'[[part]]\nname = "{name}"\nform = "{made}"\npaper = "kraft"\nsize = "{sized(made)}"\n'
    if lines.get("name") != '"pencil"':
        text += '[[extra]]\nname = "pencil"\nsize = "180 x 8 x 8 mm"\n'
    return text


def mistakes_in(text: str) -> tuple[Mistake, ...]:
    """What is told about a document."""
    try:
        read_kit(text)
    except Mistakes as mistakes:
        return mistakes.mistakes
    return ()


PLAIN: Final = re.compile(
    r"Check (?:it|the number and its unit)\.|Make it shorter\.|A length must be larger than zero\.|Write it on one line\."
    r"|Write it out, or leave the whole line out\.|Name something, or leave the line out\.|Use in, mm or cm\.|Name another part\."
    r"|Check the number and its unit: papers weigh from 15 to 2000 g/m²\.|Write small letters, digits and hyphens, as the workshop does\."
    r"|Write [a-z]+(?: x [a-z]+)*\.|Make the (?:margins|edge|border) smaller\."
)
"""What is to be done, in words that are no example. Whatever else is told must hold one."""

EXAMPLES: Final = (
    re.compile(r"Write it like laid = (?P<plain>\[\[.+?\]\]), a list for every sheet; .*"),
    re.compile(r"Write it like (?P<plain>.+)\."),
    re.compile(r"Did you mean (?P<word>[0-9.]+ [a-zµ]+)(?: \(.*\))?\?"),
    re.compile(r"Did you mean '(?P<word>[^']+)'\?.*"),
    re.compile(r"Known are: (?P<words>[^.]+)\..*"),
    re.compile(r"Write (?P<plain>true) or false, without quotes\."),
    re.compile(r"Write (?P<list>0, 90, 180 or 270)\."),
    re.compile(r"Write (?P<plain>0) or more\."),
    re.compile(r"Write at most (?P<word>10 mm)\."),
    re.compile(r"Write three capitals: (?P<list>[A-Z, or]+)\."),
    re.compile(r"Choose (?P<list>[^.]+(?:\.5 mm)?)\."),
    re.compile(r"It can be from (?P<word>.+) to .+\."),
    re.compile(r"Use a caliper from .* mm, such as (?P<list>.+)\."),
)


def examples_in(do: str) -> Iterator[str]:
    """Every value that a hint offers, as it is typed. Fails for a hint that is neither plain nor known to hold an example."""
    if PLAIN.fullmatch(do):
        return
    found = next((match for each in EXAMPLES if (match := each.fullmatch(do))), None)
    assert found is not None, do
    ((kind, said),) = ((kind, said) for kind, said in found.groupdict().items() if said is not None)
    several = re.findall(r"'([^']+)'", said) or re.split(r", | or ", said) if kind in ("words", "list") else [said]
    for each in several:
        yield each if kind == "plain" else each if each.isdigit() else f'"{each}"'


def told_and_mended(
    table: str, key: str, *, units: str, form: str = "flat card", wrongs: Sequence[str] = WRONG
) -> None:
    """Write everything wrong for a key; put every example that is told in its place, and see that it is taken."""
    other = COMPANY.get(key, "") if table == "part" else ""
    beside = {other: {"on": '"card"', "wraps": '"box"', "holds": '"card"'}[other]} if other else {}
    if key == "face":
        beside = {"on": '"box"'}  # a flat card has no inside
    beside |= {"kind": f'"{KIND[key]}"'} if table == "extra" and key in KIND else {}
    good: set[str] = set()
    for wrong in wrongs:
        for mistake in mistakes_in(document(table, {**beside, key: wrong}, units=units, form=form)):
            for example in examples_in(mistake.do) if mistake.what.startswith(f"{key}") else ():
                if example not in good:
                    after = mistakes_in(document(table, {**beside, key: example}, units=units, form=form))
                    assert key == "form" or not after, (wrong, mistake.do, str(after[0]))
                    assert not any(each.what.startswith(key) for each in after)
                good.add(example)


@pytest.mark.parametrize("units", ["in", "mm"])
def test_an_example_that_is_told_for_a_key_can_be_put_in_its_place(units: str) -> None:
    for table, keys in TABLES.items():
        for key in keys:
            if (table, key) != ("kit", "units"):
                told_and_mended(table, key, units=units, wrongs=WRONG if units == "in" else WRONG[1::4])


@pytest.mark.parametrize("form", sorted(CATALOGUE))
def test_so_can_an_example_for_a_number_of_a_form(form: str) -> None:
    for parameter in parameters(CATALOGUE[form]):
        if parameter.name not in CATALOGUE[form].size:
            told_and_mended("part", key_of(parameter), units="mm", form=form, wrongs=WRONG[::3])
    told_and_mended("part", "inside", units="in", form=form, wrongs=WRONG[::3])
