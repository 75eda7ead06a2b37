"""A kit as it was said: papers, parts, extras and how they belong together. Lengths are exact millimetres (Fraction)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType

from kitwright.errors import Place
from kitwright.kit.bench import ANY_TRIMMER, Keeping, Machine, OffcutOnHand, Trimmer
from kitwright.measure import Ruler, Unit
from kitwright.paper import Fibres, Paper
from kitwright.proof.mailing import Feature
from kitwright.proof.tolerance import USUAL_ACCURACY, Accuracy

__all__ = ["Extra", "Face", "FitRules", "Goes", "Kit", "Laid", "Packed", "Part", "Purpose", "Sizing", "SizingKind"]


class SizingKind(StrEnum):
    """How the size of a part was said; every screen and printout names it."""

    SIZE = "size"
    """Score to score: blank and scores come out in these very numbers."""
    INSIDE = "inside"
    """Free room inside, thickness reckoned in, rounded up to the ruler."""
    OUTSIDE = "outside"
    """Over all, thickness reckoned in, rounded down to the ruler."""
    DERIVED = "derived"
    """Not said: it follows from what the part lies on, holds, covers or wraps."""


@dataclass(frozen=True, slots=True)
class Sizing:
    """The size as it was said, in the order of the form's `size` parameters; no lengths where it is derived."""

    kind: SizingKind
    lengths: tuple[Fraction, ...] = ()


class Packed(StrEnum):
    """Where a thing lies in the box that holds it."""

    FLAT = "flat"
    """In the stack: on the other flat things, its smallest side upwards."""
    BESIDE = "beside"
    """Next to the stack."""


class Goes(StrEnum):
    """Which way a band goes round what it wraps."""

    WALLS = "round the walls"
    """Round front, sides and back; its breadth runs upwards."""
    OVER = "over the top"
    """Over the top, down the front and the back and under the bottom; its breadth runs along the width."""
    ENDS = "end to end"
    """Over the top, down both sides and under the bottom; its breadth runs along the depth."""


class Face(StrEnum):
    """On which side of a box or lid a part is glued."""

    OUTSIDE = "outside"
    INSIDE = "inside"


@dataclass(frozen=True, slots=True)
class Laid:
    """A blank whose place on a sheet the maker chose: the blank as the cut list calls it, its lower left corner on the sheet (exact
    mm from the sheet's own), and how often it is turned a quarter to the left.
    """

    blank: str
    at: tuple[Fraction, Fraction]
    turn: int = 0


@dataclass(frozen=True, slots=True)
class Part:
    """One kind of part of a kit: `quantity` of them in every kit, made of one paper.

    `settings` are the form's own parameters that were said: a length in mm or the word of a choice. `border` is the even
    edge that shows round a part lying `on` another, on that `face` of it. `holds` names what goes in; `covers` what a lid goes
    over; `wraps` what a band goes round, the way it `goes`.
    `turn` is how often the print is turned a quarter to the left on the blank. `fibres`: along which side of the blank the grain must
    run, if that matters. `standing`: what a box holds stands upright in it, or lies (None: as is usual for the form). `oddities`: what
    the post should know of it, filled and closed. `place` is where the part stands in its document.
    """

    name: str
    form: str
    paper: str
    quantity: int = 1
    sizing: Sizing = Sizing(SizingKind.DERIVED)
    settings: Mapping[str, Fraction | str] = field(default_factory=lambda: MappingProxyType({}))
    on: str | None = None
    border: Fraction | None = None
    face: Face = Face.OUTSIDE
    holds: tuple[str, ...] = ()
    covers: str | None = None
    wraps: str | None = None
    goes: Goes = Goes.WALLS
    turn: int = 0
    standing: bool | None = None
    fibres: Fibres | None = None
    oddities: frozenset[Feature] = frozenset()
    place: Place = Place()


@dataclass(frozen=True, slots=True)
class Extra:
    """A thing that is bought, not made, and goes into the kit: its size (longest side first or as said), count and weight.

    `kind` is a word that the cautions understand (blade, scissors, glue, bag, ribbon, magnet, small part …), empty if none.
    `length` is how long a ribbon is when it is unwound, and `loop` the way round it where it is tied to a ring; `film` is the thickness
    of one wall of a bag. None if it was not said; no other kind has one. `has_label`: the supplier's own label of a glue, ink, paint or
    spray is kept.
    """

    name: str
    size: tuple[Fraction, Fraction, Fraction]
    quantity: int = 1
    packed: Packed = Packed.BESIDE
    weight_g: float | None = None
    kind: str = ""
    length: Fraction | None = None
    loop: Fraction | None = None
    film: Fraction | None = None
    has_label: bool = False


@dataclass(frozen=True, slots=True)
class Purpose:
    """What the maker says the kit is for, which some cautions go by. The program never decides any of it."""

    children: bool = False
    sale: bool = False
    abroad: bool = False


@dataclass(frozen=True, slots=True)
class FitRules:
    """How much free play, in all, the maker wants where one thing goes into or over another; exact mm, per kind of fit.

    The values that a kit does not say are common practice, no source, but for `envelope`: 1/4 in along the longer side and half of
    it along the shorter, as a quarter-letter card (4 1/4 × 5 1/2 in) lies in the A2 envelope (4 3/8 × 5 3/4 in, PWG 5101.1). A
    squarer envelope would cost extra at some post offices.
    """

    lid: Fraction
    envelope: Fraction
    contents: Fraction
    band: Fraction
    border: Fraction

    @classmethod
    def usual(cls, unit: Unit) -> FitRules:
        """The usual free play for makers who measure in `unit`."""
        if unit is Unit.INCH:
            quarter = unit.mm / 4
            return cls(lid=quarter / 8, envelope=quarter, contents=quarter, band=quarter / 8, border=quarter / 2)
        return cls(
            lid=Fraction(4, 5), envelope=Fraction(6), contents=Fraction(6), band=Fraction(4, 5), border=Fraction(3)
        )


@dataclass(frozen=True, slots=True)
class Kit:
    """A whole kit as it was said. Names of parts and extras are unique together; every relation names one of them.

    `laid` are the sheets on which the maker chose the places, by the word of their paper. `alike`: every kit of a batch is cut by the same
    layouts.
    """

    name: str
    unit: Unit
    ruler: Ruler
    papers: Mapping[str, Paper]
    parts: tuple[Part, ...]
    extras: tuple[Extra, ...] = ()
    currency: str = "USD"
    fit: FitRules = field(default_factory=lambda: FitRules.usual(Unit.INCH))
    accuracy: Accuracy = USUAL_ACCURACY
    laid: Mapping[str, tuple[tuple[Laid, ...], ...]] = field(default_factory=lambda: MappingProxyType({}))
    trimmer: Trimmer = ANY_TRIMMER
    keeping: Keeping = field(default_factory=lambda: Keeping.usual(Unit.INCH))
    offcuts: tuple[OffcutOnHand, ...] = ()
    purpose: Purpose = Purpose()
    machine: Machine = field(default_factory=lambda: Machine.usual(Unit.INCH))
    alike: bool = False

    def part(self, name: str) -> Part:
        """The part with this name. Raises `KeyError`."""
        for part in self.parts:
            if part.name == name:
                return part
        raise KeyError(name)

    def find_extra(self, name: str) -> Extra | None:
        """The extra with this name, or None."""
        return next((extra for extra in self.extras if extra.name == name), None)
