import math
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import numpy as np
import pytest
from tests.folding.shapes import ring, tray

from kitwright.folding import Clash, Folded, Slab, clashes, fold, measure_extent, shift, slabs
from kitwright.paper import Caliper, Paper
from kitwright.pattern import Axis, Draft, Extent, Joint, PanelRef, Pattern, Side


def card(thickness: float = 0.3) -> Paper:
    size = Fraction(305)
    return Paper(key="c", label="c", sheet_width_mm=size, sheet_height_mm=size, gsm=230, caliper=Caliper(thickness))


def body(slab: Slab) -> tuple[np.ndarray, np.ndarray]:
    """The low and the high corner of the box round a solid."""
    low, high = np.array(slab.solid.bounding_box()).reshape(2, 3)
    return low, high


def base(size: float = 100.0, **more: Side) -> tuple[Slab, ...]:
    folded = fold(tray(size, 80, 30, name="base", **more))
    low, high = folded.bounds()
    return slabs(folded.moved(shift(*(-(low + high) / 2))), card())


def lid(size: float, depth: float) -> tuple[Slab, ...]:
    """A lid upside down over a base of the same middle, its top above the base's edge."""
    folded = fold(tray(size, depth, 25, name="lid")).moved(np.diag([1.0, -1.0, -1.0, 1.0]))
    low, high = folded.bounds()
    return slabs(folded.moved(shift(*(-(low + high) / 2))).moved(shift(0, 0, 10)), card())


def inner_clashes(folded: Folded) -> list[Clash]:
    """Where the card of one part is in its own way, panels that share a score apart."""
    hinged = [{score.parent, score.child} for _, blank in folded.pattern.copies() for score in blank.scores]
    pairs = combinations(slabs(folded, card()), 2)
    apart = [pair for pair in pairs if {each.panel.panel for each in pair} not in hinged]
    return [found for one, other in apart for found in clashes([one], [other])]


def test_card_takes_the_room_of_its_thickness() -> None:
    sizes = {slab.panel.panel: slab.solid.bounding_box() for slab in base()}
    low, high = np.array(sizes["bottom"][:3]), np.array(sizes["bottom"][3:])
    assert high[2] - low[2] == pytest.approx(0.3, abs=1e-6)
    assert high[0] - low[0] == pytest.approx(100 - 0.3, abs=1e-6)  # taken back by (1 − k) t at both scores


@pytest.mark.parametrize(
    ("angle", "wide"),
    [
        (90, 60 - 0.15),
        (120, 60 - 0.15 * math.tan(math.radians(60))),
        (140, 60 - 0.15 * math.tan(math.radians(70))),
        (150, 60),
    ],
)
def test_card_is_taken_back_at_a_corner_by_half_a_thickness_times_the_tangent_of_half_the_angle(
    angle: float, wide: float
) -> None:
    # (1 − k) t tan(angle / 2) with k 1/2 and t 0.3; from 150 degrees on the panels lie on each other, and there is no corner
    draft = Draft("strip")
    draft.panel("body", 60, 40).fold_out("east", "flap", 30, angle=-angle)
    (body, _) = slabs(fold(Pattern((draft.finish(),))), card())
    low, high = np.array(body.solid.bounding_box()).reshape(2, 3)
    assert sorted(high - low) == pytest.approx(sorted((0.3, 40, wide)), abs=1e-4)


@pytest.mark.parametrize("angle", [-90, 90], ids=["print outside", "print inside"])
@pytest.mark.parametrize("hinge_depth", [0.0, 0.4, 1.0])
def test_the_solid_of_a_box_is_as_wide_outside_as_its_size_is_told(angle: float, hinge_depth: float) -> None:
    draft = Draft("plain")
    bottom = draft.panel("bottom", 100, 80)
    walls = [bottom.fold_out(side, side, 30, angle=angle) for side in ("west", "east", "south", "north")]
    paper = replace(card(), hinge_depth=hinge_depth)
    folded = fold(Pattern((draft.finish(),)))
    corners = [body(slab) for slab in slabs(folded, paper)]
    size = np.max([high for _, high in corners], axis=0) - np.min([low for low, _ in corners], axis=0)
    told = [
        measure_extent(folded, Extent(axis, low, high), paper, outside=True).net
        for axis, low, high in (
            (Axis.WIDTH, walls[0].ref, walls[1].ref),
            (Axis.DEPTH, walls[2].ref, walls[3].ref),
            (Axis.HEIGHT, bottom.ref, walls[0].edge("far")),
        )
    ]
    assert size == pytest.approx(told, abs=1e-4)


