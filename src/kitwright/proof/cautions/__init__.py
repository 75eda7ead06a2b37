"""Cautions, derived from what is in a kit and what it is made with, in general words and with somebody to ask.

The program never chooses an age, never prints a claim about a product, and never leaves a caution out to save space.
"""

from kitwright.proof.cautions.bags import Bag, BagScreen, BagTrigger, screen_bag
from kitwright.proof.cautions.caution import Caution, Place, Topic
from kitwright.proof.cautions.contents import Contents, Cord, Material, Piece, Supply, SupplyKind, Tool, ToolKind
from kitwright.proof.cautions.derive import LONGEST_FREE_CORD, LONGEST_LOOP, derive_cautions
from kitwright.proof.cautions.small_parts import Outline, Rigidity, ScreenResult, screen_small_part

__all__ = [
    "LONGEST_FREE_CORD",
    "LONGEST_LOOP",
    "Bag",
    "BagScreen",
    "BagTrigger",
    "Caution",
    "Contents",
    "Cord",
    "Material",
    "Outline",
    "Piece",
    "Place",
    "Rigidity",
    "ScreenResult",
    "Supply",
    "SupplyKind",
    "Tool",
    "ToolKind",
    "Topic",
    "derive_cautions",
    "screen_bag",
    "screen_small_part",
]
