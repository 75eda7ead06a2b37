"""The numbers by which tabs, hems, flaps, corners, notches and holes are cut. Worked by hand; lengths in mm."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.strategies import accepted_forms

from kitwright.catalogue import CATALOGUE, Form
from kitwright.pattern import CutShape, Draft, score_chart, shaped_panels


def test_a_tab_is_told_by_its_depth_its_length_and_what_its_ends_lose() -> None:
    draft = Draft("wall")
    draft.panel("wall", 60, 40).tab("east", 12, slope=45, name="tab")
    (tab,) = shaped_panels(draft.finish())
    assert (tab.name, tab.depth, tab.at_score, tab.whole, tab.upright) == ("tab", 12, 40, True, True)
    assert [tab.right, tab.left] == pytest.approx([12, 12])  # at 45 degrees as much as it is deep
    assert tab.foot == (0, 40)


def test_a_tab_that_takes_part_of_a_side_says_where_it_stands() -> None:
    draft = Draft("front")
    # seen from the score, the right end of a tab on the right edge is at the bottom
    draft.panel("front", 60, 40).tab("east", 10, slope=0, inset=(5, 15), name="tab")
    (tab,) = shaped_panels(draft.finish())
    assert (tab.foot, tab.whole, tab.at_score) == ((5, 25), False, 20)


def test_a_plain_wall_needs_no_numbers_but_its_score() -> None:
    draft = Draft("wall")
    draft.panel("wall", 60, 40).fold_out("north", "flap", 20)
    assert shaped_panels(draft.finish()) == ()


def test_the_ends_of_a_panel_may_lose_different_lengths() -> None:
    draft = Draft("front")
    draft.panel("front", 60, 40).fold_out("north", "flap", 20, taper=(3, 8))
    (flap,) = shaped_panels(draft.finish())
    assert [flap.right, flap.left] == pytest.approx([3, 8])
    assert not flap.upright


@pytest.mark.parametrize("form", CATALOGUE.values(), ids=CATALOGUE)
@settings(deadline=None, max_examples=20)
@given(data=st.data())
def test_the_numbers_of_every_form_leave_nothing_to_guess(form: type[Form], data: st.DataObject) -> None:
    for blank in data.draw(accepted_forms(form)).draw().blanks:
        shaped = {each.name: each for each in shaped_panels(blank)}
        for name, each in shaped.items():
            # a trapezoid: depth times the mean of its two parallel sides
            area = each.depth * (each.at_score + each.at_score - each.right - each.left) / 2
            assert area == pytest.approx(blank.panel(name).area)
        for piece in score_chart(blank).cut_away:
            assert piece.shape is not CutShape.OTHER or set(piece.beside) & set(shaped)


def test_corners_cuts_notches_and_holes_are_told_apart() -> None:
    draft = Draft("tag")
    tag = draft.panel("tag", 40, 80)
    tag.round_hole("north", diameter=6, inwards=12)
    tag.chamfer("north", 8)
    tag.thumb_notch("south", 5)
    pieces = score_chart(draft.finish()).cut_away
    assert [piece.shape for piece in pieces] == [CutShape.NOTCH, CutShape.SLANT, CutShape.SLANT, CutShape.HOLE]
    assert [piece.left for piece in pieces] == pytest.approx([15, 0, 32, 17])
    assert [piece.low for piece in pieces] == pytest.approx([0, 72, 72, 65])
