"""What a blank says of itself: shape, outline, size, area, slits. Millimetres."""

from __future__ import annotations

import pytest

from kitwright.pattern import Blank, Draft, Panel, Score
from kitwright.pattern.geometry import signed_area


def cross() -> Blank:
    """A base of 100 × 60 with four walls 20 high."""
    draft = Draft("cross")
    base = draft.panel("base", 100, 60)
    for side in ("south", "east", "north", "west"):
        base.fold_out(side, side, 20)
    return draft.finish()


def grid() -> Blank:
    """Two by two panels of 50 × 40 with one slit: the fourth hangs on the right-hand lower one only."""
    draft = Draft("grid")
    base = draft.panel("base", 50, 40)
    right = base.fold_out("east", "right", 50)
    base.fold_out("north", "upper", 40)
    right.fold_out("left", "corner", 40)
    return draft.finish()


def test_the_size_is_that_of_the_rectangle_it_is_cut_from() -> None:
    assert cross().size == (140, 100)
    assert cross().area == 6000 + 2 * 2000 + 2 * 1200


def test_the_outline_goes_round_the_whole_blank_counter_clockwise_without_the_scores() -> None:
    outline = cross().outline
    assert len(outline) == 12
    assert signed_area(outline) == pytest.approx(cross().area)
    assert set(outline) == {
        (20, 0),
        (120, 0),
        (120, 20),
        (140, 20),
        (140, 80),
        (120, 80),
        (120, 100),
        (20, 100),
        (20, 80),
        (0, 80),
        (0, 20),
        (20, 20),
    }


def test_the_shape_keeps_the_holes() -> None:
    draft = Draft("tag")
    draft.panel("front", 40, 80).round_hole("north", diameter=6, inwards=10)
    blank = draft.finish()
    assert len(blank.shape.interiors) == 1
    assert blank.shape.area == pytest.approx(blank.area)
    assert not blank.is_rectangle


def test_a_blank_is_a_rectangle_if_nothing_but_its_edges_is_cut() -> None:
    draft = Draft("card")
    draft.panel("front", 100, 60).fold_out("north", "back", 60, angle=-180)
    assert draft.finish().is_rectangle
    assert not cross().is_rectangle


def test_a_slit_lies_between_two_neighbours_without_a_score() -> None:
    blank = grid()
    assert blank.area == 100 * 80
    assert [set(slit) for slit in blank.slits] == [{(50.0, 40.0), (50.0, 80.0)}]
    assert not blank.is_rectangle
    assert cross().slits == ()


def test_a_slit_past_a_corner_on_its_way_is_one_slit() -> None:
    draft = Draft("grid")
    base = draft.panel("base", 50, 40)
    upper = base.fold_out("north", "upper", 40)
    upper.split("left", (0, 60))
    base.fold_out("west", "side", 30).fold_out("right", "wing", 40)
    assert [set(slit) for slit in draft.finish().slits] == [{(30.0, 40.0), (30.0, 80.0)}]


def test_the_first_panel_is_the_root_and_each_other_hangs_on_its_score() -> None:
    blank = grid()
    assert blank.root.name == "base"
    assert blank.score_of("corner").parent == "right"
    with pytest.raises(KeyError):
        blank.score_of("base")
    with pytest.raises(KeyError):
        blank.panel("lid")


def test_a_panel_gives_the_whole_chain_of_a_notched_edge_and_its_ends() -> None:
    draft = Draft("pocket")
    draft.panel("front", 100, 60).thumb_notch("west", 10)
    panel = draft.finish().root
    assert len(panel.edge("west")) == 35
    assert panel.ends("west") == ((0, 60), (0, 0))
    with pytest.raises(KeyError, match="no edge 'far'"):
        panel.edge("far")


def test_an_edge_whose_chain_runs_over_the_start_of_the_outline_is_whole() -> None:
    panel = Panel("x", ((5, 0), (10, 0), (10, 10), (0, 10), (0, 0)), ("s", "e", "n", "w", "s"))
    assert panel.edge("s") == ((0, 0), (5, 0), (10, 0))


def test_panels_that_do_not_touch_are_no_blank() -> None:
    one = Panel("one", ((0, 0), (10, 0), (10, 10), (0, 10)), ("a", "b", "c", "d"))
    two = Panel("two", ((20, 0), (30, 0), (30, 10), (20, 10)), ("a", "b", "c", "d"))
    with pytest.raises(TypeError, match="do not hang together"):
        _ = Blank("apart", (one, two), (Score("one", "two", (10, 0), (10, 10), -90),)).shape
