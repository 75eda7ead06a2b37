"""The shelf: all kits with a picture, new ones, copies, and what was taken off."""

from __future__ import annotations

import json
from collections.abc import Iterable
from importlib import resources
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from kitwright.errors import InternalError, KitwrightError
from kitwright.kit import LARGEST_DOCUMENT, document_text_of, read_kit
from kitwright.measure import counted
from kitwright.web.contained import contained
from kitwright.web.desk import Desk, desk_of, fields, mistakes_of, see_other, stored
from kitwright.web.new_kit import HINTS, MOST_THINGS, USUAL, Answers, documents_of, mistakes_in, read_answers
from kitwright.web.pictures import kit_svg
from kitwright.workshop import Trouble

__all__ = ["begin", "bring", "example", "new", "picture", "put_back", "shelf"]

EXAMPLES = (
    ("recipe-box", "Recipe box", "Cards and dividers standing in a box with a flap lid, a band and a tag."),
    ("thank-you-cards", "Thank-you cards", "Folded cards with mats and envelopes."),
    ("postcard-set", "Postcard set", "Postcards in metric sizes."),
)


def entry(word: str, document: str) -> dict[str, Any]:
    """What the shelf says of a kit."""
    try:
        with contained("reading a kit for the shelf"):
            kit = read_kit(document)
    except InternalError:
        return {"word": word, "name": word, "line": "The program cannot read it. Its text is there.", "is_well": False}
    except KitwrightError:
        return {"word": word, "name": word, "line": "Its text has mistakes.", "is_well": False}
    count = sum(part.quantity for part in kit.parts)
    things = f"{counted(count, 'piece')} to make" + (f", {len(kit.extras)} to buy" if kit.extras else "")
    return {"word": word, "name": kit.name, "line": things, "is_well": True}


def shelf(request: Request) -> Response:
    """All kits."""
    desk = desk_of(request)
    kits = [entry(each.word, each.document) for each in desk.workshop.shelf()]
    removed, trouble = removed_or_trouble(desk)
    just = request.query_params.get("removed", "")
    return desk.page(
        "shelf.html",
        kits=kits,
        removed=removed,
        just_removed=just if just in removed else "",
        examples=EXAMPLES,
        mistakes=(),
        trouble=trouble,
    )


def removed_or_trouble(desk: Desk) -> tuple[tuple[str, ...], str]:
    """The kits that are off the shelf; where that cannot be read now, why."""
    try:
        return desk.workshop.removed(), ""
    except Trouble as error:
        return (), str(error)


def picture(request: Request) -> Response:
    """A kit folded, as a picture file."""
    kit = stored(request)
    try:
        with contained("the picture of a kit"):
            svg = kit_svg(desk_of(request).making.proved(kit.document).built)
    except KitwrightError:
        raise HTTPException(404) from None
    return Response(svg, media_type="image/svg+xml", headers={"cache-control": "no-cache"})


def new(request: Request) -> Response:
    """The questions for a new kit."""
    usual = {
        "units": "in",
        "cards": "6",
        **USUAL["in"],
        "envelopes": "yes",
        "box": "yes",
    }
    return questions(desk_of(request), Answers(usual), {})


def questions(desk: Desk, answers: Answers, wrong: dict[str, str], *, code: int = 200) -> Response:
    """The questions with what was answered; sizes and hints of both units, for when the maker changes them."""
    return desk.page(
        "new.html",
        answers=answers,
        wrong=wrong,
        things=range(1, MOST_THINGS + 1),
        hints=HINTS[answers.unit.value],
        usual=json.dumps({"fields": USUAL, "hints": HINTS}, default=dict),
        code=code,
    )


async def begin(request: Request) -> Response:
    """A new kit from the answers."""
    desk, answers = desk_of(request), read_answers(await fields(request))
    wrong = mistakes_in(answers)
    if not wrong:
        try:
            document = await run_in_threadpool(contained("a new kit")(first_proved), desk, documents_of(answers))
        except KitwrightError as error:
            wrong = {"": " ".join(f"{each.what} {each.do}" for each in mistakes_of(error))}
        else:
            kit = desk.workshop.begin(answers.get("name"), document, words="Begun from what goes in.")
            return see_other(f"/kit/{kit.word}/boxes" if answers.get("then") == "boxes" else f"/kit/{kit.word}")
    return questions(desk, answers, wrong, code=422)


def first_proved(desk: Desk, documents: Iterable[str]) -> str:
    """The first document whose kit is proved, else the first of all. Raises `Mistake` or `Mistakes`."""
    tried = []
    for document in documents:
        tried.append(document)
        if desk.making.proved(document).proof.is_proved:
            return document
    return tried[0]


async def example(request: Request) -> Response:
    """A copy of a ready-made kit."""
    word = (await fields(request)).get("example", "")
    if word not in {name for name, _, _ in EXAMPLES}:
        raise HTTPException(404)
    text = resources.files("kitwright").joinpath("examples", f"{word}.toml").read_text(encoding="utf-8")
    kit = desk_of(request).workshop.begin(word, text, words="Begun from an example.")
    return see_other(f"/kit/{kit.word}")


async def bring(request: Request) -> Response:
    """A kit document from the maker's computer. Its file name is not used."""
    desk = desk_of(request)
    async with request.form(max_files=1, max_fields=4) as form:
        given = form.get("document")
        data = await given.read(LARGEST_DOCUMENT + 1) if isinstance(given, UploadFile) else b""
    try:
        with contained("reading a kit that is brought"):
            text = document_text_of(data)
            kit = read_kit(text)
    except InternalError:
        raise
    except KitwrightError as error:
        removed, trouble = removed_or_trouble(desk)
        kits = [entry(each.word, each.document) for each in desk.workshop.shelf()]
        return desk.page(
            "shelf.html",
            kits=kits,
            removed=removed,
            trouble=trouble,
            just_removed="",
            examples=EXAMPLES,
            mistakes=mistakes_of(error)[:10],
            code=422,
        )
    made = desk.workshop.begin(kit.name, text, words="Brought from a file.")
    return see_other(f"/kit/{made.word}")


async def put_back(request: Request) -> Response:
    """A kit that was taken off, back onto the shelf."""
    kit = desk_of(request).workshop.put_back(request.path_params["word"])
    return see_other(f"/kit/{kit.word}")
