"""A blank as a drawing: cut lines, scores by their line style, panel names, print-up arrow, and the numbers that the bench needs."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import Polygon as Shape
from shapely.ops import polylabel

from kitwright.measure import Ruler
from kitwright.pattern import Blank, FoldWay, Joint, PanelKind, RuleSide, Side, score_chart
from kitwright.printouts.compose import print_up_arrow
from kitwright.printouts.drawing import Label, Line, Mark, Polygon, Role, Running

__all__ = ["bench_numbers", "blank_marks", "glued_panels"]

ROLE_OF_FOLD = {FoldWay.VALLEY: Role.VALLEY, FoldWay.MOUNTAIN: Role.MOUNTAIN}


def blank_marks(
    blank: Blank, *, glued: frozenset[str] = frozenset(), names: bool = True, print_turn: int | None = None
) -> Iterator[Mark]:
    """The blank at its own size, print side up. `glued` panels bear glue and are hatched.

    `print_turn` draws the print-up arrow on the largest panel, turned so many quarters to the left; None draws none.
    """
    outer = blank.shape
    yield Polygon(blank.outline, Role.PRINT_FACE, holes=rings(outer))
    for panel in blank.panels:
        if panel.name in glued:
            yield Polygon(panel.outline, Role.GLUE)
    for score in blank.scores:
        yield Line(score.start, score.end, ROLE_OF_FOLD[score.way])
    for start, end in blank.slits:
        yield Line(start, end, Role.SLIT)
    yield Polygon(blank.outline, Role.CUT)
    for hole in rings(outer):
        yield Polygon(hole, Role.CUT)
    if names:
        yield from panel_names(blank, print_turn=print_turn)


def rings(shape: Shape) -> tuple[tuple[tuple[float, float], ...], ...]:
    """The holes of a shape as rings of points."""
    return tuple(tuple((float(x), float(y)) for x, y in hole.coords[:-1]) for hole in shape.interiors)


def panel_names(blank: Blank, *, print_turn: int | None) -> Iterator[Mark]:
    """Every panel's name where there is room for it, and the print-up arrow beside the name of the largest."""
    largest = max(blank.panels, key=lambda panel: panel.area)
    for panel in blank.panels:
        shape = Shape(panel.outline, panel.holes)
        spot = polylabel(shape, 0.5)
        left, low, right, high = shape.bounds
        x, y = (
            (spot.x, spot.y) if panel.kind is PanelKind.FLAP or panel.holes else ((left + right) / 2, (low + high) / 2)
        )
        width, height = right - left, high - low
        if panel is largest and print_turn is not None:
            length = min(12.0, height / 3, width / 4)
            arrow_at = (x, y + min(height / 6, 12.0) + length / 2)
            if length >= 5:
                yield print_up_arrow(arrow_at, angle=90.0 + 90.0 * print_turn, length=length)
        yield Label(panel.name, (x, y), room=(width * 0.92, height * 0.8))


def bench_numbers(blank: Blank, ruler: Ruler) -> Iterator[Mark]:
    """The scores as they are read off the rule, from the left and from the lower edge, ending with the size of the blank."""
    chart = score_chart(blank)
    width, height = blank.size
    stops: dict[RuleSide, dict[float, str]] = {RuleSide.WIDTH: {}, RuleSide.HEIGHT: {}}
    for each in chart.passes:
        for mark in each.marks:
            at = each.length - mark.at if each.way is FoldWay.VALLEY else mark.at
            stops[each.side][at] = ruler.format(at)
    stops[RuleSide.WIDTH][width] = ruler.with_unit(width)
    stops[RuleSide.HEIGHT][height] = ruler.with_unit(height)
    yield Running((0, 0), (width, 0), tuple(sorted(stops[RuleSide.WIDTH].items())), offset=-8)
    yield Running((0, 0), (0, height), tuple(sorted(stops[RuleSide.HEIGHT].items())), offset=8)


def glued_panels(joints: tuple[Joint, ...], blank: Blank) -> frozenset[str]:
    """The panels of a blank that bear glue on their print side, so that it can be seen in the drawing."""
    names = {blank.name, *(f"{blank.name} {number}" for number in range(2, blank.copies + 1))}
    return frozenset(
        joint.tab.panel for joint in joints if joint.glued and joint.side is Side.UNDER and joint.tab.blank in names
    )
