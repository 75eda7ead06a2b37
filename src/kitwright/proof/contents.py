"""Whether things go into a box in some other way than as a stack with the rest beside it: by packing them. Millimetres."""

from __future__ import annotations

from collections.abc import Sequence

from kitwright.findings import Finding, Placed, Severity
from kitwright.measure import Ruler
from kitwright.proof.packing import DoesNotFit, Packed, PackedThing, Placement, Space, pack

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
        return Finding(
            "contents-fit",
            Severity.FAIL,
            about,
            f"The contents do not go into {size} {ruler.unit.value}: {answer.reason}",
            because=f"proved: {answer.proof.value}; sides parallel to the walls",
        )
    return Finding(
        "contents-fit",
        Severity.UNKNOWN,
        about,
        f"Whether the contents go into {size} {ruler.unit.value} was not settled in the time given. {' '.join(answer.established)}",
        because="search ended without an answer",
    )


def placed_block(placement: Placement) -> Placed:
    """One placement, in mm."""
    (x, y, z), (width, depth, height) = placement.corner, placement.size
    return Placed(placement.name, 1, (float(x), float(y), float(z)), (float(width), float(depth), float(height)))
