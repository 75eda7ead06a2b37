"""The mistakes that Kitwright tells a person about.

A mistake is something that was said wrongly (a misspelt word, an unreadable length, a missing file). It is raised. A design
that was said clearly but does not work is a `findings.Finding`; "no solution" is part of a result. Neither is raised.

    KitwrightError
    ├── Mistake            one thing said wrongly: what, where, what to do   (also a ValueError)
    │   └── Unreadable     what cannot be read as what is asked for at all
    ├── Mistakes           all the mistakes of one document, told together   (also a ValueError)
    └── InternalError      the program itself went wrong, and that was contained
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

__all__ = ["InternalError", "KitwrightError", "Mistake", "Mistakes", "Place", "Unreadable"]


@dataclass(frozen=True, slots=True)
class Place:
    """Where something was said: a document, a line (from 1), and the words that name the spot."""

    document: str = ""
    line: int | None = None
    spot: str = ""

    def __str__(self) -> str:
        """The place as a person reads it: `box.toml, line 12, part "lid"`."""
        line = f"line {self.line}" if self.line is not None else ""
        return ", ".join(word for word in (self.document, line, self.spot) if word)


class KitwrightError(Exception):
    """Root of everything that Kitwright raises on purpose."""


class InternalError(KitwrightError):
    """The program itself went wrong where nobody foresaw it. What it was is its cause, and was logged by whoever contained it."""

    def __init__(self) -> None:
        super().__init__("The program made a mistake here; it was not you. Nothing that was kept is lost.")


class Mistake(KitwrightError, ValueError):
    """One thing said wrongly, as a sentence that says what is wrong and what to do, and the place."""

    def __init__(self, what: str, *, do: str = "", place: Place | None = None) -> None:
        self.what = what
        self.do = do
        self.place = place or Place()
        super().__init__(str(self))

    def __str__(self) -> str:
        """The whole message: place, what is wrong, what to do."""
        place = str(self.place)
        return " ".join(word for word in (f"{place}:" if place else "", self.what, self.do) if word)

    def at(self, place: Place) -> Mistake:
        """The same mistake with its place filled in where it was not known yet."""
        known = Place(
            document=self.place.document or place.document,
            line=self.place.line if self.place.line is not None else place.line,
            spot=self.place.spot or place.spot,
        )
        return Mistake(self.what, do=self.do, place=known)


class Unreadable(Mistake):
    """Something that cannot be read as what is asked for, whatever it is. What to do is an example of how such a thing is written.

    Who knows what is asked for more exactly puts an example of its own in its place.
    """


class Mistakes(KitwrightError, ValueError):
    """All the mistakes found in one go, in the order of their lines."""

    def __init__(self, mistakes: Iterable[Mistake]) -> None:
        found = tuple(mistakes)
        self.mistakes = tuple(sorted(found, key=lambda m: m.place.line if m.place.line is not None else 0))
        super().__init__(str(self))

    def __str__(self) -> str:
        """One mistake a line."""
        return "\n".join(str(mistake) for mistake in self.mistakes)
