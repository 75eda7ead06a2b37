"""Parts that are read well but cannot be built get a sentence with their line."""

from __future__ import annotations

import pytest

from kitwright.errors import Mistakes
from kitwright.kit import build, read_kit

KIT = """\
[kit]
name = "a"
units = "in"
[paper.kraft]
sheet = "12 x 12"
weight = "80 lb cover"
[[part]]
name = "card"
form = "flat card"
size = "6 x 4"
paper = "kraft"
[[part]]
name = "other"
paper = "kraft"
"""


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ('form = "flat card"\nholds = "card"', "A flat card has no width inside that could be measured."),
        ('form = "flat card"\nholds = "card"\nsize = "6 x 4"', "A flat card cannot hold anything."),
        ('form = "flap lid"\nholds = "card"\nsize = "6 x 4"', "A flap lid cannot hold anything."),
        ('form = "mat"\ncovers = "card"\nsize = "6 x 4"', "A mat cannot cover anything."),
        ('form = "mat"\nwraps = "card"\nsize = "6 x 4"', "A mat cannot wrap anything."),
        ('form = "tray"\ncovers = "card"', "Its height does not follow from anything. Add height and a length"),
        ('form = "tray"\non = "card"', "'card' has no flat face to lie on."),
        ('form = "mat"\non = "card"\nborder = "2"', "A border of 2 in leaves nothing of a part on 'card'."),
        ('form = "flat card"\noutside = "6 x 4"\non = "card"\n', None),
    ],
)
def test_a_relation_that_makes_no_sense_for_a_form_is_told(said: str, says: str | None) -> None:
    kit = read_kit(KIT + said, document="a.toml")
    if says is None:
        assert len(build(kit).parts) == 2
        return
    with pytest.raises(Mistakes) as caught:
        build(kit)
    assert str(caught.value).startswith(f'a.toml, line 12, part "other": {says}')


def test_a_side_that_is_said_by_its_own_key_stays_and_the_others_follow() -> None:
    built = build(read_kit(KIT + 'form = "tray"\nholds = "card"\nheight = "2"'))
    tray = built.part("other")
    assert float(tray.lengths["height"]) == pytest.approx(50.8)
    assert float(tray.lengths["width"]) >= 6.25 * 25.4


def test_a_pocket_is_a_little_higher_than_what_it_holds_so_that_the_thumb_reaches_it_through_the_notch() -> None:
    pocket = build(read_kit(KIT + 'form = "pocket"\nholds = "card"')).part("other")
    assert 0 < float(pocket.lengths["height"]) - 4 * 25.4 <= 25.4 / 8
    assert float(pocket.lengths["height"] - pocket.lengths["notch"]) < 4 * 25.4
