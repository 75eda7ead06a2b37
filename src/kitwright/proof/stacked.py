"""Whether the contents of a box go in as one stack with the other things beside it. Millimetres, free play in all."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType
from typing import Final

from kitwright.findings import Finding, Reading, Severity, judged
from kitwright.measure import MM_PER_INCH, ON_LIMIT, Ruler, Unit

__all__ = ["FINGER_ROOM", "check_stack"]

FINGER_ROOM: Final = MappingProxyType(
    {Unit.INCH: MM_PER_INCH / 4, Unit.MILLIMETRE: Fraction(6), Unit.CENTIMETRE: Fraction(6)}
)
"""Free room in all, each way, with which fingers get at things: 1/4 in (Dartmouth Library preservation blog, 2015), which a maker
with a metric ruler reads as 6 mm. In mm, exactly."""

LEAST_ROOM: Final = 25.4 / 16
"""Free room in all below which contents have to be coaxed in. Common practice, no source."""


def check_stack(
    about: str,
    needed: dict[str, float],
    inside: dict[str, float],
    ruler: Ruler,
    *,
    is_only_way: bool,
) -> Finding:
    """Whether a room (by axis) goes into an inside size. `is_only_way`: the contents can lie no other way than in that room.

    Where they could lie otherwise, a room that is too large proves nothing: the finding is then *unknown*.
    """
    free = {axis: inside[axis] - needed[axis] for axis in needed}
    tight = min(free, key=lambda axis: free[axis])
    least = free[tight]
    words = ", ".join(f"{ruler.near(max(play, 0.0))} in {axis}" for axis, play in free.items())
    room = FINGER_ROOM[ruler.unit]
    finger = Reading(least, float(room), "finger room of 1/4 in: Dartmouth Library preservation blog, 2015")
    if least < -ON_LIMIT:
        reading = Reading(least, 0.0, "geometry; springback of a tenth is common practice, no source")
        lack = ruler.near(-least)
        if is_only_way:
            message = f"The contents do not go in: {lack} is missing in {tight}, springback of the stack reckoned in."
            return judged("contents-fit", Severity.FAIL, about, message, reading)
        message = (
            f"Packed as a stack with the other things beside it, {lack} is missing in {tight}; whether another way of packing "
            "fits was not settled."
        )
        return judged("contents-fit", Severity.UNKNOWN, about, message, reading)
    if least < LEAST_ROOM - ON_LIMIT:
        reading = Reading(least, LEAST_ROOM, "common practice, no source")
        return judged(
            "contents-fit", Severity.WARNING, about, f"The contents go in very tightly, free: {words}.", reading
        )
    if least < float(room) - ON_LIMIT:
        message = f"The contents go in, free: {words}. Fingers need about {ruler.near(room)}."
        return judged("contents-fit", Severity.NOTE, about, message, finger)
    return judged("contents-fit", Severity.OK, about, f"The contents go in, free: {words}.", finger)
