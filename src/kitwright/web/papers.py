"""The page on which a paper gets its picture, and blanks are moved on their sheets: what it shows, and the pictures that it keeps."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Final
from urllib.parse import urlencode

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from kitwright.cutting import free_to_turn
from kitwright.errors import KitwrightError, Mistake
from kitwright.findings import Change
from kitwright.kit import apply_changes, quoted, read_kit
from kitwright.paper import Paper, UpEdge
from kitwright.plan import Plan, ProvedKit
from kitwright.printouts.make.sheet_pages import hand_sentences, layout_letter
from kitwright.web import pictures
from kitwright.web.desk import Desk, batch_of, desk_of, fields, kits_of, see_other, stored
from kitwright.web.kit_changes import kept
from kitwright.web.printed import picture_of, prints, sheets_of
from kitwright.workshop import LARGEST_PICTURE, StoredKit

__all__ = ["address", "bring_picture", "change_scan", "paper_of", "papers", "picture", "picture_off", "places"]

UP_WORDS: Final = {
    UpEdge.TOP: "at the top of the picture",
    UpEdge.RIGHT: "at its right edge",
    UpEdge.BOTTOM: "at its lower edge",
    UpEdge.LEFT: "at its left edge",
}
MOST_OUT_OF_SHAPE: Final = 0.03
"""By how much a picture may be longer or shorter than what it shows before that is said; common practice, no source."""


def used_papers(proved: ProvedKit) -> tuple[Paper, ...]:
    """The papers from which something is cut."""
    used = {part.part.paper for part in proved.built.parts}
    return tuple(paper for key, paper in proved.kit.papers.items() if key in used)


def papers(desk: Desk, request: Request, _: StoredKit, proved: ProvedKit) -> dict[str, Any]:
    """One paper: its picture, and the frame into which its sheets come when they are found."""
    every = used_papers(proved)
    wanted = request.query_params.get("paper", "")
    paper = next((each for each in every if each.key == wanted), every[0])
    scans = desk.workshop.scans
    first = next(n for n, part in enumerate(proved.built.parts) if part.part.paper == paper.key)
    has = paper.scan is not None and scans.has(paper.scan.picture)
    return {
        "papers": every,
        "paper": paper,
        "kits": kits_of(request, 1),
        "sheet_size": proved.ruler.size(paper.sheet_width_mm, paper.sheet_height_mm),
        "shows": proved.ruler.size(*paper.scan.shows) if paper.scan and paper.scan.shows else "",
        "at": proved.ruler.size(*paper.scan.at) if paper.scan and any(paper.scan.at) else "",
        "picture": picture_of(paper, scans),
        "is_missing": paper.scan is not None and not has,
        "shape": out_of_shape(paper, scans.size(paper.scan.picture)) if paper.scan and has else "",
        "up_words": UP_WORDS,
        "others": [word for word in scans.words() if paper.scan is None or word != paper.scan.picture],
        "removed": scans.removed(),
        "unit": proved.ruler.unit.value,
        "largest": LARGEST_PICTURE // 1_000_000,
        "number": first,
        "called": proved.built.parts[first].name,
        "still": pictures.folded(proved.built.parts[first]),
        "prints_from": "",
        "inside": None,
    }


def out_of_shape(paper: Paper, dots: tuple[int, int]) -> str:
    """What is to be said of a picture that is not of the shape of what it shows; nothing for one that is."""
    scan = paper.scan
    if scan is None:
        return ""
    wide, high = scan.shows or (paper.sheet_width_mm, paper.sheet_height_mm)
    across, up = dots if scan.up in (UpEdge.TOP, UpEdge.BOTTOM) else dots[::-1]
    stretch = float(wide / high) / (across / up)
    if abs(stretch - 1) <= MOST_OUT_OF_SHAPE:
        return ""
    way = "wider" if stretch > 1 else "narrower"
    return f"The picture is stretched: what it is said to show is {abs(stretch - 1):.0%} {way} than the picture itself."


async def bring_picture(request: Request) -> Response:
    """A picture for a paper, from the maker's computer. Its file name is not used."""
    desk, kit = desk_of(request), stored(request)
    async with request.form(max_files=1, max_fields=8) as form:
        given = form.get("picture")
        data = await given.read(LARGEST_PICTURE + 1) if isinstance(given, UploadFile) else b""
        said = {name: value for name, value in form.multi_items() if isinstance(value, str)}

    def change() -> tuple[str, str]:
        paper = paper_of(kit, said)
        if not data:
            raise Mistake("There is no picture in this.", do="Choose a file first.")
        word = desk.workshop.scans.add(data, paper.key)
        return with_scan(kit, paper, scan_value(word, {})), f"{paper.label}: picture “{word}”"

    return await kept(desk, kit, said, change, back=address(kit, said))


