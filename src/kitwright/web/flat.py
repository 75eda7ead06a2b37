"""The flat patterns of the page: every blank with its scores numbered, and over it the scores that can be pointed at."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from typing import Any, Final

from markupsafe import Markup
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from kitwright.errors import KitwrightError, Mistake
from kitwright.plan import CutLine, Plan
from kitwright.printouts.annotate import RING_RADIUS, ring_spots
from kitwright.printouts.compose import Fitted, fitted
from kitwright.printouts.drawing import Label, Mark, Move, Point, Running
from kitwright.printouts.make.bench_words import score_sentences
from kitwright.printouts.make.pattern_picture import bench_marks
from kitwright.printouts.make.score_numbers import NumberedScore, numbered_scores, score_rings
from kitwright.printouts.write.svg import number
from kitwright.web import pictures
from kitwright.web.desk import Desk, desk_of, stored
from kitwright.workshop import StoredKit

__all__ = ["FlatPicture", "flat", "flat_picture", "flat_piece"]

USUAL_ROOM: Final = (120.0, 100.0)
"""Millimetres of a picture before it is enlarged."""
LEAST_ROOM: Final = 50
MOST_ROOM: Final = 1500
"""How wide and high a picture is made at all."""


@dataclass(frozen=True, slots=True)
class Pointed:
    """A numbered score as it lies on its picture: lines and ring in the picture's own figures, y down, and what hangs on it."""

    number: int
    words: str
    hinges: str
    lines: tuple[tuple[str, str, str, str], ...]
    ring: tuple[str, str]


@dataclass(frozen=True, slots=True)
class FlatPicture:
    """A blank's picture, its size in mm, the scores that can be pointed at, and where a point of the blank stands on it.

    `onto` is that as six numbers of an SVG matrix, y down on both sides.
    """

    drawn: Markup
    width: str
    height: str
    radius: str
    scores: tuple[Pointed, ...]
    onto: str


def flat(_: Desk, __: Request, ___: StoredKit, plan: Plan) -> dict[str, Any]:
    """Every blank with its score chart."""
    return {
        "blanks": [
            {
                "line": line,
                "number": plan.built.parts.index(line.part),
                "place": place,
                "piece": flat_picture(plan, line, *USUAL_ROOM),
                "scores": list(score_sentences(line, plan.ruler, fibres=plan.straining(line))),
                "size": f"{plan.ruler.size(*line.blank.size)} {plan.ruler.unit.value}",
            }
            for place, line in enumerate(pictures.lines_of(plan))
        ]
    }


def flat_picture(plan: Plan, line: CutLine, width: float, height: float) -> FlatPicture:
    """A blank as large as fits, with its numbers and its scores in the order of the bench."""
    marks = (*map(kept_inside, bench_marks(line.part, line.blank, plan.ruler)), *score_rings(line.blank))
    found = made_to_fit(marks, width, height)
    drawing = found.drawing
    rows = [mark for mark in drawing.marks if isinstance(mark, Running) and mark.ringed]
    rings = {words: spot for row in rows for words, _, spot in ring_spots(row)}

    def down(at: Point) -> tuple[str, str]:
        return number(at[0]), number(drawing.height - at[1])

    def pointed(each: NumberedScore) -> Pointed:
        lines = tuple((*down(found.move.point(one.start)), *down(found.move.point(one.end))) for one in each.scores)
        hinges = json.dumps([one.child for one in each.scores])
        return Pointed(each.number, each.words(plan.ruler), hinges, lines, down(rings[str(each.number)]))

    return FlatPicture(
        pictures.inline(drawing, title=line.label, description=f"Flat pattern of {line.label} with its scores"),
        number(drawing.width),
        number(drawing.height),
        number(RING_RADIUS),
        tuple(pointed(each) for each in numbered_scores(line.blank)),
        onto_words(found.move, drawing.height),
    )


def kept_inside(mark: Mark) -> Mark:
    """A mark whose words are left out where they have no room, not led out: the numbers stand there, and the picture can be enlarged."""
    return replace(mark, outside=None) if isinstance(mark, Label) else mark


def made_to_fit(marks: tuple[Mark, ...], width: float, height: float) -> Fitted:
    """Marks as large as fits; where their words need more room than that, in as much as they need."""
    try:
        return fitted(marks, width=width, height=height)
    except Mistake:
        if width > MOST_ROOM:
            raise
        return made_to_fit(marks, 1.5 * width, 1.5 * height)


def onto_words(move: Move, height: float) -> str:
    """A move without turns as the matrix of an SVG whose y points down; the blank's own y counts down from its lower edge."""
    factor = number(move.factor)
    return f"{factor} 0 0 {factor} {number(move.e)} {number(height - move.f)}"


def flat_piece(request: Request) -> Response:
    """The picture of one blank, as large as fits the room that is asked for, in whole mm."""
    desk, kit = desk_of(request), stored(request)
    try:
        plan = desk.making.plan(kit.document)
    except KitwrightError:
        raise HTTPException(404) from None
    lines, place = pictures.lines_of(plan), request.path_params["number"]
    if place >= len(lines):
        raise HTTPException(404)
    width, height = (room_of(request.query_params.get(side, "")) for side in ("width", "height"))
    return desk.page("flat_piece.html", piece=flat_picture(plan, lines[place], width, height), label=lines[place].label)


def room_of(said: str) -> float:
    """Whole millimetres between the least and the most room. Raises the 404 page for what is no number."""
    if not (said.isascii() and said.isdigit() and len(said) < 6):
        raise HTTPException(404)
    return float(min(max(int(said), LEAST_ROOM), MOST_ROOM))
