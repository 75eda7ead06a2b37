from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.errors import Mistake
from kitwright.proof.cautions import Outline, Rigidity, ScreenResult, screen_small_part

CANNOT, MAY = ScreenResult.CANNOT_FIT, ScreenResult.MAY_FIT


# Gauge sizes: 16 CFR 1501.4 (1.25 in wide, 1 to 2.25 in deep); the screen is geometry from them.
@pytest.mark.parametrize(
    ("size", "outline", "answer"),
    [
        ((10, 10, 2), Outline.DISC, MAY),  # glue dots and foam dots
        ((19, 19, 2), Outline.DISC, MAY),
        ((6, 6, 3), Outline.DISC, MAY),  # gem
        ((25, 25, 12), Outline.DISC, MAY),  # cap
        ((35, 12, 12), Outline.BLOCK, MAY),  # sheath of a blade
        ((110, 60, 8), Outline.OTHER, CANNOT),  # scissors
        ((32, 32, 5), Outline.BLOCK, CANNOT),  # tile
    ],
)
def test_things_of_a_kit_are_screened_as_their_sizes_say(size, outline, answer):
    assert screen_small_part(size, outline=outline, rigidity=Rigidity.RIGID) is answer


@pytest.mark.parametrize(("middle", "answer"), [(31.75, MAY), (31.76, CANNOT)])
def test_the_middle_size_counts_only_above_the_width_of_the_gauge(middle, answer):
    # 1.25 in = 31.75 mm
    assert screen_small_part((middle, 40, 5), outline=Outline.BLOCK, rigidity=Rigidity.RIGID) is answer


@pytest.mark.parametrize(("longest", "answer"), [(65.37, MAY), (65.39, CANNOT)])
def test_the_longest_size_counts_only_above_the_inner_diagonal(longest, answer):
    # sqrt(1.25^2 + 2.25^2) in = 2.5739 in = 65.378 mm
    assert screen_small_part((longest, 5, 5), outline=Outline.BLOCK, rigidity=Rigidity.RIGID) is answer


def test_a_diamond_with_a_wide_box_but_a_small_least_width_may_fit():
    # a square of side 23.3 standing on its corner has a box of 33 x 33
    diamond = (33, 33, 3)
    assert (
        screen_small_part(diamond, outline=Outline.OTHER, rigidity=Rigidity.RIGID, least_width=33 / 2**0.5)
        is ScreenResult.MAY_FIT
    )
    assert screen_small_part(diamond, outline=Outline.BLOCK, rigidity=Rigidity.RIGID) is ScreenResult.CANNOT_FIT


def test_an_odd_outline_of_unknown_least_width_may_fit():
    assert screen_small_part((60, 60, 3), outline=Outline.OTHER, rigidity=Rigidity.RIGID) is ScreenResult.MAY_FIT


def test_anything_soft_may_fit():
    assert screen_small_part((200, 200, 200), outline=Outline.BLOCK, rigidity=Rigidity.SOFT) is ScreenResult.MAY_FIT


@pytest.mark.parametrize("size", [(0, 5, 5), (5, -1, 5)])
def test_a_thing_without_size_is_refused(size):
    with pytest.raises(Mistake, match="larger than zero in all three"):
        screen_small_part(size, outline=Outline.BLOCK, rigidity=Rigidity.RIGID)


def test_a_least_width_of_zero_is_refused():
    with pytest.raises(Mistake, match="least width"):
        screen_small_part((5, 5, 5), outline=Outline.OTHER, rigidity=Rigidity.RIGID, least_width=0)


sizes = st.integers(1, 900).map(lambda tenths: Fraction(tenths, 10))


@settings(deadline=None, max_examples=60)
@given(st.tuples(sizes, sizes, sizes), st.permutations(range(3)))
def test_the_order_of_the_sizes_does_not_matter(size, order):
    turned = tuple(size[i] for i in order)
    assert screen_small_part(size, outline=Outline.BLOCK, rigidity=Rigidity.RIGID) is screen_small_part(
        turned, outline=Outline.BLOCK, rigidity=Rigidity.RIGID
    )
