"""Words by which kits and pictures go in the workshop and in addresses: small letters, digits and hyphens. Nothing else becomes a path."""

from __future__ import annotations

import re
from typing import Final

from kitwright.measure import plain_word

__all__ = ["WORD", "path_word"]

WORD: Final = re.compile(r"[a-z0-9](?:[a-z0-9-]{0,58}[a-z0-9])?")

LONGEST_WISH: Final = 48
"""So that a number finds room behind it."""


def path_word(wish: str) -> str:
    """The nearest word to what a person wrote; empty if nothing of it can stand in one."""
    plain = "".join(sign if sign.isascii() else " " for sign in plain_word(wish))
    return "-".join(plain.replace("-", " ").split())[:LONGEST_WISH].strip("-")
