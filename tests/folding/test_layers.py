import pytest
from tests.folding.shapes import tray

from kitwright.folding import fold, fold_after, layers
from kitwright.pattern import Draft, Joint, Mate, PanelKind, PanelRef, Pattern, Side, Stage, Stance


def one(draft: Draft, *joints: Joint, stages: tuple[Stage, ...] = (), stance: Stance = Stance.LYING) -> Pattern:
    return Pattern((draft.finish(),), joints=joints, stages=stages, stance=stance)


def names(refs: tuple[PanelRef, ...]) -> list[str]:
    return [f"{ref.panel}" if ref.blank.count(" ") == 0 else f"{ref.panel} {ref.blank.split()[-1]}" for ref in refs]


@pytest.mark.parametrize(("angle", "front"), [(-180, False), (180, True)])
def test_an_edge_folded_back_lies_behind_its_panel_or_before_it_as_it_was_folded(angle: float, front: bool) -> None:
    draft = Draft("card")
    body = draft.panel("body", 80, 50)
    hem = body.fold_out("north", "hem", 10, angle=angle)
    model = layers(fold(one(draft)))
    assert model.lying_on(body.ref, front=front) == (hem.ref,)
    assert model.lying_on(body.ref, front=not front) == ()
    assert model.lying_on(hem.ref, front=front) == (body.ref,)
    assert (model.guessed, model.woven) == ((), ())


@pytest.mark.parametrize(("side", "front"), [(Side.UNDER, False), (Side.OVER, True)])
def test_a_tab_lies_on_the_side_of_its_target_that_the_joint_names(side: Side, front: bool) -> None:
    folded = fold(tray(60, 40, 20, tabs=side))
    model = layers(folded)
    west = PanelRef("tray", "west")
    assert names(model.lying_on(west, front=front)) in (
        ["south right tab", "north left tab"],
        ["north left tab", "south right tab"],
    )
    assert model.lying_on(west, front=not front) == ()


def test_layers_do_not_depend_on_how_the_part_stands() -> None:
    for stance in Stance:
        pattern = tray(60, 40, 20)
        turned = Pattern(pattern.blanks, pattern.joints, stance)
        model = layers(fold(turned))
        assert len(model.lying_on(PanelRef("tray", "west"), front=False)) == 2
        assert model.lying_on(PanelRef("tray", "south"), front=False) == ()


def wrapped(order: tuple[str, ...]) -> Pattern:
    """A body with two flaps that cover each other behind it, folded in the given order."""
    draft = Draft("wrap")
    body = draft.panel("body", 100, 50)
    body.fold_out("east", "right flap", 70, angle=-180)
    body.fold_out("west", "left flap", 70, angle=-180)
    return one(draft, stages=tuple(Stage(f"Fold the {name}.", folds=(name,)) for name in order))


@pytest.mark.parametrize("order", [("right flap", "left flap"), ("left flap", "right flap")])
def test_the_flap_folded_last_lies_outermost(order: tuple[str, ...]) -> None:
    model = layers(fold(wrapped(order)))
    assert names(model.lying_on(PanelRef("wrap", "body"), front=False)) == list(order)


def test_what_is_not_folded_yet_lies_on_nothing() -> None:
    model = layers(fold_after(wrapped(("right flap", "left flap")), 0))
    assert names(model.lying_on(PanelRef("wrap", "body"), front=False)) == ["right flap"]


def test_dust_flaps_folded_first_lie_inside_the_closing_panel() -> None:
    draft = Draft("carton")
    front = draft.panel("front", 60, 80)
    side = front.fold_out("east", "side", 40)
    closing = front.fold_out("north", "closing", 40)
    dust = side.fold_out("left", "dust flap", 30)
    first = ("side", "dust flap")
    for order, in_front in ((("closing",), True), (("",), False)):
        stages = (
            (Stage("Fold.", folds=first), Stage("Close.", folds=order))
            if in_front
            else (Stage("Close.", folds=("closing", "side")), Stage("Fold.", folds=("dust flap",)))
        )
        model = layers(fold(one(draft, stages=stages, stance=Stance.STANDING)))
        assert model.is_in_front(closing.ref, of=dust.ref) is in_front
        assert model.guessed == ()


