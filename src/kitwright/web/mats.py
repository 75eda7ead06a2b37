"""The mats of a cutting machine on the page: begun when wished, shown paper by paper, and taken away as files."""

from __future__ import annotations

import re
from typing import Any, Final

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from kitwright.errors import KitwrightError
from kitwright.plan import MachinePaper, Plan
from kitwright.printouts.make.mat_files import mat_file_name, mat_files, mat_title
from kitwright.printouts.make.mat_pages import mat_drawing, mat_sentences
from kitwright.printouts.make.signs import signs_of
from kitwright.web import pictures
from kitwright.web.desk import batch_of, desk_of, stored
from kitwright.web.taking import KINDS, download, zipped

__all__ = ["mats", "take_mats"]

ALL: Final = "all-mats.zip"
FILE: Final = re.compile(r"[\w-]{1,80}-mat-\d{1,6}\.(svg|dxf)")
GONE: Final = "These mats are no longer at hand. Lay the blanks on mats once more, under Sheets."


def mats(request: Request) -> Response:
    """How far the mats of a batch are, begun if they were not, and the page's piece with the papers that are done.

    The sheets for the trimmer come first, because the mats are compared with them. With `again`, mats that were stopped or failed are
    laid anew.
    """
    desk, kit, asked = desk_of(request), stored(request), request.query_params
    batch = batch_of(asked, 1)
    try:
        found = desk.making.nesting(kit.document, batch)
        if found is None or ("again" in asked and found.is_useless):
            trimmer = desk.making.search(kit.document, batch)
            if not trimmer.outcome.done():
                return JSONResponse({"done": False, "begun": False, "words": trimmer.words, "share": 0})
            found = desk.making.begin_nesting(kit.document, desk.making.outcome(trimmer))
        is_done = found.outcome.done()
        papers = found.outcome.result() if is_done else found.papers
    except KitwrightError as error:
        return JSONResponse({"done": True, "mistake": str(error)}, 422)
    shown = len(papers)
    told = {"done": is_done, "begun": True, "shown": shown, "words": found.words, "share": round(found.share, 3)}
    if (shown or is_done) and (is_done or str(shown) != asked.get("seen")):
        template = desk.templates.get_template("mats_found.html")
        told["html"] = template.render(
            word=kit.word,
            kits=batch,
            is_done=is_done,
            is_stopped=found.is_stopped,
            every=ALL,
            papers=[paper_values(found.plan, paper) for paper in papers],
        )
    return JSONResponse(told)


def paper_values(plan: Plan, paper: MachinePaper) -> dict[str, Any]:
    """One paper on mats: what is to be said of it, and every mat with its picture."""
    signs = signs_of(plan)
    return {
        "label": paper.paper.label,
        "sentences": tuple(mat_sentences(paper, plan.ruler)),
        "mats": [
            (
                title,
                mat_file_name(paper, number),
                pictures.inline(
                    mat_drawing(paper, number, plan.ruler, signs, width=80, height=88),
                    title=title,
                    description=f"Blanks on a mat. {title}",
                ),
            )
            for number in range(len(paper.nested.layouts))
            for title in [mat_title(paper, number)]
        ],
    }


async def take_mats(request: Request) -> Response:
    """The picture or the lines of one mat, or all files of all mats in one. The name is looked up; it never becomes a path."""
    desk, kit, name = desk_of(request), stored(request), request.path_params["name"]
    if name != ALL and not FILE.fullmatch(name):
        raise HTTPException(404)
    found = desk.making.nesting(kit.document, batch_of(request.query_params, 1))
    if found is None or not found.papers:
        return desk.page("failure.html", words=GONE, code=404)
    papers, plan = found.papers, found.plan
    files = await run_in_threadpool(
        lambda: {key: data for paper in papers for key, data in mat_files(plan, paper).items()}
    )
    if name == ALL:
        return download(zipped(files), f"{kit.word}-mats.zip", "application/zip")
    if name not in files:
        raise HTTPException(404)
    kind = name.rsplit(".", 1)[-1]
    return download(files[name], f"{kit.word}-mat.{kind}" if not name.isascii() else f"{kit.word}-{name}", KINDS[kind])
