"""Packing: whether things go into a space, with a placement, a proof, or an honest *unknown*; and the smallest space that holds them."""

from kitwright.proof.packing.pack import EFFORT, pack
from kitwright.proof.packing.smallest import Size, Smallest, board_area, smallest_inside
from kitwright.proof.packing.stack import SPRINGBACK, stack_height
from kitwright.proof.packing.things import (
    AnyAnswer,
    Clearance,
    DoesNotFit,
    Packed,
    PackedThing,
    Placement,
    Proof,
    Space,
    Turns,
    Unknown,
)
from kitwright.proof.packing.verify import Fault, FaultKind, verify_packing

__all__ = [
    "EFFORT",
    "SPRINGBACK",
    "AnyAnswer",
    "Clearance",
    "DoesNotFit",
    "Fault",
    "FaultKind",
    "Packed",
    "PackedThing",
    "Placement",
    "Proof",
    "Size",
    "Smallest",
    "Space",
    "Turns",
    "Unknown",
    "board_area",
    "pack",
    "smallest_inside",
    "stack_height",
    "verify_packing",
]
