"""Checking layouts for a cutting machine, piece by piece, without anything that found them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import combinations

from shapely import Polygon

from kitwright.cutting.fault import Fault, FaultCode
from kitwright.cutting.nest import Mat, MatLayout, NestedPlan, Outlined
from kitwright.measure import MACHINE_TOLERANCE

__all__ = ["verify_nested"]

Box = tuple[float, float, float, float]


def verify_nested(pieces: Sequence[Outlined], plan: NestedPlan) -> tuple[Fault, ...]:
    """Everything that is wrong: over the edge, too close together, turned as is not allowed, too few or too many, not asked for, said to
    fit on no mat though it does.
    """
    return (*lying_faults(pieces, plan), *count_faults(pieces, plan), *too_large_faults(pieces, plan))


def lying_faults(pieces: Sequence[Outlined], plan: NestedPlan) -> Iterator[Fault]:
    """What is wrong on each mat."""
    asked = {piece.name: piece for piece in pieces}
    for number, layout in enumerate(plan.layouts, 1):
        where = f"mat {number}"
        unknown = [each.name for each in layout.pieces if each.name not in asked]
        for name in unknown:
            yield Fault(FaultCode.UNKNOWN_PIECE, name, f"{name} on {where} is not asked for.")
        for each in layout.pieces:
            if each.name in asked and each.turn % 4 not in {turn % 4 for turn in asked[each.name].turns}:
                yield Fault(FaultCode.WRONG_TURN, each.name, f"{each.name} on {where} lies turned as it must not.")
        if layout.times < 1:
            yield Fault(FaultCode.WRONG_TIMES, where, f"{where} is cut {layout.times} times.")
        if not unknown:
            yield from room_faults(asked, plan.mat, layout, where)


def room_faults(asked: dict[str, Outlined], mat: Mat, layout: MatLayout, where: str) -> Iterator[Fault]:
    """Pieces over the edge of the mat, and pairs with less between them than the gap."""
    placed = [(each.name, each.shape(asked[each.name].outline)) for each in layout.pieces]
    shapes = [(name, shape, shape.bounds) for name, shape in placed]
    for name, _, (left, low, right, high) in shapes:
        if (
            min(left, low) < -MACHINE_TOLERANCE
            or right > mat.width + MACHINE_TOLERANCE
            or high > mat.height + MACHINE_TOLERANCE
        ):
            yield Fault(FaultCode.OVERHANG, name, f"{name} hangs over the edge of {where}.")
    for (name, shape, box), (other, beside, its_box) in combinations(shapes, 2):
        if boxes_apart(box, its_box) >= mat.gap:
            continue
        apart = shape.distance(beside)
        if apart < mat.gap - MACHINE_TOLERANCE or shape.intersection(beside).area > MACHINE_TOLERANCE:
            yield Fault(FaultCode.OVERLAP, name, f"{name} and {other} on {where} are {apart:.2f} mm apart.")


def boxes_apart(one: Box, other: Box) -> float:
    """How far two boxes (left, low, right, high) are from each other, right or up; below zero where they meet."""
    return max(other[0] - one[2], one[0] - other[2], other[1] - one[3], one[1] - other[3])


def count_faults(pieces: Sequence[Outlined], plan: NestedPlan) -> Iterator[Fault]:
    """Too few or too many of a kind."""
    made: Counter[str] = Counter()
    for layout in plan.layouts:
        for name, count in layout.counts.items():
            made[name] += count * layout.times
    for piece in pieces:
        lack = piece.count - made[piece.name] - plan.unplaced.get(piece.name, 0) - plan.unreached.get(piece.name, 0)
        if lack > 0:
            yield Fault(FaultCode.MISSING_PIECE, piece.name, f"{lack} of {piece.name} lie on no mat.")
        elif lack < 0:
            yield Fault(FaultCode.SURPLUS_PIECE, piece.name, f"{-lack} of {piece.name} more than asked for.")


def too_large_faults(pieces: Sequence[Outlined], plan: NestedPlan) -> Iterator[Fault]:
    """Kinds that are said to go onto no mat, and do in one of their turns."""
    for piece in pieces:
        left, low, right, high = Polygon(piece.outline).bounds
        wide, tall = right - left, high - low
        ways = {(tall, wide) if turn % 2 else (wide, tall) for turn in piece.turns}
        if piece.name in plan.unplaced and any(w <= plan.mat.width and h <= plan.mat.height for w, h in ways):
            yield Fault(FaultCode.NOT_TOO_LARGE, piece.name, f"{piece.name} is said to fit on no mat, but does.")
