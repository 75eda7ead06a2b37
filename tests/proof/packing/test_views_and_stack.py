from fractions import Fraction

import pytest

from kitwright.errors import Mistake
from kitwright.proof.packing import SPRINGBACK, Placement, front_view, stack_height, top_view


def at(name, corner, size):
    (x, y, z), (a, b, c) = corner, size
    return Placement(name, 1, (Fraction(x), Fraction(y), Fraction(z)), (Fraction(a), Fraction(b), Fraction(c)))


PLACED = (
    at("lid", (0, 0, 3), (4, 4, 1)),
    at("card", (0, 0, 0), (4, 4, 3)),
    at("jar", (4, 2, 0), (2, 2, 5)),
)


def test_from_above_the_lowest_things_come_first_and_the_covered_one_is_marked():
    view = top_view(PLACED)
    assert [(each.name, each.is_seen) for each in view] == [("card", False), ("jar", True), ("lid", True)]
    jar = view[1]
    assert [*map(int, (jar.x, jar.y, jar.width, jar.height))] == [4, 2, 2, 2]


def test_from_the_front_the_things_at_the_back_come_first():
    view = front_view(PLACED)
    assert [each.name for each in view] == ["jar", "card", "lid"]
    jar = view[0]
    assert [*map(int, (jar.x, jar.y, jar.width, jar.height))] == [4, 0, 2, 5]
    assert jar.is_seen


def test_a_thing_behind_two_that_cover_it_together_is_not_seen():
    placed = (
        at("wide", (0, 5, 0), (4, 1, 2)),
        at("left", (0, 0, 0), (2, 1, 2)),
        at("right", (2, 0, 0), (2, 1, 2)),
    )
    assert [each.is_seen for each in front_view(placed)] == [False, True, True]


def test_a_thing_of_which_a_corner_shows_is_seen():
    placed = (at("wide", (0, 5, 0), (4, 1, 2)), at("near", (0, 0, 0), (4, 1, 1)))
    assert [each.is_seen for each in front_view(placed)] == [True, True]


def test_a_stack_is_as_high_as_its_layers_and_what_they_spring_back():
    # 24 cards of 0.30 and 24 envelopes of 2 x 0.15: 14.4 mm; a tenth more is common practice, no source
    assert stack_height([(24, 0.3), (24, 0.3)], springback=0) == pytest.approx(14.4)
    assert stack_height([(24, 0.3), (24, 0.3)], springback=SPRINGBACK) == pytest.approx(15.84)
    assert stack_height([], springback=SPRINGBACK) == 0


@pytest.mark.parametrize(("layers", "springback"), [([(-1, 0.3)], 0.1), ([(1, -0.3)], 0.1), ([(1, 0.3)], -0.1)])
def test_a_stack_below_zero_is_refused(layers, springback):
    with pytest.raises(Mistake, match="below zero"):
        stack_height(layers, springback=springback)
