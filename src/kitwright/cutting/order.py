"""The order of cuts at the bench: where the guide stands, how the sheet lies, what goes on and what is put aside.

Strips that are alike are cut in one go, and cuts at the same guide follow each other where they can.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from kitwright.cutting.margin_cuts import Trim, Untrimmed, whole_tree
from kitwright.cutting.plan import CutPlan
from kitwright.cutting.stock import TrimmerLimits
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
    UNTRIMMED = "offcut with margins"


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


def cut_order(plan: CutPlan, *, trimmer: TrimmerLimits | None = None, at_once: int = 1) -> tuple[BenchStep, ...]:
    """Every cut of the plan in an order in which it can be made, layout by layout, the guide moved as little as can be.

    Margins come off as soon as the trimmer reaches along them. `at_once` papers go under the blade together, the last time those that are
    left.
    """
    steps: list[BenchStep] = []
    for index, layout in enumerate(plan.layouts):
        before = steps[-1] if steps else None
        steps += in_order(letters(index), strip_steps(index, layout, trimmer or TrimmerLimits()), before)
    return tuple(replace(step, at_once=at_once) for step in steps)


def count_guide_settings(steps: Sequence[BenchStep]) -> int:
    """How often the guide is set when the steps are done in this order."""
    return sum(place == 0 or steps[place - 1].guide != step.guide for place, step in enumerate(steps))


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
    while isinstance(rest, Cut) and type(rest) is type(node) and (rest.axis, rest.at, rest.low) == (axis, at, strip):
        pieces.append((strip, at, height) if upright else (strip, width, at))
        width, height = (width - at, height) if upright else (width, height - at)
        rest = rest.high
    return [*pieces, (rest, width, height)], len(pieces)


def one_by_one(tree: CutTree, size: tuple[int, int], narrowest: int) -> CutTree:
    """The cuts of an area, but a part that is nothing but equal strips beside each other is not cut off first: they come off one by one.

    So they are all cut at one setting of the guide. It stays where the last of them would leave nothing as wide as `narrowest` to hold.
    """
    if not isinstance(tree, Cut):
        return tree
    (width, height), at, axis = size, tree.at, tree.axis
    upright = axis is Axis.VERTICAL
    low = one_by_one(tree.low, (at, height) if upright else (width, at), narrowest)
    high = one_by_one(tree.high, (width - at, height) if upright else (width, height - at), narrowest)
    strips, left = after_cuts((low, *size))
    if not (isinstance(tree, Trim) or isinstance(low, Trim)) and isinstance(low, Cut) and low.axis is axis:
        last = strips[-1][0]
        held = max(low.at, (width if upright else height) - at)
        if last == low.low and at == low.at * (left + 1) and held >= narrowest:
            for _ in range(left + 1):
                high = Cut(axis, low.at, last, high)
            return high
    return replace(tree, low=low, high=high)


def strip_steps(index: int, layout: Layout, trimmer: TrimmerLimits) -> list[list[BenchStep]]:
    """The steps for every different strip of a layout, with how many of it there are: its margins off, then one that takes it apart."""
    stock = layout.stock
    size = stock.width, stock.height
    sheet: Paper = (one_by_one(whole_tree(layout, trimmer), size, trimmer.smallest_strip), *size)
    counts: dict[Paper, int] = {}
    waiting = [(sheet, layout.times)]
    while waiting:
        paper, count = waiting.pop()
        pieces, cuts = after_cuts(bared(paper)[-1])
        if isinstance(paper[0], Cut):
            counts[paper] = counts.get(paper, 0) + count
            waiting += [(piece, count) for piece in reversed(pieces)]
    mark = letters(index)
    marks = {paper: mark + (str(number) if number else "") for number, paper in enumerate(counts)}
    runs = []
    for paper, count in counts.items():
        stages = bared(paper)
        run = [trim_step(index, marks[paper], stages[place : place + 2], count) for place in range(len(stages) - 1)]
        node, width, height = stages[-1]
        pieces, cuts = after_cuts(stages[-1])
        if isinstance(node, Cut):
            upright = node.axis is Axis.VERTICAL
            gives = tuple(bench_piece(marks.get(piece, ""), piece) for piece in pieces)
            take = BenchPiece(marks[paper], width, height, Holds.STRIP)
            top = pointing(upright, from_high=False)
            run.append(BenchStep(index, take, top, node.at, height if upright else width, count, cuts, gives))
        runs.append(run)
    return runs


def bared(paper: Paper) -> list[Paper]:
    """A paper as it is and after each of the margins that come off it first."""
    stages = [paper]
    node, width, height = paper
    while isinstance(node, Trim):
        kept = node.at if not node.is_low else (width if node.axis is Axis.VERTICAL else height) - node.at
        width, height = (kept, height) if node.axis is Axis.VERTICAL else (width, kept)
        node = node.kept
        stages.append((node, width, height))
    return stages


def trim_step(index: int, mark: str, stages: Sequence[Paper], count: int) -> BenchStep:
    """The cut that takes a margin off a paper: as it is before and after."""
    (node, width, height), after = stages
    assert isinstance(node, Trim)
    upright = node.axis is Axis.VERTICAL
    kept = bench_piece(mark if isinstance(after[0], Cut) else "", after)
    # The kept side lies between guide and blade: its far edge is against the guide when the low margin goes.
    top = pointing(upright, from_high=node.is_low)
    guide, length = (after[1], height) if upright else (after[2], width)
    return BenchStep(index, BenchPiece(mark, width, height, Holds.STRIP), top, guide, length, count, 1, (kept,))


def in_order(sheet: str, runs: Sequence[Sequence[BenchStep]], before: BenchStep | None) -> Iterator[BenchStep]:
    """The steps of one sheet so that everything is there when it is taken, and the guide stays where it is if anything can be cut so.

    Each run has the steps for strips of one mark, and the last of them gives strips of other marks.
    """
    marks = [run[0].take.mark for run in runs]
    makers = {mark: {run[0].take.mark for run in runs if makes(run[-1], mark)} - {mark} for mark in marks}
    left = [list(run) for run in runs]
    done: set[str] = set()
    last = before
    while left:
        ready = [run for run in left if run[0].take.mark == sheet or makers[run[0].take.mark] <= done]
        same = [run for run in ready if last is not None and run[0].guide == last.guide]
        alike = [run for run in same if last is not None and run[0].top is last.top]
        run = (alike or same or ready)[0]
        last = run.pop(0)
        if not run:
            left.remove(run)
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
    if isinstance(node, Offcut):
        return BenchPiece(mark, width, height, Holds.UNTRIMMED if isinstance(node, Untrimmed) else Holds.OFFCUT)
    return BenchPiece(mark, width, height, Holds.STRIP)


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
