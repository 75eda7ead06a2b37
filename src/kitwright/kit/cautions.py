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

__all__ = ["EXTRA_KINDS", "SUPPLY_KINDS", "kit_cautions"]

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
    "sharp thing",
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
            cords=tuple(Cord(extra.name, extra.length, extra.loop) for extra in extras if extra.kind == "ribbon"),
            supplies=(
                *BENCH_SUPPLIES,
                *(
                    Supply(extra.name, SUPPLY_KINDS[extra.kind], in_kit=True, has_statement=extra.has_label)
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
            for_children=kit.purpose.children,
            for_sale=kit.purpose.sale,
            sent_abroad=kit.purpose.abroad,
        )
    )


def piece(extra: Extra) -> Piece:
    """An extra as a piece for the small-parts screen."""
    material = {"paper": Material.PAPER, "fabric": Material.TEXTILE}.get(extra.kind, Material.OTHER)
    size = None if extra.kind == "small part" else extra.size
    return Piece(
        extra.name, size, material=material, is_magnet=extra.kind == "magnet", is_sharp=extra.kind == "sharp thing"
    )


def bag(extra: Extra) -> Bag:
    """A bag, lying flat: its two longer sides. A film that was not said is half the third side where that is thinner than a millimetre."""
    thin, middle, long = sorted(extra.size)
    film = thin / 2 if extra.film is None and thin < 1 else extra.film
    return Bag(extra.name, middle, long, film)
