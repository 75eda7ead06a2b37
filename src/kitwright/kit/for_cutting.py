"""What a kit says of blanks, papers, offcuts and trimmer, as the cutting plan knows it: in whole nanometres."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Final

from kitwright.cutting import NM_PER_MM, Margins, Stock, TrimmerLimits, nm_down, nm_up
from kitwright.kit.bench import Trimmer
from kitwright.kit.built_part import BuiltPart
from kitwright.kit.model import Kit
from kitwright.paper import Margins as PaperMargins
from kitwright.paper import Paper
from kitwright.pattern import Blank

__all__ = ["blank_label", "drawn_nm", "sheet_stock", "stocks_for", "trimmer_limits"]

DRAWN_TO_NM: Final = 0.05
"""A drawn length this near to a whole nanometre is one: drawings are made with floating-point numbers (16 digits of some 300 mm)."""


def trimmer_limits(trimmer: Trimmer) -> TrimmerLimits:
    """The trimmer's limits as the cutting plan knows them: where a length is no whole number of nanometres, the narrower ones."""
    return TrimmerLimits(
        longest_cut=None if trimmer.longest_cut is None else nm_down(trimmer.longest_cut),
        smallest_strip=nm_up(trimmer.narrowest or Fraction(0)),
    )


def blank_label(part: BuiltPart, blank: Blank) -> str:
    """A blank's name for people: the part's name, with the blank's own where the part has several or needs it more than once."""
    plain = len(part.pattern.blanks) == 1 and blank.copies == 1
    return part.name if plain else f"{part.name}: {blank.name}"


def sheet_stock(paper: Paper) -> Stock:
    """A paper's sheets as stock for the cutting plan, as many as it takes; what is on hand only says how many are to be bought.

    A sheet or margin that is no whole number of nanometres leaves by less than one too little room, never too much.
    """
    price = None if paper.price is None or not paper.price.minor else paper.price.minor
    size = (nm_down(paper.sheet_width_mm), nm_down(paper.sheet_height_mm))
    return Stock(paper.key, *size, None, price, margins_nm(paper.margins))


def stocks_for(kit: Kit, paper: Paper) -> tuple[Stock, ...]:
    """Whole sheets of a paper, then its offcuts on hand, which cost nothing and so are used first."""
    stocks = [sheet_stock(paper)]
    for offcut in kit.offcuts:
        if offcut.paper == paper.key and offcut.count:
            said = f"offcut {kit.ruler.size(offcut.width, offcut.height)}"
            alike = sum(stock.name.startswith(said) for stock in stocks)
            name = f"{said} ({alike + 1})" if alike else said
            size = (nm_down(offcut.width), nm_down(offcut.height))
            stocks.append(Stock(name, *size, offcut.count, 0, margins_nm(offcut.margins)))
    return tuple(stocks)


def margins_nm(margins: PaperMargins) -> Margins:
    """The margins of a sheet as the cutting plan knows them."""
    return Margins(nm_up(margins.left), nm_up(margins.bottom), nm_up(margins.right), nm_up(margins.top))


def drawn_nm(mm: float) -> int:
    """A drawn length in whole nanometres: thirds of an inch are rounded down, so that three of them are no longer than their inches.

    Drawings carry far less than a nanometre of rounding, which is rounded off.
    """
    length = mm * NM_PER_MM
    return round(length) if abs(length - round(length)) < DRAWN_TO_NM else math.floor(length)
