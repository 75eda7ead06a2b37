"""Drawing by attachment: every verb with the coordinates worked out by hand, and what it refuses. Millimetres."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.pattern.checks import check_pattern, has_edge

from kitwright.pattern import Blank, Draft, FoldWay, PanelKind, Pattern, Point, Ring, Sketched


def near(*points: Point) -> Any:
    return tuple(pytest.approx(point, abs=1e-9) for point in points)


def exactly(*points: Point) -> Ring:
    return points


def base(width: float = 100, height: float = 60) -> tuple[Draft, Sketched]:
    draft = Draft("blank")
    return draft, draft.panel("base", width, height)


def test_a_first_panel_is_a_rectangle_with_its_lower_left_corner_at_the_origin() -> None:
    draft, _ = base()
    panel = draft.finish().root
    assert panel.outline == exactly((0, 0), (100, 0), (100, 60), (0, 60))
    assert panel.edge_names == ("south", "east", "north", "west")
    assert panel.kind is PanelKind.FACE
    assert panel.area == 6000


def test_a_panel_folded_out_is_named_as_seen_from_its_score_and_the_blank_moves_to_the_origin() -> None:
    draft, first = base()
    first.fold_out("south", "flap", 30)
    blank = draft.finish()
    flap = blank.panel("flap")
    assert flap.outline == exactly((100, 30), (0, 30), (0, 0), (100, 0))
    assert flap.edge_names == ("hinge", "right", "far", "left")
    assert flap.edge("right") == exactly((0, 30), (0, 0))  # looking down from the score, the right hand is at x = 0
    assert blank.root.outline == exactly((0, 30), (100, 30), (100, 90), (0, 90))
    (score,) = blank.scores
    assert (score.parent, score.child, score.start, score.end) == ("base", "flap", (0, 30), (100, 30))
    assert (score.angle, score.way, score.length) == (-90, FoldWay.MOUNTAIN, 100)


@pytest.mark.parametrize(
    ("side", "far"),
    [
        ("south", ((0, 0), (100, 0))),
        ("east", ((130, 0), (130, 60))),
        ("north", ((100, 90), (0, 90))),
        ("west", ((0, 60), (0, 0))),
    ],
)
def test_a_panel_can_be_folded_out_of_every_side(side: str, far: tuple[Point, Point]) -> None:
    draft, first = base()
    first.fold_out(side, "flap", 30)
    assert draft.finish().panel("flap").edge("far") == far


def test_an_inset_leaves_the_ends_of_the_side_free_and_a_taper_draws_the_far_corners_in() -> None:
    draft, first = base()
    first.fold_out("south", "flap", 30, inset=(10, 20), taper=(5, 15), angle=90, kind=PanelKind.FLAP)
    blank = draft.finish()
    assert blank.panel("flap").outline == exactly((80, 30), (10, 30), (15, 0), (65, 0))
    assert blank.panel("flap").kind is PanelKind.FLAP
    assert blank.root.outline == exactly((0, 30), (10, 30), (80, 30), (100, 30), (100, 90), (0, 90))
    assert blank.root.edge_names == ("south", "south", "south", "east", "north", "west")
    assert blank.root.edge("south") == exactly((0, 30), (10, 30), (80, 30), (100, 30))
    assert blank.scores[0].way is FoldWay.VALLEY


def test_a_taper_that_meets_gives_a_triangle_without_a_far_side() -> None:
    draft, first = base()
    first.fold_out("north", "point", 40, taper=(50, 50))
    point = draft.finish().panel("point")
    assert point.outline == exactly((0, 60), (100, 60), (50, 100))
    assert point.edge_names == ("hinge", "right", "left")


def test_two_panels_can_share_a_side_if_each_keeps_to_its_own_stretch() -> None:
    draft, first = base()
    first.fold_out("east", "lower", 10, inset=(0, 40))
    first.fold_out("east", "upper", 10, inset=(30, 5))
    blank = draft.finish()
    assert (blank.score_of("lower").start, blank.score_of("lower").end) == ((100, 0), (100, 20))
    assert (blank.score_of("upper").start, blank.score_of("upper").end) == ((100, 30), (100, 55))
    assert check_pattern(Pattern((blank,))) == ()


def test_a_tab_is_cut_back_at_its_ends_by_its_slope() -> None:
    draft, first = base()
    first.tab("east", 12, slope=45)
    tab = draft.finish().panel("base east tab")
    assert tab.kind is PanelKind.TAB
    assert tab.outline == near((100, 60), (100, 0), (112, 12), (112, 48))


def test_a_tab_keeps_a_third_of_its_side_however_deep_it_is() -> None:
    draft, first = base()
    first.tab("east", 45, slope=45, name="deep tab")
    assert draft.finish().panel("deep tab").edge("far") == exactly((145, 20), (145, 40))


def test_a_hem_is_folded_flat_behind_and_its_ends_are_nicked() -> None:
    draft, first = base()
    first.hem("north", 10, nick=3)
    blank = draft.finish()
    assert blank.panel("base hem").outline == exactly((0, 60), (100, 60), (97, 70), (3, 70))
    assert blank.panel("base hem").kind is PanelKind.HEM
    assert blank.scores[0].angle == -180


def test_chamfering_cuts_both_corners_of_a_side() -> None:
    draft, first = base()
    first.chamfer("north", 8)
    panel = draft.finish().root
    assert panel.outline == exactly((0, 0), (100, 0), (100, 52), (92, 60), (8, 60), (0, 52))
    assert panel.edge("north") == exactly((100, 52), (92, 60), (8, 60), (0, 52))
    assert panel.edge("east") == exactly((100, 0), (100, 52))
    assert panel.area == 6000 - 2 * 32


@pytest.mark.parametrize("side", ["south", "east", "north", "west"])
def test_chamfering_takes_the_same_from_every_side(side: str) -> None:
    draft, first = base()
    first.chamfer(side, 8)
    blank = draft.finish()
    assert blank.area == pytest.approx(6000 - 2 * 32)
    assert blank.root.edge(side)[0] != blank.root.edge(side)[-1]
    assert check_pattern(Pattern((blank,))) == ()


def test_a_flap_can_be_chamfered_at_its_far_side_and_keeps_its_score() -> None:
    draft, first = base()
    flap = first.fold_out("north", "flap", 20)
    flap.chamfer("far", 5)
    panel = draft.finish().panel("flap")
    assert panel.outline == exactly((0, 60), (100, 60), (100, 75), (95, 80), (5, 80), (0, 75))
    assert panel.edge("hinge") == exactly((0, 60), (100, 60))


def test_a_thumb_notch_is_a_half_circle_in_the_middle_of_a_side() -> None:
    draft, first = base()
    first.thumb_notch("north", 12)
    panel = draft.finish().root
    chain = panel.edge("north")
    assert (chain[0], chain[-1]) == ((100, 60), (0, 60))
    assert (chain[1], chain[17], chain[-2]) == near((62, 60), (50, 48), (38, 60))
    assert panel.area == pytest.approx(6000 - 32 / 2 * 144 * math.sin(math.pi / 32))


def test_a_thumb_notch_finds_its_place_between_two_tabs_on_the_same_side() -> None:
    draft, first = base()
    first.fold_out("north", "one", 10, inset=(0, 80))
    first.fold_out("north", "two", 10, inset=(80, 0))
    first.thumb_notch("north", 12)
    assert check_pattern(Pattern((draft.finish(),))) == ()


def test_a_round_hole_lies_inwards_of_the_middle_of_its_side() -> None:
    draft, first = base()
    first.fold_out("south", "flap", 30)
    first.round_hole("north", diameter=6, inwards=9)
    (hole,) = draft.finish().root.holes
    assert len(hole) == 64
    assert all(math.dist(point, (50, 81)) == pytest.approx(3) for point in hole)
    assert draft.finish().root.area == pytest.approx(6000 - 32 * 9 * math.sin(math.pi / 32))


def test_splitting_a_side_adds_a_corner_once() -> None:
    draft, first = base()
    first.split("south", (25, 0))
    first.split("south", (25, 0))
    assert draft.finish().root.outline == exactly((0, 0), (25, 0), (100, 0), (100, 60), (0, 60))


def test_a_first_panel_may_have_any_outline() -> None:
    draft = Draft("kite")
    kite = draft.shape("kite", ((0, 0), (40, -30), (80, 0), (40, 60)), ("a", "b", "c", "d"))
    kite.fold_out("a", "wing", 10)
    blank = draft.finish()
    # side a runs from (0, 0) by (40, −30); its right-hand normal is (−0.6, −0.8)
    assert blank.panel("wing").edge("far") == near((0, 30), (40, 0))
    assert blank.size == pytest.approx((86, 98))
    assert check_pattern(Pattern((blank,))) == ()


def test_a_copy_of_a_panel_is_named_by_the_number_of_its_blank() -> None:
    draft = Draft("half", copies=2)
    face = draft.panel("face", 10, 10)
    assert str(face.on(1)) == "face of half"
    assert str(face.on(2)) == "face of half 2"
    assert str(face.edge("north", copy=2)) == "north edge of face of half 2"
    assert [name for name, _ in Pattern((draft.finish(),)).copies()] == ["half", "half 2"]


REFUSED: dict[str, Callable[[Draft, Sketched], object]] = {
    "a depth of nothing": lambda _, first: first.fold_out("north", "x", 0),
    "insets that leave nothing": lambda _, first: first.fold_out("north", "x", 5, inset=(60, 40)),
    "an inset beyond the side": lambda _, first: first.fold_out("north", "x", 5, inset=(-1, 0)),
    "a taper that crosses over": lambda _, first: first.fold_out("north", "x", 5, taper=(60, 41)),
    "a fold beyond flat": lambda _, first: first.fold_out("north", "x", 5, angle=-181),
    "a name twice": lambda _, first: first.fold_out("north", "base", 5),
    "a second first panel": lambda draft, _: draft.panel("x", 5, 5),
    "a second first shape": lambda draft, _: draft.shape("x", ((0, 0), (1, 0), (0, 1)), ("a", "b", "c")),
    "too large a chamfer": lambda _, first: first.chamfer("north", 60),
    "a chamfer that eats the side": lambda _, first: first.chamfer("east", 30),
    "a chamfer of nothing": lambda _, first: first.chamfer("east", 0),
    "too wide a notch": lambda _, first: first.thumb_notch("north", 50),
    "a notch of nothing": lambda _, first: first.thumb_notch("north", 0),
    "a hole over the edge": lambda _, first: first.round_hole("north", diameter=10, inwards=5),
    "a hole of nothing": lambda _, first: first.round_hole("north", diameter=0, inwards=5),
    "a corner off its side": lambda _, first: first.split("south", (25, 1)),
}


@pytest.mark.parametrize("refused", REFUSED.values(), ids=REFUSED)
def test_what_could_not_be_cut_is_refused(refused: Callable[[Draft, Sketched], object]) -> None:
    with pytest.raises(ValueError):
        refused(*base())


@pytest.mark.parametrize(
    "verb",
    [
        lambda first: first.fold_out("north", "again", 5),
        lambda first: first.fold_out("north", "again", 5, inset=(0, 50)),
        lambda first: first.chamfer("north", 5),
        lambda first: first.chamfer("east", 5),
        lambda first: first.thumb_notch("north", 5),
    ],
)
def test_a_stretch_on_which_a_panel_hangs_is_not_cut_or_used_again(verb: Callable[[Sketched], object]) -> None:
    _, first = base()
    first.fold_out("north", "flap", 20)
    with pytest.raises(ValueError, match="taken there: 'flap' hangs on 'base'"):
        verb(first)


def test_nothing_is_folded_out_of_the_score_on_which_a_panel_hangs() -> None:
    _, first = base()
    flap = first.fold_out("north", "flap", 20)
    with pytest.raises(ValueError, match="taken there"):
        flap.fold_out("hinge", "x", 5)


@pytest.mark.parametrize("verb", ["fold_out", "chamfer", "thumb_notch"])
def test_an_unknown_side_is_named_in_the_refusal(verb: str) -> None:
    _, first = base()
    numbers: tuple[object, ...] = ("x", 5) if verb == "fold_out" else (5,)
    with pytest.raises(KeyError, match="'base' has no side 'far'"):
        getattr(first, verb)("far", *numbers)


@pytest.mark.parametrize(
    ("outline", "sides", "why"),
    [
        (((0, 0), (0, 10), (10, 0)), ("a", "b", "c"), "counter-clockwise"),
        (((0, 0), (10, 10), (10, 0), (0, 10)), ("a", "b", "c", "d"), "crossing"),
        (((0, 0), (10, 0)), ("a", "b"), "go round"),
        (((0, 0), (10, 0), (0, 10)), ("a", "b"), "3 edges, but 2 names"),
    ],
)
def test_a_first_outline_that_is_no_panel_is_refused(
    outline: tuple[Point, ...], sides: tuple[str, ...], why: str
) -> None:
    with pytest.raises(ValueError, match=why):
        Draft("blank").shape("x", outline, sides)


@pytest.mark.parametrize("size", [(0, 10), (10, 0), (-5, 10)])
def test_a_first_panel_has_a_size(size: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="cannot measure"):
        Draft("blank").panel("x", *size)


@st.composite
def round_polygons(draw: st.DrawFn) -> tuple[Point, ...]:
    """A convex polygon with its corners on a circle."""
    count = draw(st.integers(3, 9))
    parts = [draw(st.floats(1, 4)) for _ in range(count)]
    radius, turn = draw(st.floats(20, 200)), draw(st.floats(0, 6))
    angles = [turn + 2 * math.pi * sum(parts[: i + 1]) / sum(parts) for i in range(count)]
    return tuple((radius * math.cos(angle), radius * math.sin(angle)) for angle in angles)


@st.composite
def grown_blanks(draw: st.DrawFn) -> Blank:
    """A convex first panel with further panels folded out of any of its sides, and one more out of each of those."""
    draft = Draft("blank")
    outline = draw(round_polygons())
    names = tuple(f"side {i}" for i in range(len(outline)))
    first = draft.shape("base", outline, names)
    for side in draw(st.lists(st.sampled_from(names), unique=True, min_size=1)):
        start, end = first.straight_side(side)
        length = math.dist(start, end)
        inset = (length * draw(st.floats(0, 0.4)), length * draw(st.floats(0, 0.4)))
        left_over = length - sum(inset)
        taper = (left_over * draw(st.floats(0, 0.4)), left_over * draw(st.floats(0, 0.4)))
        angle = draw(st.sampled_from((-180.0, -90.0, -35.0, 35.0, 90.0, 180.0)))
        flap = first.fold_out(side, f"flap of {side}", draw(st.floats(1, 80)), inset=inset, taper=taper, angle=angle)
        if draw(st.booleans()):
            flap.tab("far", draw(st.floats(1, 20)))
    return draft.finish()


@settings(deadline=None, max_examples=80)
@given(blank=grown_blanks())
def test_folding_out_of_any_side_of_any_polygon_keeps_the_blank_sound(blank: Blank) -> None:
    assert check_pattern(Pattern((blank,))) == ()
    assert blank.area == pytest.approx(blank.shape.area, rel=1e-7)  # the joined shape lies on a grid of 1e-7 mm
    for score in blank.scores:
        assert has_edge(blank.panel(score.parent), score.start, score.end)
        assert has_edge(blank.panel(score.child), score.end, score.start)


def test_the_same_drawing_gives_the_same_blank() -> None:
    def drawn() -> Blank:
        draft, first = base(101.3, 60.7)
        first.tab("east", 12.7, slope=15)
        first.hem("north", 9.525, nick=2)
        first.round_hole("south", diameter=4, inwards=9)
        return draft.finish()

    assert drawn() == drawn()
