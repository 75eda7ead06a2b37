"""One tab, hem or flap with slanted ends, drawn large with the numbers by which it is cut. Millimetres."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.measure import Ruler
from kitwright.pattern import ShapedPanel
from kitwright.printouts.compose import fitted
from kitwright.printouts.drawing import Dimension, Drawing, Label, Line, Mark, Polygon, Role
from kitwright.printouts.make.cut_away_words import about, group_name

__all__ = ["shape_drawing"]


def shape_drawing(group: tuple[ShapedPanel, ...], ruler: Ruler, *, width: float, height: float) -> Drawing:
    """A panel that stands for all of its group, its score at the foot, as large as fits at most half as large again as it is."""
    return fitted(shape_marks(group, ruler), width=width, height=height, largest=1.5).drawing


def shape_marks(group: tuple[ShapedPanel, ...], ruler: Ruler) -> Iterator[Mark]:
    """Outline, score, and dimensions: along the score, the depth, and how far the ends are taken back."""
    one = group[0]
    long, deep = one.at_score, one.depth
    left, right = one.left, long - one.right
    yield Polygon(((0, 0), (long, 0), (right, deep), (left, deep)), Role.PRINT_FACE)
    for x, end in ((0.0, one.left), (long, one.right)):
        if end > 0:
            yield Line((x, 0), (x, deep), Role.GUIDE)
    for start, stop in (((0.0, 0.0), (left, deep)), ((left, deep), (right, deep)), ((right, deep), (long, 0.0))):
        yield Line(start, stop, Role.CUT)
    yield Line((0, 0), (long, 0), Role.MOUNTAIN)
    yield Label(group_name(group), (long / 2, deep / 2), room=((right - left) * 0.9, deep * 0.8))
    yield Dimension((0, 0), (long, 0), ruler.format(long), offset=-5)
    yield Dimension((long, 0), (long, deep), ruler.format(deep), offset=-5)
    if one.left > 0:
        yield Dimension((0, deep), (left, deep), about(one.left, ruler), offset=4)
