"""What part of a paper's picture every blank gets: the cutting plan says where it lies, and so what is printed on it. Millimetres.

Matrices are six numbers as SVG writes them, for x to the right and y up, but for the picture's own shares, which go right and down.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from kitwright.cutting import Placement, placements, to_mm
from kitwright.paper import Affine, Paper
from kitwright.plan import PaperPlan, Plan, sheet_by_hand
from kitwright.workshop import Scans

__all__ = ["Sheet", "on_blank", "picture_of", "prints", "sheets_of"]

MOST_SHOWN: Final = 60
"""Sheets whose blanks are shown one by one; a batch may have thousands that are alike."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One kind of sheet of a paper: its place among the layouts, how often it is cut, what lies on it, and how it came about.

    `by_hand` is its place in the kit's list of sheets laid by hand, None for one that was searched; `is_free`: not by through cuts.
    """

    number: int
    times: int
    lying: tuple[Placement, ...]
    by_hand: int | None
    is_free: bool


def sheets_of(plan: Plan, paper: PaperPlan) -> tuple[Sheet, ...]:
    """All layouts of whole sheets of a paper, those by hand with their place in the kit's list."""
    used = [n for n in range(len(plan.kit.laid.get(paper.paper.key, ()))) if n not in paper.unused]
    by_place = {tuple(sorted(map(spot, laid))): n for n, laid in hand_places(plan, paper, used)}
    found = []
    for number, layout in enumerate(paper.cut_plan.layouts):
        if paper.is_offcut(layout):
            continue
        lying = placements(layout)
        hand = by_place.get(tuple(sorted(map(spot, lying)))) if number < paper.by_hand else None
        found.append(Sheet(number, layout.times, lying, hand, False))
    for number, free in enumerate(paper.free, len(paper.cut_plan.layouts)):
        hand = by_place.get(tuple(sorted(map(spot, free.lying))))
        found.append(Sheet(number, free.times, free.lying, hand, True))
    return tuple(found)


def hand_places(plan: Plan, paper: PaperPlan, used: list[int]) -> Iterator[tuple[int, tuple[Placement, ...]]]:
    """The sheets laid by hand that are used, with their place in the list."""
    for number in used:
        yield number, sheet_by_hand(plan.kit.laid[paper.paper.key][number], paper.demand)


def spot(one: Placement) -> tuple[str, int, int, int]:
    """What tells one placement from another on its sheet."""
    return one.piece, one.x, one.y, one.turn


def on_blank(matrix: Affine, at: tuple[float, float], turn: int, size: tuple[float, float]) -> Affine:
    """A matrix onto the sheet as one onto a blank of a size that lies there, turned so many quarters to the left."""
    a, b, c, d, e, f = matrix
    x, y = at
    width, height = size
    match turn:
        case 0:
            return (a, b, c, d, e - x, f - y)
        case 1:
            return (b, -a, d, -c, f - y, x + height - e)
        case 2:
            return (-a, -b, -c, -d, x + width - e, y + height - f)
        case _:
            return (-b, a, -d, c, y + width - f, e - x)


def picture_of(paper: Paper, scans: Scans) -> dict[str, Any] | None:
    """The picture of a paper for the page: its address and where it lies on the sheet. None where there is none, or it is gone."""
    if paper.scan is None or not scans.has(paper.scan.picture):
        return None
    word = paper.scan.picture
    return {
        "address": f"/picture/{word}.jpg?{scans.version(word)}",
        "matrix": list(paper.scan.on_sheet((paper.sheet_width_mm, paper.sheet_height_mm))),
    }


def prints(plan: Plan, scans: Scans) -> dict[str, Any]:
    """For every paper its picture, and for every blank where its copies lie, sheet by sheet."""
    places: dict[str, list[dict[str, Any]]] = {}
    for paper in plan.papers:
        for sheet in sheets_of(plan, paper)[:MOST_SHOWN]:
            for one in sheet.lying * min(sheet.times, 2):
                places.setdefault(one.piece, []).append(
                    {"at": [float(to_mm(one.x)), float(to_mm(one.y))], "turn": one.turn}
                )
    return {
        "papers": {each.paper.key: picture_of(each.paper, scans) for each in plan.papers},
        "places": places,
    }
