"""Putting drawings together: canvases, fitting a box, side by side, rulers, running dimensions, keys. Millimetres, y up."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, Literal, TypeAlias

from kitwright.measure import MM_PER_INCH
from kitwright.printouts.drawing import (
    LABEL_SIZE,
    Arrow,
    Callouts,
    Circle,
    Curve,
    Drawing,
    Group,
    Label,
    Level,
    Line,
    Mark,
    Move,
    Point,
    Polygon,
    Polyline,
    Role,
    Shapes,
)
from kitwright.printouts.ink import bounds
from kitwright.printouts.lettering import text_width
from kitwright.printouts.pieces import turned_by

__all__ = [
    "ROLE_WORDS",
    "Fitted",
    "beside",
    "canvas",
    "fitted",
    "flowing",
    "key_to",
    "print_up_arrow",
    "roles_on",
    "ruler_bar",
    "stacked",
]

EDGE: Final = 0.5
"""Margin in mm that keeps half a wide line on the canvas."""

LEAST_TALL: Final = 0.4
"""How much smaller than it could be without its words a thing is drawn so that they fit the height of its box; after that the box grows."""

LEAST_WIDE: Final = 0.1
"""The same for the width, which a page cannot give more of."""

NEAR: Final = 0.01
"""A picture this much (mm) smaller than it could be is as large as it can be."""

Align: TypeAlias = Literal["low", "middle", "high"]


def canvas(marks: Iterable[Mark], *, margin: float = EDGE) -> Drawing:
    """Marks moved onto the smallest canvas that holds them, their letters and a margin.

    Raises `ValueError` if there is nothing to draw.
    """
    return on_canvas(tuple(marks), margin=margin)[0]


def on_canvas(marks: tuple[Mark, ...], *, margin: float) -> tuple[Drawing, Move]:
    """Marks on their smallest canvas, and how they were moved onto it."""
    box = bounds(marks)
    if box is None:
        raise ValueError("there is nothing to draw")
    left, low, right, high = box
    move = Move(e=margin - left, f=margin - low)
    size = (right - left + 2 * margin, high - low + 2 * margin)
    return Drawing(*size, tuple(mark.under(move) for mark in marks)), move


@dataclass(frozen=True, slots=True)
class Fitted:
    """A drawing made to fit, and where a point of the thing drawn stands on it."""

    drawing: Drawing
    move: Move


def fitted(marks: Iterable[Mark], *, width: float, height: float, largest: float = 1e3, margin: float = EDGE) -> Fitted:
    """Marks drawn as large as fits `width` × `height`, at most `largest` times their size; letters keep their size on paper.

    The words take the room that they need and the thing drawn gets the rest. Where that would leave too little of it, the drawing is
    higher than `height`: a page gives it what it needs.
    """
    all_marks = tuple(marks)
    box = bounds(only_geometry(all_marks)) or bounds(all_marks)
    if box is None:
        raise ValueError("there is nothing to draw")
    thing = (max(box[2] - box[0], EDGE), max(box[3] - box[1], EDGE))
    room = (width - 2 * margin, height - 2 * margin)
    bare = factor = min(largest, room[0] / thing[0], room[1] / thing[1])
    while True:
        left, low, right, high = bounds(mark.under(Move(a=factor)) for mark in all_marks) or (0.0, 0.0, 0.0, 0.0)
        # Words that leave a thing that has become too small for them stand beside it, so they are asked anew for the room they need.
        smaller = min(
            factor,
            max(factor - (right - left - room[0]) / thing[0], LEAST_WIDE * bare),
            max(factor - (high - low - room[1]) / thing[1], LEAST_TALL * bare),
        )
        if smaller == factor:
            break
        factor = smaller - NEAR / max(thing)
    drawing, move = on_canvas(tuple(mark.under(Move(a=factor)) for mark in all_marks), margin=margin)
    return Fitted(drawing, Move(a=factor, e=move.e, f=move.f))


def only_geometry(marks: Iterable[Mark]) -> Iterator[Mark]:
    """The marks that grow with the thing drawn, without words and dimensions."""
    for mark in marks:
        if isinstance(mark, Group):
            yield from only_geometry(mark.marks)
        elif isinstance(mark, Line | Polyline | Polygon | Shapes | Circle | Curve):
            yield mark


def beside(drawings: Sequence[Drawing], *, gap: float = 6.0, align: Align = "low") -> Drawing:
    """Drawings next to each other from left to right."""
    height = max(drawing.height for drawing in drawings)
    part = {"low": 0.0, "middle": 0.5, "high": 1.0}[align]
    marks: list[Mark] = []
    x = 0.0
    for drawing in drawings:
        move = Move(e=x, f=(height - drawing.height) * part)
        marks.append(Group("", tuple(mark.under(move) for mark in drawing.marks)))
        x += drawing.width + gap
    return Drawing(x - gap, height, tuple(marks))


def stacked(drawings: Sequence[Drawing], *, gap: float = 4.0, align: Align = "low") -> Drawing:
    """Drawings below each other, the first on top; `low` lines them up on the left."""
    width = max(drawing.width for drawing in drawings)
    height = math.fsum(drawing.height for drawing in drawings) + gap * (len(drawings) - 1)
    part = {"low": 0.0, "middle": 0.5, "high": 1.0}[align]
    marks: list[Mark] = []
    top = height
    for drawing in drawings:
        move = Move(e=(width - drawing.width) * part, f=top - drawing.height)
        marks.append(Group("", tuple(mark.under(move) for mark in drawing.marks)))
        top -= drawing.height + gap
    return Drawing(width, height, tuple(marks))


def flowing(drawings: Sequence[Drawing], *, width: float, gap: float = 10.0) -> Drawing:
    """Drawings in rows, as many beside each other as go into `width`, those of a row on one base line."""
    rows: list[list[Drawing]] = []
    left = 0.0
    for drawing in drawings:
        if not rows or left + drawing.width > width:
            rows.append([])
            left = 0.0
        rows[-1].append(drawing)
        left += drawing.width + gap
    return stacked([beside(row, gap=gap) for row in rows])


# ---- rulers and dimensions


def ruler_bar(*, centimetres: int = 10, inches: int = 4) -> Drawing:
    """A ruler at true scale, centimetres above and inches below one line, to be measured after printing. Marks: 1 mm, 1/8 in."""
    inch = float(MM_PER_INCH)
    left, base, tall = 3.0, 9.0, 4.0
    marks: list[Mark] = [
        Line((left, base), (left + max(centimetres * 10, inches * inch), base), Role.RULER),
    ]
    for mm in range(centimetres * 10 + 1):
        rise = tall if mm % 10 == 0 else tall * 0.7 if mm % 5 == 0 else tall * 0.45
        marks.append(Line((left + mm, base), (left + mm, base + rise), Role.RULER))
    for cm in range(centimetres + 1):
        unit = "cm" if cm == centimetres else ""
        marks.extend(ruler_labels(str(cm), unit, (left + cm * 10, base + tall + 0.8), "base"))
    for eighth in range(inches * 8 + 1):
        drop = tall if eighth % 8 == 0 else tall * 0.7 if eighth % 4 == 0 else tall * 0.45
        at = left + eighth * inch / 8
        marks.append(Line((at, base), (at, base - drop), Role.RULER))
    for whole in range(inches + 1):
        unit = "in" if whole == inches else ""
        marks.extend(ruler_labels(str(whole), unit, (left + whole * inch, base - tall - 0.8), "top"))
    width = left + max(centimetres * 10, inches * inch) + 8.0
    return Drawing(width, 17.5, (Group("ruler", tuple(marks)),))


def ruler_labels(figures: str, unit: str, at: Point, level: Level) -> Iterator[Label]:
    """Figures centred on their mark, and a unit behind them that does not push them aside."""
    yield Label(figures, at, Role.RULER, size=3.0, level=level)
    if unit:
        beside_ = (at[0] + text_width(figures, 3.0) / 2 + 0.5, at[1])
        yield Label(unit, beside_, Role.RULER, size=3.0, anchor="start", level=level)


# ---- signs and keys


def print_up_arrow(at: Point, *, angle: float = 90.0, length: float = 12.0) -> Group:
    """The sign for "print this way up": an open arrow standing on a short bar. `at` is its middle, `angle` its direction."""
    tail, tip = turned_by((-length / 2, 0.0), angle), turned_by((length / 2, 0.0), angle)
    left, right = turned_by((-length / 2, 2.0), angle), turned_by((-length / 2, -2.0), angle)
    move = Move(e=at[0], f=at[1])
    parts = (Arrow(tail, tip, Role.PRINT, head="open", head_size=3.4), Line(left, right, Role.PRINT))
    return Group("print up", tuple(part.under(move) for part in parts))


ROLE_WORDS: Final = MappingProxyType(
    {
        Role.CUT: "cut",
        Role.SLIT: "cut",
        Role.VALLEY: "valley fold: fold the paper towards you",
        Role.MOUNTAIN: "mountain fold: fold the paper away from you",
        Role.CREASE: "score that is folded already",
        Role.HIDDEN: "edge behind",
        Role.BEFORE: "where it was before",
        Role.PRINT_FACE: "print side",
        Role.BACK_FACE: "back of the paper",
        Role.GLUE: "glue here",
        Role.GLUE_BEHIND: "glue on the back",
        Role.PRINT: "print this way up",
        Role.PIECE: "piece",
        Role.OFFCUT: "offcut",
        Role.ACTION: "do this now",
        Role.INNER: "what goes in",
        Role.OUTER: "what it goes into",
        Role.CLASH: "in the way of each other",
        Role.RANGE: "as far as it may be off",
    }
)
"""What each role is called in a key. Roles that explain themselves have no words."""


def roles_on(drawing: Drawing) -> tuple[Role, ...]:
    """The roles of a drawing, in the order of the style table."""
    found: set[Role] = set()

    def visit(marks: tuple[Mark, ...]) -> None:
        for mark in marks:
            if isinstance(mark, Group):
                visit(mark.marks)
            elif isinstance(mark, Callouts):
                visit(mark.labels)
            else:
                found.add(mark.role)

    visit(drawing.marks)
    return tuple(role for role in Role if role in found)


def key_to(roles: Iterable[Role], *, size: float = LABEL_SIZE) -> Drawing:
    """A key: a sample of each role with its words, below each other. Raises `ValueError` if no role needs one."""
    wanted = [role for role in roles if role in ROLE_WORDS]
    if Role.CUT in wanted and Role.SLIT in wanted:
        wanted.remove(Role.SLIT)  # they look the same
    row, sample = size * 1.7, 14.0
    marks: list[Mark] = []
    for number, role in enumerate(wanted):
        y = -number * row
        marks.extend(key_sample(role, y, sample, size))
        marks.append(Label(ROLE_WORDS[role], (sample + 3, y), Role.NOTE, size, anchor="start"))
    return canvas(marks)


def key_sample(role: Role, y: float, width: float, size: float) -> Iterable[Mark]:
    """How a role looks, in a strip around the height `y`."""
    if role in (Role.PRINT_FACE, Role.BACK_FACE, Role.GLUE, Role.GLUE_BEHIND, Role.PIECE, Role.OFFCUT):
        box = ((0.0, y - size * 0.55), (width, y - size * 0.55), (width, y + size * 0.55), (0.0, y + size * 0.55))
        yield Polygon(box, role)
        if role in (Role.PRINT_FACE, Role.BACK_FACE):
            yield Polygon(box, Role.GUIDE)
    elif role is Role.ACTION:
        yield Arrow((0, y), (width, y), role)
    elif role is Role.PRINT:
        yield print_up_arrow((width / 2, y), angle=0, length=width)
    else:
        yield Line((0, y), (width, y), role)
