"""The flat patterns of the page: every blank with its scores numbered, and over it the scores that can be pointed at."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any, Final

from markupsafe import Markup
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from kitwright.cutting import to_mm
from kitwright.errors import KitwrightError
from kitwright.measure import Ruler
from kitwright.paper import Affine
from kitwright.plan import CutLine, Plan, ProvedKit
from kitwright.printouts.annotate import RING_RADIUS, ring_spots
from kitwright.printouts.compose import fitted
from kitwright.printouts.drawing import Callouts, Mark, Point, Running
from kitwright.printouts.make.bench_words import score_sentences
from kitwright.printouts.make.pattern_picture import bench_marks
from kitwright.printouts.make.score_numbers import NumberedScore, numbered_scores, score_rings
from kitwright.printouts.make.sheet_pages import layout_letter
from kitwright.printouts.write.svg import number
from kitwright.web import pictures
from kitwright.web.desk import Desk, desk_of, stored
from kitwright.web.printed import on_blank, picture_of, sheets_of
from kitwright.web.prints_under import has_print, under
from kitwright.workshop import Scans, StoredKit

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
    """A blank's picture, its size in mm, the scores that can be pointed at, and how the first of these blanks lies on its sheet."""

    drawn: Markup
    width: str
    height: str
    radius: str
    scores: tuple[Pointed, ...]
    lies: str


@dataclass(frozen=True, slots=True)
class Lying:
    """Where the first of some blanks lies: the paper's picture as it falls on it (None without one), and that in words."""

    picture: tuple[str, Affine] | None
    words: str


NOWHERE: Final = Lying(None, "")


def flat(desk: Desk, _: Request, kit: StoredKit, proved: ProvedKit) -> dict[str, Any]:
    """Every blank with its score chart."""
    scans, laid = desk.workshop.scans, laid_out(desk, kit)
    used = {part.part.paper for part in proved.built.parts}
    pictured = [paper for key, paper in proved.kit.papers.items() if key in used and paper.scan is not None]
    return {
        "has_prints": any(has_print(proved.kit.papers[key]) for key in used),
        "waits_for": f"/kit/{kit.word}/places" if laid is None and pictured else "",
        "blanks": [
            {
                "line": line,
                "number": proved.built.parts.index(line.part),
                "place": place,
                "piece": flat_picture(proved.ruler, line, USUAL_ROOM, place=place, lying=lies(laid, line, scans)),
                "scores": list(score_sentences(line, proved.ruler, fibres=proved.straining(line))),
                "size": f"{proved.ruler.size(*line.blank.size)} {proved.ruler.unit.value}",
            }
            for place, line in enumerate(pictures.lines_of(proved.built))
        ],
    }


def flat_picture(ruler: Ruler, line: CutLine, room: tuple[float, float], *, place: int, lying: Lying) -> FlatPicture:
    """A blank as large as fits, with its numbers and its scores in the order of the bench."""
    marks = (*kept_inside(bench_marks(line.part, line.blank, ruler)), *score_rings(line.blank))
    found = fitted(marks, width=room[0], height=room[1])
    drawing = found.drawing
    rows = [mark for mark in drawing.marks if isinstance(mark, Running) and mark.ringed]
    rings = {words: spot for row in rows for words, _, spot in ring_spots(row)}

    def down(at: Point) -> tuple[str, str]:
        return number(at[0]), number(drawing.height - at[1])

    def pointed(each: NumberedScore) -> Pointed:
        lines = tuple((*down(found.move.point(one.start)), *down(found.move.point(one.end))) for one in each.scores)
        hinges = json.dumps([one.child for one in each.scores])
        return Pointed(each.number, each.words(ruler), hinges, lines, down(rings[str(each.number)]))

    paper, turn = line.part.paper, line.part.part.turn
    print_ = under(f"print-flat-{place}", paper, found, line.blank.outline, turn=turn, picture=lying.picture)
    description = f"Flat pattern of {line.label} with its scores"
    return FlatPicture(
        pictures.inline(drawing, title=line.label, description=description, under=print_),
        number(drawing.width),
        number(drawing.height),
        number(RING_RADIUS),
        tuple(pointed(each) for each in numbered_scores(line.blank)),
        lying.words,
    )


def kept_inside(marks: Iterable[Mark]) -> Iterator[Mark]:
    """Marks whose words are left out where they have no room, not led out: the numbers stand there, and the picture can be enlarged."""
    for mark in marks:
        yield from mark.labels if isinstance(mark, Callouts) else (mark,)


def laid_out(desk: Desk, kit: StoredKit) -> Plan | None:
    """The layouts for one kit, if they are found by now; without them the pattern is there all the same."""
    found = desk.making.search(kit.document, 1)
    try:
        return desk.making.outcome(found) if found.outcome.done() else None
    except KitwrightError:
        return None


TURN_WORDS: Final = ("as drawn", "a quarter turn to the left", "upside down", "a quarter turn to the right")


def lies(laid: Plan | None, line: CutLine, scans: Scans) -> Lying:
    """Where the first of a line's blanks lies for one kit."""
    paper = next((each for each in laid.papers if each.paper.key == line.part.paper.key), None) if laid else None
    if paper is None or laid is None or not has_print(paper.paper):
        return NOWHERE
    spots = [(sheet, one) for sheet in sheets_of(laid, paper) for one in sheet.lying if one.piece == line.label]
    if not spots:
        return NOWHERE
    sheet, one = spots[0]
    at = laid.ruler.size(float(to_mm(one.x)), float(to_mm(one.y)))
    first = "The first lies" if line.per_kit > 1 else "Lies"
    words = f"{first} on layout {layout_letter(sheet.number)}, {TURN_WORDS[one.turn]}, its lower left corner at {at}."
    picture = picture_of(paper.paper, scans)
    if picture is None:
        return Lying(None, words)
    corner = (float(to_mm(one.x)), float(to_mm(one.y)))
    return Lying((picture["address"], on_blank(tuple(picture["matrix"]), corner, one.turn, line.blank.size)), words)


def flat_piece(request: Request) -> Response:
    """The picture of one blank, as large as fits the room that is asked for, in whole mm."""
    desk, kit = desk_of(request), stored(request)
    try:
        proved = desk.making.proved(kit.document)
    except KitwrightError:
        raise HTTPException(404) from None
    lines, place = pictures.lines_of(proved.built), request.path_params["number"]
    if place >= len(lines):
        raise HTTPException(404)
    width, height = (room_of(request.query_params.get(side, "")) for side in ("width", "height"))
    lying = lies(laid_out(desk, kit), lines[place], desk.workshop.scans)
    piece = flat_picture(proved.ruler, lines[place], (width, height), place=place, lying=lying)
    return desk.page("flat_piece.html", piece=piece, label=lines[place].label)


def room_of(said: str) -> float:
    """Whole millimetres between the least and the most room. Raises the 404 page for what is no number."""
    if not (said.isascii() and said.isdigit() and len(said) < 6):
        raise HTTPException(404)
    return float(min(max(int(said), LEAST_ROOM), MOST_ROOM))
