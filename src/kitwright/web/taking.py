"""What can be taken away: the bench pack, single drawings, everything in one file, and the kit document itself."""

from __future__ import annotations

import io
import zipfile
from dataclasses import dataclass
from typing import Final

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import QueryParams
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from kitwright.errors import InternalError, KitwrightError
from kitwright.measure import Unit
from kitwright.printouts.make.bench_pack import Section
from kitwright.printouts.make.whole_pack import Kind, whole_pack
from kitwright.printouts.page import A4, US_LETTER, page_named
from kitwright.web.desk import batch_of, desk_of, stored

__all__ = ["Chosen", "chosen", "take"]

KINDS = {
    "pdf": "application/pdf",
    "svg": "image/svg+xml",
    "dxf": "image/vnd.dxf",
    "txt": "text/plain",
    "json": "application/json",
}


KIND_IN: Final = {
    ("patterns", "svg"): Kind.PATTERNS,
    ("patterns", "dxf"): Kind.LINES,
    ("folded", "svg"): Kind.FOLDED,
    ("sheets", "svg"): Kind.LAYOUTS,
    ("", "txt"): Kind.PROOF,
    ("", "json"): Kind.DATA,
}
"""The kind of a single file, by its folder in the pack and how its name ends."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """Which sections of the bench pack and which kinds of files are wanted, and whether the kit's own text is."""

    sections: tuple[Section, ...]
    kinds: tuple[Kind, ...]
    text: bool


def chosen(asked: QueryParams) -> Chosen:
    """What is ticked; everything where nothing was chosen at all (an address without a form)."""
    if "chosen" not in asked:
        return Chosen(tuple(Section), tuple(Kind), True)
    if "only" in asked:
        return Chosen(tuple(each for each in Section if each.value == asked["only"]), (), False)
    ticked, files = asked.getlist("section"), asked.getlist("file")
    sections = tuple(each for each in Section if each.value in ticked)
    kinds = tuple(each for each in Kind if each.value in files and each is not Kind.PAGES)
    return Chosen(sections, (Kind.PAGES, *kinds) if sections else kinds, "text" in files)


async def take(request: Request) -> Response:
    """One of the files. Its name is looked up among those that the pack has; it never becomes a path."""
    desk, kit = desk_of(request), stored(request)
    name, batch = request.path_params["name"], batch_of(request.query_params)
    wanted_page, wanted = request.query_params.get("page", ""), chosen(request.query_params)
    if name == "kit.toml":
        return download(kit.document.encode(), f"{kit.word}.toml", "application/toml")
    is_whole, is_pack = name == "everything.zip", name == "bench-pack.pdf"
    if (is_pack and not wanted.sections) or (is_whole and not (wanted.kinds or wanted.text)):
        return desk.page("failure.html", words="Nothing is chosen. Go back and tick what you want.", code=422)
    folder, _, last = name.rpartition("/")
    kind = Kind.PAGES if is_pack else KIND_IN.get((folder, last.rpartition(".")[2]))
    if kind is None and not is_whole:
        raise HTTPException(404)
    kinds = wanted.kinds if is_whole or kind is None else (kind,)
    if wanted_page not in ("", US_LETTER.key, A4.key):
        raise HTTPException(404)
    try:
        plan = await run_in_threadpool(desk.making.whole, kit.document, batch)
        page = page_named(wanted_page) if wanted_page else (US_LETTER if plan.kit.unit is Unit.INCH else A4)
        files = await run_in_threadpool(lambda: whole_pack(plan, page=page.key, kinds=kinds, sections=wanted.sections))
    except InternalError:
        raise
    except KitwrightError as error:
        return desk.page("failure.html", words=f"This cannot be made. {error}", code=422)
    if is_whole:
        text = {"kit.toml": kit.document.encode()} if wanted.text else {}
        return download(zipped({**files, **text}), f"{kit.word}.zip", "application/zip")
    if name not in files:
        raise HTTPException(404)
    return download(files[name], f"{kit.word}-{name.replace('/', '-')}", KINDS[name.rsplit(".", 1)[-1]])


def zipped(files: dict[str, bytes]) -> bytes:
    """All files in one, the same bytes every time."""
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED) as pack:
        for name in sorted(files):
            pack.writestr(zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0)), files[name], zipfile.ZIP_DEFLATED)
    return whole.getvalue()


def download(data: bytes, name: str, kind: str) -> Response:
    """A file for the maker's computer. The name is made of small letters, digits, hyphens and dots only."""
    return Response(data, media_type=kind, headers={"content-disposition": f'attachment; filename="{name}"'})
