"""The cut tree: how one sheet is taken apart by straight cuts from edge to edge. It is the result; placements are read off it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from kitwright.cutting.stock import Stock

__all__ = [
    "Axis",
    "Cut",
    "CutTree",
    "Layout",
    "Offcut",
    "Part",
    "Placement",
    "Region",
    "count_parts",
    "offcuts",
    "placements",
    "usable_region",
]


class Axis(StrEnum):
    """How a cut runs over the sheet as it stands."""

    VERTICAL = "vertical"
    HORIZONTAL = "horizontal"


@dataclass(frozen=True, slots=True)
class Part:
    """The whole area is one wanted piece, turned by so many quarter turns anticlockwise."""

    piece: str
    turn: int


@dataclass(frozen=True, slots=True)
class Offcut:
    """The whole area is left over."""


@dataclass(frozen=True, slots=True)
class Cut:
    """A cut through the whole area, `at` (nm) from its left edge (vertical) or from its bottom edge (horizontal).

    `low` is what lies left of a vertical cut or below a horizontal one, `high` the other side.

            vertical            horizontal
        ┌──────┬───────┐     ┌──────────────┐
        │ low  │ high  │     │     high     │
        │      │       │     ├──────────────┤ ↕ at
        └──────┴───────┘     └─────low──────┘
        ←─ at ─→
    """

    axis: Axis
    at: int
    low: CutTree
    high: CutTree


CutTree = Cut | Part | Offcut


@dataclass(frozen=True, slots=True)
class Layout:
    """One way to take a sheet of `stock` apart, done `times` times. The tree covers the usable area, inside the margins."""

    stock: Stock
    tree: CutTree
    times: int


@dataclass(frozen=True, slots=True)
class Placement:
    """Where one piece lies: lower left corner and size on the sheet (nm), from the sheet's own lower left corner."""

    piece: str
    turn: int
    x: int
    y: int
    width: int
    height: int


Region = tuple[int, int, int, int]
"""x, y, width, height."""


def leaves(tree: CutTree, region: Region) -> Iterator[tuple[Part | Offcut, Region]]:
    """All parts and offcuts of a tree that covers `region`, each with its own region, left to right and bottom to top."""
    waiting: list[tuple[CutTree, Region]] = [(tree, region)]
    while waiting:
        node, (x, y, width, height) = waiting.pop()
        if not isinstance(node, Cut):
            yield node, (x, y, width, height)
        elif node.axis is Axis.VERTICAL:
            waiting.append((node.high, (x + node.at, y, width - node.at, height)))
            waiting.append((node.low, (x, y, node.at, height)))
        else:
            waiting.append((node.high, (x, y + node.at, width, height - node.at)))
            waiting.append((node.low, (x, y, width, node.at)))


def usable_region(stock: Stock) -> Region:
    """The area inside the margins of a sheet."""
    return stock.margins.left, stock.margins.bottom, stock.usable_width, stock.usable_height


def placements(layout: Layout) -> tuple[Placement, ...]:
    """Where each piece lies on a sheet of this layout, from the sheet's lower left corner."""
    return tuple(
        Placement(leaf.piece, leaf.turn, *region)
        for leaf, region in leaves(layout.tree, usable_region(layout.stock))
        if isinstance(leaf, Part)
    )


def offcuts(layout: Layout) -> tuple[Region, ...]:
    """What is left over of one sheet: x, y, width, height (nm) of each offcut, the largest first."""
    found = [
        region
        for leaf, region in leaves(layout.tree, usable_region(layout.stock))
        if isinstance(leaf, Offcut) and region[2] > 0 and region[3] > 0
    ]
    return tuple(sorted(found, key=lambda region: (-region[2] * region[3], region)))


def count_parts(tree: CutTree) -> dict[str, int]:
    """How many of each piece one sheet gives, by name."""
    counts: dict[str, int] = {}
    for leaf, _ in leaves(tree, (0, 0, 0, 0)):
        if isinstance(leaf, Part):
            counts[leaf.piece] = counts.get(leaf.piece, 0) + 1
    return counts
