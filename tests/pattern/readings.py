"""Reading a score chart back: which marks put which score on the blank, worked out without the chart's own code."""

from __future__ import annotations

from shapely import LineString, Polygon

from kitwright.pattern import Blank, FoldWay, RuleSide, Score, ScoreChart, ScoreMark, ScorePass

WIDTH = 1e-3
"""Half the breadth of a scored line here, mm: what lies this near to a line is on it."""


def line_of(chart: ScoreChart, each: ScorePass, mark: ScoreMark) -> list[LineString]:
    """The stretches that one mark scores, on the blank as drawn."""
    across = chart.height if each.side is RuleSide.WIDTH else chart.width
    length = chart.width if each.side is RuleSide.WIDTH else chart.height
    at = mark.at if each.way is FoldWay.MOUNTAIN else length - mark.at  # valleys are set from the other edge
    stretches = mark.runs or ((0.0, across),)
    if each.side is RuleSide.WIDTH:
        return [LineString([(at, low), (at, high)]) for low, high in stretches]
    return [LineString([(low, at), (high, at)]) for low, high in stretches]


def drawn_scores(chart: ScoreChart) -> list[tuple[FoldWay, LineString]]:
    """Every stretch that the chart has scored, with the way it will fold."""
    return [(each.way, line) for each in chart.passes for mark in each.marks for line in line_of(chart, each, mark)]


def mark_count(chart: ScoreChart) -> int:
    """How often the scoring tool is set for one blank."""
    return sum(len(each.marks) for each in chart.passes)


def times_scored(chart: ScoreChart, score: Score) -> int:
    """How many of the chart's stretches contain the whole score and fold its way."""
    wanted = LineString([score.start, score.end])
    return sum(way is score.way and line.buffer(WIDTH).covers(wanted) for way, line in drawn_scores(chart))


def scored_by_mistake(chart: ScoreChart, blank: Blank) -> float:
    """Length of lines scored across the middle of panels, mm."""
    insides = [Polygon(panel.outline, panel.holes).buffer(-WIDTH) for panel in blank.panels]
    return float(sum(line.intersection(inside).length for _, line in drawn_scores(chart) for inside in insides))


def scored_the_wrong_way(chart: ScoreChart, blank: Blank) -> float:
    """Length of scores on which a line of the other way was set as well, mm."""
    return float(
        sum(
            LineString([score.start, score.end]).intersection(line.buffer(WIDTH)).length
            for score in blank.scores
            for way, line in drawn_scores(chart)
            if way is not score.way and line.buffer(WIDTH).intersection(LineString([score.start, score.end])).length > 1
        )
    )


def distinct_positions(blank: Blank) -> int:
    """How many different settings the straight scores need at the most: one for each line, way and side."""
    found = set()
    for score in blank.scores:
        for axis in (0, 1):
            if abs(score.start[axis] - score.end[axis]) < WIDTH:
                found.add((axis, score.way, round(score.start[axis], 4)))
    return len(found)
