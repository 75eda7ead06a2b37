"""Cut trees that change while a search works on them: areas with any number of parts side by side, and what is left beside those."""

from __future__ import annotations

from collections.abc import Set

from kitwright.cutting.job import Job
from kitwright.cutting.sketch import Leaf, Sketch, Split

__all__ = ["Area", "Piece", "can_be_cut", "kept_of", "pieces_in", "put_into", "sketch_of"]


class Area:
    """A rectangle in grid units: one piece (`leaf`), or `parts` beside each other (upright) or above each other, or left over.

    The parts of an area fill it; at most one of them is left over, and a part that has parts itself is cut the other way.
    """

    __slots__ = ("height", "leaf", "parent", "parts", "upright", "width")

    def __init__(self, width: int, height: int, parent: Area | None = None, leaf: Leaf | None = None) -> None:
        self.width = width
        self.height = height
        self.parent = parent
        self.leaf = leaf
        self.upright = False
        self.parts: list[Area] = []

    @property
    def is_left_over(self) -> bool:
        """Whether nothing comes from it."""
        return self.leaf is None and not self.parts


Piece = tuple[Area, Leaf]
"""An area that a piece fills, and the piece."""


def pieces_in(area: Area) -> list[Piece]:
    """The areas of the pieces, and the pieces."""
    found, open_ = [], [area]
    while open_:
        one = open_.pop()
        if one.parts:
            open_ += one.parts
        elif one.leaf is not None:
            found.append((one, one.leaf))
    return found


def kept_of(area: Area, gone: Set[Area]) -> tuple[Area, list[Piece], list[Area]]:
    """The same tree once more, with some of its areas left over; leftovers beside each other are joined. Then its pieces and leftovers."""
    pieces: list[Piece] = []
    free: list[Area] = []
    made = keep(area, gone, None, pieces, free)
    if made.is_left_over:
        free.append(made)
    return made, pieces, free


def keep(area: Area, gone: Set[Area], parent: Area | None, pieces: list[Piece], free: list[Area]) -> Area:
    """The same area once more; adds its pieces, and what is left over in it if there is anything else."""
    made = Area(area.width, area.height, parent)
    if area in gone:
        return made
    if not area.parts:
        if area.leaf is not None:
            made.leaf = area.leaf
            pieces.append((made, area.leaf))
        return made
    made.upright = upright = area.upright
    parts = []
    rest = None
    for part in area.parts:
        one = keep(part, gone, made, pieces, free)
        if one.leaf is not None or one.parts:
            parts.append(one)
        elif rest is None:
            rest = one
        elif upright:
            rest.width += one.width
        else:
            rest.height += one.height
    if parts:
        if rest is not None:
            parts.append(rest)
            free.append(rest)
        made.parts = parts
    return made


def put_into(area: Area, leaf: Leaf, size: tuple[int, int], *, upright: bool) -> tuple[Area, list[Area]]:
    """Lay a piece into the lower left corner of a leftover, the first cut upright or not; its area, and what is left over then."""
    width, height = size
    rest_across, rest_up = area.width - width, area.height - height
    if not rest_across and not rest_up:
        area.leaf = leaf
        return area, []
    if not (rest_across if upright else rest_up):
        upright = not upright
    strip, beside = take_strip(area, width if upright else height, upright=upright)
    if rest_up if upright else rest_across:
        strip.upright = not upright
        low = Area(width, height, strip, leaf)
        high = Area(width, rest_up, strip) if upright else Area(rest_across, height, strip)
        strip.parts = [low, high]
        return low, [beside, high]
    strip.leaf = leaf
    return strip, [beside]


def take_strip(area: Area, at: int, *, upright: bool) -> tuple[Area, Area]:
    """Cut a strip from a leftover: the strip, and what is left over beside it."""
    size = (at, area.height) if upright else (area.width, at)
    parent = area.parent
    if parent is not None and parent.upright is upright:
        strip = Area(*size, parent)
        parent.parts.append(strip)
        if upright:
            area.width -= at
        else:
            area.height -= at
        return strip, area
    rest = (area.width - at, area.height) if upright else (area.width, area.height - at)
    area.upright = upright
    area.parts = [Area(*size, area), Area(*rest, area)]
    return area.parts[0], area.parts[1]


def sketch_of(area: Area) -> Sketch:
    """The cuts of an area one after the other, what is left over last."""
    if not area.parts:
        return area.leaf
    parts = sorted(area.parts, key=lambda part: part.is_left_over)
    sketch = sketch_of(parts[-1])
    for part in reversed(parts[:-1]):
        sketch = Split(area.upright, part.width if area.upright else part.height, sketch_of(part), sketch)
    return sketch


def can_be_cut(job: Job, sketch: Sketch, width: int, height: int) -> bool:
    """Whether the trimmer reaches along every cut and can hold one side of it."""
    if not isinstance(sketch, Split):
        return True
    extent, length = (width, height) if sketch.upright else (height, width)
    if length > job.reach or max(sketch.at, extent - sketch.at) < job.strip:
        return False
    low = (sketch.at, height) if sketch.upright else (width, sketch.at)
    high = (width - sketch.at, height) if sketch.upright else (width, height - sketch.at)
    return can_be_cut(job, sketch.low, *low) and can_be_cut(job, sketch.high, *high)
