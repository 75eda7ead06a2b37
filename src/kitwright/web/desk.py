"""What every page works with: the workshop, the plans, the templates; and how answers are made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from jinja2 import Environment, PackageLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from kitwright.errors import InternalError, KitwrightError, Mistake, Mistakes
from kitwright.plan import MOST_KITS, ProvedKit
from kitwright.web.fields import grouped
from kitwright.web.making import Making
from kitwright.workshop import StoredKit, Trouble, Workshop

__all__ = [
    "MOST_FIELDS",
    "OFF_THE_SHELF",
    "USUAL_KITS",
    "VIEWS",
    "Desk",
    "batch_of",
    "code_of",
    "desk_of",
    "fields",
    "kits_of",
    "mistakes_of",
    "remember_kits",
    "see_other",
    "stored",
]

VIEWS: Final = (
    ("parts", "What goes in"),
    ("flat", "Flat"),
    ("folded", "Folded"),
    ("paper", "On the paper"),
    ("fits", "Does it fit?"),
    ("sheets", "Sheets"),
    ("materials", "Materials"),
    ("stash", "What I have"),
    ("bench", "At the bench"),
    ("print", "Print"),
    ("text", "Its text"),
    ("history", "History"),
)
"""The pages of a kit: the last word of their address, and what stands on their tab."""

OFF_THE_SHELF: Final = "This kit was taken off the shelf. It can be put back there, with all that was kept."

MOST_FIELDS: Final = 400

USUAL_KITS: Final = 6
"""A batch, where nothing is said of it."""


@dataclass(frozen=True, eq=False)
class Desk:
    """Workshop, plans and templates of one server."""

    workshop: Workshop
    making: Making
    templates: Environment

    @classmethod
    def of(cls, workshop: Workshop, *, noted_in: str = "") -> Desk:
        """A desk for a workshop; `noted_in` is the name of the file into which mistakes of the program are written, if they are."""
        environment = Environment(
            loader=PackageLoader("kitwright.web"),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
        environment.filters["grouped"] = grouped
        environment.globals["noted_in"] = noted_in
        return cls(workshop, Making(), environment)

    def page(self, template: str, *, code: int = 200, **values: Any) -> HTMLResponse:
        """A page from its template."""
        return HTMLResponse(self.templates.get_template(template).render(**values), code)

    def kit_page(
        self, view: str, kit: StoredKit, proved: ProvedKit | None, *, template: str = "", code: int = 200, **values: Any
    ) -> HTMLResponse:
        """A page of one kit, with its tabs and, if one was just made, what was changed; where that cannot be read now, it says so."""
        parents, trouble = {}, ""
        try:
            parents = {each.number: each for each in self.workshop.revisions(kit.word)}
        except Trouble as error:
            trouble = str(error)
        now = parents.get(kit.revision)
        title = proved.kit.name if proved else kit.word
        return self.page(
            template or f"{view}.html",
            code=code,
            kit=kit,
            proved=proved,
            view=view,
            views=VIEWS,
            title=title,
            last_change=now,
            can_undo=bool(now and now.parent),
            trouble=trouble,
            **values,
        )

    def text_page(
        self,
        kit: StoredKit,
        document: str,
        *,
        proved: ProvedKit | None = None,
        error: KitwrightError | None = None,
        conflict: int | None = None,
        code: int = 200,
    ) -> HTMLResponse:
        """The text of a kit, or what was typed in its place and is not kept, with what is wrong with it."""
        return self.kit_page(
            "text",
            kit,
            proved,
            code=code,
            document=document,
            mistakes=() if error is None else mistakes_of(error),
            fault=isinstance(error, InternalError),
            is_kept=document == kit.document,
            conflict=conflict,
        )

    def broken_page(self, view: str, kit: StoredKit, error: KitwrightError, *, is_text: bool) -> HTMLResponse:
        """A page of a kit that cannot be shown: because its text has mistakes, or because the program made one. The others are linked."""
        fault = isinstance(error, InternalError)
        return self.kit_page(
            view,
            kit,
            None,
            template="broken.html",
            code=500 if fault else 200 if is_text else 422,
            mistakes=mistakes_of(error),
            fault=fault,
            is_text=is_text,
        )


def desk_of(request: Request) -> Desk:
    """The desk of the server that got a request."""
    desk = request.app.state.desk
    if not isinstance(desk, Desk):
        raise TypeError("the server has no desk")
    return desk


def stored(request: Request) -> StoredKit:
    """The kit that an address names. Raises `NoSuchKit`."""
    return desk_of(request).workshop.read(request.path_params["word"])


async def fields(request: Request) -> dict[str, str]:
    """The plain fields of a form; of a field that stands there twice, the last."""
    async with request.form(max_files=1, max_fields=MOST_FIELDS, max_part_size=2_000_000) as form:
        return {name: value for name, value in form.multi_items() if isinstance(value, str)}


def see_other(address: str) -> Response:
    """Look there, with a new request."""
    return RedirectResponse(address, 303)


def mistakes_of(error: KitwrightError) -> tuple[Mistake, ...]:
    """The mistakes in an error, one by one."""
    if isinstance(error, Mistakes):
        return error.mistakes
    return (error if isinstance(error, Mistake) else Mistake(str(error)),)


def code_of(error: KitwrightError) -> int:
    """The code of an answer that tells an error."""
    if isinstance(error, InternalError):
        return 500
    return 503 if isinstance(error, Trouble) else 422


def batch_of(said: Mapping[str, str], usual: int = 1) -> int:
    """How many kits, from an address or a form; the usual number for what is none."""
    text = said.get("kits", "").strip()
    return min(max(int(text), 1), MOST_KITS) if text.isascii() and text.isdigit() and len(text) < 9 else usual


def kits_of(request: Request, usual: int = USUAL_KITS) -> int:
    """How many kits a page is for: as its address says, else as was said last on a page of this kit, else the usual number."""
    return batch_of(request.query_params, batch_of(request.cookies, usual))


def remember_kits(answer: Response, request: Request, kit: StoredKit) -> Response:
    """The same answer; where its address says a number of kits, the browser keeps that for the other pages of this kit, until it ends.

    So the bench and the print are for as many as the sheets were laid out for, whichever pages lie between.
    """
    kits = batch_of(request.query_params, 0)
    if kits:
        answer.set_cookie("kits", str(kits), path=f"/kit/{kit.word}", httponly=True, samesite="strict")
    return answer
