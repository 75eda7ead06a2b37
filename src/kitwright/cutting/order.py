"""The order of cuts at the bench: where the guide stands, how the sheet lies, what goes on and what is put aside."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from kitwright.cutting.plan import CutPlan
from kitwright.cutting.tree import Axis, Cut, CutTree, Layout, Offcut, Part

__all__ = ["BenchPiece", "BenchStep", "Holds", "TopPoints", "cut_order"]


class TopPoints(StrEnum):
    """Where the top of the sheet points when it lies at the guide, print side up."""

    AWAY = "away from you"
    LEFT = "to the left"
    RIGHT = "to the right"
    TOWARDS = "towards you"


class Holds(StrEnum):
    """What a piece of paper is after a cut."""

    PART = "part"
    STRIP = "strip"
    OFFCUT = "offcut"


@dataclass(frozen=True, slots=True)
class BenchPiece:
    """A piece of paper on the bench: its mark ("A", "A.1", "A.2"), size (nm, as the sheet stands), and what it is.

    `piece` is the name of the part if it is finished.
    """

    mark: str
    width: int
    height: int
    holds: Holds
    piece: str = ""


@dataclass(frozen=True, slots=True)
class BenchStep:
    """One setting of the guide and the cuts made at it.

    `take` is laid with `top` pointing as said, its edge against the guide; the blade stands `guide` (nm) from the guide, the cut is
    `length` (nm) long. It is made on `sheets` papers, `repeats` times on each (the rest pushed up to the guide again), and leaves
    `gives`. `layout` is the place of the layout in the plan, from 0.
    """

    layout: int
    take: BenchPiece
    top: TopPoints
    guide: int
    length: int
    sheets: int
    repeats: int
    gives: tuple[BenchPiece, ...]


def cut_order(plan: CutPlan) -> tuple[BenchStep, ...]:
    """Every cut of the plan in an order in which it can be made, layout by layout, margins first."""
    return tuple(step for index, layout in enumerate(plan.layouts) for step in layout_steps(index, layout))


def layout_steps(index: int, layout: Layout) -> Iterator[BenchStep]:
    """The steps of one layout: the margins are trimmed off, then the tree is followed from its root."""
    mark = letters(index)
    stock = layout.stock
    width, height = stock.width, stock.height
    margins = stock.margins
    for upright, before_low, after_high in ((True, margins.left, margins.right), (False, margins.bottom, margins.top)):
        for from_low, margin in ((True, before_low), (False, after_high)):
            if not margin:
                continue
            before = BenchPiece(mark, width, height, Holds.STRIP)
            length = height if upright else width
            width, height = (width - margin, height) if upright else (width, height - margin)
            kept = BenchPiece(mark, width, height, Holds.STRIP)
            guide = width if upright else height
            # The kept side lies between guide and blade: its far edge is against the guide when the low margin goes.
            yield BenchStep(
                index, before, pointing(upright, from_high=from_low), guide, length, layout.times, 1, (kept,)
            )
    waiting: list[tuple[str, CutTree, int, int]] = [(mark, layout.tree, width, height)]
    while waiting:
        own, node, wide, tall = waiting.pop()
        if not isinstance(node, Cut):
            continue
        upright = node.axis is Axis.VERTICAL
        low_size = (node.at, tall) if upright else (wide, node.at)
        tallsize = (wide - node.at, tall) if upright else (wide, tall - node.at)
        low = bench_piece(f"{own}1", node.low, low_size)
        high = bench_piece(f"{own}2", node.high, tallsize)
        take = BenchPiece(own, wide, tall, Holds.STRIP)
        length = tall if upright else wide
        yield BenchStep(index, take, pointing(upright, from_high=False), node.at, length, layout.times, 1, (low, high))
        waiting += [(high.mark, node.high, *tallsize), (low.mark, node.low, *low_size)]


def bench_piece(mark: str, node: CutTree, size: tuple[int, int]) -> BenchPiece:
    """What one side of a cut is."""
    if isinstance(node, Part):
        return BenchPiece(mark, *size, Holds.PART, node.piece)
    return BenchPiece(mark, *size, Holds.OFFCUT if isinstance(node, Offcut) else Holds.STRIP)


def pointing(upright: bool, *, from_high: bool) -> TopPoints:
    """How the sheet lies when the guide, on the left, measures from the low edge of a cut (left, bottom) or from the high one."""
    if upright:
        return TopPoints.TOWARDS if from_high else TopPoints.AWAY
    return TopPoints.LEFT if from_high else TopPoints.RIGHT


def letters(index: int) -> str:
    """A, B, … Z, AA, AB, … for 0, 1, …"""
    word = ""
    rest = index + 1
    while rest:
        rest, digit = divmod(rest - 1, 26)
        word = chr(ord("A") + digit) + word
    return word
