"""What is said when a request cannot be answered: what is not there, what the disk refuses, and mistakes of the program itself.

Whatever happens, the other pages go on, and what was typed is shown once more.
"""

from __future__ import annotations

from collections.abc import AsyncGenerator
from typing import Final
from urllib.parse import parse_qsl

from starlette.datastructures import Headers, UploadFile
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartParser
from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from kitwright.errors import InternalError, KitwrightError
from kitwright.web.contained import PASSED_ON, internal
from kitwright.web.desk import MOST_FIELDS, OFF_THE_SHELF, code_of, desk_of
from kitwright.web.guard import LARGEST_REQUEST, TooLarge, largest
from kitwright.workshop import NoSuchKit

__all__ = ["Contained", "told"]

ERRORS: Final = {
    404: "There is nothing at this address.",
    405: "This page does not know that.",
    413: "This is too large.",
    400: "This could not be understood.",
}
NEVER_TYPED: Final = frozenset(
    "revision over view table number part kits hand code about prove mats alike edge which pieces".split()  # noqa: SIM905
)
"""Fields that the page itself fills in."""

SENT: Final = "kitwright.sent"
"""Where a request keeps its body as it came in."""


class Contained:
    """Middleware around all pages: what no page has contained is logged and told here, so that no request ends without words."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on, and remember what is sent."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        sent, begun, is_read = bytearray(), False, scope["method"] != "POST"
        is_kept = scope["method"] == "POST" and largest(str(scope["path"])) <= LARGEST_REQUEST
        scope[SENT] = sent

        async def remembered() -> Message:
            nonlocal is_read
            message = await receive()
            is_read = not message.get("more_body", False)
            if is_kept:
                sent.extend(message.get("body", b""))
            return message

        async def tell(error: KitwrightError) -> None:
            while is_kept and not is_read:
                await remembered()  # what was typed is told again, also where nobody had read it yet
            await (await failed(Request(scope), error))(scope, receive, send)

        async def watched(message: Message) -> None:
            nonlocal begun
            begun = begun or message["type"] == "http.response.start"
            await send(message)

        try:
            await self.app(scope, remembered, watched)
        except TooLarge:
            raise
        except ClientDisconnect:
            return  # nobody is there to be told
        except KitwrightError as error:
            await tell(error)
        except PASSED_ON:
            raise
        except BaseException as error:
            made = internal(f"{scope['method']} {route_of(scope)}", error)
            if begun:
                raise made from error  # the browser learns that the answer is not whole
            await tell(made)


def route_of(scope: Scope) -> str:
    """The address of a request without what the maker's things are called."""
    path = str(scope["path"])
    for name, value in scope.get("path_params", {}).items():
        path = path.replace(f"/{value}", f"/{{{name}}}", 1)
    return path if "path_params" in scope else "an address"


async def told(request: Request, error: Exception) -> Response:
    """A page for what is not there or not allowed."""
    code = error.status_code if isinstance(error, HTTPException) else 500
    return await failure(request, code, ERRORS.get(code, "This cannot be done."))


async def failed(request: Request, error: KitwrightError) -> Response:
    """A page for a kit that is gone, a disk that is full, or a mistake of the program."""
    try:
        if isinstance(error, NoSuchKit):
            is_removed = error.word in desk_of(request).workshop.removed()
            return await failure(request, 404, OFF_THE_SHELF if is_removed else ERRORS[404])
        return await failure(request, code_of(error), str(error), error)
    except BaseException as second:  # the page for it cannot be made either
        if isinstance(second, PASSED_ON) and not isinstance(second, KitwrightError):
            raise
        return PlainTextResponse(str(error), 500)


async def failure(request: Request, code: int, words: str, error: KitwrightError | None = None) -> Response:
    """The words as a page, with what was typed; or as data where the page's own module asked."""
    if request.headers.get("accept", "").startswith("application/json"):
        return JSONResponse({"mistake": words}, code)
    return desk_of(request).page(
        "failure.html",
        words=words,
        code=code,
        fault=isinstance(error, InternalError),
        word=request.path_params.get("word", "") if error is not None else "",
        typed=await typed_in(request),
    )


async def typed_in(request: Request) -> list[tuple[str, str]]:
    """The fields of a form that the maker filled in, as they came in; none where there was no form, or it cannot be read."""
    sent = bytes(request.scope.get(SENT, b""))
    try:
        if request.headers.get("content-type", "").startswith("multipart/"):
            said = await parts_of(request.headers, sent)
        else:
            said = parse_qsl(sent.decode("utf-8"), max_num_fields=MOST_FIELDS)
    except Exception:
        return []
    return [(name, value) for name, value in said if name not in NEVER_TYPED and value.strip()]


async def parts_of(headers: Headers, body: bytes) -> list[tuple[str, str]]:
    """The fields of a form with a file, and the file where it is text."""

    async def stream() -> AsyncGenerator[bytes]:
        yield body

    form = await MultiPartParser(headers, stream(), max_files=1, max_fields=MOST_FIELDS).parse()
    try:
        return [
            (name, (await value.read()).decode("utf-8-sig") if isinstance(value, UploadFile) else value)
            for name, value in form.multi_items()
        ]
    finally:
        await form.close()
