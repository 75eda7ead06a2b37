"""Parts, papers and things that are bought: tried while they are typed, kept, added and taken out. Every change is a revision."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from kitwright.errors import KitwrightError, Mistake
from kitwright.findings import Change
from kitwright.kit import (
    COMPANY,
    BuiltKit,
    apply_changes,
    blank_label,
    free_paper_word,
    list_text,
    read_kit,
    rename_changes,
    take_out,
    with_table,
)
from kitwright.web import pictures
from kitwright.web.contained import contained
from kitwright.web.desk import USUAL_KITS, Desk, batch_of, desk_of, fields, mistakes_of, stored
from kitwright.web.fields import Field, as_said, as_typed, diff, held_in, in_words, key_in
from kitwright.web.kit_changes import kept, seen_revision
from kitwright.web.kit_pages import frame_values, part_values, parts_values
from kitwright.web.late import Offer, all_of, changes_in
from kitwright.web.numbers import RELATIONS, belongs_fields, changes_of, fields_of
from kitwright.web.stash import stash_values
from kitwright.web.supplies import (
    extra_fields,
    machine_fields,
    new_extra,
    new_offcut,
    new_paper,
    new_part,
    offcut_fields,
    paper_fields,
)
from kitwright.workshop import StoredKit

__all__ = ["TABLES", "add_thing", "keep_thing", "take_out_thing", "try_thing"]

TABLES: Final = ("part", "paper", "extra", "offcut", "machine")
ONLY_ONE: Final = "machine"
"""What a kit has once, so that none is added or taken out; in the document it stands in the kit's own table."""


def names_of(built: BuiltKit, table: str) -> tuple[str, ...]:
    """The names by which a kit's parts, papers or extras are found in its document."""
    if table == "paper":
        return tuple(built.kit.papers)
    if table == ONLY_ONE:
        return ("",)
    if table == "offcut":
        return tuple(str(place) for place in range(len(built.kit.offcuts)))
    return tuple(each.name for each in (built.kit.parts if table == "part" else built.kit.extras))


def table_in(form: Mapping[str, str]) -> str:
    """The kind of thing that a form is about. Raises the 404 page."""
    table = form.get("table", "part")
    if table not in TABLES:
        raise HTTPException(404)
    return table


def many_in(form: Mapping[str, str]) -> str:
    """The kind of thing that a form is about, of which a kit may have several. Raises the 404 page."""
    table = table_in(form)
    if table == ONLY_ONE:
        raise HTTPException(404)
    return table


def number_in(form: Mapping[str, str], count: int) -> int:
    """Which of the things a form is about. Raises the 404 page."""
    said = form.get("number", form.get("part", ""))
    if not (said.isascii() and said.isdigit() and len(said) < 6 and int(said) < count):
        raise HTTPException(404)
    return int(said)


def fields_for(document: str, built: BuiltKit, table: str, number: int) -> tuple[Field, ...]:
    """The fields of one thing."""
    if table == "part":
        return fields_of(built, built.parts[number])
    name = names_of(built, table)[number]
    if table == ONLY_ONE:
        return machine_fields(document, built.kit)
    if table == "offcut":
        return offcut_fields(document, number, built.kit)
    return paper_fields(document, name, built) if table == "paper" else extra_fields(document, name, built.kit.unit)


def changed(
    desk: Desk, kit: StoredKit, form: Mapping[str, str], table: str
) -> tuple[str, str, tuple[Change, ...], BuiltKit]:
    """Name and document with what was typed for a thing. Raises `Mistake`, `Mistakes` or the 404 page."""
    built = desk.making.built(kit.document)
    number = number_in(form, len(names_of(built, table)))
    name = names_of(built, table)[number]
    if table == "part":
        changes = changes_of(built, built.parts[number], form)
    else:
        there = "kit" if table == ONLY_ONE else table
        changes = diff(name, fields_for(kit.document, built, table, number), form, table=there)
    renamed = next((each for each in changes if each.key == "name"), None)
    others = tuple(each for each in changes if each is not renamed)
    document = apply_changes(kit.document, others)
    if renamed is not None:
        if not renamed.value:
            raise Mistake("name: It needs a name.", do="Write one.")
        document = apply_changes(
            document, rename_changes(read_kit(document) if others else built.kit, name, renamed.value, table=table)
        )
    return name, document, changes, built


