import pytest

from kitwright.errors import Mistake
from kitwright.proof.cautions import Bag, BagTrigger, screen_bag

INCH = 25.4
MIL = 0.0254


def bag(width_in, length_in, mils):
    return Bag("bag", width_in * INCH, length_in * INCH, None if mils is None else mils * MIL)


# Bag rules: R.I. Gen. Laws 11-9-16 (type by length + width), film under 1 mil, openings from 5 in (summary of state laws).
@pytest.mark.parametrize(
    ("width", "length", "mils", "trigger", "points"),
    [
        (4, 6, 1.2, BagTrigger.NONE, 10),
        (6, 9, 0.8, BagTrigger.WARN, 10),
        (12, 18, 0.9, BagTrigger.WARN, 14),
        (5, 7, 1.0, BagTrigger.ADVISE, 10),
        (5, 7, 0.99, BagTrigger.WARN, 10),
        (4.99, 7, 0.8, BagTrigger.ADVISE, 10),
        (12, 17.9, 0.9, BagTrigger.WARN, 10),
        (15, 25, 0.9, BagTrigger.WARN, 18),
        (15, 24.9, 0.9, BagTrigger.WARN, 14),
        (24, 36, 0.9, BagTrigger.WARN, 24),
        (24, 35.9, 0.9, BagTrigger.WARN, 18),
        (6, 9, None, BagTrigger.WARN, 10),
    ],
)
def test_a_bag_is_warned_of_by_width_and_film_in_type_by_its_size(width, length, mils, trigger, points):
    screen = screen_bag(bag(width, length, mils))
    assert (screen.trigger, screen.points) == (trigger, points)


# Canada, Toys Regulations section 4, as described by packaginglaw.com: opening under 14 in round, or film of 0.019 mm and a warning
@pytest.mark.parametrize(
    ("width", "film", "asks", "too_thin"),
    [(6.99, 0.01, False, False), (7, 0.019, True, False), (7, 0.0189, True, True), (7, None, True, True)],
)
def test_a_wide_bag_round_a_toy_needs_thicker_film_in_canada(width, film, asks, too_thin):
    screen = screen_bag(Bag("bag", width * INCH, 200, film))
    assert (screen.canada_asks_for_warning, screen.canada_film_too_thin) == (asks, too_thin)


@pytest.mark.parametrize("sizes", [(0, 10, 0.03), (10, 0, 0.03), (10, 10, 0)])
def test_a_bag_without_size_is_refused(sizes):
    with pytest.raises(Mistake, match="larger than zero"):
        screen_bag(Bag("bag", *sizes))
