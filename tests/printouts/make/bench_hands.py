"""A maker who cuts a blank by its sentences alone: what is left of the rectangle. Millimetres.

How large everything is comes from the words. Where a corner or a panel of that name lies is seen in the picture, so from the drawing.
"""

from __future__ import annotations

import re

from shapely import Point, Polygon, box
from shapely.geometry.base import BaseGeometry

from kitwright.measure import Ruler
from kitwright.pattern import Blank, CutShape, FoldWay, RuleSide, ScoreChart, score_chart
from kitwright.printouts.make.cut_away_words import away_sentences, shape_groups

__all__ = ["cut_by_words"]

NUMBER = r"(\d+(?:\.\d+)?)"


def cut_by_words(blank: Blank, ruler: Ruler) -> BaseGeometry:
    """What is left when every sentence about a blank has been followed; a sentence that says nothing known is an error."""
    chart = score_chart(blank)
    left: BaseGeometry = box(0, 0, chart.width, chart.height)
    groups = iter(shape_groups(blank, ruler))
    for sentence in away_sentences(blank, chart, ruler):
        numbers = [float(each) for each in re.findall(NUMBER, sentence)]
        if sentence.startswith("Cut away "):
            count, wide, tall = numbers
            places = corners_of(chart, CutShape.CORNER, int(count), wide, tall)
            left = left.difference(boxes(places))
        elif sentence.startswith("Cut off "):
            count, wide = numbers[:2]
            tall = numbers[-1]
            for x, y, inwards, upwards in corners_of(chart, CutShape.SLANT, int(count), wide, tall):
                left = left.difference(Polygon([(x, y), (x + inwards, y), (x, y + upwards)]))
        elif "away along the scores" in sentence:
            left = left.difference(boxes(cells_at_corners(chart, int(numbers[0]))))
        elif sentence.startswith("Cut into "):
            # a cut by itself takes nothing away; it goes from the edge to where two scores meet
            count, deep = numbers
            assert count == len(cells_at_corners(chart, 4)) and "left and right edges" in sentence
            assert abs(deep - lines(chart, RuleSide.WIDTH)[1]) < 0.02
        elif sentence.startswith("Take a strip "):
            wide, low, high = numbers
            for edge in re.findall(r"left|right|lower|upper", sentence.partition(",")[0]):
                left = left.difference(
                    {
                        "left": box(0, low, wide, high),
                        "right": box(chart.width - wide, low, chart.width, high),
                        "lower": box(low, 0, high, wide),
                        "upper": box(low, chart.height - wide, high, chart.height),
                    }[edge]
                )
        elif sentence.startswith("Cut a half-round notch into the upper edge"):
            wide, _, middle = numbers
            left = left.difference(Point(middle, chart.height).buffer(wide / 2, quad_segs=32))
        elif sentence.startswith("Punch a hole "):
            across, right, down = numbers
            left = left.difference(Point(right, chart.height - down).buffer(across / 2, quad_segs=32))
        else:
            for each in next(groups):
                room, panel = room_and_panel(blank, chart, each.name, sentence.partition(": ")[2])
                left = left.difference(room).union(panel)
    assert next(groups, None) is None
    return left


Place = tuple[float, float, float, float]
"""A corner of the blank, and how far what is cut there reaches from it to the right and up, negative for left and down."""


def boxes(places: list[Place]) -> BaseGeometry:
    """Rectangles at corners."""
    whole: BaseGeometry = Polygon()
    for x, y, inwards, upwards in places:
        (left, right), (low, high) = sorted((x, x + inwards)), sorted((y, y + upwards))
        whole = whole.union(box(left, low, right, high))
    return whole


def corners_of(chart: ScoreChart, shape: CutShape, count: int, wide: float, tall: float) -> list[Place]:
    """The corners at which the picture shows such a piece of about the told size."""
    found = []
    for piece in chart.cut_away:
        if piece.shape is shape and abs(piece.width - wide) < 0.02 and abs(piece.height - tall) < 0.02:
            at_left, low = piece.left < 0.01, piece.low < 0.01
            x, inwards = (0.0, wide) if at_left else (chart.width, -wide)
            y, upwards = (0.0, tall) if low else (chart.height, -tall)
            found.append((x, y, inwards, upwards))
    return found[:count] if len(found) >= count else []


def lines(chart: ScoreChart, side: RuleSide) -> list[float]:
    """Where scores run across, from the left or the lower edge, with both edges."""
    marks = [
        each.length - mark.at if each.way is FoldWay.VALLEY else mark.at
        for each in chart.passes
        if each.side is side
        for mark in each.marks
    ]
    return sorted({0.0, *marks, chart.width if side is RuleSide.WIDTH else chart.height})


def cells_at_corners(chart: ScoreChart, count: int) -> list[Place]:
    """The rectangles between the corners of the blank and where two scores meet next to them, the smallest first."""
    xs, ys = lines(chart, RuleSide.WIDTH), lines(chart, RuleSide.HEIGHT)
    found = [
        (x, y, inwards, upwards)
        for x, inwards in ((xs[0], xs[1] - xs[0]), (xs[-1], xs[-2] - xs[-1]))
        for y, upwards in ((ys[0], ys[1] - ys[0]), (ys[-1], ys[-2] - ys[-1]))
    ]
    return sorted(found, key=lambda place: abs(place[2] * place[3]))[:count]


def room_and_panel(blank: Blank, chart: ScoreChart, name: str, words: str) -> tuple[BaseGeometry, BaseGeometry]:
    """What lies beyond the score of a panel as deep as it is told, and what of it is left."""
    deep, long = (float(re.findall(NUMBER + there, words)[0]) for there in (" deep", " long at the score"))
    score = blank.score_of(name)
    upright = abs(score.start[0] - score.end[0]) < 0.001
    away = 1 if upright else 0
    low = min(score.start[away], score.end[away])
    middle = low + abs(score.start[away] - score.end[away]) / 2
    foot = re.findall(rf"\({NUMBER} to {NUMBER} from", words)
    start = float(foot[0][0]) if foot else low
    stops = lines(chart, RuleSide.HEIGHT if upright else RuleSide.WIDTH)
    room_low = max(stop for stop in stops if stop < middle)
    room_high = min(stop for stop in stops if stop > middle)
    back = [float(each) for each in re.findall(NUMBER, words.partition("taken back")[2])] or [0.0]
    assert len(back) == 1, "the ends of every panel in the catalogue are alike"
    at = score.start[1 - away]
    outwards = deep if blank.panel(name).shape.centroid.coords[0][1 - away] > at else -deep
    room = [(room_low, at), (room_high, at), (room_high, at + outwards), (room_low, at + outwards)]
    panel = [(start, at), (start + long, at), (start + long - back[0], at + outwards), (start + back[0], at + outwards)]
    turned = [[(y, x) if upright else (x, y) for x, y in ring] for ring in (room, panel)]
    return Polygon(turned[0]), Polygon(turned[1])
