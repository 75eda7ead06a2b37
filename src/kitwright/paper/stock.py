"""A paper as it lies in the drawer: the size of its sheets, weight, caliper, grain, print, price and stock."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from kitwright.errors import Mistake
from kitwright.measure import Money
from kitwright.paper.caliper import Caliper
from kitwright.paper.grain import Grain, Print
from kitwright.paper.scan import Scan
from kitwright.paper.weight import weight_g

__all__ = ["Margins", "Paper", "sheet_weight_g"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Margins:
    """How much of each edge of a sheet cannot be used (a barcode strip, a crushed edge), in exact millimetres."""

    left: Fraction = Fraction(0)
    right: Fraction = Fraction(0)
    bottom: Fraction = Fraction(0)
    top: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        if min(self.left, self.right, self.bottom, self.top) < 0:
            raise Mistake("A margin of a sheet is below zero.", do="Write 0 where the whole edge can be used.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """One paper. Width is the first number written, height the second; the up of a print runs along the height.

    `key` is its word in the kit document, `label` its name for people, `gsm` its weight in grams per square metre. `two_sided`
    means printed on both sides or coloured through, so that the back may show. `back` is what is printed on the back by itself, its
    up turned `back_turn` quarters to the left, seen on the back with the sheet turned over like a page. `price` is for one sheet,
    `on_hand` a count of sheets; None where not known. `hinge_depth` says how deep a fold's hinge sits below the outer face, as a share
    of the caliper (0 outer face, 1 inner face). `scan` is the picture of a sheet, where there is one. Raises `Mistake` for values
    that no sheet has.
    """

    key: str
    label: str
    sheet_width_mm: Fraction
    sheet_height_mm: Fraction
    gsm: float
    caliper: Caliper
    grain: Grain = Grain.UNKNOWN
    print_: Print = Print.NONE
    two_sided: bool = False
    back: Print = Print.NONE
    back_turn: int = 0
    price: Money | None = None
    on_hand: int | None = None
    margins: Margins = Margins()
    hinge_depth: float = 0.5
    scan: Scan | None = None

    def __post_init__(self) -> None:
        if self.sheet_width_mm <= 0 or self.sheet_height_mm <= 0:
            raise Mistake(f"The sheet of {self.label!r} has no size.", do="Write it like 12 x 12.")
        if self.usable_width_mm <= 0 or self.usable_height_mm <= 0:
            raise Mistake("margins: They leave nothing of the sheet.", do="Make the margins smaller.")
        if not self.gsm > 0:
            raise Mistake(f"{self.label!r} has no weight.", do="Write it like 80 lb cover or 216 gsm.")
        if not 0 <= self.hinge_depth <= 1:
            raise Mistake(
                f"The hinge depth of {self.label!r} is {self.hinge_depth:g}.",
                do="It is a share of the thickness, from 0 (outer face) to 1 (inner face); 0.5 is usual.",
            )
        if self.price is not None and self.price.minor < 0:
            raise Mistake(f"The price of {self.label!r} is below zero.", do="Write the price of one sheet.")
        if self.on_hand is not None and self.on_hand < 0:
            raise Mistake(
                f"The sheets on hand of {self.label!r} are below zero.", do="Write how many sheets there are."
            )

    @property
    def thickness(self) -> float:
        """The caliper in millimetres."""
        return self.caliper.mm

    @property
    def sheet_area_mm2(self) -> Fraction:
        """The area of one whole sheet in mm², margins and all."""
        return self.sheet_width_mm * self.sheet_height_mm

    @property
    def usable_width_mm(self) -> Fraction:
        """The width between the margins, in exact millimetres."""
        return self.sheet_width_mm - self.margins.left - self.margins.right

    @property
    def usable_height_mm(self) -> Fraction:
        """The height between the margins, in exact millimetres."""
        return self.sheet_height_mm - self.margins.bottom - self.margins.top

    @property
    def grain_runs_up(self) -> bool | None:
        """Whether the grain runs along the height of the sheet; None where the grain is not known."""
        if self.grain is Grain.UNKNOWN:
            return None
        height_is_long = self.sheet_height_mm >= self.sheet_width_mm
        return height_is_long if self.grain is Grain.LONG else not height_is_long

    @property
    def can_turn(self) -> bool:
        """Whether a piece may be cut a quarter turn round without its print lying on its side."""
        return self.print_ is not Print.ONE_WAY


def sheet_weight_g(paper: Paper) -> float:
    """The weight of one whole sheet, in grams."""
    return weight_g(paper.sheet_area_mm2, paper.gsm)
