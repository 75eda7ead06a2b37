"""The score chart and the cutting-away of a blank, read off its drawing: where to set each score, in the order of the bench.

Positions are in mm. In a pass the blank lies with one side along the rule of the scoring board and every mark is measured from
the left: for the *width* the blank lies as drawn (print up, left edge left); for the *height* it is turned a quarter to the right,
so that its lower edge is left. Valley folds are scored from the back: the blank is turned over like a page first, so that its right
edge (its upper edge, for the height) is left.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from math import pi

from shapely import LineString, MultiPolygon, Polygon, box
from shapely.ops import unary_union

from kitwright.measure import NUMERIC_TOLERANCE
from kitwright.pattern.blank import Blank, FoldWay, Score
from kitwright.pattern.panel import Panel

__all__ = [
    "CutAway",
    "CutShape",
    "RuleSide",
    "ScoreChart",
    "ScoreMark",
    "ScorePass",
    "score_chart",
    "score_passes",
    "scores_at",
]

HARMLESS = 0.01
"""A score that runs on for less than this (mm) over a panel leaves no mark that could be seen."""

GRID = 1e-6
"""Outlines are laid on points so far apart (mm) before they are taken from each other."""

PLACES = 5
"""What is cut away is told to so many decimal places of a mm, coarser than the grid, so that equal pieces have equal sizes."""

THREAD = 2 * GRID
"""Pieces that hang together by less than this (mm), which comes of rounding, are two pieces."""


class RuleSide(StrEnum):
    """Which side of the blank lies along the rule."""

    WIDTH = "width"
    HEIGHT = "height"


@dataclass(frozen=True, slots=True)
class ScoreMark:
    """One setting of the scoring tool, `at` mm from the left.

    `runs` are the stretches (from, to) if it must not go all the way, measured from the blank's lower edge (for the width) or from
    its left edge (for the height), print side up.
    """

    at: float
    runs: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class ScorePass:
    """All marks that are set with the blank lying one way: the side along the rule, its length, which face is up."""

    side: RuleSide
    length: float
    way: FoldWay
    marks: tuple[ScoreMark, ...]


class CutShape(StrEnum):
    """What kind of piece is cut away."""

    CORNER = "corner"
    """A rectangle at a corner of the blank."""
    STRIP = "strip"
    """A rectangle at one edge of the blank: a wall is lower than the tabs beside it are deep."""
    SLANT = "slant"
    """A corner of the blank cut off by one straight cut."""
    HOLE = "hole"
    """A round hole."""
    NOTCH = "notch"
    """Half a round hole at an edge."""
    OTHER = "other"
    """Anything else: what is left between panels, or what only a template gives."""


@dataclass(frozen=True, slots=True)
class CutAway:
    """A piece of the rectangle that is no part of the blank: its own width and height, and whether it is a plain rectangle.

    `left` and `low` are the lower left corner of the box round it; `beside` are the panels along whose edges it is cut.
    """

    width: float
    height: float
    is_rectangle: bool
    is_inside: bool
    shape: CutShape
    left: float
    low: float
    beside: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ScoreChart:
    """Cut size, passes over the scoring board, scores that need a template because they run aslant, pieces to cut away."""

    width: float
    height: float
    passes: tuple[ScorePass, ...]
    aslant: tuple[Score, ...]
    cut_away: tuple[CutAway, ...]


def score_chart(blank: Blank) -> ScoreChart:
    """Read the score chart off a blank: the longer side first, every position once."""
    aslant = tuple(s for s in blank.scores if not any(runs_across(s, axis) for axis in (0, 1)))
    return ScoreChart(*blank.size, score_passes(blank), aslant, cut_away(blank))


def score_passes(blank: Blank) -> tuple[ScorePass, ...]:
    """The passes over the scoring board alone, the longer side first."""
    width, height = blank.size
    passes = []
    for side in sorted(RuleSide, key=lambda side: -(width if side is RuleSide.WIDTH else height)):
        for way in (FoldWay.MOUNTAIN, FoldWay.VALLEY):
            axis = 0 if side is RuleSide.WIDTH else 1
            scores = [s for s in blank.scores if runs_across(s, axis) and s.way is way]
            if scores:
                passes.append(ScorePass(side, (width, height)[axis], way, marks_of(blank, scores, side, way)))
    return tuple(passes)


def runs_across(score: Score, axis: int) -> bool:
    """Whether a score runs squarely across the width (0) or the height (1) of its blank."""
    return abs(score.start[axis] - score.end[axis]) <= NUMERIC_TOLERANCE


def marks_of(blank: Blank, scores: list[Score], side: RuleSide, way: FoldWay) -> tuple[ScoreMark, ...]:
    """The marks of one pass, from left to right; scores in one line are one mark."""
    width, height = blank.size
    length = width if side is RuleSide.WIDTH else height
    axis = 0 if side is RuleSide.WIDTH else 1
    lines: list[tuple[float, list[tuple[float, float]]]] = []
    for score in sorted(scores, key=lambda s: s.start[axis]):
        at = score.start[axis]
        low, high = sorted((score.start[1 - axis], score.end[1 - axis]))
        if not lines or at - lines[-1][0] > NUMERIC_TOLERANCE:
            lines.append((at, []))
        lines[-1][1].append((low, high))
    panels = MultiPolygon([inside for panel in blank.panels for inside in insides(panel)])
    marks = []
    for at, runs in lines:
        joined = join_runs(runs)
        clear = crosses_no_panel(panels, at, joined, across=height if axis == 0 else width, axis=axis)
        whole = clear and not folds_otherwise(blank, at, way, axis)
        marks.append(ScoreMark(length - at if way is FoldWay.VALLEY else at, () if whole else tuple(joined)))
    return tuple(sorted(marks, key=lambda mark: mark.at))


def scores_at(blank: Blank, one: ScorePass, mark: ScoreMark) -> tuple[Score, ...]:
    """The scores of a blank that one mark of a pass makes: those in its line that fold its way."""
    axis = 0 if one.side is RuleSide.WIDTH else 1
    at = one.length - mark.at if one.way is FoldWay.VALLEY else mark.at
    return tuple(
        score
        for score in blank.scores
        if score.way is one.way and all(abs(end[axis] - at) <= NUMERIC_TOLERANCE for end in (score.start, score.end))
    )


def join_runs(runs: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Stretches along one line, with touching ones joined."""
    joined: list[tuple[float, float]] = []
    for low, high in sorted(runs):
        if joined and low - joined[-1][1] <= NUMERIC_TOLERANCE:
            joined[-1] = (joined[-1][0], max(high, joined[-1][1]))
        else:
            joined.append((low, high))
    return joined


