"""What every request must pass: our own host, our own page as origin of changes, a bounded size; and what every answer bears."""

from __future__ import annotations

from typing import Final

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from kitwright.workshop import LARGEST_PICTURE

__all__ = ["LARGEST_REQUEST", "Guard"]

LARGEST_REQUEST: Final = 2_000_000
"""Bytes; a kit document is far smaller."""

ROUND_A_PICTURE: Final = 10_000
"""Bytes of a form that brings a picture, beside the picture itself."""

OWN_NAMES: Final = frozenset({"localhost", "127.0.0.1", "[::1]"})

HEADERS: Final = (
    (
        "content-security-policy",
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; connect-src 'self'; "
        "form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    ),
    ("x-content-type-options", "nosniff"),
    ("referrer-policy", "same-origin"),
    ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
)


class TooLarge(Exception):
    """The body turned out to be larger than allowed."""


class Guard:
    """Middleware that lets only this machine's own page in.

    The name in `Host` must be this machine's (against names of others that are made to point here), and whatever changes something
    must come from a page of the same origin.
    """

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse or pass on."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        most = largest(str(scope["path"]))
        refusal = refused(str(scope["method"]), str(scope["scheme"]), Headers(scope=scope), most)
        if refusal is not None:
            code, words = refusal
            await PlainTextResponse(words, code, headers=dict(HEADERS))(scope, receive, send)
            return
        got, begun = 0, False

        async def bounded() -> Message:
            nonlocal got
            message = await receive()
            got += len(message.get("body", b""))
            if got > most:
                raise TooLarge
            return message

        async def with_headers(message: Message) -> None:
            nonlocal begun
            if message["type"] == "http.response.start":
                begun = True
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS:
                    headers.setdefault(name, value)
                headers.setdefault("cache-control", "private, no-cache")
            await send(message)

        try:
            await self.app(scope, bounded, with_headers)
        except TooLarge:
            if not begun:
                await PlainTextResponse("This is too large.", 413, headers=dict(HEADERS))(scope, receive, send)


def largest(path: str) -> int:
    """How many bytes a request to an address may bring: most where a picture is brought."""
    return LARGEST_PICTURE + ROUND_A_PICTURE if path.endswith("/picture") else LARGEST_REQUEST


def refused(method: str, scheme: str, headers: Headers, most: int) -> tuple[int, str] | None:
    """Why a request is not let in; None if it is."""
    host = headers.get("host", "")
    name = host.rsplit(":", 1)[0] if not host.endswith("]") else host
    if name not in OWN_NAMES:
        return 421, "This page answers only under the names of this machine."
    if method not in {"GET", "HEAD", "POST"}:
        return 405, "This page does not know that."
    if method == "POST" and headers.get("origin") != f"{scheme}://{host}":
        return 403, "Changes are only taken from this page itself."
    length = headers.get("content-length", "0")
    if not length.isdigit() or int(length) > most:
        return 413, "This is too large."
    return None
