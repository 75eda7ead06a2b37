"""What can be taken away: the bench pack, single drawings, everything in one file, and the kit document itself."""

from __future__ import annotations

import io
import zipfile

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from kitwright.errors import KitwrightError
from kitwright.measure import Unit
from kitwright.printouts.make.bench_pack import bench_pack
from kitwright.printouts.make.whole_pack import whole_pack
from kitwright.printouts.page import A4, US_LETTER, page_named
from kitwright.web.desk import batch_of, desk_of, stored

__all__ = ["take"]

KINDS = {
    "pdf": "application/pdf",
    "svg": "image/svg+xml",
    "dxf": "image/vnd.dxf",
    "txt": "text/plain",
    "json": "application/json",
}


async def take(request: Request) -> Response:
    """One of the files. Its name is looked up among those that the pack has; it never becomes a path."""
    desk, kit = desk_of(request), stored(request)
    name, batch = request.path_params["name"], batch_of(request.query_params)
    wanted_page = request.query_params.get("page", "")
    if name == "kit.toml":
        return download(kit.document.encode(), f"{kit.word}.toml", "application/toml")
    try:
        plan = await run_in_threadpool(desk.making.whole, kit.document, batch)
        page = page_named(wanted_page) if wanted_page else (US_LETTER if plan.kit.unit is Unit.INCH else A4)
        if name == "bench-pack.pdf":
            data = await run_in_threadpool(bench_pack, plan, page)
            return download(data, f"{kit.word}-bench-pack.pdf", KINDS["pdf"])
        files = await run_in_threadpool(lambda: whole_pack(plan, page=page.key))
    except KitwrightError:
        raise HTTPException(404) from None
    if name == "everything.zip":
        return download(zipped({**files, "kit.toml": kit.document.encode()}), f"{kit.word}.zip", "application/zip")
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
