"""What a picture of a fit is made of: two things at true size, one in the other, and the free play between them. Millimetres, y up."""

from __future__ import annotations

from dataclasses import dataclass

from kitwright.printouts.drawing import Mark, Point, Polygon, Role

__all__ = ["Gap", "Shapes", "rectangle"]


@dataclass(frozen=True, slots=True)
class Gap:
    """Free play from one face to the other, its length in words, and which it is. Where the faces pass each other the two things clash."""

    start: Point
    end: Point
    length: str
    which: str

    @property
    def words(self) -> str:
        """The length and which it is, in one line."""
        return f"{self.length} {self.which}"


@dataclass(frozen=True, slots=True)
class Shapes:
    """Marks at true size. The magnifying glass looks at the `glass` (its middle) and shows all that is `reach` mm around it.

    `hints` are shown under the glass only, such as how far a face may be off. `inner` and `outer` are the names of the two things,
    `seen` says from where they are looked at.
    """

    marks: tuple[Mark, ...]
    gaps: tuple[Gap, ...]
    inner: str
    outer: str
    seen: str
    glass: Point
    reach: float
    hints: tuple[Mark, ...] = ()


def rectangle(low: Point, high: Point, role: Role) -> Polygon:
    """A rectangle from its lower left to its upper right corner."""
    (left, bottom), (right, top) = low, high
    return Polygon(((left, bottom), (right, bottom), (right, top), (left, top)), role)
