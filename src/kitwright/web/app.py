"""The server of the workbench page: its addresses, and what is said when something goes wrong."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from importlib import resources

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from kitwright.printouts.style import DARK, LIGHT
from kitwright.printouts.write.svg import svg_theme_css
from kitwright.web import (
    boxes,
    entering,
    flat,
    kit_changes,
    kit_pages,
    laying,
    leaves,
    mats,
    papers,
    shelf,
    taking,
    things,
)
from kitwright.web.desk import Desk
from kitwright.web.failing import Contained, told
from kitwright.web.guard import ENTER, OWN_NAMES, Guard
from kitwright.web.workroom import Door
from kitwright.workshop import Workshop

__all__ = ["make_app"]

KINDS = {"css": "text/css", "js": "text/javascript", "svg": "image/svg+xml", "otf": "font/otf"}
FONT = "source-sans.otf"
DRAWING_COLOURS = "drawing.css"


def make_app(
    workshop: Workshop, *, door: Door | None = None, names: frozenset[str] = OWN_NAMES, noted_in: str = ""
) -> Starlette:
    """The page for one workshop, under the names of its server; with a `door` only for those who know its pass-phrase.

    `noted_in` is the name of the file that has the program's own mistakes, to be told with them; they go to the logger `kitwright`.
    """

    @asynccontextmanager
    async def lifespan(app: Starlette) -> AsyncIterator[None]:
        yield
        app.state.desk.making.close()

    on_kit = "/kit/{word}"
    posts = {
        "try": things.try_thing,
        **dict.fromkeys(things.TABLES, things.keep_thing),
        "add": things.add_thing,
        "take-out": things.take_out_thing,
        "mend": kit_changes.mend,
        "rename": kit_changes.rename,
        "alike": kit_changes.choose_layouts,
        "text": kit_changes.keep_text,
        "check-text": kit_changes.check_text,
        "undo": kit_changes.undo,
        "go": kit_changes.go_to,
        "copy": kit_changes.copy,
        "remove": kit_changes.remove,
        "stop": kit_changes.stop_search,
        "take-box": boxes.take_box,
        "picture": papers.bring_picture,
        "scan": papers.change_scan,
        "pictures": papers.picture_off,
        "lay": laying.lay,
        "lay-back": laying.lay_back,
        "lay-try": laying.try_places,
        "put-back": shelf.put_back,
    }
    at_the_door = [
        Route(ENTER, entering.enter_page, methods=["GET"]),
        Route(ENTER, entering.enter, methods=["POST"]),
        Route("/leave", entering.leave, methods=["POST"]),
    ]
    app = Starlette(
        routes=[
            *([] if door is None else at_the_door),
            Route("/", shelf.shelf),
            Route("/new", shelf.new, methods=["GET"]),
            Route("/new", shelf.begin, methods=["POST"]),
            Route("/example", shelf.example, methods=["POST"]),
            Route("/bring", shelf.bring, methods=["POST"]),
            Route("/look/{name}", look),
            Route("/picture/{picture}.jpg", papers.picture),
            *(Route(f"{on_kit}/{name}", endpoint, methods=["POST"]) for name, endpoint in posts.items()),
            Route(on_kit, kit_pages.kit_page),
            Route(f"{on_kit}/picture.svg", shelf.picture),
            Route(f"{on_kit}/fold/whole", kit_pages.fold_whole),
            Route(f"{on_kit}/fold/{{number:int}}", kit_pages.fold),
            Route(f"{on_kit}/flat/{{number:int}}", flat.flat_piece),
            Route(f"{on_kit}/search", kit_pages.search),
            Route(f"{on_kit}/mats", mats.mats),
            Route(f"{on_kit}/mats/{{name:path}}", mats.take_mats),
            Route(f"{on_kit}/places", papers.places),
            Route(f"{on_kit}/leaves", leaves.leaves),
            Route(f"{on_kit}/leaves/{{number:int}}.png", leaves.leaf),
            Route(f"{on_kit}/take/{{name:path}}", taking.take),
            Route(f"{on_kit}/{{view}}", kit_pages.kit_page),
        ],
        middleware=[
            Middleware(Guard, names=names, door=door),
            Middleware(GZipMiddleware, minimum_size=500),
            Middleware(Contained),
        ],
        exception_handlers={HTTPException: told},
        lifespan=lifespan,
    )
    app.state.door = door
    app.state.desk = Desk.of(workshop, noted_in=noted_in)
    app.state.leaves = leaves.Leaves()
    app.state.look = read_look()
    return app


def read_look() -> dict[str, bytes]:
    """Style sheets, modules and the font, by the names under which the page asks for them."""
    import font_source_sans_pro  # noqa: PLC0415  (only a folder of fonts)

    found = {
        each.name: each.read_bytes()
        for each in resources.files("kitwright.web").joinpath("static").iterdir()
        if each.name.rsplit(".", 1)[-1] in KINDS
    }
    colours = (
        svg_theme_css(LIGHT) + "@media screen and (prefers-color-scheme: dark){" + svg_theme_css(DARK, ".themed") + "}"
    )
    with open(font_source_sans_pro.font_files_otf["SourceSansPro"], "rb") as font:  # noqa: PTH123
        return {**found, DRAWING_COLOURS: colours.encode(), FONT: font.read()}


def look(request: Request) -> Response:
    """A style sheet, a module or the font."""
    files: dict[str, bytes] = request.app.state.look
    name = request.path_params["name"]
    if name not in files:
        raise HTTPException(404)
    kind = KINDS[name.rsplit(".", 1)[-1]]
    keep = "max-age=86400" if name == FONT else "no-cache"
    return Response(files[name], media_type=kind, headers={"cache-control": keep})
