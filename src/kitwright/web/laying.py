"""Sheets laid by the maker's own hand: what a move means before it is kept, places that are typed, and what is kept of them."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Final

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from kitwright.cutting import FaultCode, PieceType, Placement, faults_of, free_to_turn, nm_down, to_mm, to_nm
from kitwright.errors import KitwrightError, Mistake
from kitwright.findings import Change
from kitwright.kit import Laid, apply_changes, laid_text, read_kit, read_laid_length, sheet_stock
from kitwright.measure import Unit
from kitwright.paper import Paper
from kitwright.plan import cut_lines, piece_type
from kitwright.web.desk import Desk, desk_of, fields, stored
from kitwright.web.kit_changes import kept, seen_revision
from kitwright.web.late import Offer
from kitwright.web.papers import address, paper_of
from kitwright.workshop import StoredKit

__all__ = ["lay", "lay_back", "try_places"]

THROUGH: Final = "Straight cuts from edge to edge free every blank: the trimmer does it."
NOT_THROUGH: Final = (
    "No straight cuts from edge to edge free these blanks. It can be kept so, but this sheet is then cut with scissors, or with a knife "
    "along a ruler, not on the trimmer; the order of cuts leaves it out."
)
EDGES: Final = ("left", "top", "below")
"""From where the place of a blank is typed."""

MOST_PIECES: Final = 200


def said_pieces(form: dict[str, str], demand: Sequence[PieceType]) -> tuple[Placement, ...]:
    """The pieces of a sheet as the page sends them. Raises the 404 page for what the page never sends."""
    known = {piece.name: piece for piece in demand}
    try:
        said = json.loads(form.get("pieces", ""))
        if not isinstance(said, list) or not 0 < len(said) <= MOST_PIECES:
            raise ValueError
        return tuple(said_piece(each, known) for each in said)
    except (ValueError, TypeError, KeyError, RecursionError):
        raise HTTPException(404) from None


def said_piece(said: dict[str, Any], known: dict[str, PieceType]) -> Placement:
    """One piece; whole nanometres. Raises `KeyError`, `TypeError` and `ValueError`."""
    x, y, turn = said["x"], said["y"], said["turn"]
    if not all(type(each) is int and abs(each) < 10**13 for each in (x, y, turn)) or turn not in range(4):
        raise ValueError
    piece = known[said["blank"]]
    return Placement(piece.name, turn, x, y, *piece.size(turn))


def demand_of(desk: Desk, kit: StoredKit, paper: Paper) -> tuple[PieceType, ...]:
    """What is cut from a paper for one kit, as it may be laid by hand."""
    built = desk.making.built(kit.document)
    lines = [line for part in built.parts if part.part.paper == paper.key for line in cut_lines(part, 1)]
    return free_to_turn([piece_type(line) for line in lines], any_way_up=paper.can_turn)


async def try_places(request: Request) -> Response:
    """What moving a blank means, before anything is kept; with a place that is typed for it, also where that is."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)

    def tried() -> dict[str, Any]:
        paper = paper_of(kit, form)
        demand = demand_of(desk, kit, paper)
        lying = said_pieces(form, demand)
        if "edge" not in form:
            return verdict(paper, demand, lying)
        try:
            number, moved = typed_place(form, lying, paper, desk.making.built(kit.document).kit.unit)
        except Mistake as mistake:
            return {"wrong": f"{mistake.what} {mistake.do}".strip()}
        return {
            **verdict(paper, demand, [*lying[:number], moved, *lying[number + 1 :]]),
            "at": {"x": moved.x, "y": moved.y},
        }

    return JSONResponse(await run_in_threadpool(tried))


def verdict(paper: Paper, demand: Sequence[PieceType], lying: Sequence[Placement]) -> dict[str, Any]:
    """What is to be said of pieces on a sheet, for the page."""
    is_well, is_through, words = judged(paper, demand, lying)
    return {"well": is_well, "through": is_through, "words": words}


