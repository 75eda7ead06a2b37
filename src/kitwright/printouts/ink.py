"""What a drawing comes down to: strokes, fills and lines of text, the same for every output. Millimetres, y up, degrees.

All decisions of drafting are made here once (where an arrowhead sits, how dashes meet a corner, which label still fits), so that
a PDF and an SVG of the same drawing cannot differ in anything but the words of their file format.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from kitwright.printouts.annotate import (
    SMALLEST_LETTERS,
    arrow_ink,
    callout_ink,
    dimension_ink,
    label_ink,
    running_ink,
)
from kitwright.printouts.drawing import (
    Arrow,
    Callouts,
    Circle,
    Curve,
    Dimension,
    Drawing,
    Group,
    Label,
    Line,
    Mark,
    Point,
    Polygon,
    Polyline,
    Running,
    Shapes,
)
from kitwright.printouts.pieces import (
    Disc,
    Ink,
    Paint,
    Path,
    Text,
    circle_ink,
    flattened,
    polygon_ink,
    shapes_ink,
    stroke,
)

__all__ = [
    "SMALLEST_LETTERS",
    "Disc",
    "Ink",
    "Paint",
    "Path",
    "Text",
    "bounds",
    "ink_of",
    "ink_points",
]


def ink_of(drawing: Drawing) -> tuple[Ink, ...]:
    """Everything on the drawing as ink, in the order of painting."""
    return tuple(ink for mark in drawing.marks for ink in mark_ink(mark))


def mark_ink(mark: Mark) -> Iterator[Ink]:
    """One mark as ink."""
    match mark:
        case Group():
            for each in mark.marks:
                yield from mark_ink(each)
        case Line():
            yield stroke((mark.start, mark.end), mark.role)
        case Polyline():
            yield stroke(mark.points, mark.role)
        case Curve():
            yield replace(stroke(flattened(mark.points), mark.role), rings=(mark.points,), curved=True)
        case Polygon():
            yield from polygon_ink(mark)
        case Shapes():
            yield from shapes_ink(mark)
        case Circle():
            yield from circle_ink(mark)
        case Label():
            yield from label_ink(mark)
        case Callouts():
            yield from callout_ink(mark)
        case Dimension():
            yield from dimension_ink(mark)
        case Running():
            yield from running_ink(mark)
        case Arrow():
            yield from arrow_ink(mark)


def bounds(marks: Iterable[Mark]) -> tuple[float, float, float, float] | None:
    """The box (left, low, right, high) around marks with their letters, without line widths; `None` for nothing at all."""
    points = [at for mark in marks for at in mark_points(mark)]
    if not points:
        return None
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys))


def mark_points(mark: Mark) -> Iterator[Point]:
    """Points whose box is the box of the mark with its letters."""
    match mark:
        case Group():
            for each in mark.marks:
                yield from mark_points(each)
        case Line():
            yield from (mark.start, mark.end)
        case Polyline() | Polygon():
            yield from mark.points
        case Shapes():
            for outline in mark.outlines:
                yield from outline
        case Curve():
            yield from flattened(mark.points)
        case Circle() | Label() | Callouts() | Dimension() | Running() | Arrow():
            for ink in mark_ink(mark):
                yield from ink_points(ink)


def ink_points(ink: Ink) -> tuple[Point, ...]:
    """Points whose box is the box of the ink."""
    match ink:
        case Text():
            return ink.corners()
        case Disc():
            (x, y), r = ink.centre, ink.radius
            return ((x - r, y - r), (x + r, y + r))
        case Path():
            return tuple(at for ring in ink.rings for at in (flattened(ring) if ink.curved else ring))
