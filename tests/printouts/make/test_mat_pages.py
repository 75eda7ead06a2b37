"""Where the name of a piece stands on a mat."""

import pytest
from shapely import Polygon

from kitwright.printouts.make.mat_pages import named_place


def test_a_name_stands_in_the_middle_of_a_long_piece() -> None:
    spot, room, _ = named_place(Polygon([(0, 0), (110, 0), (110, 80), (0, 80)]))
    assert spot == pytest.approx((55, 40))
    assert room == pytest.approx((99, 72))


def test_a_name_stands_in_the_widest_arm_of_a_piece_whose_middle_is_narrow() -> None:
    lying_l = Polygon([(0, 0), (100, 0), (100, 10), (40, 10), (40, 60), (0, 60)])
    (x, y), _, edge = named_place(lying_l)
    assert 0 < x < 40 < 60 - y + 40
    assert edge > 15
