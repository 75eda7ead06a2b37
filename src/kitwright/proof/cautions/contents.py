"""What the cautions are derived from: the things in the kit, the tools at the bench, and what is to be done with the kit."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from kitwright.proof.cautions.bags import Bag
from kitwright.proof.cautions.small_parts import Outline, Rigidity

__all__ = ["Contents", "Cord", "Material", "Piece", "Supply", "SupplyKind", "Tool", "ToolKind"]


class Material(StrEnum):
    """What a piece is made of, as far as the small-parts rules tell things apart."""

    PAPER = "paper or cardstock"
    TEXTILE = "fabric, yarn, string or elastic"
    OTHER = "anything else"


@dataclass(frozen=True, slots=True)
class Piece:
    """A thing that goes into the kit. `size` is its box in mm, None if it is not known (then it counts as small).

    Paper and textile things are outside the small-parts rules (16 CFR 1501.3 and 1501.4(b)(2)); gems, dots, brads, caps and
    buttons are not.
    """

    name: str
    size: tuple[float | Fraction, float | Fraction, float | Fraction] | None
    material: Material = Material.OTHER
    outline: Outline = Outline.BLOCK
    rigidity: Rigidity = Rigidity.RIGID
    least_width: float | Fraction | None = None
    is_sharp: bool = False
    is_magnet: bool = False


@dataclass(frozen=True, slots=True)
class Cord:
    """A ribbon, cord or string: the longest free end in mm and, if it can form a loop, the way round the loop in mm.

    A free length that is not known is None and counts as long.
    """

    name: str
    free_length: float | Fraction | None
    loop: float | Fraction | None = None


class SupplyKind(StrEnum):
    """What is used up or handed on that has a supplier's label."""

    GLUE = "glue"
    INK = "ink"
    PAINT = "paint"
    SPRAY = "spray"


@dataclass(frozen=True, slots=True)
class Supply:
    """Glue, ink, paint or spray, at the bench or in the kit; `has_statement` if the supplier's own label or sheet is on file."""

    name: str
    kind: SupplyKind
    in_kit: bool
    has_statement: bool


class ToolKind(StrEnum):
    """Tools that call for a caution."""

    KNIFE = "knife"
    TRIMMER = "trimmer"
    SCISSORS = "scissors"
    AWL = "awl or piercer"
    HEAT_TOOL = "heat tool"
    GLUE_GUN = "hot-glue gun"


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool, at the bench or in the kit."""

    name: str
    kind: ToolKind
    in_kit: bool


@dataclass(frozen=True, slots=True)
class Contents:
    """Everything that may give rise to a caution, and the maker's own answers about the kit.

    `for_children` is what the maker says; the program never decides it.
    """

    pieces: tuple[Piece, ...] = ()
    bags: tuple[Bag, ...] = ()
    cords: tuple[Cord, ...] = ()
    supplies: tuple[Supply, ...] = ()
    tools: tuple[Tool, ...] = ()
    for_children: bool = False
    for_sale: bool = False
    sent_abroad: bool = False
