"""What the maker has at the bench: the trimmer's limits, which offcuts are worth keeping, and what lies there from before. Exact mm."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from kitwright.cutting import USUAL_KEEPING, to_mm
from kitwright.measure import Unit
from kitwright.paper import Margins

__all__ = ["ANY_TRIMMER", "Keeping", "Machine", "OffcutOnHand", "Trimmer"]

NO_MARGINS: Final = Margins()
MOST_AT_ONCE: Final = 50
"""Nobody lines up more sheets than this under a blade by hand (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Trimmer:
    """What the trimmer can do: its longest cut, the narrowest strip a hand can hold there, how thick a stack it takes.

    None means nothing is said of it: any length, any strip, one sheet at a time.
    """

    longest_cut: Fraction | None = None
    narrowest: Fraction | None = None
    stack: Fraction | None = None

    def at_once(self, thickness: float) -> int:
        """How many sheets of this thickness (mm) go under the blade together; one at least."""
        return 1 if self.stack is None else max(1, min(MOST_AT_ONCE, int(self.stack / Fraction(repr(thickness)))))


@dataclass(frozen=True, slots=True)
class Machine:
    """A cutting machine: its mat (width, height; None if nothing is said of it), the edge of the mat and the sheet that it leaves, and
    the card that must stay between two pieces.
    """

    mat: tuple[Fraction, Fraction] | None = None
    edge: Fraction = Fraction(6)
    gap: Fraction = Fraction(2)

    @classmethod
    def usual(cls, unit: Unit) -> Machine:
        """Edge and gap for makers who measure in `unit` (common practice, no source)."""
        return cls(edge=unit.mm / 4, gap=unit.mm / 16) if unit is Unit.INCH else cls()


ANY_TRIMMER: Final = Trimmer()
"""One of which nothing is said."""


@dataclass(frozen=True, slots=True)
class Keeping:
    """Which offcuts are worth keeping: no side shorter than `side`, and no less paper than a piece of the size `area` has."""

    side: Fraction
    area: tuple[Fraction, Fraction]

    @classmethod
    def usual(cls, unit: Unit) -> Keeping:
        """The usual rule for makers who measure in `unit` (common practice, no source)."""
        if unit is Unit.INCH:
            return cls(to_mm(USUAL_KEEPING.side), (3 * unit.mm, 4 * unit.mm))
        return cls(Fraction(50), (Fraction(75), Fraction(100)))


@dataclass(frozen=True, slots=True)
class OffcutOnHand:
    """Offcuts of a paper that lie there from before: size as the paper stands (width x height), how many, edges that are no use."""

    paper: str
    width: Fraction
    height: Fraction
    count: int = 1
    margins: Margins = NO_MARGINS
