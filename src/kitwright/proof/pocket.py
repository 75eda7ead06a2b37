"""Whether a thing goes into a pocket, which is open at the top. Sizes are measured on the folded parts, in millimetres."""

from __future__ import annotations

from kitwright.findings import Finding, Reading, Severity, judged
from kitwright.measure import Ruler
from kitwright.proof.fit import COMMON, ENVELOPE_PLAY, HAIR

__all__ = ["check_pocket", "is_turned_in_pocket"]


def is_turned_in_pocket(thing: tuple[float, float, float], inside: tuple[float, float]) -> bool:
    """Whether a thing (width, height, thickness of all in the pocket) is better turned a quarter: to go in at all, and deepest."""
    width, height, thickness = thing
    fits = [inside[0] - side - thickness >= -HAIR for side in (width, height)]
    if fits[0] and fits[1]:
        return width < height and inside[1] < height
    return fits[1] or (not fits[0] and height < width)


def check_pocket(
    about: str, thing: tuple[float, float, float], inside: tuple[float, float], ruler: Ruler, *, filling: str = ""
) -> Finding:
    """A thing in a pocket (inside width, height): the sides must hold it; what is higher sticks out at the top.

    Its thickness, with all that lies in the pocket (`filling` names that), is taken off the width: the pocket bulges.
    """
    is_turned = is_turned_in_pocket(thing, inside)
    width, height = (thing[1], thing[0]) if is_turned else (thing[0], thing[1])
    thickness = thing[2]
    free, out = inside[0] - width, height - inside[1]
    turned = ", turned a quarter," if is_turned else ""
    if free - thickness < -HAIR:
        reading = Reading(free - thickness, 0.0, "geometry")
        severity, words = (
            Severity.FAIL,
            f"The pocket is {ruler.near(thickness - free)} too narrow, thickness reckoned in.",
        )
    elif out > height / 2:
        reading = Reading(out, height / 2, COMMON, is_upper_limit=True)
        severity, words = (
            Severity.WARNING,
            f"More than half of it sticks out at the top{turned.removesuffix(',')}, so that it may fall out.",
        )
    elif free < ENVELOPE_PLAY[ruler.unit].least - HAIR:
        reading = Reading(free, ENVELOPE_PLAY[ruler.unit].least, ENVELOPE_PLAY[ruler.unit].because)
        severity, words = (
            Severity.WARNING,
            f"It goes in tightly{turned.removesuffix(',')}, with {ruler.near(max(free, 0.0))} free from side to side.",
        )
    elif out > HAIR:
        reading = Reading(out, 0.0, "geometry", is_upper_limit=True)
        severity, words = Severity.NOTE, f"It goes in{turned} and sticks out {ruler.near(out)} at the top."
    else:
        reading = Reading(free, ENVELOPE_PLAY[ruler.unit].least, ENVELOPE_PLAY[ruler.unit].because)
        severity = Severity.OK
        words = f"It goes in{turned} with {ruler.near(free)} free from side to side and {ruler.near(-out)} upwards."
    if filling:
        words = f"{words} In it lie {filling}, {ruler.near(thickness)} thick together."
    return judged("pocket-fit", severity, about, words, reading)
