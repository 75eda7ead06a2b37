"""Short signs for the blanks of a kit: A, B, C … in the order of the cut list, the same on every page."""

from __future__ import annotations

from kitwright.plan import Plan

__all__ = ["signs_of"]


def signs_of(plan: Plan) -> dict[str, str]:
    """The sign of every blank by its label."""
    return {line.label: sign(place) for place, line in enumerate(plan.lines)}


def sign(place: int) -> str:
    """A to Z, then AA, AB …"""
    word = ""
    rest = place + 1
    while rest:
        rest, letter = divmod(rest - 1, 26)
        word = chr(ord("A") + letter) + word
    return word
