"""The head of a page that is printed at true size: how high its words are, reckoned before they are typeset. Millimetres."""

from __future__ import annotations

import math
from collections.abc import Sequence

from kitwright.printouts.lettering import wrapped
from kitwright.printouts.write.house import heading
from kitwright.printouts.write.typst import Markup, words

__all__ = ["HINT_SIZE", "SLACK", "UNDER", "Title", "words_height"]

MM = 25.4 / 72
TITLE_POINTS = (11.5, 10.0, 9.0)
"""Sizes of a title: the first with which the head keeps its usual height, or else the last."""

HINT_SIZE = 11 * MM
"""Size of the letters of a hint (mm), as the house style has it."""

CAPITAL, LEADING = 0.66, 0.62
"""Height of a line and distance to the next one, in parts of the letter size, as the house style has them."""

UNDER = 3.7
"""Free height between the blocks of a head (mm)."""

SLACK = 3.4
"""Free height below a head (mm)."""


class Title:
    """The title of a page in a column `width` mm wide, with hints below it: as large as the usual height of the head allows.

    `room` is that height. What is `heading` and how high title and hints are (`height`, mm) can be read off.
    """

    def __init__(self, text: str, width: float, *, hints: Sequence[str], room: float) -> None:
        below = UNDER + words_height(hints, width)
        for points in TITLE_POINTS:
            lines = wrapped(text, width, points * MM, "bold").count("\n") + 1
            self.height = (lines * CAPITAL * points + (lines - 1) * LEADING * TITLE_POINTS[0]) * MM + below
            if self.height <= room:
                break
        smaller = f"#text(size: {points:g}pt)"
        self.heading = heading(
            words(text) if points == TITLE_POINTS[0] else Markup(f"{smaller}[{words(text)}]"), level=3
        )


def words_height(paragraphs: Sequence[str], width: float) -> float:
    """How high paragraphs are in a column (mm); rather too much than too little."""
    lines = [wrapped(each, width, HINT_SIZE).count("\n") + 1 for each in paragraphs]
    return math.fsum(HINT_SIZE * (CAPITAL + LEADING) * count for count in lines) + UNDER * max(len(lines) - 1, 0)
