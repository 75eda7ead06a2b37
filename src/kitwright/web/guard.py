"""What every request must pass: our own host, our own page as origin of changes, a bounded size; and what every answer bears."""

from __future__ import annotations

from typing import Final

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import HTMLResponse, PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from kitwright.web.workroom import Door, is_near, token_in
from kitwright.workshop import LARGEST_PICTURE

__all__ = ["ENTER", "LARGEST_REQUEST", "OWN_NAMES", "Guard"]

LARGEST_REQUEST: Final = 2_000_000
"""Bytes; a kit document is far smaller."""

ROUND_A_PICTURE: Final = 10_000
"""Bytes of a form that brings a picture, beside the picture itself."""

LARGEST_AT_THE_DOOR: Final = 2_000
"""Bytes from whoever is not in yet."""

ENTER: Final = "/enter"
"""Where the pass-phrase is said."""

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
    """Middleware that lets only this machine's own page in or, with a `door`, those in the workroom who know its pass-phrase.

    The name in `Host` must be one of the server's (against names of others that are made to point here), no request may come from a page
    of somebody else's, and whatever changes something must come from a page of the same origin.
    """

    def __init__(self, app: ASGIApp, *, names: frozenset[str] = OWN_NAMES, door: Door | None = None) -> None:
        self.app = app
        self.names = names
        self.door = door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse or pass on."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        most = largest(str(scope["path"]))
        headers = Headers(scope=scope)
        if is_foreign(headers):
            await from_elsewhere(headers)(scope, receive, send)
            return
        refusal = refused(str(scope["method"]), str(scope["scheme"]), headers, most, self.names)
        if refusal is not None:
            code, words = refusal
            await PlainTextResponse(words, code, headers=dict(HEADERS))(scope, receive, send)
            return
        if self.door is not None:
            stop = kept_out(self.door, str(scope["path"]), (scope.get("client") or ("",))[0], headers)
            if stop is not None:
                await stop(scope, receive, send)
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


def is_foreign(headers: Headers) -> bool:
    """Whether a page of somebody else's makes the browser ask (Fetch Metadata, W3C): then nothing is worked out for it."""
    return headers.get("sec-fetch-site", "none") not in {"none", "same-origin"}


def from_elsewhere(headers: Headers) -> Response:
    """What is answered to a request that another page makes: a way in for a person who followed a link, nothing for the rest."""
    if headers.get("sec-fetch-mode") == "navigate":
        return HTMLResponse(FOLLOWED, 403, headers=dict(HEADERS))
    return PlainTextResponse("This answers only to its own pages.", 403, headers=dict(HEADERS))


FOLLOWED: Final = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark"><title>Kitwright</title></head>
<body><p>You come from another page. Your kits are here: <a href="/">to your kits</a>.</p></body></html>
"""


def largest(path: str) -> int:
    """How many bytes a request to an address may bring: most where a picture is brought."""
    if path == ENTER:
        return LARGEST_AT_THE_DOOR
    return LARGEST_PICTURE + ROUND_A_PICTURE if path.endswith("/picture") else LARGEST_REQUEST


def kept_out(door: Door, path: str, address: str, headers: Headers) -> Response | None:
    """What is answered to whoever may not come in from the network; None for whoever may, and for the door itself."""
    if not is_near(address):
        return PlainTextResponse("This page is for its own workroom only.", 403, headers=dict(HEADERS))
    if path == ENTER or path.startswith("/look/") or door.is_in(token_in(headers.get("cookie", ""))):
        return None
    if headers.get("accept", "").startswith("text/html"):
        return RedirectResponse(ENTER, 303, headers=dict(HEADERS))
    return PlainTextResponse("Say the words first.", 401, headers=dict(HEADERS))


def refused(method: str, scheme: str, headers: Headers, most: int, names: frozenset[str]) -> tuple[int, str] | None:
    """Why a request is not let in; None if it is."""
    host = headers.get("host", "")
    name = host.rsplit(":", 1)[0] if not host.endswith("]") else host
    if name not in names:
        return 421, "This page answers only under the names of this machine."
    if method not in {"GET", "HEAD", "POST"}:
        return 405, "This page does not know that."
    if method == "POST" and headers.get("origin") != f"{scheme}://{host}":
        return 403, "Changes are only taken from this page itself."
    length = headers.get("content-length", "0")
    if not length.isdigit() or int(length) > most:
        return 413, "This is too large."
    return None
