"""Whether one thing goes into or over another: a mat on its card, a card in its envelope, a lid over its box, a band round a stack.

Sizes are measured on the folded parts, in millimetres, thickness and layers reckoned in. Free play is meant in all, both ends together.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from kitwright.findings import Finding, Severity
from kitwright.folding import MeasuredExtent
from kitwright.measure import Ruler

__all__ = [
    "ENVELOPE_PLAY",
    "LID_PLAY",
    "LOOSE_BAND",
    "Play",
    "check_envelope",
    "check_lid_height",
    "check_mat",
    "check_over",
]

COMMON: Final = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Play:
    """Least free play that is comfortable and most that is not sloppy, mm in all, with the source of both."""

    least: float
    most: float
    because: str


LID_PLAY: Final = Play(0.2, 2.5, COMMON)
LOOSE_BAND: Final = Play(0.2, 3.0, COMMON)
ENVELOPE_PLAY: Final = Play(
    25.4 / 8,
    25.4 / 2,
    "least difference between an announcement envelope and its largest enclosure in printed envelope tables: 1/8 in (A2 width); the "
    "upper limit is common practice, no source",
)
BORDER_LEAST: Final = 25.4 / 16
"""A border narrower than this (mm) cannot be kept even by eye. Common practice, no source."""


def check_over(
    about: str, axis: str, inside: MeasuredExtent, outside: float, *, play: Play, ruler: Ruler, what: str
) -> Finding:
    """A lid or band over or round what it covers, along one axis. `what` is the outer thing's word: lid, band."""
    free = inside.net - outside
    code = f"{what}-fit-{axis}"
    numbers = {"measured": free, "required": play.least, "margin": free - play.least}
    parts = f"{axis} inside {ruler.near(inside.net)} against {ruler.near(outside)} outside"
    if free < 0:
        return Finding(
            code,
            Severity.FAIL,
            about,
            f"The {what} is {ruler.near(-free)} too small and does not go on ({parts}).",
            because="geometry",
            **{**numbers, "required": 0.0, "margin": free},
        )
    if free < play.least:
        return Finding(
            code,
            Severity.WARNING,
            about,
            f"The {what} goes on very tightly: only {ruler.near(free)} free in all ({parts}).",
            because=play.because,
            **numbers,
        )
    if free > play.most:
        return Finding(
            code,
            Severity.WARNING,
            about,
            f"The {what} is loose: {ruler.near(free)} free in all ({parts}).",
            measured=free,
            required=play.most,
            margin=play.most - free,
            because=play.because,
        )
    return Finding(
        code,
        Severity.OK,
        about,
        f"The {what} goes on with {ruler.near(free)} free in all ({parts}).",
        because=play.because,
        **numbers,
    )


def check_lid_height(about: str, hanging: float, box_height: float, ruler: Ruler, *, what: str) -> Finding:
    """What hangs down along a box must not be longer than the box is high."""
    margin = box_height - hanging
    if margin < 0:
        return Finding(
            "lid-height",
            Severity.FAIL,
            about,
            f"The {what} is {ruler.near(-margin)} longer than the box is high, so it would stand on the table.",
            measured=hanging,
            required=box_height,
            margin=margin,
            because="geometry",
        )
    return Finding(
        "lid-height",
        Severity.OK,
        about,
        f"The {what} ends {ruler.near(margin)} above the foot of the box.",
        measured=hanging,
        required=box_height,
        margin=margin,
        because="geometry",
    )


def check_envelope(
    about: str, card: tuple[float, float, float], inside: tuple[float, float], ruler: Ruler, *, what: str
) -> Finding:
    """A card (width, height, thickness, mm) in an envelope or pocket (inside width, height), upright or turned a quarter."""
    width, height, thickness = card
    ways = [(inside[0] - width, inside[1] - height), (inside[0] - height, inside[1] - width)]
    free = max(ways, key=min)
    # a thick thing needs its thickness twice over: the envelope bulges round it at both ends
    least = min(free) - thickness
    numbers = {"measured": least, "required": ENVELOPE_PLAY.least, "margin": least - ENVELOPE_PLAY.least}
    free_words = f"{ruler.near(max(free[0], 0))} free in width and {ruler.near(max(free[1], 0))} in height"
    if least < 0:
        return Finding(
            f"{what}-fit",
            Severity.FAIL,
            about,
            f"It does not go in: the {what} is {ruler.near(-least)} too small, thickness reckoned in.",
            because="geometry",
            **{**numbers, "required": 0.0, "margin": least},
        )
    if least < ENVELOPE_PLAY.least:
        severity, words = Severity.WARNING, f"It goes in very tightly, with {free_words}."
    elif min(free) > ENVELOPE_PLAY.most and what == "envelope":
        severity, words = Severity.NOTE, f"It has much room and will slide about, with {free_words}."
    else:
        severity, words = Severity.OK, f"It goes in with {free_words}."
    return Finding(f"{what}-fit", severity, about, words, because=ENVELOPE_PLAY.because, **numbers)


def check_mat(about: str, mat: tuple[float, float], host: tuple[float, float], ruler: Ruler) -> Finding:
    """A mat lying on a card: it stays inside, and the same border shows on both sides."""
    borders = ((host[0] - mat[0]) / 2, (host[1] - mat[1]) / 2)
    least = min(borders)
    numbers = {"measured": least, "required": BORDER_LEAST, "margin": least - BORDER_LEAST}
    words = f"{ruler.near(abs(borders[0]))} at the sides, {ruler.near(abs(borders[1]))} above and below"
    if least < 0:
        over = [name for name, border in zip(("sides", "top and bottom"), borders, strict=True) if border < 0]
        return Finding(
            "mat-on-card",
            Severity.FAIL,
            about,
            f"It sticks out at the {' and the '.join(over)} by {ruler.near(-least)}.",
            because="geometry",
            **{**numbers, "required": 0.0, "margin": least},
        )
    if least < BORDER_LEAST:
        return Finding(
            "mat-on-card",
            Severity.NOTE,
            about,
            f"The border is narrow: {words}. It shows every slip.",
            because=COMMON,
            **numbers,
        )
    if abs(borders[0] - borders[1]) > float(ruler.step):
        return Finding(
            "mat-on-card", Severity.NOTE, about, f"The border is uneven: {words}.", because=COMMON, **numbers
        )
    return Finding("mat-on-card", Severity.OK, about, f"The border is {words}.", because=COMMON, **numbers)
