"""Tabs, hems and flaps with slanted ends, drawn large with the numbers by which they are cut. Millimetres."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from kitwright.measure import Ruler
from kitwright.pattern import ShapedPanel
from kitwright.printouts.annotate import fitting_label
from kitwright.printouts.compose import canvas, flowing
from kitwright.printouts.drawing import LABEL_SIZE, Dimension, Drawing, Label, Line, Mark, Polygon, Role
from kitwright.printouts.ink import bounds
from kitwright.printouts.lettering import wrapped
from kitwright.printouts.make.cut_away_words import about, group_name

__all__ = ["shape_drawing", "shapes_drawing"]

LONGEST: Final = 60.0
"""How long a panel is drawn at most along its score, mm of paper; its numbers stand around it."""

DEEPEST: Final = 22.0
"""How deep a panel is drawn at most, mm of paper."""

LARGEST: Final = 1.5
"""How many times its own size a panel is drawn at most."""

APART: Final = 5.0
"""How far from the panel its dimensions stand, mm of paper; a name that has no room in it stands below them."""


def shapes_drawing(groups: Sequence[tuple[ShapedPanel, ...]], ruler: Ruler, *, width: float) -> Drawing:
    """A panel for each group, in rows that are no wider than `width` as long as no one panel is."""
    return flowing([shape_drawing(group, ruler) for group in groups], width=width)


def shape_drawing(group: tuple[ShapedPanel, ...], ruler: Ruler) -> Drawing:
    """A panel that stands for all of its group, its score at the foot, with the room that its numbers and its name need."""
    one = group[0]
    factor = min(LARGEST, LONGEST / one.at_score, DEEPEST / one.depth)
    left, right, deep = factor * one.left, factor * (one.at_score - one.right), factor * one.depth
    middle, room = (left + right) / 2, ((right - left) * 0.9, deep * 0.8)
    name = Label(group_name(group), (middle, deep / 2), room=room)
    if fitting_label(name) is None:
        below = (factor * one.at_score / 2, -1.6 * APART)
        name = Label(wrapped(name.text, LONGEST, LABEL_SIZE), below, level="top")
    return canvas([*shape_marks(one, ruler, factor), name])


def shape_marks(one: ShapedPanel, ruler: Ruler, factor: float) -> Iterator[Mark]:
    """Outline, score, and dimensions: along the score, the depth, and how far the ends are taken back."""
    long, deep = factor * one.at_score, factor * one.depth
    left, right = factor * one.left, long - factor * one.right
    yield Polygon(((0, 0), (long, 0), (right, deep), (left, deep)), Role.PRINT_FACE)
    for x, end in ((0.0, one.left), (long, one.right)):
        if end > 0:
            yield Line((x, 0), (x, deep), Role.GUIDE)
    for start, stop in (((0.0, 0.0), (left, deep)), ((left, deep), (right, deep)), ((right, deep), (long, 0.0))):
        yield Line(start, stop, Role.CUT)
    yield Line((0, 0), (long, 0), Role.MOUNTAIN)
    across = [Dimension((0, 0), (long, 0), ruler.format(one.at_score), offset=-APART)]
    if one.left > 0:
        across.append(Dimension((0, deep), (left, deep), about(one.left, ruler), offset=4))
    yield from across
    # the depth stands beyond whatever words reach over the right end
    _, _, reach, _ = bounds(across) or (0.0, 0.0, long, 0.0)
    over = max(APART, reach - long + 2.5)
    yield Dimension((long, 0), (long, deep), ruler.format(one.depth), offset=-over)
