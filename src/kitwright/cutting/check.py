"""Sorting out what cannot be asked (mistakes) and what cannot be cut (pieces that fit no sheet), before any search."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from kitwright.cutting.plan import Reason, Unplaced
from kitwright.cutting.stock import PieceType, Stock, TrimmerLimits
from kitwright.errors import Mistake, Mistakes, Place
from kitwright.measure import counted

__all__ = [
    "Freeing",
    "can_hold",
    "check_question",
    "find_unplaceable",
    "freeing",
    "is_bared_first",
    "is_within_reach",
]


MOST_IN_A_ROW: Final = 300
"""Nobody cuts more pieces than this from one strip: 1 mm on a 12 × 12 in sheet. A larger number is a slip of the keyboard."""


def check_question(demand: Sequence[PieceType], stocks: Sequence[Stock], trimmer: TrimmerLimits | None) -> None:
    """Raise `Mistakes` with everything that is wrong about the question itself; say nothing if it can be asked."""
    found = (
        *repeated_names([piece.name for piece in demand], "piece"),
        *repeated_names([stock.name for stock in stocks], "stock"),
        *(mistake for piece in demand for mistake in piece_mistakes(piece, stocks)),
        *(mistake for stock in stocks for mistake in stock_mistakes(stock)),
        *price_mistakes(stocks),
        *trimmer_mistakes(trimmer),
    )
    if found:
        raise Mistakes(found)


def repeated_names(names: Sequence[str], kind: str) -> Iterator[Mistake]:
    """Names that are given to more than one thing of a kind."""
    for name in dict.fromkeys(names):
        if names.count(name) > 1:
            yield Mistake(f"There are {names.count(name)} {kind}s named {name!r}.", do="Give each its own name.")


def piece_mistakes(piece: PieceType, stocks: Sequence[Stock]) -> Iterator[Mistake]:
    """What is wrong with one piece."""
    place = Place(spot=f"piece {piece.name!r}")
    if piece.width <= 0 or piece.height <= 0:
        yield Mistake("The size must be larger than zero.", do="Give width and height.", place=place)
    if piece.count <= 0:
        yield Mistake(
            f"{counted(piece.count, 'piece')} cannot be cut.", do="Ask for one or more, or leave it out.", place=place
        )
    if not piece.turns or not set(piece.turns) <= {0, 1, 2, 3}:
        yield Mistake(
            f"The allowed turns are {piece.turns}.",
            do="Allow at least one of the quarter turns 0, 1, 2, 3.",
            place=place,
        )
    longest = max((max(stock.width, stock.height) for stock in stocks), default=0)
    if min(piece.width, piece.height) > 0 and longest // min(piece.width, piece.height) > MOST_IN_A_ROW:
        number = longest // min(piece.width, piece.height)
        text = f"It is so small that {number} of them would lie side by side on a sheet."
        yield Mistake(text, do="Check the size and its unit.", place=place)
    unknown = set(piece.stocks or ()) - {stock.name for stock in stocks}
    if unknown:
        yield Mistake(
            f"There is no stock named {sorted(unknown)[0]!r}.", do="Name a stock that is listed.", place=place
        )


def stock_mistakes(stock: Stock) -> Iterator[Mistake]:
    """What is wrong with one stock."""
    place = Place(spot=f"stock {stock.name!r}")
    margins = stock.margins
    if stock.width <= 0 or stock.height <= 0:
        yield Mistake("The size must be larger than zero.", do="Give width and height.", place=place)
    elif min(margins.left, margins.bottom, margins.right, margins.top) < 0:
        yield Mistake("A margin is below zero.", do="Give zero or more.", place=place)
    elif stock.usable_width <= 0 or stock.usable_height <= 0:
        yield Mistake("The margins leave nothing of the sheet.", do="Make them smaller.", place=place)
    if stock.count is not None and stock.count < 0:
        yield Mistake(f"There cannot be {counted(stock.count, 'sheet')}.", do="Give zero or more.", place=place)
    if stock.price is not None and stock.price < 0:
        yield Mistake("The price is below zero.", do="Give zero or more.", place=place)


def price_mistakes(stocks: Sequence[Stock]) -> Iterator[Mistake]:
    """Some stocks with a price and some without cannot be compared (a price of 0 marks an offcut and is always fine)."""
    if any(stock.price is None for stock in stocks) and any(stock.price for stock in stocks):
        bare = next(stock.name for stock in stocks if stock.price is None)
        yield Mistake(f"Some stocks have a price, but {bare!r} has none.", do="Give every stock a price, or none.")


def trimmer_mistakes(trimmer: TrimmerLimits | None) -> Iterator[Mistake]:
    """What is wrong with the trimmer's limits."""
    place = Place(spot="trimmer")
    if trimmer is not None and trimmer.longest_cut is not None and trimmer.longest_cut <= 0:
        yield Mistake("The longest cut must be larger than zero.", do="Give its length, or none.", place=place)
    if trimmer is not None and trimmer.smallest_strip < 0:
        yield Mistake("The smallest strip is below zero.", do="Give zero or more.", place=place)


