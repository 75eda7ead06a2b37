"""How each role looks: line width, dashes, hatching and tints, for paper and for screens. The only place that knows.

Lines follow the published notation: cut continuous and heavy, valley fold dashes, mountain fold dash and dot, hidden dotted
(Yoshizawa–Randlett system); wide to narrow lines 2 : 1, widths from the series 0.25, 0.35, 0.5, 0.7 mm (ISO 128-2). Colour
only repeats what dashes, widths and hatching already say, so that everything reads in grey. The colours are our own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Final, Literal, TypeAlias

from kitwright.printouts.drawing import Role

__all__ = [
    "DARK",
    "LIGHT",
    "LINE_WIDTHS",
    "STYLES",
    "Hatch",
    "Palette",
    "Style",
    "Tint",
    "Width",
]

Width: TypeAlias = Literal["wide", "narrow"]


class Tint(StrEnum):
    """The colours of the house, by what they are for."""

    PAPER = "paper"
    INK = "ink"
    SOFT = "soft"
    FAINT = "faint"
    LAKE = "lake"
    PLUM = "plum"
    MOSS = "moss"
    AMBER = "amber"
    SAND = "sand"
    MIST = "mist"
    SNOW = "snow"


Palette: TypeAlias = Mapping[Tint, str]
"""A colour (`#rrggbb`) for each tint."""

LIGHT: Final[Palette] = MappingProxyType(
    {
        Tint.PAPER: "#ffffff",
        Tint.INK: "#1f2a30",
        Tint.SOFT: "#55636b",
        Tint.FAINT: "#a9b3b8",
        Tint.LAKE: "#12666f",
        Tint.PLUM: "#8c2f4e",
        Tint.MOSS: "#4f6b33",
        Tint.AMBER: "#a04a06",
        Tint.SAND: "#f1dfc4",
        Tint.MIST: "#e3eaec",
        Tint.SNOW: "#fbfaf7",
    }
)

DARK: Final[Palette] = MappingProxyType(
    {
        Tint.PAPER: "#161c20",
        Tint.INK: "#ece7dc",
        Tint.SOFT: "#a8b3b8",
        Tint.FAINT: "#5d6a71",
        Tint.LAKE: "#6cc3c9",
        Tint.PLUM: "#ec9db2",
        Tint.MOSS: "#a9c98a",
        Tint.AMBER: "#f0ad62",
        Tint.SAND: "#4d402b",
        Tint.MIST: "#2b363c",
        Tint.SNOW: "#1f262b",
    }
)

LINE_WIDTHS: Final[Mapping[Width, float]] = {"wide": 0.5, "narrow": 0.25}
"""Millimetres: two line widths, wide twice the narrow one (ISO 128-2)."""


@dataclass(frozen=True, slots=True)
class Hatch:
    """Parallel thin lines: their direction in degrees and the distance between them in mm of paper."""

    angle: float
    gap: float


@dataclass(frozen=True, slots=True)
class Style:
    """The looks of one role. `dash` is (line, gap, line, gap, …) in mm; no line tint means no line, no fill tint no fill."""

    line: Tint | None
    width: Width = "narrow"
    dash: tuple[float, ...] = ()
    fill: Tint | None = None
    hatch: Hatch | None = None
    letters: Tint = Tint.INK


# Dashes after the proportions of ISO 128-2 (dash 12 widths, long dash 24, gap 3, dot at most half a width), with longer gaps and
# dots because folds on a gift box are short and are read at arm's length.
DASHES: Final = (2.4, 1.2)
DASH_DOT: Final = (4.0, 1.1, 0.6, 1.1)
DASH_DOT_DOT: Final = (4.0, 1.0, 0.5, 1.0, 0.5, 1.0)
DOTS: Final = (0.5, 0.9)

STYLES: Final[Mapping[Role, Style]] = MappingProxyType(
    {
        Role.CUT: Style(Tint.INK, "wide"),
        Role.SLIT: Style(Tint.INK, "wide"),
        Role.VALLEY: Style(Tint.LAKE, dash=DASHES, letters=Tint.LAKE),
        Role.MOUNTAIN: Style(Tint.PLUM, dash=DASH_DOT, letters=Tint.PLUM),
        Role.CREASE: Style(Tint.SOFT, letters=Tint.SOFT),
        Role.HIDDEN: Style(Tint.SOFT, dash=DOTS, letters=Tint.SOFT),
        Role.BEFORE: Style(Tint.SOFT, dash=DASH_DOT_DOT, letters=Tint.SOFT),
        Role.OUTLINE: Style(Tint.INK, "wide"),
        Role.PRINT_FACE: Style(None, fill=Tint.SAND),
        Role.BACK_FACE: Style(None, fill=Tint.SNOW),
        Role.GLUE: Style(None, hatch=Hatch(45, 1.6), letters=Tint.MOSS),
        Role.GLUE_BEHIND: Style(None, dash=(1.6, 1.2), hatch=Hatch(45, 1.6), letters=Tint.MOSS),
        Role.PRINT: Style(Tint.AMBER, letters=Tint.AMBER),
        Role.SHEET: Style(Tint.SOFT, fill=Tint.SNOW),
        Role.PIECE: Style(Tint.INK, "wide", fill=Tint.SAND),
        Role.OFFCUT: Style(Tint.FAINT, hatch=Hatch(135, 3.2), letters=Tint.SOFT),
        Role.DIMENSION: Style(Tint.SOFT),
        Role.ACTION: Style(Tint.AMBER, "wide", letters=Tint.AMBER),
        Role.NOTE: Style(Tint.SOFT),
        Role.GUIDE: Style(Tint.FAINT, letters=Tint.SOFT),
        Role.RULER: Style(Tint.INK),
        Role.BLANK: Style(None, fill=Tint.PAPER),
        Role.INNER: Style(Tint.INK, fill=Tint.MIST),
        Role.OUTER: Style(Tint.INK, fill=Tint.SAND),
        Role.CLASH: Style(Tint.PLUM, "wide", hatch=Hatch(45, 1.2), letters=Tint.PLUM),
        Role.RANGE: Style(Tint.AMBER, dash=DOTS, letters=Tint.AMBER),
    }
)
"""One row for every role. A hatch is drawn in the tint of the letters."""
