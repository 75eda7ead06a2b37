from collections.abc import Sequence

import pytest
from tests.folding.oracle import Square, fold_exactly
from tests.folding.shapes import box_net, outline_key, spanning_trees

from kitwright.folding import fold, layers, print_ups
from kitwright.pattern import Claims, Draft, PanelRef, Pattern, Shows, Sketched, Stance


def shown(draft: Draft, panels: Sequence[Sketched], stance: Stance = Stance.STANDING) -> Pattern:
    return Pattern((draft.finish(),), stance=stance, claims=Claims(shows=tuple(Shows(panel.ref) for panel in panels)))


def row_net() -> Pattern:
    """Four walls in a row, top and bottom on the front."""
    draft = Draft("box")
    front = draft.panel("front", 60, 30)
    right = front.fold_out("east", "right", 40)
    back = right.fold_out("far", "back", 60)
    left = back.fold_out("far", "left", 40)
    top, bottom = front.fold_out("north", "top", 40), front.fold_out("south", "bottom", 40)
    return shown(draft, (front, right, back, left, top, bottom))


def column_net() -> Pattern:
    """Bottom, front, top and back in a column, the sides on the front."""
    draft = Draft("box")
    front = draft.panel("front", 60, 30)
    bottom, top = front.fold_out("south", "bottom", 40), front.fold_out("north", "top", 40)
    back = top.fold_out("far", "back", 30)
    right, left = front.fold_out("east", "right", 40), front.fold_out("west", "left", 40)
    return shown(draft, (front, right, back, left, top, bottom))


def angles(pattern: Pattern, turns: int = 0) -> dict[str, float]:
    return {found.shows.panel.panel: round(found.angle, 9) for found in print_ups(fold(pattern), turns=turns)}


# Derived: in a row net the print stands upright on all six faces, in a column net the back is upside down.
def test_the_print_stands_upright_on_all_faces_of_a_row_net() -> None:
    assert set(angles(row_net()).values()) == {0}


def test_the_print_is_upside_down_on_the_back_of_a_column_net() -> None:
    assert angles(column_net()) == {"front": 0, "right": 0, "back": 180, "left": 0, "top": 0, "bottom": 0}


def test_turning_the_artwork_turns_it_on_every_face_alike() -> None:
    assert set(angles(row_net(), turns=1).values()) == {90}
    assert set(angles(row_net(), turns=3).values()) == {-90}
    assert angles(column_net(), turns=2)["back"] == 0


def test_the_print_of_a_tray_is_upside_down_on_its_front_wall() -> None:
    draft = Draft("tray")
    bottom = draft.panel("bottom", 60, 40)
    walls = [bottom.fold_out(side, side, 20) for side in ("south", "north", "east", "west")]
    found = angles(shown(draft, walls, Stance.FACE_DOWN))
    assert (found["south"], found["north"]) == (180, 0)
    # seen from outside, the up of the print runs to the back: to the viewer's right on the right-hand wall
    assert (found["west"], found["east"]) == (-90, 90)


def test_each_copy_can_be_turned_for_itself() -> None:
    pattern = row_net()
    (first, *_) = print_ups(fold(pattern), turns={"box": 2})
    assert first.angle == pytest.approx(180)
    (first, *_) = print_ups(fold(pattern), turns={"lid": 2})
    assert first.is_upright


def test_a_face_that_looks_into_the_box_is_not_open() -> None:
    pattern = row_net()
    front = PanelRef("box", "front")
    claims = Claims(shows=(Shows(front), Shows(front, back=True)))
    outside, inside = print_ups(fold(Pattern(pattern.blanks, stance=pattern.stance, claims=claims)))
    assert (outside.is_open, inside.is_open) == (True, False)


def test_a_face_under_a_tab_is_bare_only_in_part() -> None:
    draft = Draft("card")
    body = draft.panel("body", 100, 50)
    body.fold_out("east", "flap", 25, angle=180)
    assert layers(fold(shown(draft, [body]))).bare(body.ref, front=True).area == pytest.approx(0.75 * 100 * 50)


def test_a_leaning_face_is_upright_when_its_print_points_uphill() -> None:
    draft = Draft("roof")
    ridge = draft.panel("front slope", 60, 40)
    back = ridge.fold_out("north", "back slope", 40, angle=-100)
    assert angles(shown(draft, [ridge, back])) == {"front slope": 0, "back slope": 180}


def exact_angle(turn: Square) -> int:
    """How far the print's up is turned from where it should be, in quarter turns made of whole numbers only; the world's up is z."""
    up, normal = tuple(row[1] for row in turn), tuple(row[2] for row in turn)
    wanted = (0, 0, 1) if normal[2] == 0 else (0, normal[2], 0)
    aside = (  # a quarter turn to the left of where up should be, as the viewer sees it
        normal[1] * wanted[2] - normal[2] * wanted[1],
        normal[2] * wanted[0] - normal[0] * wanted[2],
        normal[0] * wanted[1] - normal[1] * wanted[0],
    )
    along, across = (sum(a * b for a, b in zip(up, each, strict=True)) for each in (wanted, aside))
    return {(1, 0): 0, (0, 1): 90, (-1, 0): 180, (0, -1): -90}[along, across]


# 54 nets of a box with three different sides: encyclopedia, "Net (polyhedron)". The exact engine shares no code with the first.
def test_the_print_stands_on_all_faces_of_every_net_of_a_box_as_an_exact_engine_says() -> None:
    nets = {outline_key(net): net for net in (box_net((2, 3, 4), tree, angle=-90) for tree in spanning_trees())}
    assert len(nets) == 54
    for net in nets.values():
        shows = tuple(Shows(PanelRef(net.name, panel.name)) for panel in net.panels)
        found = print_ups(fold(Pattern((net,), stance=Stance.LYING, claims=Claims(shows=shows))))
        assert {each.shows.panel.panel: round(each.angle, 9) % 360 for each in found} == {
            name: exact_angle(place.turn) % 360 for name, place in fold_exactly(net).items()
        }


# Derived: of the 384 trees, a print that is right on the top stands upright on all faces where top and bottom both hang on the front and
# the walls on each other: four ways, one for each of the walls' corners that may be the seam.
def test_a_print_stands_upright_all_round_just_on_the_four_row_nets_of_a_box() -> None:
    upright = [
        tree
        for tree in spanning_trees()
        if {exact_angle(place.turn) for place in fold_exactly(box_net((2, 3, 4), tree, angle=-90)).values()} == {0}
    ]
    assert len(upright) == 4


@pytest.mark.parametrize(("reach", "is_open"), [(58, True), (62, False)])
def test_a_face_is_not_open_where_a_leaning_flap_hangs_over_its_middle(reach: float, is_open: bool) -> None:
    draft = Draft("desk")
    floor = draft.panel("floor", 60, 40)
    floor.fold_out("east", "flap", reach, angle=120)  # half of its length over the floor, whose middle is 30 mm away
    (found,) = print_ups(fold(shown(draft, [floor], Stance.LYING)))
    assert found.is_open is is_open
