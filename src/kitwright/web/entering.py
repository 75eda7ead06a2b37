"""The door of a workroom as a page: say the words, come in, leave."""

from __future__ import annotations

import math

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from kitwright.web.desk import desk_of, fields, see_other
from kitwright.web.guard import ENTER
from kitwright.web.workroom import COOKIE, LASTS, LONGEST_PHRASE, Door, token_in

__all__ = ["enter", "enter_page", "leave"]


def door_of(request: Request) -> Door:
    """The door of a server that has one."""
    door = request.app.state.door
    if not isinstance(door, Door):
        raise TypeError("the server has no door")
    return door


def enter_page(request: Request) -> Response:
    """The question for the words; for whoever is in, how to leave."""
    is_in = door_of(request).is_in(token_in(request.headers.get("cookie", "")))
    return desk_of(request).page("enter.html", wrong="", said="", is_in=is_in)


async def enter(request: Request) -> Response:
    """Come in with the right words; with others, be told how long to wait before the next try."""
    door, said = door_of(request), (await fields(request)).get("words", "")
    address = request.client.host if request.client else ""
    entry = await run_in_threadpool(door.enter, address, said)
    if entry.token is None:
        seconds = math.ceil(entry.wait)
        wait = "a second" if seconds == 1 else f"{seconds} seconds"
        refusal = desk_of(request).page(
            "enter.html",
            code=429,
            wrong=f"Not these, or too soon. Wait {wait}, then try again.",
            said=said[:LONGEST_PHRASE],
            is_in=False,
        )
        refusal.headers["retry-after"] = str(seconds)
        return refusal
    answer = see_other("/")
    answer.set_cookie(COOKIE, entry.token, max_age=int(LASTS), path="/", httponly=True, samesite="strict")
    return answer


async def leave(request: Request) -> Response:
    """End this session."""
    door_of(request).leave(token_in(request.headers.get("cookie", "")))
    answer = see_other(ENTER)
    answer.delete_cookie(COOKIE, path="/", httponly=True, samesite="strict")
    return answer
