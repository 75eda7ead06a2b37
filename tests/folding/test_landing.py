import pytest
from tests.folding.shapes import margins, ring, tray

from kitwright.folding import Landing, fold, landings
from kitwright.pattern import PanelRef


def landed(sides: tuple[float, float, float, float], tab: float = 8) -> Landing:
    (landing,) = landings(fold(ring(sides, 30, tab, 3)))
    return landing


# Derived: a 60 × 40 × 30 box, tab 8 deep on a 30 edge with bevels of 3: corner margins 0, 3, 3, 0.
def test_a_tab_lands_inside_its_target_with_the_margins_of_its_bevels() -> None:
    landing = landed((60, 40, 60, 40))
    assert (landing.off_plane, landing.turned, landing.off_panel) == (0, 0, 0)
    assert sorted(margins(fold(ring((60, 40, 60, 40), 30, 8, 3)), landing.joint)) == pytest.approx(
        [0, 0, 3, 3], abs=1e-9
    )


# Derived: third wall 1 too long: the strip of the tab beyond the target is 1 wide and 30 to 29.25 long.
def test_a_tab_that_overshoots_its_target_is_measured() -> None:
    landing = landed((60, 40, 61, 40))
    assert landing.off_panel == pytest.approx(29.625, abs=1e-9)
    assert min(margins(fold(ring((60, 40, 61, 40), 30, 8, 3)), landing.joint)) == pytest.approx(-1.0, abs=1e-9)
    assert landing.off_plane == pytest.approx(0, abs=1e-9)


def test_a_tab_beside_the_plane_of_its_target_is_measured() -> None:
    landing = landed((60, 40, 60, 41))
    assert landing.off_plane == pytest.approx(1.0, abs=1e-9)
    assert landing.turned == 0


# Derived: 70 deep on a wall of 60: the last 10 are 24.857 to 24 wide.
def test_a_tab_deeper_than_its_target_sticks_out_at_the_far_side() -> None:
    assert landed((60, 40, 60, 40), 70).off_panel == pytest.approx(244.2857, abs=1e-4)


def test_a_tab_folded_short_of_its_target_is_turned() -> None:
    pattern = tray(60, 40, 20)
    tab = PanelRef("tray", "south right tab")
    found = {landing.joint.tab: landing for landing in landings(fold(pattern, {tab: -80.0}))}
    assert found[tab].turned == pytest.approx(10, abs=1e-9)
    assert found[PanelRef("tray", "south left tab")].turned == 0