async def change_scan(request: Request) -> Response:
    """How much a picture shows and where its up is; or another picture that is in the workshop; or none."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)

    def change() -> tuple[str, str]:
        paper = paper_of(kit, form)
        word = form.get("picture", "")
        if not word:
            return with_scan(kit, paper, ""), f"{paper.label}: no picture"
        if not desk.workshop.scans.has(word):
            raise Mistake("This picture is not in the workshop.", do="Choose another, or bring one.")
        return with_scan(kit, paper, scan_value(word, form)), f"{paper.label}: picture “{word}”"

    return await kept(desk, kit, form, change, back=address(kit, form))


def scan_value(word: str, form: dict[str, str]) -> str:
    """The value of `scan` with what was typed; whether it makes sense is for the document's own reader to say."""
    said = {key: form.get(key, "").strip() for key in ("shows", "at", "up")}
    usual = {"up": UpEdge.TOP.value}
    typed = [f"{key} = {quoted(value)}" for key, value in said.items() if value and value != usual.get(key)]
    return f"{{ {', '.join([f'picture = {quoted(word)}', *typed])} }}"


def with_scan(kit: StoredKit, paper: Paper, value: str) -> str:
    """The document with another picture for a paper; an empty value takes it out."""
    return apply_changes(kit.document, [Change(paper.key, "scan", value, table="paper")])


def paper_of(kit: StoredKit, form: dict[str, str]) -> Paper:
    """The paper that a form is about. Raises the 404 page."""
    paper = read_kit(kit.document).papers.get(form.get("paper", ""))
    if paper is None:
        raise HTTPException(404)
    return paper


def address(kit: StoredKit, form: dict[str, str]) -> str:
    """Back to the paper that a form is about."""
    return f"/kit/{kit.word}/paper?{urlencode({'paper': form.get('paper', '')[:60], 'kits': batch_of(form, 1)})}"


def picture(request: Request) -> Response:
    """A picture of a paper."""
    try:
        data = desk_of(request).workshop.scans.read(request.path_params["picture"])
    except KeyError:
        raise HTTPException(404) from None
    return Response(data, media_type="image/jpeg", headers={"cache-control": "private, max-age=31536000, immutable"})


async def picture_off(request: Request) -> Response:
    """Take a picture out of the workshop, put one back, or throw one away for good."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)
    scans = desk.workshop.scans
    does: dict[str, Callable[[str], None]] = {
        "off": scans.remove,
        "back": scans.put_back,
        "away": scans.throw_away,
    }
    try:
        does[form.get("do", "")](form.get("picture", ""))
    except KeyError:
        raise HTTPException(404) from None
    return see_other(address(kit, form))


def places(request: Request) -> Response:
    """Where everything lies, once the layouts are found: sheets of one paper, blanks with their outlines, pictures of all papers."""
    desk, kit = desk_of(request), stored(request)
    batch = batch_of(request.query_params, 1)
    try:
        found = desk.making.search(kit.document, batch)
        if not found.outcome.done():
            return JSONResponse({"done": False})
        plan = desk.making.outcome(found)
    except KitwrightError as error:
        return JSONResponse({"done": True, "mistake": str(error)}, 422)
    return JSONResponse({"done": True, **prints(plan, desk.workshop.scans), **sheets_data(plan, request)})


def sheets_data(plan: Plan, request: Request) -> dict[str, Any]:
    """The sheets of the paper that was asked for; nothing where none was."""
    key = request.query_params.get("paper")
    paper = next((each for each in plan.papers if each.paper.key == key), None)
    if paper is None:
        return {}
    stock = paper.stocks[0]
    numbers = {part.name: number for number, part in enumerate(plan.built.parts)}
    allowed = {each.name: each.turns for each in free_to_turn(paper.demand, any_way_up=paper.paper.can_turn)}
    return {
        "said": list(hand_sentences(paper)),
        "ruler": {"step": float(plan.ruler.step), "unit": plan.ruler.unit.value, "one": float(plan.ruler.unit.mm)},
        "stock": {
            "size": [stock.width / 1e6, stock.height / 1e6],
            "margins": [
                each / 1e6
                for each in (stock.margins.left, stock.margins.bottom, stock.margins.right, stock.margins.top)
            ],
        },
        "blanks": {
            line.label: {
                "size": list(line.blank.size),
                "outline": [list(point) for point in line.blank.outline],
                "scores": [[list(score.start), list(score.end)] for score in line.blank.scores],
                "part": numbers[line.part.name],
                "copies": line.blank.copies,
                "turns": list(allowed[line.label]),
            }
            for line in paper.lines
        },
        "sheets": [
            {
                "letter": layout_letter(sheet.number),
                "times": sheet.times,
                "hand": sheet.by_hand,
                "free": sheet.is_free,
                "pieces": [{"blank": one.piece, "x": one.x, "y": one.y, "turn": one.turn} for one in sheet.lying],
            }
            for sheet in sheets_of(plan, paper)
        ],
    }
