"""Every form of the catalogue folds to what it promises, over the whole range of its parameters. Zero thickness; lengths in mm."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.folding.shapes import margins
from tests.strategies import accepted_forms, everyday_form, papers

from kitwright.catalogue import CATALOGUE, Form
from kitwright.folding import (
    Folded,
    bumps,
    crossings,
    fold,
    fold_after,
    fold_pictured,
    landings,
    measure_extent,
    print_ups,
    seam_residual,
)
from kitwright.paper import Paper
from kitwright.pattern import Axis, EdgeRef, Extent, PanelRef, Pattern, Stance, Up

FORMS = pytest.mark.parametrize("form", CATALOGUE.values(), ids=CATALOGUE)
EXACT = 1e-9
"""Seams and planes meet to this, mm: a part of half a metre carries about 1e-13 of rounding."""
FRONT, UP = np.array([0.0, -1.0, 0.0]), np.array([0.0, 0.0, 1.0])
ALONG = {Axis.WIDTH: 0, Axis.DEPTH: 1, Axis.HEIGHT: 2}


def middle(points: np.ndarray) -> np.ndarray:
    """The middle between the least and the greatest coordinates."""
    return np.asarray((points.min(axis=0) + points.max(axis=0)) / 2)


@FORMS
@settings(deadline=None, max_examples=40)
@given(data=st.data())
def test_every_seam_closes_and_every_tab_lands_inside_its_target(form: type[Form], data: st.DataObject) -> None:
    folded = fold(data.draw(accepted_forms(form)).draw())
    for seam in folded.pattern.claims.seams:
        residual = seam_residual(folded, seam)
        assert max(residual.gap, residual.slide) <= EXACT, seam
        assert residual.angle <= 1e-6
    for landing in landings(folded):
        assert landing.off_plane <= EXACT
        assert landing.turned <= 1e-5  # the arc cosine of a number near 1 loses half its places
        assert landing.off_panel <= 1e-3, landing.joint  # mm²; corners are taken on a grid of 1e-7 mm
        assert min(margins(folded, landing.joint)) >= -EXACT
        assert landing.off_panel < folded.pattern.panel(landing.joint.tab).shape.area


@FORMS
@settings(deadline=None, max_examples=15)
@given(data=st.data())
def test_nothing_passes_through_anything_once_it_is_folded(form: type[Form], data: st.DataObject) -> None:
    assert crossings(fold(data.draw(accepted_forms(form)).draw())) == ()


@FORMS
@settings(deadline=None, max_examples=25)
@given(data=st.data(), paper=papers())
def test_without_thickness_the_folded_part_measures_its_size_parameters(
    form: type[Form], data: st.DataObject, paper: Paper
) -> None:
    made = data.draw(accepted_forms(form))
    folded = fold(made.draw())
    for name, axis in form.size.items():
        for extents, outside in ((folded.pattern.claims.inside, False), (folded.pattern.claims.outside, True)):
            for extent in (extent for extent in extents if extent.axis is axis):
                measured = measure_extent(folded, extent, paper, outside=outside)
                if not outside and is_notched(folded, extent):
                    assert measured.nominal < getattr(made, name)  # the inside ends at the bottom of the notch
                else:
                    assert measured.nominal == pytest.approx(getattr(made, name), abs=EXACT)
                assert measured.net >= measured.nominal if outside else measured.net <= measured.nominal


def is_notched(folded: Folded, extent: Extent) -> bool:
    """Whether one end of an extent is an edge that is not straight."""
    edges = [end for end in (extent.low, extent.high) if isinstance(end, EdgeRef)]
    return any(np.ptp(folded.edge(edge)[:, ALONG[extent.axis]]) > EXACT for edge in edges)


@FORMS
def test_the_ends_of_an_extent_are_named_from_left_front_and_below(form: type[Form]) -> None:
    folded = fold(everyday_form(form).draw())
    for extent in (*folded.pattern.claims.inside, *folded.pattern.claims.outside):
        low, high = (
            middle(folded.points(end) if isinstance(end, PanelRef) else folded.edge(end))[ALONG[extent.axis]]
            for end in (extent.low, extent.high)
        )
        assert low < high, extent


@FORMS
@settings(deadline=None, max_examples=25)
@given(data=st.data())
def test_the_first_panel_lies_or_stands_as_its_stance_says(form: type[Form], data: st.DataObject) -> None:
    pattern = data.draw(accepted_forms(form)).draw()
    folded = fold(pattern)
    root = next(iter(folded.refs))
    facing = {Stance.LYING: UP, Stance.FACE_DOWN: -UP, Stance.STANDING: FRONT}[pattern.stance]
    assert folded.normal(root) == pytest.approx(facing)
    upwards = UP if pattern.stance is Stance.STANDING else -FRONT
    assert folded.print_up(root) == pytest.approx(upwards)


@FORMS
def test_a_main_face_looks_at_the_person_in_front_or_up(form: type[Form]) -> None:
    folded = fold(everyday_form(form).draw())
    mains = [folded.normal(shows.panel) for shows in folded.pattern.claims.shows if shows.main]
    assert any(np.allclose(normal, FRONT) or np.allclose(normal, UP) for normal in mains)


def is_outward(folded: Folded, pattern: Pattern) -> bool:
    """Whether every face that shows its print turns it away from the middle of the part."""
    low, high = folded.bounds()
    centre = (low + high) / 2
    return all(
        (folded.normal(shows.panel) @ (middle(folded.points(shows.panel)) - centre)) * (-1 if shows.back else 1)
        >= -EXACT
        for shows in pattern.claims.shows
    )


@FORMS
@settings(deadline=None, max_examples=15)
@given(data=st.data())
def test_every_face_that_shows_turns_its_print_outwards_with_nothing_before_it(
    form: type[Form], data: st.DataObject
) -> None:
    pattern = data.draw(accepted_forms(form)).draw()
    folded = fold(pattern)
    assert is_outward(folded, pattern)
    for seen in print_ups(folded):
        assert seen.is_open or not seen.shows.main, seen


@FORMS
def test_there_is_a_way_to_lay_a_one_way_print_so_that_it_stands_upright_on_every_main_face(form: type[Form]) -> None:
    folded = fold(everyday_form(form).draw())
    ways = [print_ups(folded, turns=turns) for turns in range(4)]
    mains = [[seen for seen in way if seen.shows.main and seen.shows.up is Up.UPRIGHT] for way in ways]
    assert any(all(seen.is_upright for seen in way) for way in mains)


@FORMS
def test_every_stage_can_be_shown_and_the_last_is_the_finished_part(form: type[Form]) -> None:
    pattern = everyday_form(form).draw()
    for stage in range(-1, len(pattern.stages)):
        assert fold_after(pattern, stage).refs == fold(pattern).refs
    last, finished = fold_after(pattern, len(pattern.stages) - 1), fold(pattern)
    assert all(np.allclose(last.poses[ref], finished.poses[ref]) for ref in finished.refs)
    assert fold_pictured(pattern).refs == finished.refs


@FORMS
def test_nothing_is_in_the_way_while_it_is_folded_in_the_order_of_its_stages(form: type[Form]) -> None:
    assert bumps(everyday_form(form).draw()) == ()
