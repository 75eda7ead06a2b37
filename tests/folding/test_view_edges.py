"""Lines of a view that need care: plates seen edge on, and edges of which one piece is seen beside each of two plates."""

import math

import numpy as np
import pytest
from shapely import LineString, get_parts, unary_union
from tests.folding.shapes import FROM_FRONT, block_plates

from kitwright.folding import ISOMETRIC, Plate, View, fold, look, plates, shift
from kitwright.folding.rigid import Matrix
from kitwright.pattern import Draft, Pattern, Stance


def sheet(name: str, width: float, height: float, motion: Matrix, stance: Stance = Stance.LYING) -> tuple[Plate, ...]:
    """One panel that lies with its print up, or stands and looks to the front, moved."""
    draft = Draft(name)
    draft.panel(name, width, height)
    folded = fold(Pattern((draft.finish(),), stance=stance)).standing()
    return plates(folded.moved(motion))


def drawn(view: View, name: str) -> list[tuple[float, float]]:
    """The stretches of the picture, from left to right, in which level lines of a panel are drawn."""
    lines = [LineString((edge.start, edge.end)) for edge in view.edges if name in {ref.panel for ref in edge.panels}]
    parts = get_parts(unary_union([line.buffer(1e-3) for line in lines]))
    return sorted((round(part.bounds[0], 2), round(part.bounds[2], 2)) for part in parts)


# A shelf 60 x 40 at a height of 10 is a line for one who looks level; a block stands somewhere before, in or behind it.
@pytest.mark.parametrize(
    ("right", "front", "back", "seen"),
    [
        (40, -20, -10, [(0, 20), (40, 60)]),
        (21, -20, -10, [(0, 20), (21, 60)]),
        (40, -0.5, -0.25, [(0, 20), (40, 60)]),
        (40, 10, 50, [(0, 60)]),  # the front edge of the shelf is before it
        (40, 50, 60, [(0, 60)]),
    ],
)
def test_a_panel_seen_edge_on_is_a_line_where_nothing_stands_before_it(
    right: float, front: float, back: float, seen: list[tuple[float, float]]
) -> None:
    shelf = sheet("shelf", 60, 40, shift(0, 0, 10))
    block = block_plates("block", (20, front, 0), (right, back, 20))
    assert drawn(look((*shelf, *block), FROM_FRONT), "shelf") == seen


@pytest.mark.parametrize(("turn", "seen"), [(40, [(30, 60)]), (-40, [(0, 30)])])
def test_a_panel_seen_edge_on_ends_where_it_passes_through_another(
    turn: float, seen: list[tuple[float, float]]
) -> None:
    shelf = sheet("shelf", 60, 40, shift(0, 0, 10))
    cosine, sine = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    about = np.eye(4)
    about[:2, :2] = (cosine, -sine), (sine, cosine)
    screen = sheet("screen", 200, 20, shift(30, 0, 0) @ about @ shift(-100, 0, 0), Stance.STANDING)
    assert drawn(look((*shelf, *screen), FROM_FRONT), "shelf") == seen


def test_an_edge_seen_below_beside_one_plate_and_above_beside_another_is_one_line() -> None:
    box = block_plates("box", (0, 0, 0), (40, 40, 40))
    low = block_plates("low", (10, -5, 0), (40, 0, 20))
    high = block_plates("high", (40, 0, 20), (45, 30, 40))
    upright = [
        edge
        for edge in look((*box, *low, *high), ISOMETRIC).edges
        if box[0].panel in edge.panels
        and edge.start[0] == pytest.approx(edge.end[0]) == pytest.approx(40 * math.sqrt(0.5))
    ]
    assert [math.dist(edge.start, edge.end) for edge in upright] == pytest.approx([40 * math.sqrt(2 / 3)])