def insides(panel: Panel) -> list[Polygon]:
    """A panel without its very edge: what a score must not run over."""
    inside = panel.shape.buffer(-NUMERIC_TOLERANCE)
    return [piece for piece in getattr(inside, "geoms", [inside]) if not piece.is_empty]


def folds_otherwise(blank: Blank, at: float, way: FoldWay, axis: int) -> bool:
    """Whether the other way of folding has a score in the same line."""
    return any(
        score.way is not way
        and abs(score.start[axis] - at) <= NUMERIC_TOLERANCE
        and abs(score.end[axis] - at) <= NUMERIC_TOLERANCE
        for score in blank.scores
    )


def crosses_no_panel(
    panels: MultiPolygon, at: float, runs: list[tuple[float, float]], *, across: float, axis: int
) -> bool:
    """Whether a score drawn all the way across the rectangle keeps, besides its runs, to waste and to the edges of panels."""
    ends = [0.0, *(end for run in runs for end in run), across]
    for low, high in zip(ends[::2], ends[1::2], strict=True):
        if high - low <= NUMERIC_TOLERANCE:
            continue
        line = LineString([(at, low), (at, high)] if axis == 0 else [(low, at), (high, at)])
        if panels.intersection(line).length > HARMLESS:
            return False
    return True


def cut_away(blank: Blank) -> tuple[CutAway, ...]:
    """The pieces of the cut rectangle that are no part of the blank, the largest first.

    A strip beyond a wall is a piece of its own, also where it hangs together with what is cut away at its corners.
    """
    width, height = blank.size
    strips = list(strips_beyond(blank))
    rest = box(0, 0, width, height).difference(blank.shape, grid_size=GRID)
    rest = rest.difference(unary_union(strips).buffer(THREAD, join_style="mitre"))
    others = [piece for piece in getattr(rest, "geoms", [rest]) if isinstance(piece, Polygon)]
    pieces = [piece for piece in (*strips, *others) if piece.area > HARMLESS]
    found = []
    for piece in sorted(pieces, key=lambda piece: (-piece.area, piece.bounds)):
        left, low, right, high = piece.bounds
        square = abs(piece.area - (right - left) * (high - low)) <= HARMLESS
        touched = [left <= HARMLESS, low <= HARMLESS, right >= width - HARMLESS, high >= height - HARMLESS]
        beside = tuple(panel.name for panel in blank.panels if lies_along(piece, panel))
        shape = shape_of(piece, square=square, touched=touched)
        wide, tall = round(right - left, PLACES), round(high - low, PLACES)
        found.append(CutAway(wide, tall, square, not any(touched), shape, left, low, beside))
    return tuple(found)


