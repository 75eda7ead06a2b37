"""What moves a size of a folded part, read off the pattern: against sums by hand, and against the part drawn and folded anew."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import pytest
from tests.proof.tolerance.papers import CARD
from tests.strategies import everyday_form

from kitwright.catalogue import CATALOGUE, Form, parameters
from kitwright.folding import Folded, MeasuredExtent, fold, measure_extent
from kitwright.paper import Paper
from kitwright.pattern import (
    Axis,
    Blank,
    Claims,
    Draft,
    EdgeRef,
    End,
    Extent,
    Joint,
    Mate,
    Panel,
    Pattern,
    Point,
    Score,
    Side,
)
from kitwright.proof.tolerance import USUAL_ACCURACY, Lines, Stack
from kitwright.proof.tolerance.lines import lies_on, normal


def made(form: str, **settings: str) -> Pattern:
    return replace_settings(everyday_form(CATALOGUE[form]), settings).draw()


def replace_settings(form: Form, settings: Mapping[str, str]) -> Form:
    return type(form)(
        **{each.name: settings.get(each.name, getattr(form, each.name)) for each in parameters(type(form))}
    )


def along(pattern: Pattern, axis: Axis, outside: bool) -> Extent | None:
    """What a pattern claims along an axis."""
    claims = pattern.claims.outside if outside else pattern.claims.inside
    return next((extent for extent in claims if extent.axis is axis), None)


def stack(pattern: Pattern, axis: Axis, *, outside: bool, paper: Paper = CARD) -> Stack:
    folded = fold(pattern)
    claimed = along(pattern, axis, outside)
    assert claimed is not None
    measured = measure_extent(folded, claimed, paper, outside=outside)
    found = Lines("it", folded, paper, USUAL_ACCURACY).stack(measured)
    assert found.nominal == measured.net
    return found


def by_kind(found: Stack) -> dict[str, list[float]]:
    kinds: dict[str, list[float]] = {}
    for variation, by in found.moves.items():
        kind = next(word for word in ("thickness", "gluing", "score", "fold", "cut") if word in variation.what)
        kinds.setdefault(kind, []).append(round(by, 6))
    return {kind: sorted(each) for kind, each in kinds.items()}


def test_a_flat_card_varies_with_one_cut_either_way() -> None:
    # one edge lies on the guide of the trimmer, the other is cut
    found = stack(made("flat card"), Axis.WIDTH, outside=True)
    assert by_kind(found) == {"cut": [1.0]}
    assert found.worst == USUAL_ACCURACY.cut


def test_a_tray_varies_with_two_scores_two_folds_and_its_thickness() -> None:
    # inside with the tabs inside: two hinges take (1 - 1/2) t each, two tabs a t each; outside: k t at both ends
    pattern = made("tray", tabs="inside")
    assert by_kind(stack(pattern, Axis.WIDTH, outside=False)) == {
        "score": [-1.0, 1.0],
        "fold": [-1.0, 1.0],
        "thickness": [-3.0],
    }
    assert by_kind(stack(pattern, Axis.WIDTH, outside=True))["thickness"] == [1.0]
    worst = 2 * (USUAL_ACCURACY.score + USUAL_ACCURACY.fold) + 0.1 * CARD.thickness
    assert stack(pattern, Axis.WIDTH, outside=True).worst == pytest.approx(worst)


def test_the_wall_of_a_tray_on_the_side_of_the_guide_is_as_high_as_its_score() -> None:
    found = by_kind(stack(made("tray"), Axis.HEIGHT, outside=True))
    assert found["score"] == [1.0]  # from the lower edge, which lies on the guide, to the score
    assert "cut" not in found


def test_a_box_of_two_halves_varies_also_with_how_they_are_glued() -> None:
    depth = by_kind(stack(made("two-half wrap box"), Axis.DEPTH, outside=True))
    assert sorted(map(abs, depth["gluing"])) == [1.0]
    assert "gluing" not in by_kind(stack(made("two-half wrap box"), Axis.HEIGHT, outside=True))


MOVED = 0.01
FORMS = [
    (form, axis, outside)
    for form in sorted(CATALOGUE)
    for outside in (False, True)
    for axis in Axis
    if along(made(form), axis, outside)
]


@pytest.mark.parametrize(("form", "axis", "outside"), FORMS)
def test_a_score_that_is_off_moves_a_size_as_much_as_it_does_when_the_part_is_folded_with_it(
    form: str, axis: Axis, outside: bool
) -> None:
    pattern = made(form)
    found = stack(pattern, axis, outside=outside)
    for copy, blank in pattern.copies():
        if blank.copies > 1:
            continue  # both halves of a drawing would move together
        for way in (0, 1):
            for at in sorted({round(s.start[way], 3) for s in blank.scores if s.start[way] == s.end[way]}):
                expected = sum(
                    by
                    for variation, by in found.moves.items()
                    if re.search(rf"{re.escape(copy)}, score {'xy'[way]} {at:.3f}$", variation.what)
                )
                moved = replace(
                    pattern, blanks=tuple(off(each, way, at) if each is blank else each for each in pattern.blanks)
                )
                change = nominal(moved, axis, outside) - nominal(pattern, axis, outside)
                assert change / MOVED == pytest.approx(expected, abs=1e-6), (copy, way, at)


def nominal(pattern: Pattern, axis: Axis, outside: bool) -> float:
    claimed = along(pattern, axis, outside)
    assert claimed is not None
    folded = fold(pattern)
    low, high = (middle(folded, end, list(Axis).index(axis)) for end in (claimed.low, claimed.high))
    return abs(high - low)


def middle(folded: Folded, end: object, axis: int) -> float:
    points = folded.points(end) if hasattr(end, "blank") else folded.edge(end)  # type: ignore[arg-type]
    place = points[:, axis]
    return float((place.min() + place.max()) / 2) if np.ptp(place) < 1 else float(place.max())


def off(blank: Blank, way: int, at: float) -> Blank:
    """The blank with every score in one line a little off, and the two panels at each with it."""

    def point(each: Point) -> Point:
        moved = list(each)
        moved[way] += MOVED
        return moved[0], moved[1]

    mine = [s for s in blank.scores if abs(s.start[way] - at) < 1e-3 and abs(s.end[way] - at) < 1e-3]
    at_line = {name for s in mine for name in (s.parent, s.child)}

    def close(panel: str, each: Point) -> bool:
        return panel in at_line and abs(each[way] - at) < 1e-3

    panels = tuple(
        Panel(
            panel.name,
            tuple(point(each) if close(panel.name, each) else each for each in panel.outline),
            panel.edge_names,
            panel.kind,
            panel.holes,
        )
        for panel in blank.panels
    )
    scores = tuple(
        Score(s.parent, s.child, point(s.start), point(s.end), s.angle) if s in mine else s for s in blank.scores
    )
    return replace(blank, panels=panels, scores=scores)


def moves(pattern: Pattern, axis: Axis, low: End, high: End) -> dict[str, float]:
    """By what each cut, score and fold moves a size, by the end of its name."""
    folded = fold(pattern)
    measured = MeasuredExtent(Extent(axis, low, high), 0.0, (), 0.0)
    found = Lines("it", folded, CARD, USUAL_ACCURACY).stack(measured).moves
    return {variation.what.partition(", ")[2] or "gluing": round(by, 6) for variation, by in found.items()}


def test_the_edge_of_a_narrow_flap_is_its_cut_and_not_the_score_beside_it() -> None:
    # the flap stands 64 + cut - (60 + score + fold) high: its edge is the right one of the blank, four millimetres from the score
    draft = Draft("strip")
    body = draft.panel("body", 60, 40)
    flap = body.fold_out("east", "flap", 4, angle=-90)
    found = moves(Pattern((draft.finish(),)), Axis.HEIGHT, body.ref, EdgeRef(flap.ref, "far"))
    assert {what: abs(by) for what, by in found.items()} == {
        "cut width": 1.0,
        "score x 60.000": 1.0,
        "fold of flap": 1.0,
    }
    assert found["cut width"] == -found["score x 60.000"] == -found["fold of flap"]


@pytest.mark.parametrize(("off", "is_on_it"), [(1e-9, True), (1e-3, False)])
def test_a_score_off_the_line_of_a_long_slanting_edge_by_rounding_lies_on_it(off: float, is_on_it: bool) -> None:
    ends = ((0.0, 0.0), (300.0, 400.0))
    score = Score("body", "flap", (60.0 - off, 80.0), (240.0, 320.0), 90.0)
    assert lies_on(score, "flap", *ends) is is_on_it


@pytest.mark.parametrize("start", [(0.0, 0.0), (30.0, 10.0)])
def test_the_place_of_a_slanting_line_is_counted_square_to_it(start: Point) -> None:
    end = (start[0] + 30.0, start[1] + 40.0)
    assert normal(start, end) == pytest.approx((0.8, -0.6))


def test_what_lies_between_two_scores_measured_from_one_cut_edge_does_not_vary_with_it() -> None:
    # valleys are scored from the back, measured from the right edge, which is itself a cut
    draft = Draft("clip")
    floor = draft.panel("floor", 60, 40)
    roof = floor.fold_out("east", "wall", 30, angle=90).fold_out("far", "roof", 40, angle=90)
    extents = (Extent(Axis.HEIGHT, floor.ref, roof.ref), Extent(Axis.WIDTH, floor.edge("west"), roof.edge("far")))
    pattern = Pattern((draft.finish(),), claims=Claims(outside=extents))
    assert by_kind(stack(pattern, Axis.HEIGHT, outside=True)) == {
        "score": [-1.0, 1.0],
        "fold": [-1.0, 1.0],
        "thickness": [1.0],
    }


def test_two_pieces_laid_edge_to_edge_are_apart_by_the_difference_of_their_cuts() -> None:
    # upper edge on upper edge: the lower edges are apart by height 1 - height 2, and by what the hand is off
    draft = Draft("strip", copies=2)
    body = draft.panel("body", 60, 40)
    joint = Joint(body.on(2), body.on(1), Side.OVER, Mate("north", "north", along=True))
    pattern = Pattern((draft.finish(),), joints=(joint,))
    folded = fold(pattern)
    axis = next(
        axis for axis, place in zip(Axis, np.ptp(folded.points(body.on(1)), axis=0), strict=True) if 39 < place < 41
    )
    measured = MeasuredExtent(Extent(axis, EdgeRef(body.on(1), "south"), EdgeRef(body.on(2), "south")), 0.0, (), 0.0)
    found = Lines("it", folded, CARD, USUAL_ACCURACY).stack(measured).moves
    cuts = {variation.what: round(by, 6) for variation, by in found.items() if "cut height" in variation.what}
    assert sorted(cuts.values()) == [-1.0, 1.0]
    assert len(found) == 3  # the third is the hand
