"""Where a picture of a paper lies on its sheet. The corners were worked out by hand."""

from fractions import Fraction

import pytest

from kitwright.paper import Affine, Scan, UpEdge


def at(matrix: Affine, x: float, y: float) -> tuple[float, float]:
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


# The corners of the picture as it is looked at: upper left, upper right, lower right, lower left. The sheet is 300 wide, 200 high.
@pytest.mark.parametrize(
    ("up", "corners"),
    [
        (UpEdge.TOP, [(0, 200), (300, 200), (300, 0), (0, 0)]),
        (UpEdge.RIGHT, [(0, 0), (0, 200), (300, 200), (300, 0)]),
        (UpEdge.BOTTOM, [(300, 0), (0, 0), (0, 200), (300, 200)]),
        (UpEdge.LEFT, [(300, 200), (300, 0), (0, 0), (0, 200)]),
    ],
)
def test_the_edge_that_is_up_lies_at_the_upper_edge_of_the_sheet(
    up: UpEdge, corners: list[tuple[float, float]]
) -> None:
    matrix = Scan(picture="p", up=up).on_sheet((Fraction(300), Fraction(200)))
    assert [at(matrix, x, y) for x, y in ((0, 0), (1, 0), (1, 1), (0, 1))] == corners


def test_a_picture_of_a_part_of_the_sheet_lies_where_it_was_said() -> None:
    scan = Scan(picture="p", shows=(Fraction(100), Fraction(50)), at=(Fraction(10), Fraction(20)))
    matrix = scan.on_sheet((Fraction(300), Fraction(200)))
    assert at(matrix, 0, 1) == (10, 20)
    assert at(matrix, 1, 0) == (110, 70)
