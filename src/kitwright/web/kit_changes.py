"""What changes a kit. Every change becomes a revision, made from the one the maker was looking at."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from kitwright.errors import InternalError, KitwrightError, Mistake
from kitwright.findings import Change
from kitwright.kit import apply_changes, read_kit
from kitwright.web.contained import contained
from kitwright.web.desk import Desk, batch_of, code_of, desk_of, fields, mistakes_of, see_other, stored
from kitwright.web.late import Offer
from kitwright.workshop import Conflict, NoSuchKit, StoredKit, Trouble

__all__ = [
    "check_text",
    "choose_layouts",
    "copy",
    "go_to",
    "keep_text",
    "kept",
    "mend",
    "remove",
    "rename",
    "seen_revision",
    "stop_search",
    "undo",
]


def seen_revision(form: dict[str, str]) -> int:
    """The revision that a form was made from; 0, which none has, for nonsense."""
    said = form.get("revision", "")
    return int(said) if said.isascii() and said.isdigit() and len(said) < 10 else 0


async def kept(
    desk: Desk,
    kit: StoredKit,
    form: dict[str, str],
    change: Callable[[], tuple[str, str]],
    *,
    back: str,
    again: Callable[[KitwrightError], Response | None] = lambda _: None,
    offer: Callable[[], Offer | None] = lambda: None,
) -> Response:
    """Make a change and keep it as a revision; a mistake or a change made elsewhere is told, and nothing is written.

    `again` may show the form once more with what was typed into it; `offer` gives what was typed, where that can still be kept in a kit
    that was changed elsewhere.
    """
    try:
        if seen_revision(form) != kit.revision:
            raise kit.trouble or Conflict(kit.revision)
        document, words = await run_in_threadpool(contained("a change of a kit")(change))
        await run_in_threadpool(lambda: desk.making.proved(document, like=kit.document))
        await run_in_threadpool(lambda: desk.workshop.keep(kit.word, document, seen=kit.revision, words=words))
    except Conflict as conflict:
        try:
            offered = await run_in_threadpool(contained("an offer to keep")(offer))
        except KitwrightError:
            offered = None
        return told_late(desk, desk.workshop.read(kit.word), words=str(conflict), offer=offered)
    except NoSuchKit:
        raise
    except KitwrightError as error:
        return shown_again(error, again) or desk.kit_page(
            "parts",
            kit,
            None,
            template="refused.html",
            code=code_of(error),
            mistakes=mistakes_of(error),
            back=back,
            said=form,
        )
    return see_other(back)


def shown_again(error: KitwrightError, again: Callable[[KitwrightError], Response | None]) -> Response | None:
    """The form once more, where that can be shown."""
    try:
        with contained("showing a form again"):
            return again(error)
    except InternalError:
        return None


def told_late(desk: Desk, kit: StoredKit, *, words: str, offer: Offer | None = None) -> Response:
    """The page for a change of a kit that was changed elsewhere meanwhile."""
    try:
        proved = desk.making.proved(kit.document)
    except KitwrightError:
        proved = None
    return desk.kit_page("", kit, proved, template="conflict.html", code=409, words=words, offer=offer)


async def mend(request: Request) -> Response:
    """Apply a fix that the proof offers, found again by what it is about."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)

    def change() -> tuple[str, str]:
        proof = desk.making.proved(kit.document).proof
        wanted = form.get("code", ""), form.get("about", "")
        fix = next((each.fix for each in proof.findings if (each.code, each.about) == wanted and each.fix), None)
        if fix is None:
            raise Mistake("This fix is no longer offered.", do="Look at the proof again.")
        return apply_changes(kit.document, fix.changes), fix.sentence

    return await kept(desk, kit, form, change, back=f"/kit/{kit.word}/fits")


async def rename(request: Request) -> Response:
    """Another name for the kit."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)

    def change() -> tuple[str, str]:
        name = form.get("name", "").strip()
        if not name:
            raise Mistake("The kit needs a name.")
        return apply_changes(kit.document, [Change("", "name", name, table="kit")]), f"Called {name}"

    return await kept(
        desk, kit, form, change, back=f"/kit/{kit.word}", offer=lambda: Offer((("Name", form.get("name", "")),), form)
    )


async def choose_layouts(request: Request) -> Response:
    """Whether every kit is cut by the same layouts, wherever sheets are shown, printed and cut."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)
    is_alike = form.get("alike") == "yes"
    view = "materials" if form.get("view") == "materials" else "sheets"

    words = "Every kit is cut by the same layouts" if is_alike else "Kits may be cut by different layouts"

    def change() -> tuple[str, str]:
        return apply_changes(kit.document, [Change("", "alike", "true" if is_alike else "", table="kit")]), words

    back = f"/kit/{kit.word}/{view}?kits={batch_of(form, 6)}"
    return await kept(desk, kit, form, change, back=back, offer=lambda: Offer((("Layouts", words),), form))


