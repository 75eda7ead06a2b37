"""Every kind of finding that the program can make, read off its source."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from importlib import resources
from importlib.resources.abc import Traversable

__all__ = ["finding_codes"]

FOLDERS = ("proof", "forms", "kit")
APART = ("cautions", "mailing")
"""Cautions never go away by a change of design, and what is posted is told apart from the proof; both have tests of their own."""


def finding_codes() -> dict[str, str]:
    """The codes, an asterisk for what is filled in, and the file that each comes from."""
    root = resources.files("kitwright")
    return {code: name for folder in FOLDERS for name, code in codes_in(root / folder)}


def codes_in(folder: Traversable) -> Iterator[tuple[str, str]]:
    """File and code of every finding made in a folder and the folders in it."""
    for each in folder.iterdir():
        if each.is_dir() and each.name not in APART:
            yield from codes_in(each)
        elif each.name.endswith(".py"):
            for node in ast.walk(ast.parse(each.read_text(encoding="utf-8"))):
                if (
                    isinstance(node, ast.Call)
                    and isinstance(node.func, ast.Name)
                    and node.func.id in ("Finding", "judged")
                ):
                    said = node.args or [word.value for word in node.keywords if word.arg == "code"]
                    yield each.name, pattern_of(said[0])


def pattern_of(said: ast.expr) -> str:
    """A code as it is written, an asterisk for every place that is filled in; one that is not written out is all asterisk."""
    if isinstance(said, ast.Constant):
        return str(said.value)
    if isinstance(said, ast.JoinedStr):
        return "".join(str(part.value) if isinstance(part, ast.Constant) else "*" for part in said.values)
    return "*"
