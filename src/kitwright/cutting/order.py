"""The order of cuts at the bench: where the guide stands, how the sheet lies, what goes on and what is put aside.

Strips that are alike are cut in one go, and cuts at the same guide follow each other where they can.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from kitwright.cutting.plan import CutPlan
from kitwright.cutting.tree import Axis, Cut, CutTree, Layout, Offcut, Part

__all__ = ["BenchPiece", "BenchStep", "Holds", "TopPoints", "count_guide_settings", "cut_order"]


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
    """A piece of paper on the bench: its mark ("A" for the sheet, "A1", "A2" for strips), size (nm, as the sheet stands), what it is.

    Strips that are alike have the same mark. `piece` is the name of the part if it is finished.
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
    `gives`, what comes off first. `layout` is the place of the layout in the plan, from 0. Up to `at_once` papers are cut together.
    """

    layout: int
    take: BenchPiece
    top: TopPoints
    guide: int
    length: int
    sheets: int
    repeats: int
    gives: tuple[BenchPiece, ...]
    at_once: int = 1

    @property
    def runs(self) -> int:
        """How often the blade goes through a stack, for each of the repeats."""
        return -(-self.sheets // self.at_once)


def cut_order(plan: CutPlan, *, at_once: int = 1) -> tuple[BenchStep, ...]:
    """Every cut of the plan in an order in which it can be made, layout by layout, margins first, the guide moved as little as can be.

    `at_once` papers go under the blade together, the last time those that are left.
    """
    steps: list[BenchStep] = []
    for index, layout in enumerate(plan.layouts):
        margins = list(margin_steps(index, layout))
        before = (margins or steps)[-1] if margins or steps else None
        steps += margins
        steps += in_order(letters(index), tree_steps(index, layout), before)
    return tuple(replace(step, at_once=at_once) for step in steps)


def count_guide_settings(steps: Sequence[BenchStep]) -> int:
    """How often the guide is set when the steps are done in this order."""
    return sum(place == 0 or steps[place - 1].guide != step.guide for place, step in enumerate(steps))


def margin_steps(index: int, layout: Layout) -> Iterator[BenchStep]:
    """The cuts that take the margins off a sheet, sides first."""
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
            top = pointing(upright, from_high=from_low)
            yield BenchStep(index, before, top, guide, length, layout.times, 1, (kept,))


Paper = tuple[CutTree, int, int]
"""A tree and the width and height (nm) of what it takes apart: strips with the same are alike."""


def after_cuts(paper: Paper) -> tuple[list[Paper], int]:
    """What a paper falls into when it is cut at one guide as often as the same strip comes off: the pieces, and how many cuts."""
    node, width, height = paper
    if not isinstance(node, Cut):
        return [], 0
    axis, at, strip = node.axis, node.at, node.low
    upright = axis is Axis.VERTICAL
    pieces: list[Paper] = []
    rest: CutTree = node
    while isinstance(rest, Cut) and (rest.axis, rest.at, rest.low) == (axis, at, strip):
        pieces.append((strip, at, height) if upright else (strip, width, at))
        width, height = (width - at, height) if upright else (width, height - at)
        rest = rest.high
    return [*pieces, (rest, width, height)], len(pieces)


def tree_steps(index: int, layout: Layout) -> list[BenchStep]:
    """One step for every different strip of a layout, with how many of it there are."""
    stock = layout.stock
    sheet: Paper = (layout.tree, stock.usable_width, stock.usable_height)
    counts: dict[Paper, int] = {}
    waiting = [(sheet, layout.times)]
    while waiting:
        paper, count = waiting.pop()
        pieces, cuts = after_cuts(paper)
        if cuts:
            counts[paper] = counts.get(paper, 0) + count
            waiting += [(piece, count) for piece in reversed(pieces)]
    mark = letters(index)
    marks = {paper: mark + (str(number) if number else "") for number, paper in enumerate(counts)}
    steps = []
    for paper, count in counts.items():
        node, width, height = paper
        pieces, cuts = after_cuts(paper)
        if isinstance(node, Cut):
            upright = node.axis is Axis.VERTICAL
            gives = tuple(bench_piece(marks.get(piece, ""), piece) for piece in pieces)
            take = BenchPiece(marks[paper], width, height, Holds.STRIP)
            top = pointing(upright, from_high=False)
            steps.append(BenchStep(index, take, top, node.at, height if upright else width, count, cuts, gives))
    return steps


def in_order(sheet: str, steps: Sequence[BenchStep], before: BenchStep | None) -> Iterator[BenchStep]:
    """The steps of one sheet so that everything is there when it is taken, and the guide stays where it is if anything can be cut so."""
    makers = {step.take.mark: {one.take.mark for one in steps if makes(one, step.take.mark)} for step in steps}
    left = list(steps)
    done: set[str] = set()
    last = before
    while left:
        ready = [step for step in left if step.take.mark == sheet or makers[step.take.mark] <= done]
        same = [step for step in ready if last is not None and step.guide == last.guide]
        alike = [step for step in same if last is not None and step.top is last.top]
        last = (alike or same or ready)[0]
        left.remove(last)
        done.add(last.take.mark)
        yield last


def makes(step: BenchStep, mark: str) -> bool:
    """Whether a strip of this mark comes off in a step."""
    return any(piece.mark == mark for piece in step.gives)


def bench_piece(mark: str, paper: Paper) -> BenchPiece:
    """What one piece of paper is after a cut."""
    node, width, height = paper
    if isinstance(node, Part):
        return BenchPiece(mark, width, height, Holds.PART, node.piece)
    return BenchPiece(mark, width, height, Holds.OFFCUT if isinstance(node, Offcut) else Holds.STRIP)


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
