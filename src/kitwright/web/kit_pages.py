"""The pages of one kit."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from types import MappingProxyType
from typing import Any, Final

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from kitwright.catalogue import CATALOGUE
from kitwright.errors import InternalError, KitwrightError
from kitwright.findings import Severity
from kitwright.kit import BuiltKit, BuiltPart, Filling, boxes_of, filling, post_findings
from kitwright.paper import sheet_weight_g
from kitwright.plan import PaperPlan, Plan, ProvedKit
from kitwright.printouts.make.bench_pack import Section
from kitwright.printouts.make.bench_words import step_words
from kitwright.printouts.make.left_over import left_over_sentences
from kitwright.printouts.make.proof_words import NO_FIX, SEVERITY_WORDS, change_words, share_words
from kitwright.printouts.make.sheet_pages import FREE_WORDS, bound_sentence, hand_sentences, layout_letter, layout_title
from kitwright.printouts.make.whole_pack import Kind, file_names
from kitwright.web import papers, pictures
from kitwright.web.boxes import boxes_page
from kitwright.web.contained import contained
from kitwright.web.desk import Desk, batch_of, desk_of, kits_of, remember_kits, stored
from kitwright.web.fields import NOTHING_TYPED, Typed
from kitwright.web.flat import flat
from kitwright.web.fold_data import box_of, fold_data, hues_of, whole_data
from kitwright.web.materials import materials_values
from kitwright.web.numbers import belongs_fields, fields_of
from kitwright.web.prints_under import has_print
from kitwright.web.stash import stash_page
from kitwright.web.supplies import extra_fields, machine_fields, new_extra, new_paper, new_part, paper_fields
from kitwright.workshop import Scans, StoredKit, Trouble

__all__ = [
    "fold",
    "fold_whole",
    "frame_values",
    "kit_page",
    "part_values",
    "parts_values",
    "search",
    "sheets_values",
]


def parts(_: Desk, __: Request, kit: StoredKit, proved: ProvedKit) -> dict[str, Any]:
    """Every part, paper and thing that is bought."""
    return parts_values(kit.document, proved, NOTHING_TYPED)


def parts_values(document: str, proved: ProvedKit, typed: Typed) -> dict[str, Any]:
    """Parts with their numbers and pictures, papers, things that are bought, and the fields for more of each."""
    built, unit = proved.built, proved.kit.unit
    return {
        "parts": [part_values(built, number) for number in range(len(built.parts))],
        "papers": [
            (f"paper-{n}", n, paper, paper_fields(document, word, built))
            for n, (word, paper) in enumerate(proved.kit.papers.items())
        ],
        "extras": [
            (f"extra-{n}", n, extra, extra_fields(document, extra.name, unit))
            for n, extra in enumerate(proved.kit.extras)
        ],
        "new": {"part": new_part(built), "paper": new_paper(built), "extra": new_extra(unit)},
        "others": [part.name for part in built.parts],
        "holders": [part.name for part in built.parts if part.part.holds],
        "things": [*(part.name for part in built.parts), *(extra.name for extra in proved.kit.extras)],
        "forms": tuple(CATALOGUE.values()),
        "typed": typed,
    }


def part_values(built: BuiltKit, number: int) -> dict[str, Any]:
    """One part: fields, pictures, where its size comes from, and what belongs to it."""
    part = built.parts[number]
    said = part.part
    relations = [
        *([f"lies on {said.on}"] if said.on else []),
        *([f"holds {', '.join(said.holds)}"] if said.holds else []),
        *([f"covers {said.covers}"] if said.covers else []),
        *([f"goes round {said.wraps}"] if said.wraps else []),
    ]
    return {
        "number": number,
        "id": f"part-{number}",
        "part": part,
        "fields": fields_of(built, part),
        "belongs": belongs_fields(built, part),
        "relations": relations,
        "is_box": part in boxes_of(built),
        "size": f"{built.kit.ruler.size(*(part.lengths[name] for name in part.form.size))} {built.kit.unit.value}",
        "picture": pictures.folded(part),
    }


def folded(desk: Desk, request: Request, kit: StoredKit, proved: ProvedKit) -> dict[str, Any]:
    """The folded view of one part, or of the whole kit."""
    kits = kits_of(request, 1)
    scans = desk.workshop.scans
    has_prints = any(paper.scan and scans.has(paper.scan.picture) for paper in proved.kit.papers.values())
    said, box = request.query_params.get("part", "0"), box_of(proved.built)
    is_whole = said == "whole" and box is not None
    number = int(said) if said.isascii() and said.isdigit() and int(said) < len(proved.built.parts) else 0
    part = box if is_whole and box is not None else proved.built.parts[number]
    return {
        "number": "whole" if is_whole else number,
        "called": proved.kit.name if is_whole else part.name,
        "still": pictures.whole(proved.built) if is_whole else pictures.folded(part),
        "has_box": box is not None,
        "inside": inside_of(proved, part, is_whole=is_whole),
        "prints_from": f"/kit/{kit.word}/places?kits={kits}" if has_prints else "",
    }


def filled(proved: ProvedKit, part: BuiltPart) -> Filling:
    """What was found to lie in a part."""
    return filling(proved.built, part, proved.proof.findings)


def inside_of(proved: ProvedKit, part: BuiltPart, *, is_whole: bool) -> dict[str, Any] | None:
    """What a part holds: names with their counts and the number of their colour in the picture, if they are in it; None for nothing.

    With the whole kit, also what lies beside the box.
    """
    things, found = proved.built.things_in(part), filled(proved, part)
    hues = hues_of(found)
    held = {name for each in proved.built.parts for name in each.part.holds}
    if not things:
        return None
    return {
        "things": [(thing.count, thing.name, hues.get(thing.name)) for thing in things],
        "why_not": found.why_not,
        "left_out": found.left_out,
        "is_drawn": bool(found.blocks),
        "beside": [each.name for each in proved.kit.extras if each.name not in held] if is_whole else [],
    }


def fits(_: Desk, __: Request, ___: StoredKit, proved: ProvedKit) -> dict[str, Any]:
    """The proof, from grave to good."""
    order = (Severity.FAIL, Severity.UNKNOWN, Severity.WARNING, Severity.NOTE, Severity.OK)
    groups = [(severity, SEVERITY_WORDS[severity], proved.proof.of(severity)) for severity in order]
    return {
        "groups": [group for group in groups if group[2]],
        "boxes": [part.name for part in boxes_of(proved.built)],
        "post": post_findings(proved.built),
        "words": {severity: SEVERITY_WORDS[severity] for severity in order},
        "picture": partial(pictures.fit, proved.built),
        "changes": partial(change_words, proved.built),
        "share": share_words,
        "no_fix": NO_FIX,
    }


def sheets(_: Desk, request: Request, kit: StoredKit, proved: ProvedKit) -> dict[str, Any]:
    """The frame of the sheets and materials pages; what is in it comes when layouts are found."""
    return frame_values(kit.document, proved, NOTHING_TYPED, kits=kits_of(request))


def frame_values(document: str, proved: ProvedKit, typed: Typed, *, kits: int) -> dict[str, Any]:
    """How many kits, and the fields of the cutting machine."""
    return {"kits": kits, "machine": machine_fields(document, proved.kit), "typed": typed}


def sheets_values(desk: Desk, plan: Plan) -> dict[str, Any]:
    """Layouts, counts and cuts of every paper."""
    ruler = plan.ruler
    return {
        "plan": plan,
        "papers": [
            {
                "paper": each,
                "sentence": bound_sentence(each),
                "by_hand": hand_sentences(each),
                "has_print": has_print(each.paper),
                "left_over": " ".join(left_over_sentences(each, ruler)),
                "lacking": [one.sentence(ruler) for one in each.cut_plan.unplaced],
                "weight": sheet_weight_g(each.paper) * each.sheets,
                "layouts": layouts_of(plan, each, desk.workshop.scans),
            }
            for each in plan.papers
        ],
    }


def layouts_of(plan: Plan, paper: PaperPlan, scans: Scans) -> list[dict[str, Any]]:
    """Every kind of sheet of a paper: its title, its picture, its cuts; or how it is cut otherwise."""
    found = paper.cut_plan.layouts
    return [
        {
            "title": layout_title(paper, number),
            "letter": layout_letter(number),
            "picture": picture,
            "steps": [step_words(step, plan.ruler) for step in paper.steps if step.layout == number],
            "free": FREE_WORDS if number >= len(found) else "",
        }
        for number, picture in enumerate(pictures.layouts(plan, paper, scans))
    ]


def bench(desk: Desk, request: Request, kit: StoredKit, _: ProvedKit) -> dict[str, Any]:
    """One step at a time, in large letters."""
    kits = kits_of(request)
    return {"steps": desk.making.steps(kit.document, kits, desk.workshop.scans), "kits": kits}


def printing(_: Desk, request: Request, __: StoredKit, proved: ProvedKit) -> dict[str, Any]:
    """What can be taken away: pages, drawings and texts, each with its picture where it has one."""
    lines, parts = pictures.lines_of(proved.built), proved.built.parts
    return {
        "kits": kits_of(request),
        "sections": tuple(Section),
        "kinds": [kind for kind in Kind if kind is not Kind.PAGES],
        "lines": lines,
        "thumbs": [
            pictures.flat(proved.ruler, line.part, line.blank, line.label, width=90, height=70) for line in lines
        ],
        "names": file_names(line.label for line in lines),
        "folded": [(part.name, pictures.folded(part)) for part in parts],
        "folded_names": file_names(part.name for part in parts),
    }


def layouts_values(_: Desk, plan: Plan) -> dict[str, Any]:
    """The layouts as pictures that can be taken away."""
    names = file_names(each.paper.key for each in plan.papers)
    return {
        "layouts": [
            (f"{each.paper.label}, layout {number}", f"{names[each.paper.key]}-{number}", picture)
            for each in plan.papers
            for number, picture in enumerate(pictures.layouts(plan, each), 1)
        ]
    }


PAGES: Final[Mapping[str, Callable[[Desk, Request, StoredKit, ProvedKit], dict[str, Any]]]] = MappingProxyType(
    {
        "parts": parts,
        "flat": flat,
        "folded": folded,
        "paper": papers.papers,
        "fits": fits,
        "sheets": sheets,
        "materials": sheets,
        "bench": bench,
        "print": printing,
        "stash": stash_page,
        "boxes": boxes_page,
    }
)


def kit_page(request: Request) -> Response:
    """A page of a kit; where its text has mistakes, those, except on the pages of the text itself."""
    desk, kit = desk_of(request), stored(request)
    view = request.path_params.get("view", "parts")
    if view not in PAGES and view not in ("text", "history"):
        raise HTTPException(404)
    proved, error = proved_kit(desk, kit)
    if view == "text":
        return desk.text_page(kit, kit.document, proved=proved, error=error)
    if view == "history":
        revisions = desk.workshop.revisions(kit.word)
        return desk.kit_page("history", kit, proved, revisions=revisions)
    if proved is None:
        return desk.broken_page(view, kit, error or InternalError(), is_text=True)
    try:
        with contained(f"showing the page {view}"):
            page = desk.kit_page(view, kit, proved, **PAGES[view](desk, request, kit, proved))
    except Trouble:
        raise
    except KitwrightError as found:
        return desk.broken_page(view, kit, found, is_text=False)
    return remember_kits(page, request, kit)


def proved_kit(desk: Desk, kit: StoredKit) -> tuple[ProvedKit | None, KitwrightError | None]:
    """A kit built and proved, or what is wrong in its text or with the program."""
    try:
        return desk.making.proved(kit.document), None
    except KitwrightError as error:
        return None, error


def fold(request: Request) -> Response:
    """What the folded view needs of one part; asked to be `filled`, also what goes in."""
    proved, _ = proved_kit(desk_of(request), stored(request))
    number = request.path_params["number"]
    if proved is None or number >= len(proved.built.parts):
        raise HTTPException(404)
    part = proved.built.parts[number]
    is_filled = "filled" in request.query_params
    return JSONResponse(fold_data(part, filled(proved, part)) if is_filled else fold_data(part))


def fold_whole(request: Request) -> Response:
    """What the folded view needs of the whole kit."""
    proved, _ = proved_kit(desk_of(request), stored(request))
    box = None if proved is None else box_of(proved.built)
    if proved is None or box is None:
        raise HTTPException(404)
    return JSONResponse(whole_data(proved.built, filled(proved, box)))


FOUND: Final[Mapping[str, Callable[[Desk, Plan], dict[str, Any]]]] = MappingProxyType(
    {"sheets": sheets_values, "materials": lambda _, plan: materials_values(plan), "print": layouts_values}
)
"""What is shown of the layouts once there are any, by the page that asks."""


def search(request: Request) -> Response:
    """How far the search for layouts is, and the page's piece with the best ones so far where it has not seen those yet."""
    desk, kit, asked = desk_of(request), stored(request), request.query_params
    batch, view = batch_of(asked, 1), asked.get("view", "sheets")
    if view not in FOUND:
        raise HTTPException(404)
    try:
        found = desk.making.search(kit.document, batch)
        is_done = found.outcome.done()
        best = desk.making.outcome(found) if is_done else found.best
    except KitwrightError as error:
        return JSONResponse({"done": True, "kits": batch, "html": "", "mistake": str(error)}, 422)
    if is_done and found.is_stopped:
        desk.making.forget(kit.document, batch)
    told = {"done": is_done, "kits": batch, "shown": found.shown, "words": found.words, "share": round(found.share, 3)}
    if best is not None and (is_done or str(found.shown) != asked.get("seen")):
        stopped = is_done and found.is_stopped
        template = desk.templates.get_template(f"{view}_found.html")
        told["html"] = template.render(**FOUND[view](desk, best), word=kit.word, kits=batch, is_stopped=stopped)
    return remember_kits(JSONResponse(told), request, kit) if is_done else JSONResponse(told)
