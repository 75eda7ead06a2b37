"""Whether pieces that lie on a sheet can be freed by cuts from edge to edge: asked of bare rectangles, without a cut tree."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from kitwright.cutting.fault import Fault, FaultCode
from kitwright.cutting.tree import Placement

__all__ = ["can_be_cut_through", "verify_placements"]


def verify_placements(width: int, height: int, lying: Sequence[Placement]) -> tuple[Fault, ...]:
    """Everything wrong with pieces lying on a sheet of this size (nm): overhang, overlap, no through cuts. Empty if all is well."""
    faults = [
        Fault(FaultCode.OVERHANG, one.piece, f"“{one.piece}” hangs over the edge of the sheet.")
        for one in lying
        if one.x < 0 or one.y < 0 or one.x + one.width > width or one.y + one.height > height
    ]
    faults += [
        Fault(FaultCode.OVERLAP, one.piece, f"“{one.piece}” and “{other.piece}” overlap.")
        for one, other in combinations(lying, 2)
        if one.x < other.x + other.width
        and other.x < one.x + one.width
        and one.y < other.y + other.height
        and other.y < one.y + one.height
    ]
    if not faults and not can_be_cut_through(lying):
        faults.append(Fault(FaultCode.NO_THROUGH_CUT, "", "No cut from edge to edge frees these pieces."))
    return tuple(faults)


def can_be_cut_through(lying: Sequence[Placement]) -> bool:
    """Whether cuts from edge to edge can free every piece. Pieces must not overlap.

    Any cut that goes through no piece may be taken first: what it leaves can be cut if the whole could (the cuts of the whole,
    shortened to the part, still do it). So no choice is ever wrong and nothing is tried twice.
    """
    waiting = [list(lying)]
    while waiting:
        group = waiting.pop()
        if len(group) <= 1:
            continue
        parts = split_between(group, upright=True) or split_between(group, upright=False)
        if not parts:
            return False
        waiting += parts
    return True


def split_between(group: list[Placement], *, upright: bool) -> list[list[Placement]]:
    """The group split at every line that runs between pieces and through none; empty if there is no such line."""

    def start(one: Placement) -> int:
        return one.x if upright else one.y

    def end(one: Placement) -> int:
        return start(one) + (one.width if upright else one.height)

    parts: list[list[Placement]] = []
    reached = None
    for one in sorted(group, key=start):
        if reached is None or start(one) >= reached:
            parts.append([])
        parts[-1].append(one)
        reached = end(one) if reached is None else max(reached, end(one))
    return parts if len(parts) > 1 else []
