"""Limits of a form on the maker's ruler: told so that they explain a refusal, and no part is refused because a coarse ruler misses them."""

from __future__ import annotations

import pytest
from tests.kit.documents import built, head, part

from kitwright.catalogue import CATALOGUE, parameters
from kitwright.errors import Mistakes
from kitwright.kit.limits import mark_within
from kitwright.measure import Unit, parse_ruler

LID = part("tray", "tray", size="{size}") + part("lid", "lift-off lid", covers="tray")


@pytest.mark.parametrize(
    ("units", "ruler", "size", "words"),
    [
        (
            "in",
            "1/8",
            "15 5/8 x 6 x 2",
            "Width comes out at 15 3/4 in, but a lift-off lid can only have 7/8 to 15 5/8 in",
        ),
        ("mm", "1", "400 x 100 x 50", r"Width comes out at 40\d mm, but a lift-off lid can only have 20 to 400 mm"),
    ],
)
def test_a_size_that_comes_out_too_large_is_beyond_the_largest_mark(
    units: str, ruler: str, size: str, words: str
) -> None:
    with pytest.raises(Mistakes, match=words):
        built(head(units=units, ruler=ruler, sheet="24 x 24 in", caliper="0.28 mm") + LID.format(size=size))


@pytest.mark.parametrize("form", ["tray", "tag"])
def test_a_coarse_ruler_without_a_mark_for_a_usual_length_refuses_no_part(form: str) -> None:
    size = "8 x 6 x 2" if form == "tray" else "3 x 5"
    kit = built(head(ruler="1") + part("it", form, size=size))
    for parameter in parameters(CATALOGUE[form]):
        if not parameter.choices:
            assert parameter.at_least <= kit.by_name["it"].lengths[parameter.name] <= parameter.at_most


def test_limits_without_a_mark_between_them_are_told_as_they_are() -> None:
    with pytest.raises(Mistakes, match=r"too large for this form\. It can be from 0\.236 to 0\.984 in\."):
        built(head(ruler="1") + part("tray", "tray", size="8 x 6 x 2", tab="2"))


@pytest.mark.parametrize(("step", "unit"), [("1", Unit.INCH), ("1/8", Unit.INCH), ("25", Unit.MILLIMETRE)])
def test_the_mark_for_any_length_is_one_that_the_form_can_have(step: str, unit: Unit) -> None:
    ruler = parse_ruler(step, unit)
    for form in CATALOGUE.values():
        for each in parameters(form):
            low, high = ruler.up(each.at_least), ruler.down(each.at_most)
            for length in (each.at_least, each.at_most, 9.525) if not each.choices else ():
                mark = mark_within(each, ruler, length)
                assert each.at_least <= mark <= each.at_most
                assert low > high or ruler.is_on_mark(mark)
