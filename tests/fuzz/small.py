"""A document made as small as it gets while something stays true of it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

__all__ = ["made_small"]


def made_small(text: str, still: Callable[[str], bool]) -> str:
    """Leave out tables, then lines, then all but one name of lists and the digits after a point, while `still` holds."""
    for pieces_of in (tables, lines):
        text = fewer(text, pieces_of, still)
    for shorter in simpler(text):
        changed = shorter(text)
        if changed != text and still(changed):
            text = changed
    return text


def tables(text: str) -> list[str]:
    """The document's tables, each with its heading."""
    return re.split(r"(?m)^(?=\[)", text)


def lines(text: str) -> list[str]:
    """The document's lines."""
    return text.splitlines(keepends=True)


def fewer(text: str, pieces_of: Callable[[str], list[str]], still: Callable[[str], bool]) -> str:
    """Leave out one piece after the other, from the end, until none can be spared."""
    changed = True
    while changed:
        changed = False
        pieces = pieces_of(text)
        for place in reversed(range(len(pieces))):
            tried = "".join(pieces[:place] + pieces[place + 1 :])
            if tried != text and still(tried):
                del pieces[place]
                changed = True
        text = "".join(pieces)
    return text


def simpler(text: str) -> Iterator[Callable[[str], str]]:
    """Ways to write a document more simply: plain names for odd ones."""
    for number, name in enumerate(dict.fromkeys(re.findall(r'(?m)^name = "((?:[^"\\]|\\.)*)"', text))):
        plain = "abcdefghij"[number % 10]
        yield lambda told, name=name, plain=plain: told.replace(f'"{name}"', f'"{plain}"')  # type: ignore[misc]
