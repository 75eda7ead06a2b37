"""A blank as a drawing: cut lines, scores by their line style, glue hatched, panel names, print-up arrow, numbers for the bench."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import Polygon as Shape

from kitwright.kit import BuiltPart
from kitwright.measure import Ruler
from kitwright.paper import Print
from kitwright.pattern import Blank, FoldWay, Pattern, RuleSide, score_chart
from kitwright.printouts.compose import print_up_arrow
from kitwright.printouts.drawing import Label, Line, Mark, Polygon, Role, Running
from kitwright.printouts.make.panel_names import panel_name_labels, panel_names

__all__ = ["bench_marks", "bench_numbers", "blank_marks", "glue_on", "print_turn_of"]

ROLE_OF_FOLD = {FoldWay.VALLEY: Role.VALLEY, FoldWay.MOUNTAIN: Role.MOUNTAIN}


def bench_marks(part: BuiltPart, blank: Blank, ruler: Ruler) -> Iterator[Mark]:
    """A blank of a part with everything that the bench needs: names, glue, the print's up where it has one, and the numbers."""
    yield from blank_marks(blank, glue=glue_on(part.pattern, blank), print_turn=print_turn_of(part))
    yield from bench_numbers(blank, ruler)


def print_turn_of(part: BuiltPart) -> int | None:
    """How many quarters to the left the print's up is turned on the part's blanks; None for a print without an up."""
    return part.part.turn if part.paper.print_ is Print.ONE_WAY else None


def blank_marks(blank: Blank, *, glue: dict[str, Role], print_turn: int | None = None) -> Iterator[Mark]:
    """The blank at its own size, print side up. `glue` gives the hatching of the panels that bear glue, as `glue_on` does.

    `print_turn` draws the print-up arrow on the largest panel, turned so many quarters to the left; None draws none.
    """
    outer = blank.shape
    yield Polygon(blank.outline, Role.PRINT_FACE, holes=rings(outer))
    for panel in blank.panels:
        if panel.name in glue:
            yield Polygon(panel.outline, glue[panel.name], holes=panel.holes)
    names = tuple(panel_name_labels(blank, hatched=glue))
    yield from panel_names(names, blank.size)  # before the lines, which their plates must not hide
    for score in blank.scores:
        yield Line(score.start, score.end, ROLE_OF_FOLD[score.way])
    for start, end in blank.slits:
        yield Line(start, end, Role.SLIT)
    yield Polygon(blank.outline, Role.CUT)
    for hole in rings(outer):
        yield Polygon(hole, Role.CUT)
    if print_turn is not None:
        largest, name = max(zip(blank.panels, names, strict=True), key=lambda each: each[0].area)
        yield from print_arrow(Shape(largest.outline), name, print_turn)


def print_arrow(shape: Shape, name: Label, turn: int) -> Iterator[Mark]:
    """The print-up arrow of a panel above its name, if there is room."""
    left, low, right, high = shape.bounds
    length = min(12.0, (high - low) / 3, (right - left) / 4)
    if length >= 5:
        x, y = name.at
        at = (x, y + min((high - low) / 6, 12.0) + length / 2)
        yield print_up_arrow(at, angle=90.0 + 90.0 * turn, length=length)


def rings(shape: Shape) -> tuple[tuple[tuple[float, float], ...], ...]:
    """The holes of a shape as rings of points."""
    return tuple(tuple((float(x), float(y)) for x, y in hole.coords[:-1]) for hole in shape.interiors)


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
    yield Running((0, 0), (width, 0), tuple(sorted(stops[RuleSide.WIDTH].items())), offset=-5)
    yield Running((0, 0), (0, height), tuple(sorted(stops[RuleSide.HEIGHT].items())), offset=5)


def glue_on(pattern: Pattern, blank: Blank) -> dict[str, Role]:
    """How the panels of a blank that bear glue are hatched: in whole lines on the side that is seen, in broken lines on the back."""
    copies = {name for name, each in pattern.copies() if each is blank}
    areas = [area for area in pattern.glue_areas if area.panel.blank in copies]
    behind = {area.panel.panel: Role.GLUE_BEHIND for area in areas if area.behind}
    return behind | {area.panel.panel: Role.GLUE for area in areas if not area.behind}
