"""Finding the word that was probably meant."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

__all__ = ["nearest_word", "suggestion"]


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
    return f"Known are: {', '.join(words)}."
