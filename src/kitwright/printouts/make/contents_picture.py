"""How contents lie in a box, from above and from the front, everything named; or that there is no way, or that none was settled."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from shapely import Polygon, box, maximum_inscribed_circle, unary_union

from kitwright.findings import Finding, Placed, Severity
from kitwright.kit import BuiltKit, BuiltPart, arranged, clear_inside
from kitwright.pattern import Axis
from kitwright.printouts.drawing import Drawing, Label, Line, Mark, Move, Point, Role
from kitwright.printouts.lettering import text_width, wrapped
from kitwright.printouts.make.shapes import rectangle

__all__ = ["contents_drawing"]

LETTERS: Final = 3.0
ROW: Final = 4.4
SIGNS: Final = 6.0
"""Room at the right of a view for the signs of things too thin to bear them, mm of paper."""
SIGN_ROW: Final = 3.4
BETWEEN: Final = 5.0
TITLE: Final = 5.0

LEAST: Final = 0.6
"""The share of the height that the views have, however many rows the key takes: the picture is higher then."""

LEAST_SEEN: Final = 0.5
"""mm² of a thing that must be seen for it to bear a sign."""

VIEWS: Final = (("from above", 0, 1, 2, 1.0), ("from the front", 0, 2, 1, -1.0))
"""Title, the axis to the right, the axis upwards, the axis towards the eye, and which of its ends is near."""

WORDS: Final = {Severity.FAIL: "no way to place them", Severity.UNKNOWN: "not decided"}


def contents_drawing(built: BuiltKit, finding: Finding, *, width: float, height: float) -> Drawing:
    """Both views beside each other or one over the other, whichever is larger, and a key of names under them.

    Where nothing is placed because the stack is too large, the stack is drawn as it would stick out. Where there is no placement for
    another reason the box stays empty, and says why.
    """
    holder = built.part(finding.parts[0])
    inside = inside_of(built, holder)
    sticks_out = finding.severity is Severity.FAIL and finding.measured is not None and not finding.placed
    placed = sticking_out(built, holder) if sticks_out else finding.placed
    names = list(dict.fromkeys(each.name for each in placed))
    key = list(key_rows(placed, names, width))
    key_height = ROW * len({row for _, row, _ in key}) + (2.0 if key else 0.0)
    reach = [max([inside[axis], *(each.corner[axis] + each.size[axis] for each in placed)]) for axis in range(3)]
    room = max(height - key_height, LEAST * height)
    across = min((width - BETWEEN - 2 * SIGNS) / (2 * reach[0]), (room - TITLE) / max(reach[1], reach[2]))
    over = min((width - SIGNS) / reach[0], (room - 2 * TITLE - BETWEEN) / (reach[1] + reach[2]))
    scale = max(across, over, 1e-3)
    least = SIGN_ROW * len(names)  # signs of thin things stand under each other
    highs = [max(scale * reach[up], least) for _, _, up, _, _ in VIEWS]
    used = TITLE + (max(highs) if across >= over else math.fsum(highs) + TITLE + BETWEEN) + key_height
    marks: list[Mark] = []
    x, top = 0.5, used
    for (title, right, up, away, near), high in zip(VIEWS, highs, strict=True):
        view = Move(a=scale, e=x, f=top - TITLE - scale * reach[up])
        marks.append(Label(title, (x, top - 0.5), Role.NOTE, LETTERS, anchor="start", level="top"))
        marks += view_marks(placed, inside, names, axes=(right, up, away), near=near, move=view)
        if not placed:
            marks += words_in(WORDS.get(finding.severity, ""), inside, (right, up), view)
        if across >= over:
            x += max(scale * reach[0] + SIGNS, text_width(title, LETTERS)) + BETWEEN
        else:
            top -= TITLE + BETWEEN + high
    for words, row, left in key:
        marks.append(Label(words, (left, key_height - 2.0 - ROW * row - 1.4), Role.NOTE, LETTERS, anchor="start"))
    return Drawing(width, used, tuple(marks))


def inside_of(built: BuiltKit, holder: BuiltPart) -> tuple[float, float, float]:
    """Room for contents along width, depth and height."""
    room = clear_inside(built.kit, built.by_name, holder)
    return room[Axis.WIDTH], room[Axis.DEPTH], room[Axis.HEIGHT]


def sticking_out(built: BuiltKit, holder: BuiltPart) -> tuple[Placed, ...]:
    """The contents as a stack with the other things beside it, whether it has room or not."""
    stands = holder.form.stands_contents if holder.part.standing is None else holder.part.standing
    return arranged(built.things_in(holder), standing=stands).placed


def view_marks(
    placed: Sequence[Placed],
    inside: tuple[float, float, float],
    names: Sequence[str],
    *,
    axes: tuple[int, int, int],
    near: float,
    move: Move,
) -> Iterator[Mark]:
    """One view: the inside, the things from the farthest to the nearest, and what of them sticks out."""
    right, up, away = axes
    wide, high = inside[right], inside[up]
    yield rectangle((0.0, 0.0), (wide, high), Role.OUTER).under(move)
    outside: list[Point] = []
    ordered = sorted(placed, key=lambda each: near * (each.corner[away] + (each.size[away] if near > 0 else 0.0)))
    waiting: list[tuple[float, str]] = []
    signs: list[Mark] = []
    for place, each in enumerate(ordered):
        low = (each.corner[right], each.corner[up])
        top = (low[0] + each.size[right], low[1] + each.size[up])
        yield rectangle(low, top, Role.INNER).under(move)
        sign = str(names.index(each.name) + 1)
        spot = seen_spot(each, ordered[place + 1 :], right, up)
        if spot is not None:
            middle, room = move.point(spot[0]), spot[1] * move.factor
            if room >= LETTERS / 2:
                signs.append(Label(sign, middle, Role.RULER, LETTERS, weight="bold"))
            else:
                waiting.append((middle[1], sign))
        outside += [top] if top[0] > wide + 0.05 or top[1] > high + 0.05 else []
    yield from signs
    yield from signs_beside(waiting, *move.point((wide, high)))
    if outside:
        far = (max(x for x, _ in outside), max(y for _, y in outside))
        if far[0] > wide + 0.05:
            yield rectangle((wide, 0.0), (far[0], min(far[1], high)), Role.CLASH).under(move)
        if far[1] > high + 0.05:
            yield rectangle((0.0, high), far, Role.CLASH).under(move)


def seen_spot(each: Placed, nearer: Sequence[Placed], right: int, up: int) -> tuple[Point, float] | None:
    """Where on a thing its sign can stand and how much room there is round that point; None where nearer things hide all of it."""
    seen = area_of(each, right, up).difference(unary_union([area_of(other, right, up) for other in nearer]))
    pieces = [
        piece for piece in getattr(seen, "geoms", (seen,)) if isinstance(piece, Polygon) and piece.area > LEAST_SEEN
    ]
    if not pieces:
        return None
    spot = maximum_inscribed_circle(max(pieces, key=lambda piece: piece.area))
    return (spot.coords[0][0], spot.coords[0][1]), spot.length


def area_of(each: Placed, right: int, up: int) -> Polygon:
    """What a thing covers in a view."""
    x, y = each.corner[right], each.corner[up]
    return box(x, y, x + each.size[right], y + each.size[up])


def signs_beside(waiting: Sequence[tuple[float, str]], right: float, top: float) -> Iterator[Mark]:
    """The signs of thin things at the right, one below the other and not above `top`, each with a line to its thing."""
    last = top + SIGN_ROW / 2
    for y, sign in sorted(set(waiting), reverse=True):
        at = min(y, last - SIGN_ROW)
        yield Line((right - 0.6, y), (right + 2.2, at), Role.DIMENSION)
        yield Label(sign, (right + 2.8, at), Role.RULER, LETTERS, anchor="start", weight="bold")
        last = at


def words_in(words: str, inside: tuple[float, float, float], axes: tuple[int, int], move: Move) -> Iterator[Mark]:
    """Words in the empty box."""
    wide, high = (inside[axis] for axis in axes)
    room = (wide * move.factor * 0.95, high * move.factor * 0.9)
    yield Label(
        words, move.point((wide / 2, high / 2)), Role.CLASH, LETTERS + 0.5, weight="bold", room=(room[0], room[1])
    )


def key_rows(placed: Sequence[Placed], names: Sequence[str], width: float) -> Iterator[tuple[str, int, float]]:
    """What each sign means: words, row and left edge, filled line by line."""
    left, row = 0.0, 0
    for number, name in enumerate(names, 1):
        count = sum(each.count for each in placed if each.name == name)
        words = f"{number}: {f'{count} × ' if count > 1 else ''}{name}"
        if left and left + text_width(words, LETTERS) > width:
            left, row = 0.0, row + 1
        for place, line in enumerate(wrapped(words, width, LETTERS).split("\n")):
            row += 1 if place else 0
            yield line, row, left
            wide = text_width(line, LETTERS)
        left += wide + 4.0
