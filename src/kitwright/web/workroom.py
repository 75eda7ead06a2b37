"""The page for a whole workroom: a pass-phrase at the door, sessions for those who know it, and no hurry for those who guess.

Nothing of it is written down: with the server its pass-phrase and its sessions are gone. What is sent is not encrypted.
"""

from __future__ import annotations

import hashlib
import hmac
import ipaddress
import math
import re
import secrets
import threading
import time
from collections import OrderedDict, deque
from collections.abc import Callable
from dataclasses import dataclass
from http.cookies import CookieError, SimpleCookie
from typing import Final

__all__ = ["COOKIE", "Door", "Entry", "is_near", "new_phrase", "token_in"]

COOKIE: Final = "kitwright-door"

WORDS: Final = tuple(
    """
    acorn amber anchor apple apron arrow autumn badge barley basket beech berry birch bobbin border bottle bramble branch bread brick
    bridge bright broom brush bucket button cabin candle canvas carrot castle cedar chalk cherry circle clover coffee collar comet
    copper corner cotton cradle crayon cricket daisy dapple dolphin donkey drawer eagle easel elder ember fabric feather fennel ferry
    fiddle finch flint flour forest garden garlic ginger glove goose granite hammer harbor hazel heather hedge honey island ivory
    jacket juniper kettle ladder lantern laurel lemon linen maple marble meadow mitten mortar mustard nettle oatmeal olive orchard
    otter paddle parcel parsley pebble pepper pillow pocket pumpkin quill rabbit raven ribbon river saddle saffron silver spindle
    sparrow spruce stable tartan thimble thistle timber tulip turnip velvet violet walnut willow window winter
    """.split()  # noqa: SIM905  (a list of strings would be three pages long)
)
"""Plain words, each heard and typed without doubt."""

PHRASE_WORDS: Final = 6
"""Six of 128 words: 2⁴² phrases. At `MOST_TRIES` guesses a second, from however many addresses, it takes 7000 years to say them all; in
the twelve hours of a day in the workroom somebody comes in with a chance of one in five million."""

LASTS: Final = 12 * 3600.0
"""Seconds of a session: a long day in the workroom."""
MOST_SESSIONS: Final = 200
MOST_ADDRESSES: Final = 20_000
"""Addresses whose wrong guesses are remembered: far more than a network at home has."""
MOST_TRIES: Final = 20
"""Guesses that are looked at in a second, from all addresses together.

Each address waits longer after each wrong guess, so the 254 of a usual network can take up this much for some ten seconds only; from then
on they come to less than one guess a second, and whoever comes with the right words is let in at once."""
SECOND: Final = 1.0
LONGEST_WAIT: Final = 300.0
LONGEST_PHRASE: Final = 200


@dataclass(frozen=True, slots=True)
class Entry:
    """What comes of a guess: a token for whoever may come in, or how many seconds to wait before the next guess is looked at."""

    token: str | None
    wait: float


class Door:
    """Knows the pass-phrase by its hash only, who is in, and how long each address has to wait after wrong guesses."""

    def __init__(self, phrase: str, *, now: Callable[[], float] = time.monotonic) -> None:
        self.key = secrets.token_bytes(32)
        self.hash = self.hashed(phrase)
        self.now = now
        self.guessing = threading.Lock()
        self.lock = threading.Lock()
        self.sessions: OrderedDict[bytes, float] = OrderedDict()
        self.wrong: OrderedDict[str, tuple[int, float]] = OrderedDict()
        self.tries: deque[float] = deque(maxlen=MOST_TRIES)

    def hashed(self, phrase: str) -> bytes:
        """The hash of a phrase (BLAKE2b with a key of this door, RFC 7693), however it is spaced and written large.

        It is quick on purpose: hash and key are never written down, and a slow one would let whoever guesses take up the computer.
        """
        plain = " ".join(re.split(r"[\s,.-]+", phrase[:LONGEST_PHRASE].strip().casefold()))
        return hashlib.blake2b(plain.encode("utf-8", "replace"), key=self.key).digest()

    def enter(self, address: str, said: str) -> Entry:
        """Look at a guess from an address. One that comes too early is not looked at; nobody is kept waiting here."""
        with self.guessing:
            wait = self.wait(address)
            if wait > 0:
                return Entry(None, wait)
            self.tries.append(self.now())
            if not hmac.compare_digest(self.hashed(said), self.hash):
                return Entry(None, self.note_wrong(address))
            self.wrong.pop(address, None)
            token = secrets.token_urlsafe(32)
            with self.lock:
                self.sessions[digest(token)] = self.now() + LASTS
                while len(self.sessions) > MOST_SESSIONS:
                    self.sessions.popitem(last=False)
            return Entry(token, 0.0)

    def wait(self, address: str) -> float:
        """Seconds until a guess from an address is looked at."""
        now = self.now()
        own = self.wrong.get(address, (0, now))[1] - now
        is_full = len(self.tries) == MOST_TRIES
        return max(own, self.tries[0] + SECOND - now if is_full else 0.0)

    def note_wrong(self, address: str) -> float:
        """One more wrong guess: the wait before the next, which doubles each time."""
        count = self.wrong.pop(address, (0, 0.0))[0] + 1
        wait = min(2.0 ** (count - 1), LONGEST_WAIT)
        self.wrong[address] = (count, self.now() + wait)
        while len(self.wrong) > MOST_ADDRESSES:
            self.wrong.popitem(last=False)
        return wait

    def is_in(self, token: str) -> bool:
        """Whether a token is that of a session that lasts still."""
        with self.lock:
            return self.sessions.get(digest(token), -math.inf) > self.now()

    def leave(self, token: str) -> None:
        """End a session."""
        with self.lock:
            self.sessions.pop(digest(token), None)


def digest(token: str) -> bytes:
    """What is kept of a token: who reads the memory cannot come in with it, and a look-up tells no time."""
    return hashlib.sha256(token.encode()).digest()


def new_phrase() -> str:
    """A pass-phrase of plain words, from the system's own randomness."""
    return " ".join(secrets.choice(WORDS) for _ in range(PHRASE_WORDS))


def token_in(cookies: str) -> str:
    """The door's token in a cookie header; empty for none."""
    try:
        found = SimpleCookie(cookies).get(COOKIE)
    except CookieError:
        return ""
    return found.value if found else ""


def is_near(address: str) -> bool:
    """Whether an address is one of a local network (RFC 1918, RFC 4193, link-local) or of this machine."""
    try:
        found = ipaddress.ip_address(address)
    except ValueError:
        return False
    return found.is_private and not found.is_unspecified
