"""How wide words are when set in Source Sans Pro, so that labels can be given room before anything is typeset. Millimetres."""

from __future__ import annotations

import math
import re
from types import MappingProxyType
from typing import Final

from kitwright.printouts.drawing import Weight

__all__ = ["CAP_HEIGHT", "DESCENT", "FRACTION", "LINE_HEIGHT", "RESERVE", "text_runs", "text_width", "wrapped"]

CAP_HEIGHT: Final = 0.66
"""Height of a capital, in parts of the letter size (from the font)."""

DESCENT: Final = 0.22
"""How far a g hangs below the line, in parts of the letter size (from the font)."""

LINE_HEIGHT: Final = 1.2
"""Distance between lines of a label, in parts of the letter size."""

FRACTION: Final = re.compile(r"(?<![\w/.,⁄])(\d{1,2}/(?:2|3|4|5|6|8|10|12|16|20|24|32|48|64))(?![\w/]|[.,]\d)")
"""A fraction as it stands on a ruler: one or two figures over a usual denominator, and not part of a date or a code."""

# Advance widths in thousandths of the letter size, read from the font once and rounded up to the next 20: width → its characters.
WIDTHS: Final = MappingProxyType(
    {
        100: "⁄",
        200: " \N{NO-BREAK SPACE}",
        260: "',.:;ijl|·’‘′",
        280: "I",
        300: "!f",
        320: "()-[]{}•",
        340: "t°",
        360: "/\\r",
        380: "²³⁵₈",
        420: "*s",
        440: '"?z“”″',
        460: "cxç",
        480: "JYvy–",
        500: "#$+0123456789<=>FL^_ek~×±éè€£",
        520: "VXagäå",
        540: "ESTZÉ",
        560: "A`bdhnopquüöñø",
        580: "CKPRßµ",
        600: "B",
        620: "&DG→←↑↓✓",
        660: "HNUÜ",
        680: "OQÖ",
        720: "w",
        740: "M",
        800: "W—¼¾",
        820: "½⅛⅞",
        840: "%m⅜⅝",
        860: "@",
        960: "…",
    }
)
WIDTH_OF: Final = MappingProxyType({sign: width / 1000 for width, signs in WIDTHS.items() for sign in signs})
OTHER_SIGN: Final = 0.7
"""Reckoned for a character outside the table, in parts of the letter size."""
BOLD: Final = 1.04
"""Semibold letters are about this much wider than regular ones."""

RESERVE: Final = 1.1
"""A picture on a screen may have to make do with another, wider font, in which fractions are not set small."""


def text_runs(text: str) -> tuple[tuple[str, bool], ...]:
    """One line of text cut into runs: (words, whether they are a fraction to be set small).

    >>> text_runs("4 1/4 in")
    (('4 ', False), ('1/4', True), (' in', False))
    """
    return tuple((run, bool(i % 2)) for i, run in enumerate(FRACTION.split(text)) if run)


def text_width(text: str, size: float, weight: Weight = "regular") -> float:
    """The width in mm of the longest line of `text` in letters of `size` mm, on the wide side (see RESERVE)."""
    return max(line_width(line) for line in text.split("\n")) * size * RESERVE * (BOLD if weight == "bold" else 1)


def wrapped(text: str, width: float, size: float, weight: Weight = "regular") -> str:
    r"""The text broken into lines no wider than `width` mm in letters of `size` mm: at spaces, and inside a word that is too long.

    >>> wrapped("a card", 5.0, 3.5)
    'a\ncard'
    """
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in paragraph.split(" "):
            longer = f"{line} {word}" if line else word
            if text_width(longer, size, weight) <= width:
                line = longer
                continue
            lines += [line] if line else []
            line = word
            while len(line) > 1 and text_width(line, size, weight) > width:
                count = max(fitting_signs(line, width, size, weight), 1)
                lines.append(line[:count])
                line = line[count:]
        lines.append(line)
    return "\n".join(lines)


def fitting_signs(word: str, width: float, size: float, weight: Weight) -> int:
    """How many signs of a word go into a width."""
    return sum(text_width(word[: count + 1], size, weight) <= width for count in range(len(word)))


def line_width(line: str) -> float:
    """The width of one line in parts of the letter size."""
    return math.fsum(WIDTH_OF.get(sign, OTHER_SIGN) for sign in line)
