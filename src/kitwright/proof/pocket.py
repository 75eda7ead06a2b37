"""Whether a thing goes into a pocket, which is open at the top. Sizes are measured on the folded parts, in millimetres."""

from __future__ import annotations

from kitwright.findings import Finding, Reading, Severity, judged
from kitwright.measure import ON_LIMIT, Ruler
from kitwright.proof.fit import COMMON, ENVELOPE_PLAY

__all__ = ["check_pocket", "is_turned_in_pocket"]


def is_turned_in_pocket(thing: tuple[float, float, float], inside: tuple[float, float]) -> bool:
    """Whether a thing (width, height, thickness of all in the pocket) is better turned a quarter: to go in at all, and deepest."""
    width, height, thickness = thing
    fits = [inside[0] - side - thickness >= -ON_LIMIT for side in (width, height)]
    if fits[0] and fits[1]:
        return width < height and inside[1] < height
    return fits[1] or (not fits[0] and height < width)


def check_pocket(
    about: str,
    thing: tuple[float, float, float],
    inside: tuple[float, float],
    ruler: Ruler,
    *,
    filling: str = "",
    notch: float = 0.0,
) -> Finding:
    """A thing in a pocket (inside width, height up to its edge): the sides must hold it; what is higher sticks out at the top.

    Its thickness, with all that lies in the pocket (`filling` names that), is taken off the width: the pocket bulges. The half-round
    `notch` (its radius) must be so deep that the thumb reaches the thing, and one as wide as the thing holds nothing of it.
    """
    is_turned = is_turned_in_pocket(thing, inside)
    width, height = (thing[1], thing[0]) if is_turned else (thing[0], thing[1])
    thickness = thing[2]
    free, out = inside[0] - width, height - inside[1]
    bare = out + notch if 2 * notch >= width else out
    turned = ", turned a quarter," if is_turned else ""
    if free - thickness < -ON_LIMIT:
        reading = Reading(free - thickness, 0.0, "geometry")
        severity, words = (
            Severity.FAIL,
            f"The pocket is {ruler.near(thickness - free)} too narrow, thickness reckoned in.",
        )
    elif bare > height / 2:
        reading = Reading(bare, height / 2, COMMON, is_upper_limit=True)
        where = (
            f"sticks out at the top{turned.removesuffix(',')}"
            if out > height / 2
            else f"lies bare{turned} above the thumb notch"
        )
        severity, words = (Severity.WARNING, f"More than half of it {where}, so that it may fall out.")
    elif free < ENVELOPE_PLAY[ruler.unit].least - ON_LIMIT:
        reading = Reading(free, ENVELOPE_PLAY[ruler.unit].least, ENVELOPE_PLAY[ruler.unit].because)
        severity, words = (
            Severity.WARNING,
            f"It goes in tightly{turned.removesuffix(',')}, with {ruler.near(max(free, 0.0))} free from side to side.",
        )
    elif out > ON_LIMIT:
        reading = Reading(out, 0.0, "geometry", is_upper_limit=True)
        severity, words = Severity.NOTE, f"It goes in{turned} and sticks out {ruler.near(out)} at the top."
    elif 0 < notch <= -out + ON_LIMIT:
        reading = Reading(-out, notch, "geometry", is_upper_limit=True)
        severity = Severity.NOTE
        words = (
            f"It goes in{turned} and lies {ruler.near(-out)} below the edge, and the thumb notch is only {ruler.near(notch)} "
            "deep: make the notch deeper, or the pocket lower."
        )
    else:
        reading = Reading(free, ENVELOPE_PLAY[ruler.unit].least, ENVELOPE_PLAY[ruler.unit].because)
        severity = Severity.OK
        words = f"It goes in{turned} with {ruler.near(free)} free from side to side and {ruler.near(-out)} upwards."
    if filling:
        words = f"{words} In it lie {filling}, {ruler.near(thickness)} thick together."
    return judged("pocket-fit", severity, about, words, reading)