def is_within_reach(stock: Stock, trimmer: TrimmerLimits) -> bool:
    """Whether the trimmer can cut a margin of this stock off at all, first or last: if not, nothing comes from it.

    It has to make a first cut through the whole sheet, and to hold what is left of a side when the last margin of it goes.
    """
    sides, ends = stock.usable_width < stock.width, stock.usable_height < stock.height
    can_begin = trimmer.longest_cut is None or min(stock.width, stock.height) <= trimmer.longest_cut
    held = min([stock.usable_width] * sides + [stock.usable_height] * ends, default=None)
    return held is None or (can_begin and held >= trimmer.smallest_strip)


def is_bared_first(stock: Stock, longest_cut: int | None) -> bool:
    """Whether all margins can be cut off the whole sheet, in one order or the other, with cuts no longer than `longest_cut`.

    Where only some of them can, the sheet is cut across into parts no longer than `longest_cut` first. Then all those cuts of a tree are
    possible that would be without margins, and only a piece that is itself longer cannot be had (see `freeing`).
    """
    size, usable = (stock.width, stock.height), (stock.usable_width, stock.usable_height)
    return longest_cut is None or longest_of_cuts(size, usable) <= longest_cut


def longest_of_cuts(size: tuple[int, int], kept: tuple[int, int]) -> int:
    """The longer of the cuts from one rectangle down to another (width, height), in the order in which it is shorter; 0 without a cut."""
    sides, ends = kept[0] < size[0], kept[1] < size[1]
    sides_first = max(size[1] if sides else 0, kept[0] if ends else 0)
    ends_first = max(size[0] if ends else 0, kept[1] if sides else 0)
    return min(sides_first, ends_first)


@dataclass(frozen=True, slots=True)
class Freeing:
    """What it takes to free one piece from a sheet with its margins (nm).

    `cut` is the longest of all the cuts, in the best order: all those along one side first, then those along the other. `held` is the
    narrowest part that the hand has to hold, the wider of the two sides of each cut without margins; None where there is nothing to cut.
    """

    cut: int
    held: int | None

    def is_possible(self, trimmer: TrimmerLimits) -> bool:
        """Whether the trimmer makes these cuts."""
        is_long_enough = trimmer.longest_cut is None or self.cut <= trimmer.longest_cut
        return is_long_enough and (self.held is None or self.held >= trimmer.smallest_strip)


def freeing(stock: Stock, piece: PieceType, turn: int) -> Freeing | None:
    """What it takes to free one such piece, lying so, from a sheet of this stock; None where it is larger than what can be used of it."""
    width, height = piece.size(turn)
    sheet_width, sheet_height = stock.usable_width, stock.usable_height
    if width > sheet_width or height > sheet_height:
        return None
    sides = ((width, sheet_width, stock.width), (height, sheet_height, stock.height))
    held = [max(kept, usable - kept) for kept, usable, whole in sides if kept < whole]
    return Freeing(longest_of_cuts((stock.width, stock.height), (width, height)), min(held, default=None))


def can_hold(stock: Stock, piece: PieceType, turn: int, trimmer: TrimmerLimits) -> bool:
    """Whether one such piece can be freed from a sheet of this stock with cuts that the trimmer can make."""
    found = freeing(stock, piece, turn)
    return found is not None and found.is_possible(trimmer)


def find_unplaceable(
    demand: Sequence[PieceType], stocks: Sequence[Stock], trimmer: TrimmerLimits
) -> tuple[Unplaced, ...]:
    """The pieces that can be cut from no sheet at all, with the sheet that comes nearest and by how much they are larger."""
    found = []
    for piece in demand:
        allowed = [stock for stock in stocks if piece.may_come_from(stock) and stock.count != 0]
        if not allowed:
            found.append(Unplaced(piece.name, piece.count, Reason.NO_STOCK))
        elif not any(can_hold(stock, piece, turn, trimmer) for stock in allowed for turn in piece.turns):
            found.append(nearest_miss(piece, allowed))
    return tuple(found)


def nearest_miss(piece: PieceType, stocks: Sequence[Stock]) -> Unplaced:
    """The stock and turn with which a piece that fits nowhere comes nearest to fitting."""
    misses = []
    for rank, stock in enumerate(stocks):
        for turn in sorted(piece.turns):
            width, height = piece.size(turn)
            over = (max(0, width - stock.usable_width), max(0, height - stock.usable_height))
            misses.append((sum(over), rank, turn, over, stock.name))
    _, _, turn, (over_width, over_height), stock_name = min(misses)
    return Unplaced(piece.name, piece.count, Reason.TOO_LARGE, stock_name, turn, over_width, over_height)