def called_by(built: BuiltKit, table: str, name: str) -> str:
    """What a thing is called among people."""
    if table == "paper":
        return built.kit.papers[name].label
    if table == ONLY_ONE:
        return "Cutting"
    if table == "offcut":
        offcut = built.kit.offcuts[int(name)]
        return f"{built.kit.papers[offcut.paper].label}, offcut {built.kit.ruler.size(offcut.width, offcut.height)}"
    return name


async def try_thing(request: Request) -> Response:
    """What a part would look like with the numbers being typed, and what is wrong with them. Nothing is kept."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)
    return JSONResponse(await run_in_threadpool(tried, desk, kit, form))


def tried(desk: Desk, kit: StoredKit, form: dict[str, str]) -> dict[str, Any]:
    """Pictures of a trial or, where asked, its verdict, which takes longer; or what is wrong with it, by field."""
    try:
        with contained("a trial of what is typed"):
            return trial(desk, kit, form)
    except KitwrightError as error:
        mistakes = mistakes_of(error)
        return {
            "ok": False,
            "mistakes": [{"key": key_in(each), "words": f"{each.what} {each.do}".strip()} for each in mistakes],
        }


def trial(desk: Desk, kit: StoredKit, form: dict[str, str]) -> dict[str, Any]:
    """Pictures of a trial or, where asked, its verdict. Raises `Mistake`, `Mistakes` or the 404 page."""
    table = table_in(form)
    _, document, changes, before = changed(desk, kit, form, table)
    if "prove" in form:
        proof = desk.making.proved(document, like=kit.document).proof
        return {"ok": True, "verdict": proof.sentence(), "proved": proof.is_proved}
    built = desk.making.built(document)
    if table != "part":
        return {"ok": True, "changed": bool(changes)}
    number = number_in(form, len(before.parts))
    part = built.parts[number]
    values = part_values(built, number)
    return {
        "ok": True,
        "changed": bool(changes),
        "size": values["size"],
        "how": list(part.how),
        "folded": values["picture"],
        "flat": [
            pictures.flat(built.kit.ruler, part, blank, blank_label(part, blank)) for blank in part.pattern.blanks
        ],
        "usual": {field.key: field.usual for field in values["fields"]},
    }


async def keep_thing(request: Request) -> Response:
    """Keep what was typed for a part, a paper or a thing that is bought."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)
    table = table_in({**form, "table": request.url.path.rsplit("/", 1)[-1]})

    def change() -> tuple[str, str]:
        name, document, changes, built = changed(desk, kit, form, table)
        called = called_by(built, table, name)
        said = ", ".join(
            f"{each.key} {in_words(each.value) or 'no longer said'}"
            for each in changes
            if each.value or each.key not in COMPANY
        )
        return document, f"{called}: {said}"

    shown = f"{table}-{form.get('number', form.get('part', '0'))}"
    return await kept_or_shown(desk, kit, {**form, "table": table}, change, shown=shown)


async def add_thing(request: Request) -> Response:
    """One more part, paper or thing that is bought."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)
    table = many_in(form)

    def change() -> tuple[str, str]:
        built = desk.making.built(kit.document)
        document, name = with_new(kit.document, built, form, table)
        return document, f"Added {name}"

    return await kept_or_shown(desk, kit, form, change, shown=f"add-{table}", lands=place_of_next(desk, kit, table))


def place_of_next(desk: Desk, kit: StoredKit, table: str) -> str:
    """Where on its page one more thing of a table will stand; the top of the page for a kit that cannot be read."""
    try:
        return f"{table}-{len(names_of(desk.making.built(kit.document), table))}"
    except KitwrightError:
        return "main"


def with_new(document: str, built: BuiltKit, form: Mapping[str, str], table: str) -> tuple[str, str]:
    """The document with one more thing as it was typed, and what that is called. Raises `Mistake`."""
    asked = new_fields(built, table)
    said = as_said(asked, {**dict.fromkeys((each.key for each in asked), ""), **form})
    if table == "paper":
        label = said["label"]
        if not label:
            raise Mistake("label: The paper needs a name.", do="Write what it is called.")
        return with_table(document, "paper", said, word=free_paper_word(document, label)), label
    if table == "offcut":
        return with_table(document, "offcut", said), f"an offcut {said['size']}"
    if not said["name"]:
        raise Mistake("name: It needs a name.", do="Write what it is called.")
    if table == "part":
        said |= {key: form.get(key, "").strip() for key in RELATIONS}
        said["holds"] = list_text(held_in(form))
    held_by = form.get("into", "")
    document = with_table(document, table, said)
    holder = next((part for part in built.kit.parts if part.name == held_by), None) if table == "extra" else None
    if holder is not None:
        document = apply_changes(document, [Change(held_by, "holds", list_text([*holder.holds, said["name"]]))])
    return document, said["name"]


def new_fields(built: BuiltKit, table: str) -> tuple[Field, ...]:
    """The fields for one more thing."""
    if table == "part":
        return new_part(built)
    if table == "offcut":
        return new_offcut(built.kit)
    return new_paper(built) if table == "paper" else new_extra(built.kit.unit)


async def take_out_thing(request: Request) -> Response:
    """Take a part, a paper or a thing that is bought out of the kit."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)
    table = many_in(form)

    def change() -> tuple[str, str]:
        built = desk.making.built(kit.document)
        name = names_of(built, table)[number_in(form, len(names_of(built, table)))]
        called = called_by(built, table, name)
        return take_out(kit.document, built, name, table=table), f"Took out {called}"

    return await kept_or_shown(desk, kit, form, change, shown=f"{table}-{form.get('number', '0')}", back="")


