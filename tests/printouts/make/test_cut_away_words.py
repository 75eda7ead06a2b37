"""A blank can be cut from its chart alone: what is cut away, in numbers of the maker's ruler."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.printouts.make.bench_hands import cut_by_words
from tests.strategies import accepted_forms

import kitwright.forms  # noqa: F401  # fills the catalogue
from kitwright.catalogue import CATALOGUE, Form, get
from kitwright.measure import Ruler, Unit, parse_ruler
from kitwright.pattern import Blank, score_chart
from kitwright.printouts.make.cut_away_words import away_sentences

IN = 25.4
SIXTEENTHS = parse_ruler("1/16", Unit.INCH)
MILLIMETRES = parse_ruler("1", Unit.MILLIMETRE)


def told(form: str, ruler: Ruler, **lengths: float | str) -> list[str]:
    """The sentences about a part, its lengths in the ruler's unit."""
    factor = float(ruler.unit.mm)
    values = {key: value * factor if isinstance(value, int | float) else value for key, value in lengths.items()}
    (blank,) = get(form)(**values).draw().blanks
    return list(away_sentences(blank, score_chart(blank), ruler))


@pytest.mark.parametrize("form", ["tray", "lift-off lid"])
def test_a_tray_tells_its_corners_and_its_tabs(form: str) -> None:
    # ends of the tabs at 15 degrees from square: 1/2 × tan 15° = 0.134 in, on the ruler 3/16; a tab may be smaller, not larger
    assert told(form, SIXTEENTHS, width=6, depth=4, height=1, tab=0.5) == [
        "Cut 4 corners (1 × 1) away along the scores; leave:",
        "4 tabs: 1/2 deep, 1 long at the score, each end taken back about 3/16.",
    ]


def test_tabs_that_fill_their_corners_are_freed_by_a_cut_from_the_edge() -> None:
    # a wall of 1/2 in and a tab of 1/2 in: nothing of the corner is left beside the tab, so that it hangs on its wall without a cut
    assert told("lift-off lid", SIXTEENTHS, width=5, depth=4, height=0.5, tab=0.5) == [
        "Cut into 4 corners along the scores, 1/2 deep from the left and right edges, to free the tabs; leave:",
        "4 tabs: 1/2 deep, 1/2 long at the score, each end taken back about 3/16.",
    ]


def test_walls_lower_than_their_tabs_are_deep_lose_a_strip_between_four_cuts() -> None:
    # blank 5 7/16 × 3 1/2, scored at 1/2 and 4 15/16 and at 3/8 and 3 1/8; walls of 3/8 under tabs of 1/2: 1/8 comes off
    assert told("lift-off lid", SIXTEENTHS, width=4.4375, depth=2.75, height=0.375, tab=0.5) == [
        "Cut into 4 corners along the scores, 1/2 deep from the left and right edges, to free the tabs.",
        "Take a strip 1/8 wide off the left and right edges, 3/8 to 3 1/8 from the lower edge; leave:",
        "4 tabs: 1/2 deep, 3/8 long at the score, each end taken back 1/8.",
    ]


@pytest.mark.parametrize(
    ("tab", "words"), [(12.7, "Cut along the scores into the four corners"), (9.525, "Cut the four corners")]
)
def test_the_first_step_cuts_no_corner_away_that_is_all_tab(tab: float, words: str) -> None:
    lengths = {"width": 127.0, "depth": 101.6, "height": 12.7, "tab": tab}
    first = get("lift-off lid")(**lengths).draw().stages[0].words
    assert first.startswith(words)
    assert "strip" not in first


def test_the_first_step_takes_a_strip_off_walls_that_are_lower_than_their_tabs_are_deep() -> None:
    lengths = {"width": 127.0, "depth": 101.6, "height": 9.525, "tab": 12.7}
    assert "take a strip off each of those walls" in get("lift-off lid")(**lengths).draw().stages[0].words


