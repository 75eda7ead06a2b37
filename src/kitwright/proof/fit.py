"""Whether one thing goes into or over another: a mat on its card, a card in its envelope, a lid over its box, a band round a stack.

Sizes are measured on the folded parts, in millimetres, thickness and layers reckoned in. Free play is meant in all, both ends together.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from kitwright.findings import Finding, Reading, Severity, judged
from kitwright.folding import MeasuredExtent
from kitwright.measure import ON_LIMIT, Ruler, Unit

__all__ = [
    "ENVELOPE_PLAY",
    "GRIP",
    "LID_PLAY",
    "LOOSE_BAND",
    "Play",
    "check_band_place",
    "check_envelope",
    "check_lid_height",
    "check_mat",
    "check_over",
]

COMMON: Final = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Play:
    """Least free play that is comfortable, most that is not sloppy, and what is so much that nothing holds; mm in all, with the source."""

    least: float
    most: float
    because: str
    falls_off: float = math.inf


LID_PLAY: Final = Play(0.2, 2.5, COMMON, falls_off=10.0)
LOOSE_BAND: Final = Play(0.2, 3.0, COMMON, falls_off=12.0)
ENVELOPE_SOURCE: Final = (
    "least difference between an announcement envelope and its largest enclosure in printed envelope tables: 1/8 in (A2 width); the "
    "upper limit is common practice, no source"
)
ENVELOPE_PLAY: Final = MappingProxyType(
    {
        Unit.INCH: Play(25.4 / 8, 25.4 / 2, ENVELOPE_SOURCE),
        Unit.MILLIMETRE: Play(3.0, 13.0, ENVELOPE_SOURCE),
        Unit.CENTIMETRE: Play(3.0, 13.0, ENVELOPE_SOURCE),
    }
)
"""Free play of a card in an envelope, by the unit of the ruler: 1/8 and 1/2 in, which a metric ruler reads as 3 and 13 mm."""

GRIP: Final = 25.4 / 4
"""How much of a box shows below a lid all round, so that fingers can hold it, mm. Common practice, no source."""

BAND_SLACK: Final = 0.25
"""A band this much (mm) broader than its place is not seen to be. Common practice, no source."""

BORDER_LEAST: Final = 25.4 / 16
"""A border narrower than this (mm) cannot be kept even by eye. Common practice, no source."""


def check_over(
    about: str,
    axis: str,
    inside: MeasuredExtent,
    outside: float,
    *,
    play: Play,
    ruler: Ruler,
    what: str,
    side: str = "",
) -> Finding:
    """A lid or band over or round what it covers, along one axis of its own; `what` is the outer thing's word: lid, band.

    `side` names the axis of what it covers, where that is another one.
    """
    free = inside.net - outside
    parts = f"{side or axis} inside {ruler.near(inside.net)} against {ruler.near(outside)} outside"
    reading = Reading(free, play.least, play.because)
    if free < -ON_LIMIT:
        severity, words = Severity.FAIL, f"The {what} is {ruler.near(-free)} too small and does not go on ({parts})."
        reading = Reading(free, 0.0, "geometry")
    elif free < play.least:
        severity, words = (
            Severity.WARNING,
            f"The {what} goes on very tightly: only {ruler.near(max(free, 0.0))} free in all ({parts}).",
        )
    elif free > play.falls_off:
        severity, words = Severity.FAIL, f"The {what} is much too large and stays on nothing ({parts})."
        reading = Reading(free, play.falls_off, play.because, is_upper_limit=True)
    elif free > play.most:
        severity, words = Severity.WARNING, f"The {what} is loose: {ruler.near(free)} free in all ({parts})."
        reading = Reading(free, play.most, play.because, is_upper_limit=True)
    else:
        severity, words = Severity.OK, f"The {what} goes on with {ruler.near(free)} free in all ({parts})."
    return judged(f"{what}-fit-{axis}", severity, about, words, reading)


def check_lid_height(
    about: str, hanging: float, box_height: float, ruler: Ruler, *, what: str, at_least: float, is_all_round: bool
) -> Finding:
    """What hangs down along a box, so far from the box's rim, must not be longer than the box is high; a lid all round leaves fingers
    something to hold. `at_least`: so far it hangs down where it is as short as its form allows.
    """
    reading = Reading(hanging, box_height, "geometry", is_upper_limit=True)
    left = ruler.near(max(reading.margin, 0.0))
    if reading.margin < -ON_LIMIT:
        words = (
            f"The {what} is {ruler.near(-reading.margin)} longer than the box is high, so it would stand on the table."
        )
        return judged("lid-height", Severity.FAIL, about, words, reading)
    if is_all_round and reading.margin < GRIP - ON_LIMIT:
        other = "make it shorter" if at_least <= box_height - GRIP + ON_LIMIT else "make the box higher"
        words = f"The {what} ends {left} above the foot of the box, which leaves little to hold: cut a thumb notch into it, or {other}."
        grip = Reading(hanging, box_height - GRIP, COMMON, is_upper_limit=True)
        return judged("lid-height", Severity.NOTE, about, words, grip)
    return judged("lid-height", Severity.OK, about, f"The {what} ends {left} above the foot of the box.", reading)


def check_band_place(about: str, breadth: float, room: float, ruler: Ruler, *, under: str | None) -> Finding:
    """A band lies wholly on what it goes round, where no lid lies (`under`: the lid's name)."""
    reading = Reading(breadth, room, "geometry", is_upper_limit=True)
    where = f"where there are {ruler.near(room)}"
    if under:
        where = f"where {under} leaves {ruler.near(room)} free" if room > 0 else f"and goes where {under} lies"
    if reading.margin < -BAND_SLACK:
        words = f"The band is {ruler.near(breadth)} broad {where}, so it does not lie flat."
        return judged("band-place", Severity.FAIL, about, words, reading)
    return judged("band-place", Severity.OK, about, f"The band is {ruler.near(breadth)} broad {where}.", reading)


def check_envelope(
    about: str,
    card: tuple[float, float, float],
    inside: tuple[float, float],
    ruler: Ruler,
    *,
    filling: str = "",
) -> Finding:
    """A card (width, height, thickness, mm) in an envelope (inside width, height), upright or turned a quarter.

    A thick card needs its thickness once more: the envelope bulges round it. Where more lies in it, the thickness is that of all,
    and `filling` names it.
    """
    width, height, thickness = card
    ways = [(inside[0] - width, inside[1] - height), (inside[0] - height, inside[1] - width)]
    free = max(ways, key=min)
    words_free = f"{ruler.near(max(free[0], 0))} free from side to side and {ruler.near(max(free[1], 0))} upwards"
    play = ENVELOPE_PLAY[ruler.unit]
    reading = Reading(min(free), play.least, play.because)
    bulged = min(free) - thickness
    if bulged < -ON_LIMIT:
        severity, reading = Severity.FAIL, Reading(bulged, 0.0, "geometry")
        words = f"It does not go in: the envelope is {ruler.near(-bulged)} too small, thickness reckoned in."
    elif reading.margin < -ON_LIMIT:
        severity, words = Severity.WARNING, f"It goes in very tightly, with {words_free}."
    elif bulged > play.most:
        severity, words = Severity.NOTE, f"It has much room and will slide about, with {words_free}."
    else:
        severity, words = Severity.OK, f"It goes in with {words_free}."
    if filling:
        words = f"{words} In it lie {filling}, {ruler.near(thickness)} thick together."
    return judged("envelope-fit", severity, about, words, reading)


def check_mat(
    about: str,
    mat: tuple[float, float],
    host: tuple[float, float],
    ruler: Ruler,
    *,
    is_framed: bool = True,
    walls: tuple[str, tuple[float, float]] | None = None,
) -> Finding:
    """A mat lying on a card: it stays inside and, where it `is_framed`, an even border shows that can be kept by eye.

    `walls`: the box whose walls stand round a mat inside its lid when that is on, and how far they are apart.
    """
    borders = borders_round(mat, host)
    least = min(borders)
    sizes = border_words(borders, ruler)
    free = borders_round(mat, walls[1] if walls else host)
    reading = Reading(least, BORDER_LEAST, COMMON)
    if least < -ON_LIMIT:
        over = [name for name, border in zip(("sides", "top and bottom"), borders, strict=True) if border < -ON_LIMIT]
        severity, reading = Severity.FAIL, Reading(least, 0.0, "geometry")
        words = f"It sticks out at the {' and the '.join(over)} by {ruler.near(-least)}."
    elif walls and min(free) < -ON_LIMIT:
        severity, reading = Severity.FAIL, Reading(min(free), 0.0, "geometry")
        much = ruler.near(-2 * min(free))
        words = f"It is {much} too large to go between the walls of {walls[0]}: they stand on it, and the lid stays up."
    elif is_framed and reading.margin < -ON_LIMIT:
        severity, words = Severity.NOTE, f"The border is narrow: {sizes}. It shows every slip."
    elif is_framed and abs(borders[0] - borders[1]) > float(ruler.step):
        severity, words = Severity.NOTE, f"The border is uneven: {sizes}."
    else:
        severity, words = Severity.OK, f"The border is {sizes}."
    if walls and severity is not Severity.FAIL:
        words += f" With the lid on, the walls of {walls[0]} leave it {border_words(free, ruler)}."
    return judged("mat-on-card", severity, about, words, reading)


def borders_round(mat: tuple[float, float], room: tuple[float, float]) -> tuple[float, float]:
    """What is left beside and above a mat in the middle of a room, mm on each side."""
    return ((room[0] - mat[0]) / 2, (room[1] - mat[1]) / 2)


def border_words(borders: tuple[float, float], ruler: Ruler) -> str:
    """`1/8 in at the sides, 1/16 in above and below`."""
    return f"{ruler.near(abs(borders[0]))} at the sides, {ruler.near(abs(borders[1]))} above and below"