def strips_beyond(blank: Blank) -> Iterator[Polygon]:
    """The waste between the far side of a rectangular panel and the edge of the blank that it folds out towards."""
    width, height = blank.size
    taken = blank.shape
    for score in blank.scores:
        shape = blank.panel(score.child).shape
        left, low, right, high = shape.bounds
        if shape.area < (right - left) * (high - low) - HARMLESS:
            continue
        if runs_across(score, 0):
            beyond = box(right, low, width, high) if right > score.start[0] + HARMLESS else box(0, low, left, high)
        elif runs_across(score, 1):
            beyond = box(left, high, right, height) if high > score.start[1] + HARMLESS else box(left, 0, right, low)
        else:
            continue
        if beyond.area > 0 and beyond.intersection(taken).area <= HARMLESS:
            taken = taken.union(beyond)
            yield beyond


def lies_along(piece: Polygon, panel: Panel) -> bool:
    """Whether a piece has a stretch of its rim in common with a panel; slanting rims agree but for rounding."""
    rim = panel.shape.boundary
    return float(rim.intersection(piece.buffer(HARMLESS)).length) > 10 * HARMLESS


def shape_of(piece: Polygon, *, square: bool, touched: list[bool]) -> CutShape:
    """What kind of piece it is; `touched` are the left, lower, right and upper edge of the blank."""
    left, low, right, high = piece.bounds
    wide, tall = right - left, high - low
    at_corner = sum(touched) == 2 and touched[0] != touched[2]
    if square and at_corner:
        return CutShape.CORNER
    if square and sum(touched) == 1:
        return CutShape.STRIP
    if (
        at_corner
        and abs(piece.area - wide * tall / 2) <= HARMLESS
        and len(piece.simplify(HARMLESS).exterior.coords) == 4
    ):
        return CutShape.SLANT
    if not any(touched) and is_round(piece.area, wide, tall):
        return CutShape.HOLE
    across, deep = (wide, tall) if touched[1] or touched[3] else (tall, wide)
    if sum(touched) == 1 and is_round(2 * piece.area, across, 2 * deep):
        return CutShape.NOTCH
    return CutShape.OTHER


def is_round(area: float, wide: float, tall: float) -> bool:
    """Whether a piece as wide as tall has the area of a circle, drawn in straight pieces."""
    circle = pi * wide * tall / 4
    return abs(wide - tall) <= HARMLESS and abs(area - circle) <= circle / 100