def test_an_envelope_tells_where_its_tabs_stand_and_how_its_flap_narrows() -> None:
    # ends of the tabs: 5/8 × tan 15° = 0.167 in; ends of the flap: a third of 1 3/4 in = 0.583 in
    assert told("side-seam envelope", SIXTEENTHS, width=5.75, height=4.375, side_tab=0.625, back=3.5, flap=1.75) == [
        "Cut 4 corners away along the scores; leave:",
        "Right and left tab: 5/8 deep, 3 1/2 long at the score (3 1/2 to 7 from the lower edge), each end taken back about 3/16.",
        "Closing flap: 1 3/4 deep, 5 3/4 long at the score, each end taken back about 5/8.",
    ]


def test_a_half_of_a_box_tells_its_lower_corners_and_its_hems() -> None:
    assert told("two-half wrap box", SIXTEENTHS, width=4, depth=2, height=5, hem=0.5) == [
        "Cut away 2 corners of 2 × 2.",
        "Face hem: 1/2 deep, 4 long at the score, each end taken back 1/8.",
        "Left and right hem: 1/2 deep, 2 long at the score, each end taken back 1/8.",
    ]


def test_a_tag_tells_its_corners_and_its_hole() -> None:
    assert told("tag", MILLIMETRES, width=50, height=80, corner=12, hole=5, hole_below_top=10) == [
        "Cut off 2 corners aslant: 12 along each edge.",
        "Punch a hole 5 across, its middle 25 from the left edge and 10 below the upper edge.",
    ]


def test_a_pocket_tells_its_tabs_and_its_notch() -> None:
    assert told("pocket", MILLIMETRES, width=90, height=60, tab=10, notch=12) == [
        "Cut 2 corners away along the scores; leave:",
        "Bottom tab: 10 deep, 90 long at the score, each end taken back 10.",
        "Right and left tab: 10 deep, 60 long at the score, each end taken back 10.",
        "Cut a half-round notch into the upper edge, 24 wide and 12 deep, its middle 55 from the left edge.",
    ]


def test_a_band_tells_its_overlap() -> None:
    assert told("belly band", MILLIMETRES, width=100, depth=20, height=40, overlap=20) == [
        # 20 × tan 15° = 5.36 mm
        "Overlap: 20 deep, 40 long at the score, each end taken back about 6."
    ]


FINE = Ruler(Unit.MILLIMETRE, Fraction(1, 100))
"""Marked so finely that what is read off it hardly differs from what is drawn."""


def wrongly_cut(blank: Blank) -> float:
    """How far off the outline lies, on the mean (mm), where a blank is cut by its sentences alone."""
    return float(cut_by_words(blank, FINE).symmetric_difference(blank.shape).area / blank.shape.length)


@pytest.mark.parametrize("form", CATALOGUE.values(), ids=CATALOGUE)
@settings(deadline=None, max_examples=12)
@given(data=st.data())
def test_whoever_follows_the_words_cuts_the_blank_that_is_drawn(form: type[Form], data: st.DataObject) -> None:
    for blank in data.draw(accepted_forms(form)).draw().blanks:
        assert wrongly_cut(blank) < 0.02, list(away_sentences(blank, score_chart(blank), FINE))


@pytest.mark.parametrize("form", ["tray", "lift-off lid"])
@settings(deadline=None, max_examples=12)
@given(height=st.floats(8, 24), more=st.floats(-2, 12), base=st.tuples(st.floats(50, 300), st.floats(50, 300)))
def test_whoever_follows_the_words_cuts_low_walls_as_they_are_drawn(
    form: str, height: float, more: float, base: tuple[float, float]
) -> None:
    lengths = {"width": base[0], "depth": base[1], "height": height, "tab": min(max(height + more, 6), 25)}
    (blank,) = get(form)(**lengths).draw().blanks
    assert wrongly_cut(blank) < 0.02