async def keep_text(request: Request) -> Response:
    """Keep the text as it was typed, once it has no mistakes; until then it stays in the field with its mistakes beside it."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)
    document = form.get("document", "").replace("\r\n", "\n")
    if seen_revision(form) != kit.revision and form.get("over") != str(kit.revision):
        if kit.trouble is not None:
            return desk.text_page(kit, document, code=503, error=kit.trouble)
        return desk.text_page(kit, document, code=409, conflict=kit.revision)
    try:
        await run_in_threadpool(desk.making.proved, document)
    except InternalError as error:
        if form.get("anyway") != "yes":
            return desk.text_page(kit, document, code=500, error=error)
    except KitwrightError as error:
        return desk.text_page(kit, document, code=422, error=error)
    try:
        desk.workshop.keep(kit.word, document, seen=kit.revision, words="Its text was changed.")
    except Conflict as conflict:
        return desk.text_page(kit, document, code=409, conflict=conflict.current)
    except Trouble as error:
        return desk.text_page(kit, document, code=503, error=error)
    return see_other(f"/kit/{kit.word}/text")


async def check_text(request: Request) -> Response:
    """The mistakes in a text that is being typed, each with its line."""
    form = await fields(request)
    document = form.get("document", "").replace("\r\n", "\n")

    def check() -> list[dict[str, Any]]:
        try:
            with contained("checking a text"):
                read_kit(document)
        except KitwrightError as error:
            return [{"line": each.place.line, "words": f"{each.what} {each.do}".strip()} for each in mistakes_of(error)]
        return []

    return JSONResponse({"mistakes": await run_in_threadpool(check)})


async def undo(request: Request) -> Response:
    """Back to how the kit was before the last change."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)
    view = form.get("view", "parts")
    try:
        desk.workshop.step_back(kit.word, seen=seen_revision(form))
    except Conflict as conflict:
        return told_late(desk, kit, words=str(conflict))
    except Mistake as mistake:
        if isinstance(mistake, Trouble):
            raise
        return desk.kit_page(
            "parts", kit, None, template="refused.html", code=422, mistakes=(mistake,), back=f"/kit/{kit.word}", said={}
        )
    return see_other(f"/kit/{kit.word}/{view if view.isascii() and view.isalpha() else 'parts'}")


async def go_to(request: Request) -> Response:
    """The kit as it was in one of its revisions."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)
    said = form.get("number", "")
    try:
        number = int(said) if said.isascii() and said.isdigit() and len(said) < 10 else 0
        desk.workshop.go_to(kit.word, number, seen=seen_revision(form))
    except Conflict as conflict:
        return told_late(desk, kit, words=str(conflict))
    except NoSuchKit:
        raise
    except KeyError:
        raise HTTPException(404) from None
    return see_other(f"/kit/{kit.word}/history")


async def copy(request: Request) -> Response:
    """A second kit like this one."""
    desk, kit = desk_of(request), stored(request)
    try:
        with contained("naming a copy"):
            name = f"{read_kit(kit.document).name}, copy"
            document = apply_changes(kit.document, [Change("", "name", name, table="kit")])
    except KitwrightError:
        name, document = kit.word, kit.document
    made = desk.workshop.begin(name, document, words=f"Copied from {kit.word}.")
    return see_other(f"/kit/{made.word}")


async def remove(request: Request) -> Response:
    """Take the kit off the shelf; the shelf offers to put it back."""
    desk, kit = desk_of(request), stored(request)
    desk.workshop.remove(kit.word)
    return see_other(f"/?removed={kit.word}")


async def stop_search(request: Request) -> Response:
    """End a search with what it has found; or, where it is about mats, the laying of blanks on them."""
    kit, form, making = stored(request), await fields(request), desk_of(request).making
    nesting = making.nesting(kit.document, batch_of(form)) if "mats" in form else None
    if nesting is None:
        making.stop(kit.document, batch_of(form))
    else:
        nesting.is_stopped = True
    return JSONResponse({"stopped": True})
