from fractions import Fraction

import pytest
from tests.folding.shapes import tray

from kitwright.folding import fold, measure_extent
from kitwright.paper import Caliper, Paper
from kitwright.pattern import Axis, Draft, EdgeRef, Extent, PanelRef, Pattern, Side, Stance


def card(thickness: float, hinge_depth: float = 0.5) -> Paper:
    return Paper(
        key="card",
        label="card",
        sheet_width_mm=Fraction(305),
        sheet_height_mm=Fraction(305),
        gsm=230,
        caliper=Caliper(thickness),
        hinge_depth=hinge_depth,
    )


def width(name: str) -> Extent:
    return Extent(Axis.WIDTH, PanelRef(name, "west"), PanelRef(name, "east"))


def without_tabs(size: float) -> Pattern:
    """A tray whose tabs are on the other pair of walls, so that its width has none."""
    draft = Draft("plain")
    bottom = draft.panel("bottom", size, 80)
    for side in ("south", "east", "north", "west"):
        bottom.fold_out(side, side, 30)
    return Pattern((draft.finish(),), stance=Stance.FACE_DOWN)


# Crease model (derived from geometry): outside = c + 2kt, inside = c − 2(1−k)t, so clearance = lid − base − 2t − layers, whatever k.
# Worked example: t 0.30, base 100, lid 101.6 → 1.00; base tabs outside at both ends → 0.40; lid tabs inside too → −0.20.
@pytest.mark.parametrize("hinge_depth", [0.0, 0.4, 0.5, 1.0])
def test_a_lid_over_its_base_keeps_what_thickness_and_tabs_leave(hinge_depth: float) -> None:
    paper = card(0.30, hinge_depth)
    plain_lid, tabbed_lid = fold(without_tabs(101.6)), fold(tray(101.6, 81.6, 20, name="lid"))
    plain_base, tabbed_base = fold(without_tabs(100)), fold(tray(100, 80, 30, tabs=Side.OVER, name="base"))
    lid = measure_extent(plain_lid, width("plain"), paper, outside=False).net
    base = measure_extent(plain_base, width("plain"), paper, outside=True).net
    assert lid - base == pytest.approx(1.00, abs=1e-9)
    base = measure_extent(tabbed_base, width("base"), paper, outside=True).net
    assert lid - base == pytest.approx(0.40, abs=1e-9)
    lid = measure_extent(tabbed_lid, width("lid"), paper, outside=False).net
    assert lid - base == pytest.approx(-0.20, abs=1e-9)


def test_thickness_is_told_item_by_item() -> None:
    measured = measure_extent(fold(tray(100, 80, 30)), width("tray"), card(0.30), outside=False)
    assert measured.nominal == 100
    assert [(term.is_layer, term.at_low_end, round(term.amount, 9)) for term in measured.terms] == [
        (False, True, -0.15),
        (True, True, -0.3),
        (False, False, -0.15),
        (True, False, -0.3),
    ]
    assert {term.panel.panel.split()[-1] for term in measured.terms if term.is_layer} == {"tab"}
    assert measured.net == pytest.approx(99.1, abs=1e-9)


def test_tabs_inside_do_not_count_outside() -> None:
    measured = measure_extent(fold(tray(100, 80, 30)), width("tray"), card(0.30), outside=True)
    assert not any(term.is_layer for term in measured.terms)
    assert measured.net == pytest.approx(100.3, abs=1e-9)


def test_an_end_at_an_edge_loses_nothing() -> None:
    height = Extent(Axis.HEIGHT, PanelRef("tray", "bottom"), EdgeRef(PanelRef("tray", "south"), "far"))
    folded = fold(tray(100, 80, 30))
    assert measure_extent(folded, height, card(0.30), outside=False).net == pytest.approx(29.85, abs=1e-9)
    assert measure_extent(folded, height, card(0.30), outside=True).net == pytest.approx(30.15, abs=1e-9)


def test_the_ends_may_be_named_in_either_order() -> None:
    folded = fold(tray(100, 80, 30))
    swapped = Extent(Axis.WIDTH, PanelRef("tray", "east"), PanelRef("tray", "west"))
    one, other = (measure_extent(folded, extent, card(0.3), outside=False) for extent in (width("tray"), swapped))
    assert one.net == other.net


def test_every_blank_counts_with_its_own_paper() -> None:
    folded = fold(tray(100, 80, 30))
    assert measure_extent(folded, width("tray"), {"tray": card(0.5)}, outside=False).net == pytest.approx(
        98.5, abs=1e-9
    )
    with pytest.raises(KeyError):
        measure_extent(folded, width("tray"), {"lid": card(0.5)}, outside=False)


def test_a_slanting_wall_counts_with_its_thickness_along_the_axis() -> None:
    draft = Draft("gable")
    floor = draft.panel("floor", 60, 40)
    wall = floor.fold_out("east", "wall", 30, angle=60)
    other = floor.fold_out("west", "other", 30, angle=60)
    inside, measured = (
        measure_extent(
            fold(Pattern((draft.finish(),))), Extent(Axis.WIDTH, other.ref, wall.ref), card(0.3), outside=side
        )
        for side in (False, True)
    )
    assert measured.nominal == pytest.approx(60 + 2 * 15, abs=1e-9)
    assert measured.net == pytest.approx(90 + 2 * 0.15 / 0.8660254037844386, abs=1e-9)
    assert inside.nominal == pytest.approx(60, abs=1e-9)  # where they are nearest to each other


def test_a_panel_that_runs_along_the_axis_cannot_bound_a_size() -> None:
    along = Extent(Axis.WIDTH, PanelRef("tray", "south"), PanelRef("tray", "east"))
    with pytest.raises(ValueError, match="runs along the axis"):
        measure_extent(fold(tray(100, 80, 30)), along, card(0.3), outside=False)


@pytest.mark.parametrize(("angle", "can_bound"), [(4.0, True), (3.0, True), (2.0, False)])
def test_a_panel_can_bound_a_size_up_to_some_87_degrees_from_square_to_it(angle: float, can_bound: bool) -> None:
    draft = Draft("strip")
    floor = draft.panel("floor", 60, 40)
    ends = [floor.fold_out(side, side, 30, angle=angle).ref for side in ("west", "east")]
    extent = Extent(Axis.WIDTH, ends[0], ends[1])
    folded = fold(Pattern((draft.finish(),)))
    if can_bound:
        assert measure_extent(folded, extent, card(0.3), outside=True).nominal > 60
    else:
        with pytest.raises(ValueError, match="runs along the axis"):
            measure_extent(folded, extent, card(0.3), outside=True)
