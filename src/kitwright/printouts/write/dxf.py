"""A drawing's lines as DXF, for cutting machines and drawing programs: one unit is one millimetre, a layer for each kind of line."""

from __future__ import annotations

import io
import math
from collections.abc import Iterable
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from kitwright.printouts.drawing import Drawing, Mark, Point, Role
from kitwright.printouts.ink import Disc, Path, Text, ink_of
from kitwright.printouts.pieces import flattened
from kitwright.printouts.style import STYLES
from kitwright.printouts.write.away_from_home import away_from_home

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ezdxf.layouts import Modelspace

__all__ = ["LAYERS", "to_dxf"]

LAYERS: Final[Mapping[Role, str]] = MappingProxyType(
    {
        Role.CUT: "cut",
        Role.SLIT: "cut",
        Role.VALLEY: "valley score",
        Role.MOUNTAIN: "mountain score",
        Role.PRINT: "print direction",
    }
)
"""The layer on which the lines of a role lie. What has no layer (tints, hatching, words, numbers) is left out."""

COLOURS: Final[Mapping[str, int]] = MappingProxyType(
    {"cut": 7, "valley score": 4, "mountain score": 6, "print direction": 2}
)
"""The format's own colour numbers: 7 black on white or white on black, 4 cyan, 6 magenta, 2 yellow."""

MILLIMETRES, METRIC, DECIMAL = 4, 1, 2
"""Values of the header variables $INSUNITS, $MEASUREMENT and $LUNITS."""

DECIMALS: Final = 6
"""Coordinates to the nanometre."""


def to_dxf(marks: Iterable[Mark]) -> bytes:
    """The cuts, scores and print arrows among the marks as a DXF document of the year 2000 (AC1015), where they are.

    Closed lines become closed polylines, straight lines lines, circles circles; arcs of other curves become chains of short lines. The
    dates and numbers by which the format tells two writings apart are fixed, so that equal marks give equal bytes.
    """
    with away_from_home():
        import ezdxf  # noqa: PLC0415  (a large library, needed only when a pattern is written)

    # a switch of the library for the whole program; nothing else here writes DXF, and nobody turns it back
    ezdxf.options.write_fixed_meta_data_for_testing = True
    document = ezdxf.new("R2000", units=MILLIMETRES)
    document.header["$MEASUREMENT"] = METRIC
    document.header["$LUNITS"] = DECIMAL
    dashes = {layer: STYLES[role].dash for role, layer in LAYERS.items()}
    for layer, dash in dashes.items():
        if dash:
            parts = [part if number % 2 == 0 else -part for number, part in enumerate(dash)]
            document.linetypes.add(layer, [math.fsum(dash), *parts], description=layer)
        document.layers.add(layer, color=COLOURS[layer], linetype=layer if dash else "Continuous")
    space = document.modelspace()
    for ink in ink_of(Drawing(1, 1, tuple(marks))):
        if not isinstance(ink, Text) and ink.paint == "line" and ink.role in LAYERS:
            add(space, ink, LAYERS[ink.role])
    text = io.StringIO()
    document.write(text)
    return text.getvalue().encode("cp1252")


def add(space: Modelspace, ink: Path | Disc, layer: str) -> None:
    """A stroke on its layer."""
    on = {"layer": layer}
    if isinstance(ink, Disc):
        space.add_circle(exact(ink.centre), round(ink.radius, DECIMALS), dxfattribs=on)
        return
    for ring in ink.rings:
        points = [exact(at) for at in (flattened(ring) if ink.curved else ring)]
        if len(points) == 2:
            space.add_line(points[0], points[1], dxfattribs=on)
        else:
            space.add_lwpolyline(points, close=ink.closed, dxfattribs=on)


def exact(at: Point) -> Point:
    """A point to the nanometre, without negative zeros."""
    return round(at[0], DECIMALS) + 0.0, round(at[1], DECIMALS) + 0.0
