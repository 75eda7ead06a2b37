"""Whether things go into a box in some other way than as a stack with the rest beside it: by packing them. Millimetres."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from kitwright.findings import Finding, Placed, Severity
from kitwright.measure import Ruler
from kitwright.proof.packing import DoesNotFit, Packed, PackedThing, Placement, Proof, Space, Turns, pack

__all__ = ["check_packing"]


def check_packing(about: str, things: Sequence[PackedThing], space: Space, ruler: Ruler) -> Finding:
    """Fits with a placement, does not fit with a proof, or unknown; never one for another."""
    answer = pack(things, space)
    size = ruler.size(*(ruler.down(edge) for edge in (space.width, space.depth, space.height)))
    if isinstance(answer, Packed):
        places = "; ".join(
            f"{each.name} {'at the bottom' if each.corner[2] == 0 else f'{ruler.near(each.corner[2])} up'}"
            for each in answer.placements[:6]
        )
        return Finding(
            "contents-fit",
            Severity.NOTE,
            about,
            f"The contents go in, but only just and packed with care ({places}).",
            because="a packing was found and checked pair by pair",
            placed=tuple(placed_block(each) for each in answer.placements),
        )
    if isinstance(answer, DoesNotFit):
        too_long = [thing for thing in things if answer.proof is Proof.TOO_LONG and not lies_straight(thing, space)]
        hopeless = next((thing.name for thing in too_long if not may_lie_askew(thing, space)), "")
        if too_long and not hopeless:
            names, go = " and ".join(thing.name for thing in too_long), "does" if len(too_long) == 1 else "do"
            return Finding(
                "contents-fit",
                Severity.UNKNOWN,
                about,
                f"{names} {go} not go into {size} {ruler.unit.value} lying straight. It may go in askew, which is not tried.",
                because="sides parallel to the walls; not longer than the space from corner to corner",
            )
        reason = f"{hopeless} alone is too large for it, whichever way it may be turned." if hopeless else answer.reason
        return Finding(
            "contents-fit",
            Severity.FAIL,
            about,
            f"The contents do not go into {size} {ruler.unit.value}: {reason}",
            because=f"proved: {answer.proof.value}; sides parallel to the walls",
        )
    return Finding(
        "contents-fit",
        Severity.UNKNOWN,
        about,
        f"Whether the contents go into {size} {ruler.unit.value} was not settled in the time given. {' '.join(answer.established)}",
        because="search ended without an answer",
    )


def lies_straight(thing: PackedThing, space: Space) -> bool:
    """Whether a thing by itself goes in with its sides parallel to the walls."""
    return not isinstance(pack([replace(thing, quantity=1)], space, effort=0), DoesNotFit)


def may_lie_askew(thing: PackedThing, space: Space) -> bool:
    """Whether a thing may go in with its sides not parallel to the walls.

    Not what is larger, or longer than the space from corner to corner, nor what is nowhere as thin as the space is narrow.
    """
    sides = (space.width, space.depth, space.height)
    if thing.turns is not Turns.ANY or min(thing.size) > min(sides) or math.prod(thing.size) > math.prod(sides):
        return False
    return max(thing.size) <= math.hypot(*map(float, sides))


def placed_block(placement: Placement) -> Placed:
    """One placement, in mm."""
    (x, y, z), (width, depth, height) = placement.corner, placement.size
    return Placed(placement.name, 1, (float(x), float(y), float(z)), (float(width), float(depth), float(height)))
