"""Words: the one that was probably meant, how many of a thing, what paper is counted in, and words that can be part of a file's name."""

from __future__ import annotations

import difflib
import unicodedata
from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from kitwright.measure.length import MM_PER_INCH, Unit

__all__ = ["counted", "nearest_word", "plain_number", "plain_word", "square_of", "suggestion", "with_article"]


def square_of(unit: Unit) -> tuple[float, str]:
    """In what a maker who measures in this unit counts paper: how many mm² it is, and its name."""
    return (float(MM_PER_INCH**2), "sq in") if unit is Unit.INCH else (100.0, "cm²")


def nearest_word(word: str, known: Iterable[str]) -> str | None:
    """The known word most like `word`, or None if none is at all like it."""
    found = difflib.get_close_matches(word.lower(), list(known), n=1, cutoff=0.6)
    return found[0] if found else None


def suggestion(word: str, known: Iterable[str]) -> str:
    """A sentence that offers the nearest known word, or lists the known ones."""
    words = sorted(known)
    near = nearest_word(word, words)
    if near:
        return f"Did you mean {near!r}?"
    told = [repr(each) for each in words] if any("," in each for each in words) else words
    return f"Known are: {', '.join(told)}."


def counted(count: int, thing: str, things: str = "") -> str:
    """So many of a thing: `1 card`, `2 cards`; `things` where more than one are not called by adding an s.

    >>> counted(1, "half", "halves"), counted(12_000, "card")
    ('1 half', '12,000 cards')
    """
    return f"{count:,} {thing if count == 1 else things or f'{thing}s'}"


def with_article(words: str) -> str:
    """Words after the article that goes with them: `a lid`, `an overlap`.

    >>> with_article("overlap"), with_article("lid")
    ('an overlap', 'a lid')
    """
    return f"{'an' if words[:1] in set('aeiou') else 'a'} {words}"


def plain_number(value: float) -> str:
    """A number with at most four digits that mean something, written out, never with an exponent: `27040`, `216.3`, `0.00012`.

    >>> plain_number(27040.16), plain_number(0.000123)
    ('27040', '0.000123')
    """
    return f"{Decimal(f'{value:.4g}'):f}"


LETTERS: Final = str.maketrans(
    {"æ": "ae", "œ": "oe", "ø": "o", "đ": "d", "ð": "d", "ħ": "h", "ı": "i", "ĸ": "k", "ł": "l", "ŋ": "ng", "þ": "th", "ŧ": "t"}
)  # fmt: skip
"""Latin letters that Unicode does not take apart into a plain letter and a mark, and the plain letters they are written with."""


def plain_word(words: str) -> str:
    """Words in small letters without accents, with digits and hyphens between them; letters of other scripts stay as they are.

    Nothing is left of words that are signs only.

    >>> plain_word("Acht Grüße, Zoë & Łucja")
    'acht-grusse-zoe-lucja'
    """
    return "-".join("".join(map(plain_sign, unicodedata.normalize("NFC", words.casefold()))).split())


def plain_sign(sign: str) -> str:
    """A sign as it stands in a plain word: a Latin letter without its accent, others as they are, a blank for what is no letter."""
    if "\N{COMBINING GRAVE ACCENT}" <= sign <= "\N{COMBINING LATIN SMALL LETTER X}":
        return ""
    apart = unicodedata.normalize("NFKD", sign).casefold().translate(LETTERS)  # signs like a trade mark hold capitals
    if apart[0].isascii():
        plain = "".join(each if each.isalnum() else " " for each in apart if not unicodedata.combining(each))
        return f" {plain} " if unicodedata.decomposition(sign).startswith("<fraction>") else plain
    return sign if sign.isalnum() or unicodedata.category(sign)[0] == "M" else " "