# k 0.4, t 0.3, print outside: 0.12 of the card lies on the print side of its hinge plane; the face is turned over.
@pytest.mark.parametrize(
    ("glued", "keeper", "place"), [("face", "cover", (-0.18, 0.12)), ("cover", "face", (-0.12, 0.18))]
)
def test_of_two_faces_on_each_other_the_one_that_is_not_glued_on_keeps_its_place(
    glued: str, keeper: str, place: tuple[float, float]
) -> None:
    draft = Draft("wrap")
    draft.panel("cover", 60, 40).fold_out("east", "face", 60, angle=-180)
    joint = Joint(PanelRef("wrap", glued), PanelRef("wrap", keeper), Side.UNDER)
    paper = replace(card(), hinge_depth=0.4)
    found = {slab.panel.panel: body(slab) for slab in slabs(fold(Pattern((draft.finish(),), joints=(joint,))), paper)}
    assert tuple(corner[2] for corner in found[keeper]) == pytest.approx(place, abs=1e-6)


@pytest.mark.parametrize("side", list(Side))
def test_a_tray_with_its_tabs_is_not_in_its_own_way(side: Side) -> None:
    assert inner_clashes(fold(tray(100, 80, 30, tabs=side))) == []
    assert inner_clashes(fold(ring((60, 40, 60, 40), 30, 8, 3))) == []


# Crease model: clearance = lid − base − 2 t − layers. With t 0.3, tabs inside the lid and inside the base:
# width 100 + 0.6 + 0.6 (lid tabs) and depth 80 + 0.6 just fit.
@pytest.mark.parametrize(
    ("play", "fits"),
    [(0.10, True), (0.01, True), (-0.05, False), (-0.10, False)],
    ids=["loose", "just", "tight", "too tight"],
)
def test_a_lid_five_hundredths_of_a_millimetre_too_narrow_is_in_the_way(play: float, fits: bool) -> None:
    found = clashes(base(), lid(100 + 1.2 + play, 80 + 0.6 + 0.2))
    assert (found == ()) is fits
    if not fits:
        assert {clash.one.panel for clash in found} >= {"east", "west"}
        # half of what is missing at each end, over the tabs' 10 mm at either corner
        assert sum(clash.volume for clash in found) > 0.5 * -play * 2 * 10


def test_a_lid_too_short_in_depth_is_in_the_way_with_its_walls() -> None:
    found = clashes(base(), lid(101.4, 80 + 0.6 - 0.05))  # the lid is turned over, so its north lies south
    assert {(clash.one.panel, clash.other.panel) for clash in found} == {("south", "north"), ("north", "south")}


def test_a_wall_that_runs_into_another_is_in_its_way() -> None:
    draft = Draft("frame")
    floor = draft.panel("floor", 50, 40)
    floor.fold_out("east", "wall", 30, angle=90).fold_out("far", "roof", 50 + 0.05, angle=90, inset=(5, 5))
    floor.fold_out("west", "other wall", 60, angle=90)
    (found,) = inner_clashes(fold(Pattern((draft.finish(),))))
    assert {found.one.panel, found.other.panel} == {"roof", "other wall"}
    assert found.depth == pytest.approx(0.15 + 0.05, abs=1e-6)  # half the thickness of the wall, and the poke
    assert found.volume == pytest.approx(0.2 * 30 * 0.3, abs=1e-4)
