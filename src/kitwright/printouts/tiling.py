"""Templates larger than the page: cut into fields that are printed one to a page and laid together at their marks. Millimetres."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from kitwright.printouts.annotate import fitting_label, label_height
from kitwright.printouts.drawing import (
    Callouts,
    Circle,
    Drawing,
    Group,
    Label,
    Line,
    Mark,
    Move,
    Polygon,
    Role,
    Weight,
    turned,
)
from kitwright.printouts.ink import Text, ink_of, ink_points
from kitwright.printouts.lettering import text_width

__all__ = ["Tile", "tile"]

TARGET: Final = 2.5
"""Radius in mm of the circle of an alignment mark."""


@dataclass(frozen=True, slots=True)
class Tile:
    """One field: its row (1 at the top) and column (1 at the left), its part of the drawing, and a map that shows where it lies."""

    row: int
    column: int
    drawing: Drawing
    key: Drawing

    @property
    def name(self) -> str:
        """The name on the page and on the map: `A1` is the upper left field."""
        return f"{chr(ord('A') + self.row - 1)}{self.column}"


def tile(
    drawing: Drawing, *, width: float, height: float, overlap: float = 12.0, may_turn: bool = True
) -> tuple[Tile, ...]:
    """The drawing at its own scale in fields of `width` × `height` mm, which share a strip of `overlap` mm with each neighbour.

    The strip carries a line (trim the page that goes on top here; lay its edge there) and two targets that must cover each other.
    Fields with nothing on them are left out. With `may_turn` the drawing lies the way that takes fewer pages. A drawing that
    fits is one field without marks. Raises `ValueError` if the overlap leaves no room for the marks, or for more than 26 rows or
    columns.
    """
    if overlap < 2 * TARGET or min(width, height) < 3 * overlap:
        raise ValueError(f"fields of {width:g} × {height:g} mm cannot overlap by {overlap:g} mm")
    if may_turn and field_count(turned(drawing, 1), width, height, overlap) < field_count(
        drawing, width, height, overlap
    ):
        drawing = turned(drawing, 1)
    columns, rows = steps(drawing.width, width, overlap), steps(drawing.height, height, overlap)
    if max(columns, rows) > 26:
        raise ValueError(f"the drawing would take {rows} × {columns} pages")
    across, up = width - overlap, height - overlap
    # The drawing lies in the middle of all fields together.
    middle = Move(e=(columns * across + overlap - drawing.width) / 2, f=(rows * up + overlap - drawing.height) / 2)
    strips = Strips(
        tuple((column * across, column * across + overlap) for column in range(1, columns)),
        tuple((row * up, row * up + overlap) for row in range(1, rows)),
    )
    laid = tuple(clear_of(mark.under(middle), strips) for mark in drawing.marks)
    marks = joining_marks(columns, rows, width, height, overlap)
    whole = Drawing(columns * across + overlap, rows * up + overlap, laid)
    taken = tuple(
        (row, column)
        for row in range(1, rows + 1)
        for column in range(1, columns + 1)
        if has_ink(whole, (column - 1) * across, (rows - row) * up, width, height)
    )
    tiles = []
    for row, column in taken:
        move = Move(e=-(column - 1) * across, f=-(rows - row) * up)
        part = tuple(mark.under(move) for mark in (*laid, *marks))
        key = key_map(columns, rows, taken, (row, column), width / height)
        tiles.append(Tile(row, column, Drawing(width, height, part, clipped=True), key))
    return tuple(tiles)


@dataclass(frozen=True, slots=True)
class Strips:
    """Where fields overlap: stretches from left to right, and from below upwards."""

    across: tuple[tuple[float, float], ...]
    up: tuple[tuple[float, float], ...]


def clear_of(mark: Mark, strips: Strips) -> Mark:
    """A mark; the labels of one moved off the strips that two pages share, as far as their room allows."""
    if isinstance(mark, Callouts):
        return replace(mark, labels=tuple(label_clear_of(label, strips) for label in mark.labels))
    return label_clear_of(mark, strips) if isinstance(mark, Label) else mark


def label_clear_of(mark: Label, strips: Strips) -> Label:
    """A label with room moved, inside its room, off the strips that two pages share."""
    if mark.room is None:
        return mark
    label = fitting_label(mark)
    if label is None:
        return mark
    sides = text_width(label.text, label.size, label.weight), label_height(label)
    room = mark.room
    if label.angle % 180 == 90:
        sides = (sides[1], sides[0])
    if mark.angle % 180 == 90:
        room = (room[1], room[0])
    x = moved_off(mark.at[0], sides[0], room[0], strips.across)
    y = moved_off(mark.at[1], sides[1], room[1], strips.up)
    return replace(mark, at=(x, y))


def moved_off(at: float, size: float, room: float, strips: tuple[tuple[float, float], ...]) -> float:
    """The middle of a stretch of `size`, moved off every strip by no more than its `room` allows; unmoved where that is too little."""
    for low, high in strips:
        if at + size / 2 > low and at - size / 2 < high:
            ways = sorted((low - size / 2 - 1, high + size / 2 + 1), key=lambda way: abs(way - at))
            return next((way for way in ways if abs(way - at) <= (room - size) / 2), at)
    return at


def steps(size: float, field: float, overlap: float) -> int:
    """How many fields are needed one way."""
    return max(1, math.ceil(round((size - overlap) / (field - overlap), 9)))


def field_count(drawing: Drawing, width: float, height: float, overlap: float) -> int:
    """How many fields the drawing takes as it lies."""
    return steps(drawing.width, width, overlap) * steps(drawing.height, height, overlap)


def has_ink(drawing: Drawing, left: float, low: float, width: float, height: float) -> bool:
    """Whether any ink may lie in a field (a box around each piece of ink decides; large fills count by their rim)."""
    for ink in ink_of(drawing):
        points = ink_points(ink)
        boxes = [points] if isinstance(ink, Text) or len(points) < 3 else list(pairwise(points))
        for box in boxes:
            xs, ys = [x for x, _ in box], [y for _, y in box]
            if min(xs) <= left + width and max(xs) >= left and min(ys) <= low + height and max(ys) >= low:
                return True
    return False


def joining_marks(columns: int, rows: int, width: float, height: float, overlap: float) -> tuple[Mark, ...]:
    """Trim lines and targets on every strip that two fields share."""
    across, up = width - overlap, height - overlap
    marks: list[Mark] = []
    for column in range(1, columns):
        x = column * across
        marks.append(Line((x, 0.0), (x, rows * up + overlap), Role.GUIDE))
        for row in range(rows):
            marks += [target(x + overlap / 2, row * up + overlap + part * (up - overlap)) for part in (0.2, 0.8)]
    for row in range(1, rows):
        y = row * up + overlap
        marks.append(Line((0.0, y), (columns * across + overlap, y), Role.GUIDE))
        for column in range(columns):
            marks += [
                target(column * across + overlap + part * (across - overlap), y - overlap / 2) for part in (0.2, 0.8)
            ]
    return tuple(marks)


def target(x: float, y: float) -> Group:
    """A circle with a cross: covers its twin on the next page exactly."""
    arm = TARGET * 1.7
    return Group(
        "target",
        (
            Circle((x, y), TARGET, Role.RULER),
            Line((x - arm, y), (x + arm, y), Role.RULER),
            Line((x, y - arm), (x, y + arm), Role.RULER),
        ),
    )


def key_map(
    columns: int, rows: int, taken: tuple[tuple[int, int], ...], here: tuple[int, int], shape: float
) -> Drawing:
    """A small map of all fields with their names; this one is tinted."""
    high = 9.0
    wide = max(high * shape, 7.0)
    marks: list[Mark] = []
    for row, column in taken:
        left, low = (column - 1) * wide, (rows - row) * high
        box = ((left, low), (left + wide, low), (left + wide, low + high), (left, low + high))
        if (row, column) == here:
            marks.append(Polygon(box, Role.PRINT_FACE))
        marks.append(Polygon(box, Role.NOTE))
        name = f"{chr(ord('A') + row - 1)}{column}"
        weight: Weight = "bold" if (row, column) == here else "regular"
        marks.append(Label(name, (left + wide / 2, low + high / 2), Role.RULER, 3.0, weight=weight))
    move = Move(e=0.5, f=0.5)
    return Drawing(columns * wide + 1, rows * high + 1, tuple(mark.under(move) for mark in marks))