def typed_place(form: dict[str, str], lying: Sequence[Placement], paper: Paper, unit: Unit) -> tuple[int, Placement]:
    """Which blank lies where by what was typed: how far it is from one edge of its sheet.

    Raises `Mistake` for a length that cannot be read, and the 404 page for what the page never sends.
    """
    which, edge, said = form.get("which", ""), form["edge"], form.get("typed", "").strip()
    if not (which.isascii() and which.isdigit() and len(which) < 6 and int(which) < len(lying)) or edge not in EDGES:
        raise HTTPException(404)
    if not said:
        raise Mistake("Nothing is written here.", do="Write how far the blank lies from this edge, like 1 1/2.")
    far, one = to_nm(read_laid_length(said, unit)), lying[int(which)]
    match edge:
        case "left":
            return int(which), replace(one, x=far)
        case "top":
            return int(which), replace(one, y=nm_down(paper.sheet_height_mm) - one.height - far)
        case _:
            return int(which), replace(one, y=far)


def judged(paper: Paper, demand: Sequence[PieceType], lying: Sequence[Placement]) -> tuple[bool, bool, list[str]]:
    """Whether pieces may lie so, whether through cuts free them, and that in words."""
    faults = faults_of(lying, sheet_stock(paper), demand)
    bad = [fault for fault in faults if fault.code is not FaultCode.NO_THROUGH_CUT]
    if bad:
        words = [fault.message for fault in bad]
        if any(fault.code is FaultCode.WRONG_TURN for fault in bad):
            words.append("The kit says how its print is turned: change that under “What goes in”.")
        return False, False, [*words, "It cannot be kept so."]
    return True, not faults, [NOT_THROUGH if faults else THROUGH]


async def lay(request: Request) -> Response:
    """Keep a sheet as the maker laid it, in place of the one that it came from."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)

    def change() -> tuple[str, str]:
        paper = paper_of(kit, form)
        demand = demand_of(desk, kit, paper)
        lying = said_pieces(form, demand)
        is_well, _, words = judged(paper, demand, lying)
        if not is_well:
            raise Mistake(" ".join(words))
        sheet = tuple(Laid(one.piece, (to_mm(one.x), to_mm(one.y)), one.turn) for one in lying)
        sheets = list(read_kit(kit.document).laid.get(paper.key, ()))
        place = hand_place(form, len(sheets))
        sheets[place:] = [sheet, *sheets[place + 1 :]]
        return with_laid(
            kit, paper, sheets
        ), f"{paper.label}: {', '.join(dict.fromkeys(one.piece for one in lying))} laid by hand"

    def offer() -> Offer | None:
        paper = paper_of(kit, form)
        try:
            then = read_kit(desk.workshop.document(kit.word, seen_revision(form)))
        except (KeyError, KitwrightError):
            return None
        if then.laid.get(paper.key) != read_kit(kit.document).laid.get(paper.key):
            return None  # the sheet that this one stands for may be another now
        lying = said_pieces(form, demand_of(desk, kit, paper))
        return Offer(((f"Laid by hand on {paper.label}", ", ".join(dict.fromkeys(one.piece for one in lying))),), form)

    return await kept(desk, kit, form, change, back=address(kit, form), offer=offer)


async def lay_back(request: Request) -> Response:
    """Let one sheet, or all that were laid by hand, be laid out by the search again."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)

    def change() -> tuple[str, str]:
        paper = paper_of(kit, form)
        sheets = list(read_kit(kit.document).laid.get(paper.key, ()))
        place = hand_place(form, len(sheets))
        left = [*sheets[:place], *sheets[place + 1 :]] if place < len(sheets) else []
        return with_laid(kit, paper, left), f"{paper.label}: laid out by the search again"

    return await kept(desk, kit, form, change, back=address(kit, form))


def hand_place(form: dict[str, str], usual: int) -> int:
    """Which of the sheets laid by hand a form is about; `usual` where it is about none of them."""
    said = form.get("hand", "")
    return int(said) if said.isascii() and said.isdigit() and len(said) < 6 and int(said) < usual else usual


def with_laid(kit: StoredKit, paper: Paper, sheets: Sequence[Sequence[Laid]]) -> str:
    """The document with other sheets laid by hand."""
    value = laid_text(sheets, read_kit(kit.document).unit) if sheets else ""
    return apply_changes(kit.document, [Change(paper.key, "laid", value, table="paper")])
