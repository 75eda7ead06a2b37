"""Which cautions a kit calls for: from the kinds of its extras and the tools that every bench has."""

from __future__ import annotations

from kitwright.kit.model import Extra, Kit
from kitwright.proof.cautions import (
    Bag,
    Caution,
    Contents,
    Cord,
    Material,
    Piece,
    Supply,
    SupplyKind,
    Tool,
    ToolKind,
    derive_cautions,
)

__all__ = ["EXTRA_KINDS", "kit_cautions"]

EXTRA_KINDS = (
    "bag",
    "blade",
    "fabric",
    "glue",
    "glue gun",
    "heat tool",
    "ink",
    "magnet",
    "paint",
    "paper",
    "ribbon",
    "scissors",
    "small part",
    "spray",
)
"""The words an extra's `kind` may be; without one it counts as an ordinary thing and goes through the small-parts screen."""

BENCH_TOOLS = (Tool("trimmer", ToolKind.TRIMMER, in_kit=False), Tool("scissors", ToolKind.SCISSORS, in_kit=False))
BENCH_SUPPLIES = (Supply("glue at the bench", SupplyKind.GLUE, in_kit=False, has_statement=True),)
"""What every kit of this kind is made with. The maker keeps the supplier's label; the caution says so."""

TOOL_KINDS = {
    "blade": ToolKind.KNIFE,
    "scissors": ToolKind.SCISSORS,
    "heat tool": ToolKind.HEAT_TOOL,
    "glue gun": ToolKind.GLUE_GUN,
}
SUPPLY_KINDS = {
    "glue": SupplyKind.GLUE,
    "ink": SupplyKind.INK,
    "paint": SupplyKind.PAINT,
    "spray": SupplyKind.SPRAY,
}


def kit_cautions(kit: Kit) -> tuple[Caution, ...]:
    """The cautions of a kit, gravest first; never empty."""
    extras = kit.extras
    return derive_cautions(
        Contents(
            pieces=tuple(
                piece(extra) for extra in extras if extra.kind not in ("bag", "ribbon", *TOOL_KINDS, *SUPPLY_KINDS)
            ),
            bags=tuple(bag(extra) for extra in extras if extra.kind == "bag"),
            cords=tuple(Cord(extra.name, extra.length) for extra in extras if extra.kind == "ribbon"),
            supplies=(
                *BENCH_SUPPLIES,
                *(
                    Supply(extra.name, SUPPLY_KINDS[extra.kind], in_kit=True, has_statement=False)
                    for extra in extras
                    if extra.kind in SUPPLY_KINDS
                ),
            ),
            tools=(
                *BENCH_TOOLS,
                *(
                    Tool(extra.name, TOOL_KINDS[extra.kind], in_kit=True)
                    for extra in extras
                    if extra.kind in TOOL_KINDS
                ),
            ),
        )
    )


def piece(extra: Extra) -> Piece:
    """An extra as a piece for the small-parts screen."""
    material = {"paper": Material.PAPER, "fabric": Material.TEXTILE}.get(extra.kind, Material.OTHER)
    size = None if extra.kind == "small part" else extra.size
    return Piece(extra.name, size, material=material, is_magnet=extra.kind == "magnet")


def bag(extra: Extra) -> Bag:
    """A bag: its two longer sides flat; its film is not known unless its third side is thinner than a millimetre (two films)."""
    thin, middle, long = sorted(extra.size)
    return Bag(extra.name, middle, long, thin / 2 if thin < 1 else None)
