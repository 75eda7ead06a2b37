"""The pages of a bench pack as pictures: made when they are first asked for, one pack after the other, and kept for a while."""

from __future__ import annotations

import io
import threading
from collections import OrderedDict
from typing import Final

from PIL import Image
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from kitwright.errors import InternalError, KitwrightError
from kitwright.plan import Plan
from kitwright.printouts.make.bench_pack import Section, bench_pack_source
from kitwright.printouts.page import Page, page_named
from kitwright.printouts.write.pdf import to_page_pngs
from kitwright.web.desk import batch_of, desk_of, stored
from kitwright.web.making import digest
from kitwright.web.taking import chosen

__all__ = ["Leaves", "leaf", "leaves"]

MOST_KEPT: Final = 4
"""Packs; each takes about a megabyte."""

DOTS_PER_INCH: Final = 80.0

SMALL: Final = 0.37
COLOURS: Final = 10
"""Size and colours of a small picture: enough for print and lines, at a tenth of the weight."""


class Leaves:
    """The pictures of the packs that were looked at last. Requests run in threads; those for the same pack wait for one making."""

    def __init__(self) -> None:
        self.lock = threading.Lock()
        self.kept: OrderedDict[tuple[str, int, str, tuple[Section, ...]], tuple[bytes, ...]] = OrderedDict()

    def of(self, document: str, plan: Plan, page: Page, sections: tuple[Section, ...]) -> tuple[bytes, ...]:
        """Every page of some sections of the pack of a document's plan, as PNG."""
        key = digest(document), plan.batch, page.key, sections
        with self.lock:
            if key not in self.kept:
                self.kept[key] = to_page_pngs(bench_pack_source(plan, page, sections), dots_per_inch=DOTS_PER_INCH)
            self.kept.move_to_end(key)
            while len(self.kept) > MOST_KEPT:
                self.kept.popitem(last=False)
            return self.kept[key]


def small(page: bytes) -> bytes:
    """A page small and in few colours, for the list of them."""
    with Image.open(io.BytesIO(page)) as whole:
        size = round(whole.width * SMALL), round(whole.height * SMALL)
        less = whole.convert("RGB").resize(size, Image.Resampling.LANCZOS)
    out = io.BytesIO()
    less.quantize(COLOURS, dither=Image.Dither.NONE).save(out, "PNG", optimize=True)
    return out.getvalue()


def leaves(request: Request) -> Response:
    """How many pages the pack has, their size in dots, and a word that changes with what is on them."""
    kit = stored(request)
    try:
        made, page = pictures_of(request, kit.document)
    except KitwrightError as error:
        return JSONResponse({"mistake": str(error)}, 422)
    dots = [round(side / 25.4 * DOTS_PER_INCH) for side in (page.width, page.height)]
    return JSONResponse({"count": len(made), "size": dots, "stamp": digest(kit.document)[:12]})


def leaf(request: Request) -> Response:
    """One page as a PNG picture, numbered from 1; with `small` in the question as the list shows it."""
    try:
        made, _ = pictures_of(request, stored(request).document)
    except InternalError:
        raise
    except KitwrightError:
        raise HTTPException(404) from None
    number = request.path_params["number"]
    if not 1 <= number <= len(made):
        raise HTTPException(404)
    picture = small(made[number - 1]) if "small" in request.query_params else made[number - 1]
    return Response(picture, media_type="image/png", headers={"cache-control": "private, max-age=3600"})


def pictures_of(request: Request, document: str) -> tuple[tuple[bytes, ...], Page]:
    """The pictures that a request asks for, and their page. Raises `Mistake` or `Mistakes`."""
    desk, asked = desk_of(request), request.query_params
    page, sections = page_named(asked.get("page", "")), chosen(asked).sections
    if not sections:
        return (), page
    plan = desk.making.whole(document, batch_of(asked, 1))
    return request.app.state.leaves.of(document, plan, page, sections), page