PAGES: Final = {"parts": "", "stash": "/stash", "sheets": "/sheets?kits={kits}"}
"""The pages with forms of things, and the ends of their addresses."""


def page_of(form: Mapping[str, str]) -> str:
    """The page on which the form of a thing stands."""
    if table_in(form) == ONLY_ONE:
        return "sheets"
    return "stash" if table_in(form) == "offcut" or form.get("view") == "stash" else "parts"


async def kept_or_shown(
    desk: Desk,
    kit: StoredKit,
    form: dict[str, str],
    change: Callable[[], tuple[str, str]],
    *,
    shown: str,
    back: str | None = None,
    lands: str = "",
) -> Response:
    """Make a change of the kit; what cannot be kept stays in its fields, with the reasons beside them.

    `lands` is the place on the page to look at afterwards, where that is not the one of the form.
    """
    page = page_of(form)
    place = lands or (shown if back is None else "main")
    kits = batch_of(form, USUAL_KITS)
    there = f"/kit/{kit.word}{PAGES[page].format(kits=kits)}#{place}"

    def again(error: KitwrightError) -> Response | None:
        try:
            proved = desk.making.proved(kit.document)
        except KitwrightError:
            return None
        asked = new_fields(proved.built, table_in(form)) if shown.startswith("add-") else ()
        keys = {*form, *(each.key for each in asked), "margins"}
        typed = as_typed(shown, form, mistakes_of(error), keys)
        if page == "sheets":
            values = frame_values(kit.document, proved, typed, kits=kits)
        else:
            values = (stash_values if page == "stash" else parts_values)(kit.document, proved, typed)
        return desk.kit_page(page, kit, proved, code=422, **values)

    def offer() -> Offer | None:
        return None if back is not None else offered(desk, kit, form, is_new=shown.startswith("add-"))

    if seen_revision(form) != kit.revision:
        return await kept(desk, kit, form, change, back=there, offer=offer)
    return await kept(desk, kit, form, change, back=there, again=again, offer=offer)


def offered(desk: Desk, kit: StoredKit, form: dict[str, str], *, is_new: bool) -> Offer | None:
    """What was typed into a form of an older revision, to be kept in the kit as it is now; None where the thing is not there any more."""
    table = table_in(form)
    try:
        now, document = desk.making.built(kit.document), desk.workshop.document(kit.word, seen_revision(form))
        then = desk.making.built(document)
    except (KeyError, KitwrightError):
        return None
    if is_new:
        return all_of(form, (*new_fields(now, table), *(Field(key, key, "") for key in RELATIONS if table == "part")))
    number = number_in(form, len(names_of(then, table)))
    name = names_of(then, table)[number]
    names = names_of(now, table)
    if name not in names or (table == "offcut" and called_by(then, table, name) != called_by(now, table, name)):
        return None
    fields, held = fields_for(document, then, table, number), tuple[str, ...]()
    if table == "part":
        fields, held = (*fields, *belongs_fields(then, then.parts[number])), then.parts[number].part.holds
    typed = changes_in(form, fields, held)
    place: dict[str, str] = {key: form[key] for key in ("view", "kits") if key in form}
    said = {**typed.fields, **place, "table": table, "number": str(names.index(name))}
    return Offer(typed.shown, said, "" if table == ONLY_ONE else called_by(now, table, name))
