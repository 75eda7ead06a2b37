"""Checking a plan against the question, by another route than the search: every piece, cut, sheet, sum and the bound.

Shares no code with the search; it knows only what a plan is. Exact in whole numbers.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from kitwright.cutting.certificate import are_worth_at_most
from kitwright.cutting.fault import Fault, FaultCode
from kitwright.cutting.margin_check import gives_nothing, margin_faults
from kitwright.cutting.plan import Bound, CutPlan, Objective
from kitwright.cutting.stock import PieceType, Stock, TrimmerLimits
from kitwright.cutting.tree import Axis, Cut, CutTree, Layout, Part
from kitwright.cutting.unplaced_check import is_kept_from, unplaced_faults

__all__ = ["verify_bound", "verify_layout", "verify_plan"]


def verify_plan(
    demand: Sequence[PieceType], stocks: Sequence[Stock], plan: CutPlan, trimmer: TrimmerLimits | None = None
) -> tuple[Fault, ...]:
    """Everything that is wrong with a plan for this demand on these stocks; empty if all is well."""
    return (
        *(fault for layout in plan.layouts for fault in verify_layout(layout, demand, stocks, trimmer)),
        *piece_faults(demand, plan),
        *unplaced_faults(demand, stocks, plan, trimmer),
        *sheet_faults(stocks, plan),
        *value_faults(stocks, plan),
        *verify_bound(demand, stocks, plan, trimmer),
    )


def verify_layout(
    layout: Layout, demand: Sequence[PieceType], stocks: Sequence[Stock], trimmer: TrimmerLimits | None
) -> Iterator[Fault]:
    """What is wrong with one layout, however often it is cut."""
    name = layout.stock.name
    if layout.stock not in stocks:
        yield Fault(FaultCode.UNKNOWN_STOCK, name, f"There is no such stock as “{name}” with these sizes.")
    if layout.times < 1:
        yield Fault(FaultCode.WRONG_TIMES, name, f"A layout is to be cut {layout.times} times.")
    limits = trimmer or TrimmerLimits()
    yield from margin_faults(layout, limits)
    by_name = {piece.name: piece for piece in demand}
    margins = layout.stock.margins
    width = layout.stock.width - margins.left - margins.right
    height = layout.stock.height - margins.bottom - margins.top
    areas: list[tuple[CutTree, int, int]] = [(layout.tree, width, height)]
    while areas:
        node, wide, high = areas.pop()
        if isinstance(node, Part):
            yield from part_faults(node, (wide, high), by_name.get(node.piece), layout.stock)
        elif isinstance(node, Cut):
            yield from cut_faults(node, (wide, high), limits)
            if node.axis is Axis.VERTICAL:
                areas += [(node.low, node.at, high), (node.high, wide - node.at, high)]
            else:
                areas += [(node.low, wide, node.at), (node.high, wide, high - node.at)]


def part_faults(part: Part, area: tuple[int, int], piece: PieceType | None, stock: Stock) -> Iterator[Fault]:
    """What is wrong with one piece in the area that it is given."""
    if piece is None:
        yield Fault(FaultCode.UNKNOWN_PIECE, part.piece, f"Nobody asked for a piece “{part.piece}”.")
        return
    if part.turn not in piece.turns:
        yield Fault(FaultCode.WRONG_TURN, part.piece, f"“{part.piece}” may not lie with {part.turn} quarter turns.")
    wanted = (piece.width, piece.height) if part.turn in (0, 2) else (piece.height, piece.width)
    if area != wanted:
        yield Fault(
            FaultCode.WRONG_SIZE,
            part.piece,
            f"“{part.piece}” is cut {area[0]} × {area[1]} nm, not {wanted[0]} × {wanted[1]}.",
        )
    if piece.stocks is not None and stock.name not in piece.stocks:
        yield Fault(FaultCode.FORBIDDEN_STOCK, part.piece, f"“{part.piece}” may not be cut from “{stock.name}”.")


def cut_faults(cut: Cut, area: tuple[int, int], limits: TrimmerLimits) -> Iterator[Fault]:
    """What is wrong with one cut through an area."""
    extent, length = area if cut.axis is Axis.VERTICAL else (area[1], area[0])
    if not 0 < cut.at < extent:
        yield Fault(FaultCode.CUT_OUTSIDE, "", f"A cut at {cut.at} nm does not go through an area of {extent} nm.")
        return
    if limits.longest_cut is not None and length > limits.longest_cut:
        yield Fault(
            FaultCode.CUT_TOO_LONG, "", f"A cut of {length} nm is longer than the trimmer's {limits.longest_cut}."
        )
    if max(cut.at, extent - cut.at) < limits.smallest_strip:
        yield Fault(
            FaultCode.STRIP_TOO_NARROW, "", f"A cut at {cut.at} of {extent} nm leaves nothing wide enough to hold."
        )


def piece_faults(demand: Sequence[PieceType], plan: CutPlan) -> Iterator[Fault]:
    """Pieces that are missing or too many, counted over the whole batch. A piece said to be unplaced is not missing.

    Whether it is rightly said to be, `unplaced_faults` looks at.
    """
    made: Counter[str] = Counter()
    for layout in plan.layouts:
        nodes: list[CutTree] = [layout.tree]
        while nodes:
            node = nodes.pop()
            if isinstance(node, Cut):
                nodes += [node.low, node.high]
            elif isinstance(node, Part):
                made[node.piece] += layout.times
    unplaced: Counter[str] = Counter()
    for entry in plan.unplaced:
        unplaced[entry.piece] += entry.count
    for piece in demand:
        have = made[piece.name] + unplaced[piece.name]
        if have < piece.count:
            yield Fault(FaultCode.MISSING_PIECE, piece.name, f"{piece.count - have} × “{piece.name}” are missing.")
        elif have > piece.count:
            yield Fault(FaultCode.SURPLUS_PIECE, piece.name, f"{have - piece.count} × “{piece.name}” are too many.")


def sheet_faults(stocks: Sequence[Stock], plan: CutPlan) -> Iterator[Fault]:
    """Stocks of which more is used than there is."""
    used: Counter[str] = Counter()
    for layout in plan.layouts:
        used[layout.stock.name] += layout.times
    for stock in stocks:
        if stock.count is not None and used[stock.name] > stock.count:
            text = f"{used[stock.name]} sheets of “{stock.name}” are used, but there are {stock.count}."
            yield Fault(FaultCode.TOO_MANY_SHEETS, stock.name, text)


def counted_prices(stocks: Sequence[Stock]) -> tuple[Objective, dict[str, int]]:
    """What is counted, and what one sheet of each stock counts."""
    known = [stock.price for stock in stocks if stock.price is not None]
    if len(known) == len(stocks) and sum(known) > 0:
        return Objective.COST, {stock.name: stock.price or 0 for stock in stocks}
    free = {stock.name for stock in stocks if stock.price == 0 and len(known) < len(stocks)}
    return Objective.SHEETS, {stock.name: 0 if stock.name in free else 1 for stock in stocks}


def value_faults(stocks: Sequence[Stock], plan: CutPlan) -> Iterator[Fault]:
    """An objective or a sum that is not what the layouts come to."""
    objective, prices = counted_prices(stocks)
    if plan.objective is not objective:
        yield Fault(FaultCode.WRONG_OBJECTIVE, "", f"The plan counts {plan.objective}, but {objective} is asked for.")
    total = sum(prices.get(layout.stock.name, 0) * layout.times for layout in plan.layouts)
    if total != plan.value:
        yield Fault(FaultCode.WRONG_VALUE, "", f"The layouts come to {total}, not {plan.value}.")


def verify_bound(
    demand: Sequence[PieceType], stocks: Sequence[Stock], plan: CutPlan, trimmer: TrimmerLimits | None = None
) -> Iterator[Fault]:
    """Whether the bound follows from its certificate, and the certificate holds on every stock and in every case."""
    limits = trimmer or TrimmerLimits()
    reach = limits.longest_cut
    # a stock of which there is none, or that the trimmer cannot begin with, can be in no plan
    there = [stock for stock in stocks if stock.count != 0 and not gives_nothing(stock, limits)]
    pieces = [without_hindered(piece, there, reach) for piece in placeable(demand, plan)]
    _, prices = counted_prices(stocks)
    waiting = [(plan.bound, {stock.name: (0, stock.count) for stock in stocks})]
    while waiting:
        bound, ranges = waiting.pop()
        if bound.fork is None:
            yield from case_faults(pieces, there, bound, ranges, prices=prices, reach=reach)
        elif bound.fork.stock not in ranges:
            yield Fault(FaultCode.BOUND_NOT_PROVED, bound.fork.stock, f"There is no stock “{bound.fork.stock}”.")
        else:
            fork = bound.fork
            low, high = ranges[fork.stock]
            waiting.append((fork.few, {**ranges, fork.stock: (low, fork.at if high is None else min(high, fork.at))}))
            waiting.append((fork.many, {**ranges, fork.stock: (max(low, fork.at + 1), high)}))
            least = min(fork.few.value, fork.many.value)
            if least != bound.value:
                yield Fault(FaultCode.WRONG_BOUND, "", f"The two cases prove {least}, not {bound.value}.")


def case_faults(
    pieces: Sequence[PieceType],
    there: Sequence[Stock],
    bound: Bound,
    ranges: Mapping[str, tuple[int, int | None]],
    *,
    prices: Mapping[str, int],
    reach: int | None,
) -> Iterator[Fault]:
    """What is wrong with the bound of one case, in which the sheets used of each stock are within the ranges.

    `there` are the stocks that a plan can use; `prices` is what one sheet of each counts.
    """
    worth, rent = dict(bound.worth), dict(bound.rent)
    if bound.scale <= 0 or any(each < 0 for each in worth.values()):
        yield Fault(FaultCode.BOUND_NOT_PROVED, "", "The certificate of the bound has numbers below zero.")
        return
    endless = [name for name, each in rent.items() if each > 0 and (name not in ranges or ranges[name][1] is None)]
    if endless:
        yield Fault(FaultCode.BOUND_NOT_PROVED, endless[0], f"“{endless[0]}” has no count, so it can have no rent.")
        return
    total = sum(worth.get(piece.name, 0) * piece.count for piece in pieces)
    for name, each in rent.items():
        low, high = ranges.get(name, (0, 0))
        total -= each * (high or 0) if each > 0 else each * low
    step = math.gcd(*(prices[stock.name] for stock in there)) or 1
    value = max(0, -((-total) // (bound.scale * step)) * step)
    if value != bound.value:
        yield Fault(FaultCode.WRONG_BOUND, "", f"The certificate proves {value}, not {bound.value}.")
    limits = {stock.name: bound.scale * prices[stock.name] + rent.get(stock.name, 0) for stock in there}
    for name in are_worth_at_most(there, pieces, worth, limits, reach, counted=bound.counted, step=bound.step):
        text = f"Pieces on one “{name}” can be worth more than the certificate allows."
        yield Fault(FaultCode.BOUND_NOT_PROVED, name, text)


def placeable(demand: Sequence[PieceType], plan: CutPlan) -> list[PieceType]:
    """The pieces that the plan does not call too large for every sheet or without a stock."""
    left_out = {entry.piece for entry in plan.unplaced if entry.reason in ("too large", "no stock")}
    return [piece for piece in demand if piece.name not in left_out]


def without_hindered(piece: PieceType, there: Sequence[Stock], reach: int | None) -> PieceType:
    """A piece that may come only from stocks from which cuts no longer than `reach` free it, where there are others that it fits on."""
    limits = TrimmerLimits(reach)
    hindered = {stock.name for stock in there if is_kept_from(piece, stock, limits)}
    if not hindered:
        return piece
    stocks = piece.stocks or tuple(stock.name for stock in there)
    return replace(piece, stocks=tuple(name for name in stocks if name not in hindered))