def halves(*, stages: tuple[Stage, ...]) -> Pattern:
    """Two hemmed halves; each left side goes over the other's right side."""
    draft = Draft("half", copies=2)
    face = draft.panel("face", 100, 60)
    left, right = face.fold_out("west", "left", 30), face.fold_out("east", "right", 30)
    left.hem("right", 8, name="left hem")
    right.hem("left", 8, name="right hem")
    joints = (
        Joint(left.on(2), right.on(1), Side.OVER, Mate("hinge", "far", along=True)),
        Joint(left.on(1), right.on(2), Side.OVER),
    )
    return Pattern((draft.finish(),), joints=joints, stance=Stance.STANDING, stages=stages)


def test_a_hem_made_before_gluing_stays_with_its_panel() -> None:
    stages = (
        Stage("Hem.", folds=("left hem", "right hem")),
        Stage("Fold.", folds=("left", "right")),
        Stage("Glue.", glues=("left",)),
    )
    model = layers(fold(halves(stages=stages)))
    outermost = PanelRef("half 2", "left")
    assert names(model.lying_on(outermost, front=False)) == ["left hem 2", "right", "right hem"]
    assert (model.guessed, model.woven) == ((), ())


def test_layers_count_where_they_are_thickest_not_all_together() -> None:
    model = layers(fold(tray(60, 40, 20)))
    west = PanelRef("tray", "west")
    assert len(model.lying_on(west, front=False)) == 2
    assert len(model.thickest(west, front=False, thickness=lambda _: 0.3)) == 1
    model = layers(fold(wrapped(("right flap", "left flap"))))
    assert len(model.thickest(PanelRef("wrap", "body"), front=False, thickness=lambda _: 0.3)) == 2


def test_the_thicker_of_two_layers_side_by_side_counts() -> None:
    model = layers(fold(tray(60, 40, 20)))
    found = model.thickest(
        PanelRef("tray", "west"), front=False, thickness=lambda ref: 0.5 if ref.panel == "north left tab" else 0.3
    )
    assert names(found) == ["north left tab"]


def test_four_flaps_woven_in_a_ring_are_told_apart_from_a_stack() -> None:
    draft = Draft("base")
    bottom = draft.panel("bottom", 40, 40)
    flaps = [
        bottom.fold_out(side, side, 30, angle=-180, kind=PanelKind.FLAP) for side in ("south", "east", "north", "west")
    ]
    joints = [
        Joint(one.ref, other.ref, Side.OVER, glued=False)
        for one, other in zip(flaps, flaps[1:] + flaps[:1], strict=True)
    ]
    model = layers(fold(one(draft, *joints)))
    assert model.woven == (joints[-1],)


def test_a_piece_that_is_still_flat_is_laid_on_another_as_a_whole() -> None:
    draft = Draft("sheet", copies=2)
    body = draft.panel("body", 60, 40)
    foot = body.fold_out("south", "foot", 20, angle=0)
    joint = Joint(foot.on(2), foot.on(1), Side.UNDER, Mate("far", "far", along=True))
    model = layers(fold(Pattern((draft.finish(),), joints=(joint,))))
    assert model.is_in_front(body.on(1), of=body.on(2))
    assert model.guessed == ()


def test_a_narrow_edge_not_quite_folded_back_lies_on_its_panel() -> None:
    # 5 mm at half a degree are 0.04 mm from the panel's plane, 50 mm would be 0.44: what one is to the other counts, either way
    draft = Draft("card")
    body = draft.panel("body", 80, 50)
    hem = body.fold_out("north", "hem", 5, angle=-179.5)
    assert layers(fold(one(draft))).lying_on(body.ref, front=False) == (hem.ref,)


def test_an_order_that_nothing_says_is_marked_as_guessed() -> None:
    pattern = halves(stages=())
    half_joined = Pattern(pattern.blanks, pattern.joints[:1], pattern.stance)
    sides = (PanelRef("half", "left"), PanelRef("half 2", "right"))
    assert sides in layers(fold(half_joined)).guessed
    assert layers(fold(pattern)).guessed == ()


def test_where_nothing_says_the_later_one_lies_outside() -> None:
    # two halves whose sides lie on each other, all prints outwards: of a pair that nothing orders the second half's side is outermost
    pattern = halves(stages=())
    model = layers(fold(Pattern(pattern.blanks, pattern.joints[:1], pattern.stance)))
    first, second = PanelRef("half", "left"), PanelRef("half 2", "right")
    assert model.is_in_front(second, of=first)
    assert not model.is_in_front(first, of=second)
