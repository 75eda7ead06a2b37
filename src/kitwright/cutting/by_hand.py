"""Sheets on which the maker chose the places: how often each is cut, its cut tree if through cuts free it, and what is left."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from kitwright.cutting.fault import Fault, FaultCode
from kitwright.cutting.plan import CutPlan, prices_of
from kitwright.cutting.stock import PieceType, Stock, TrimmerLimits
from kitwright.cutting.through_cuts import verify_placements
from kitwright.cutting.tree import Axis, Cut, CutTree, Layout, Offcut, Part, Placement, Region, usable_region
from kitwright.cutting.verify import verify_layout

__all__ = ["ByHand", "FreeSheet", "faults_of", "find_tree", "free_to_turn", "joined", "lay_by_hand"]


@dataclass(frozen=True, slots=True)
class FreeSheet:
    """A sheet laid by hand that no through cuts of the trimmer take apart: scissors or a knife do. Cut `times` times."""

    stock: Stock
    lying: tuple[Placement, ...]
    times: int


@dataclass(frozen=True, slots=True)
class ByHand:
    """What became of the sheets laid by hand.

    `trimmed` are layouts by through cuts, `free` the others, `rest` the demand that neither covers. `trimmable` is the demand without
    what the free sheets give. `unused` are sheets by their place in the list that this batch does not need, or cannot have.
    """

    trimmed: tuple[Layout, ...]
    free: tuple[FreeSheet, ...]
    trimmable: tuple[PieceType, ...]
    rest: tuple[PieceType, ...]
    unused: tuple[int, ...]


def lay_by_hand(
    demand: Sequence[PieceType],
    stock: Stock,
    sheets: Sequence[Sequence[Placement]],
    *,
    any_way_up: bool,
    trimmer: TrimmerLimits | None = None,
) -> ByHand:
    """Use every sheet as often as all its pieces are wanted, in the order given. One that the trimmer cannot cut is free, too.

    `any_way_up`: a piece that may lie one way may also lie upside down. A sheet with an unknown piece, a wrong size, an overlap, an
    overhang over the usable area or a turn that is not allowed is not used.
    """
    allowed = {piece.name: piece for piece in free_to_turn(demand, any_way_up=any_way_up)}
    left = Counter({piece.name: piece.count for piece in demand})
    trimmed, free, unused = [], [], []
    off_free: Counter[str] = Counter()
    for place, lying in enumerate(sheets):
        needed = Counter(one.piece for one in lying)
        times = min((left[name] // count for name, count in needed.items()), default=0)
        if times < 1 or any(
            fault.code is not FaultCode.NO_THROUGH_CUT for fault in faults_of(lying, stock, tuple(allowed.values()))
        ):
            unused.append(place)
            continue
        taken = Counter({name: count * times for name, count in needed.items()})
        left -= taken
        tree = find_tree(stock, lying)
        if tree is None or any(verify_layout(Layout(stock, tree, times), tuple(allowed.values()), [stock], trimmer)):
            free.append(FreeSheet(stock, tuple(lying), times))
            off_free += taken
        else:
            trimmed.append(Layout(stock, tree, times))
    used = {one.piece for place, lying in enumerate(sheets) if place not in unused for one in lying}
    known = [allowed[piece.name] if piece.name in used else piece for piece in demand]
    trimmable = tuple(replace(piece, count=piece.count - off_free[piece.name]) for piece in known)
    return ByHand(
        tuple(trimmed),
        tuple(free),
        tuple(piece for piece in trimmable if piece.count),
        tuple(replace(piece, count=left[piece.name]) for piece in demand if left[piece.name]),
        tuple(unused),
    )


def free_to_turn(demand: Sequence[PieceType], *, any_way_up: bool) -> tuple[PieceType, ...]:
    """The demand as it may be laid by hand: with `any_way_up`, what may lie one way may also lie half way round from it."""
    if not any_way_up:
        return tuple(demand)
    return tuple(
        replace(piece, turns=tuple(sorted({*piece.turns, *((turn + 2) % 4 for turn in piece.turns)})))
        for piece in demand
    )


def faults_of(lying: Sequence[Placement], stock: Stock, demand: Sequence[PieceType]) -> tuple[Fault, ...]:
    """Everything wrong with pieces laid by hand on one sheet: what they are, how they lie, and what the independent verifier finds."""
    known = {piece.name: piece for piece in demand}
    faults = [fault for one in lying for fault in piece_faults(one, known.get(one.piece), stock)]
    left, low, width, height = usable_region(stock)
    moved = [replace(one, x=one.x - left, y=one.y - low) for one in lying]
    return (*faults, *(told_by_margin(fault, lying, stock) for fault in verify_placements(width, height, moved)))


def told_by_margin(fault: Fault, lying: Sequence[Placement], stock: Stock) -> Fault:
    """A fault of a piece that lies on the sheet, but on an edge of it that is no use, in the words for that; any other as it is."""
    if fault.code is not FaultCode.OVERHANG:
        return fault
    if not all(
        one.x >= 0 and one.y >= 0 and one.x + one.width <= stock.width and one.y + one.height <= stock.height
        for one in lying
        if one.piece == fault.about
    ):
        return fault
    return replace(fault, message=f"“{fault.about}” lies on an edge of the sheet that is no use.")


def piece_faults(one: Placement, piece: PieceType | None, stock: Stock) -> Iterator[Fault]:
    """What is wrong with one piece, wherever it lies."""
    if piece is None or not piece.may_come_from(stock):
        yield Fault(FaultCode.UNKNOWN_PIECE, one.piece, f"“{one.piece}” is not cut from this paper.")
    elif one.turn not in piece.turns:
        way = "upside down" if (one.turn + 2) % 4 in piece.turns else "on its side"
        yield Fault(FaultCode.WRONG_TURN, one.piece, f"“{one.piece}” would have its print or its grain {way}.")
    elif piece.size(one.turn) != (one.width, one.height):
        yield Fault(FaultCode.WRONG_SIZE, one.piece, f"“{one.piece}” has another size now.")


def find_tree(stock: Stock, lying: Sequence[Placement]) -> CutTree | None:
    """A cut tree that gives just these pieces in just these places, or None if through cuts cannot."""
    return tree_in(usable_region(stock), tuple(lying))


def tree_in(region: Region, lying: tuple[Placement, ...]) -> CutTree | None:
    """The tree of a region: first it is cut between pieces, then a single piece is freed from what is left round it."""
    x, y, width, height = region
    if not lying:
        return Offcut()
    if len(lying) == 1 and (lying[0].x, lying[0].y, lying[0].width, lying[0].height) == region:
        return Part(lying[0].piece, lying[0].turn)
    for axis in Axis:
        at = first_line(lying, axis, region)
        if at is None:
            continue
        upright = axis is Axis.VERTICAL
        start = x if upright else y
        before = tuple(one for one in lying if (one.x if upright else one.y) < start + at)
        after = tuple(one for one in lying if one not in before)
        sides = (
            ((x, y, at, height), (x + at, y, width - at, height))
            if upright
            else ((x, y, width, at), (x, y + at, width, height - at))
        )
        low, high = tree_in(sides[0], before), tree_in(sides[1], after)
        return None if low is None or high is None else Cut(axis, at, low, high)
    return None


def first_line(lying: Sequence[Placement], axis: Axis, region: Region) -> int | None:
    """How far from the region's edge the first cut runs that goes through no piece and along the edge of one; None without one."""
    upright = axis is Axis.VERTICAL
    start, length = (region[0], region[2]) if upright else (region[1], region[3])
    spans = sorted((one.x, one.x + one.width) if upright else (one.y, one.y + one.height) for one in lying)
    lines = sorted({edge - start for span in spans for edge in span} - {0, length})
    return next((at for at in lines if not any(low < start + at < high for low, high in spans)), None)


def joined(found: CutPlan, by_hand: Sequence[Layout], rest: CutPlan | None, stock: Stock) -> CutPlan:
    """The layouts by hand and those found for the rest as one plan; `found` is the plan without any, whose bound holds for both."""
    price = prices_of([stock])[0]
    value = sum(layout.times * price for layout in by_hand)
    return replace(
        found,
        layouts=(*by_hand, *(rest.layouts if rest else ())),
        unplaced=rest.unplaced if rest else (),
        value=value + (rest.value if rest else 0),
    )
