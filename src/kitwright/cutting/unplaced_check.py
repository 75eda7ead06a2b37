"""Checking what a plan says of pieces that it does not cut: too large for every sheet, no paper for them, paper used up, out of reach.

Shares no code with the search. Whether a piece can be cut from a sheet is looked for as a way from the whole sheet to the piece, one cut
after the other, along one side and the other in any order: each is first as long as the sheet, then without its margins, then as long as
the piece.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitwright.cutting.fault import Fault, FaultCode
from kitwright.cutting.plan import CutPlan, Reason, Unplaced
from kitwright.cutting.stock import Margins, PieceType, Stock, TrimmerLimits
from kitwright.cutting.tree import Axis, Cut, CutTree, Offcut

__all__ = ["can_come_from", "is_kept_from", "unplaced_faults"]

Side = tuple[int, ...]
"""The lengths that a side has on the way, each shorter than the one before."""


def unplaced_faults(
    demand: Sequence[PieceType], stocks: Sequence[Stock], plan: CutPlan, trimmer: TrimmerLimits | None
) -> Iterator[Fault]:
    """Pieces that are called impossible to cut and are not, or are not for the reason that is told.

    Of pieces that were not reached when the search was stopped nothing is said, so nothing is to be checked.
    """
    pieces = {piece.name: piece for piece in demand}
    for entry in plan.unplaced:
        piece = pieces.get(entry.piece)
        if piece is None:
            yield Fault(FaultCode.UNKNOWN_PIECE, entry.piece, f"Nobody asked for a piece “{entry.piece}”.")
        elif entry.count < 1:
            yield Fault(FaultCode.WRONG_TIMES, entry.piece, f"{entry.count} × “{entry.piece}” are not cut.")
        elif entry.reason is not Reason.STOPPED:
            yield from reason_faults(entry, piece, stocks, plan, trimmer or TrimmerLimits())


def reason_faults(
    entry: Unplaced, piece: PieceType, stocks: Sequence[Stock], plan: CutPlan, limits: TrimmerLimits
) -> Iterator[Fault]:
    """What is wrong with the reason for one kind of piece."""

    def fault(why: str) -> Fault:
        return Fault(FaultCode.CAN_BE_PLACED, entry.piece, f"“{entry.piece}” is called {entry.reason}, but {why}")

    allowed = [stock for stock in stocks if stock.count != 0 and (piece.stocks is None or stock.name in piece.stocks)]
    if entry.reason is Reason.NO_STOCK:
        if allowed:
            yield fault(f"it may be cut from “{allowed[0].name}”.")
        return
    if entry.reason is Reason.TOO_LARGE:
        fitting = next((stock for stock in allowed if can_come_from(stock, piece, limits)), None)
        if fitting is not None:
            yield fault(f"it can be cut from “{fitting.name}”.")
        elif not tells_the_miss(entry, piece, allowed):
            yield fault(f"not by these lengths on “{entry.stock}”.")
        return
    used = sheets_used(plan)
    left = [stock for stock in allowed if stock.count is None or used[stock.name] < stock.count]
    fitting = next((stock for stock in left if can_come_from(stock, piece, limits)), None)
    if fitting is not None:
        yield fault(f"there is “{fitting.name}” left.")
    for layout in plan.layouts:
        if layout.stock in allowed and any(
            can_come_from(part, piece, limits) for part in left_over(layout.tree, layout.stock, limits)
        ):
            yield fault(f"it can be cut from what is left of a “{layout.stock.name}”.")
    has_room = any(stock.name == entry.stock and is_large_enough(stock, piece) for stock in left)
    if (entry.reason is Reason.OUT_OF_REACH) is not has_room:
        yield fault("that is not so." if has_room else f"there is no “{entry.stock}” left that would be large enough.")


def sheets_used(plan: CutPlan) -> Counter[str]:
    """How many sheets of each stock are cut, by name."""
    used: Counter[str] = Counter()
    for layout in plan.layouts:
        used[layout.stock.name] += layout.times
    return used


def tells_the_miss(entry: Unplaced, piece: PieceType, allowed: Sequence[Stock]) -> bool:
    """Whether a piece is larger than what can be used of the sheet that is named by just as much as is told."""
    stock = next((stock for stock in allowed if stock.name == entry.stock), None)
    if stock is None or entry.turn not in piece.turns:
        return False
    over = (max(0, side - room) for side, room in zip(lying(piece, entry.turn), usable(stock), strict=True))
    return (entry.over_width, entry.over_height) == tuple(over)


def is_large_enough(stock: Stock, piece: PieceType) -> bool:
    """Whether a piece would lie on what can be used of a sheet, if it could be cut out."""
    wide, high = usable(stock)
    return any(width <= wide and height <= high for width, height in (lying(piece, turn) for turn in piece.turns))


def can_come_from(stock: Stock, piece: PieceType, limits: TrimmerLimits) -> bool:
    """Whether some order of cuts that the trimmer can make leads from a sheet to one such piece."""
    wide, high = usable(stock)
    for turn in piece.turns:
        width, height = lying(piece, turn)
        if width <= wide and height <= high:
            sides = steps_down(stock.width, wide, width), steps_down(stock.height, high, height)
            if there_is_a_way(sides, limits, margins=(stock.width > wide, stock.height > high)):
                return True
    return False


def is_kept_from(piece: PieceType, stock: Stock, limits: TrimmerLimits) -> bool:
    """Whether a piece would lie on a sheet, but there is no order of cuts that leads to it."""
    return is_large_enough(stock, piece) and not can_come_from(stock, piece, limits)


def usable(stock: Stock) -> tuple[int, int]:
    """The width and height of a sheet within its margins."""
    margins = stock.margins
    return stock.width - margins.left - margins.right, stock.height - margins.bottom - margins.top


def lying(piece: PieceType, turn: int) -> tuple[int, int]:
    """The width and height of a piece after so many quarter turns."""
    return (piece.width, piece.height) if turn in (0, 2) else (piece.height, piece.width)


def steps_down(*lengths: int) -> Side:
    """The lengths without repetition."""
    return tuple(dict.fromkeys(lengths))


def there_is_a_way(sides: tuple[Side, Side], limits: TrimmerLimits, *, margins: tuple[bool, bool]) -> bool:
    """Whether both sides can be cut down to their last lengths, one step at a time, in some order.

    The hand holds what is within the margins: when they go, what is kept.
    """
    last = len(sides[0]) - 1, len(sides[1]) - 1
    bare = int(margins[0]), int(margins[1])
    reached, waiting = {(0, 0)}, [(0, 0)]
    while waiting:
        at = waiting.pop()
        for axis in (0, 1):
            if at[axis] == last[axis]:
                continue
            extent, kept, length = sides[axis][at[axis]], sides[axis][at[axis] + 1], sides[1 - axis][at[1 - axis]]
            held = kept if at[axis] < bare[axis] else max(kept, extent - kept)
            if limits.longest_cut is not None and length > limits.longest_cut:
                continue
            if held < limits.smallest_strip:
                continue
            then = (at[0] + 1, at[1]) if axis == 0 else (at[0], at[1] + 1)
            if then not in reached:
                reached.add(then)
                waiting.append(then)
    return last in reached


def left_over(tree: CutTree, stock: Stock, limits: TrimmerLimits) -> Iterator[Stock]:
    """What is left over of a sheet; with the margins on the edges that it touches, where they could not be cut off the whole sheet."""
    whole = PieceType("", *usable(stock), 1, (0,))
    on = Margins() if can_come_from(stock, whole, limits) else stock.margins
    areas: list[tuple[CutTree, int, int, Margins]] = [(tree, *usable(stock), on)]
    while areas:
        node, wide, high, on = areas.pop()
        if isinstance(node, Offcut):
            yield Stock("", wide + on.left + on.right, high + on.bottom + on.top, margins=on)
        elif isinstance(node, Cut) and node.axis is Axis.VERTICAL:
            areas.append((node.low, node.at, high, replace(on, right=0)))
            areas.append((node.high, wide - node.at, high, replace(on, left=0)))
        elif isinstance(node, Cut):
            areas.append((node.low, wide, node.at, replace(on, top=0)))
            areas.append((node.high, wide, high - node.at, replace(on, bottom=0)))
