"""What the folded view is given of a whole kit: everything in its place, as the engine folds it."""

from importlib import resources
from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from kitwright.folding import fold, fold_pictured
from kitwright.kit import BuiltKit, build, filling, prove, read_kit
from kitwright.pattern import Axis
from kitwright.web.fold_data import fold_data, folded_flat, opened, side_by_side, whole_data
from tests.kit import documents


@pytest.fixture(params=["recipe-box", "thank-you-cards"])
def built(request: pytest.FixtureRequest) -> BuiltKit:
    text = resources.files("kitwright").joinpath("examples", f"{request.param}.toml").read_text()
    return build(read_kit(text))


def box_of(built: BuiltKit) -> str:
    return next(part.name for part in built.parts if part.part.holds and not part.is_flat)


def test_the_closed_lid_reaches_over_its_box_on_all_sides_and_rests_on_its_rim(built: BuiltKit) -> None:
    main = built.part(box_of(built))
    lid = next(part for part in built.parts if part.part.covers == main.name)
    box, cover = opened(main, [lid], lift=0.0)
    (low, high), (lid_low, lid_high) = box.folded.bounds(), cover.folded.bounds()
    for axis in (0, 1):
        assert lid_low[axis] <= low[axis] + 1e-6
        assert lid_high[axis] >= high[axis] - 1e-6
    assert lid_high[2] - high[2] == pytest.approx(lid.paper.thickness)


def ends(state: dict[str, Any], bodies: list[dict[str, Any]]) -> tuple[Any, Any]:
    """The least and the greatest corner of all bodies in a scene."""
    lows = np.array(state["bodies"])[:, 12:15]
    return lows.min(axis=0), (lows + [each["size"] for each in bodies]).max(axis=0)


def test_all_that_is_held_lies_inside_the_walls_of_its_box_and_can_be_lifted_out(built: BuiltKit) -> None:
    main = built.part(box_of(built))
    data = whole_data(built, filling(built, main, prove(built, with_fixes=False).findings))
    assert data is not None
    assert {each["name"]: each["count"] for each in data["bodies"]} == {
        each.name: each.count for each in built.things_in(main)
    }
    low, high = fold_pictured(main.pattern).standing().bounds()
    closed, opened_, emptied, table = data["states"]
    for state in (closed, opened_):
        its_low, its_high = ends(state, data["bodies"])
        assert (its_low > low).all()
        assert (its_high < high).all()
    its_low, its_high = ends(emptied, data["bodies"])
    assert its_low[2] > high[2]
    lid = next(part for part in built.parts if part.part.covers == main.name)
    (copy, _), *_ = lid.pattern.copies()
    raised = [state["roots"][f"{lid.name}: {copy}"][14] for state in (closed, opened_, emptied)]
    assert raised == sorted(raised)
    assert emptied["high"][2] > its_high[2]
    assert table["bodies"] == []


def test_what_is_held_is_seen_by_itself_only_on_the_table(built: BuiltKit) -> None:
    data = whole_data(built)
    assert data is not None
    held = {
        each["name"] for each in data["copies"] if each["name"].split(": ")[0] in built.part(box_of(built)).part.holds
    }
    assert held
    assert [set(state["hidden"]) for state in data["states"]] == [held, held, set()]


def test_a_part_is_folded_and_then_filled(built: BuiltKit) -> None:
    main = built.part(box_of(built))
    inside = filling(built, main, prove(built, with_fixes=False).findings)
    data, empty = fold_data(main, inside), fold_data(main)
    assert empty["bodies"] == []
    assert data["states"][: len(empty["states"])] == empty["states"]
    over, filled = data["states"][-2:]
    low, high = fold_pictured(main.pattern).bounds()
    assert ends(over, data["bodies"])[0][2] > high[2]
    assert (ends(filled, data["bodies"])[0] > low).all()
    for at, block in zip(filled["bodies"], inside.blocks, strict=True):
        assert at == pytest.approx([1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, *block.corner, 1])


def test_opened_the_lid_is_clear_of_the_box(built: BuiltKit) -> None:
    main = built.part(box_of(built))
    lid = next(part for part in built.parts if part.part.covers == main.name)
    box, cover = opened(main, [lid], lift=1.0)
    assert cover.folded.bounds()[0][2] > box.folded.bounds()[1][2]


def test_side_by_side_no_two_parts_of_a_row_touch(built: BuiltKit) -> None:
    row = side_by_side(list(built.parts), [])
    for one, other in pairwise(row):
        assert one.folded.bounds()[1][0] < other.folded.bounds()[0][0]


def test_every_state_moves_parts_as_a_whole(built: BuiltKit) -> None:
    data = whole_data(built)
    assert data is not None
    main = built.part(box_of(built))
    finished = fold_pictured(main.pattern)
    (copy, blank), *_ = main.pattern.copies()
    for state in data["states"]:
        pose = np.array(state["roots"][f"{main.name}: {copy}"]).reshape(4, 4).T
        turn = (
            pose[:3, :3] @ finished.poses[next(ref for ref in finished.refs if ref.panel == blank.root.name)][:3, :3].T
        )
        assert np.allclose(turn, np.eye(3), atol=1e-12)
        assert set(state["roots"]) == {each["name"] for each in data["copies"]}


def test_a_kit_without_a_box_has_no_whole_to_open() -> None:
    document = '[kit]\nname = "k"\nunits = "mm"\n[paper.p]\nsheet = "210 x 297"\nweight = "250 gsm"\n'
    document += '[[part]]\nname = "c"\nform = "flat card"\nsize = "100 x 70"\npaper = "p"\n'
    built = build(read_kit(document))
    assert Axis.DEPTH not in built.part("c").outside
    assert fold(built.part("c").pattern).refs
    assert whole_data(built) is None


def test_what_is_folded_flat_lies_in_layers_in_the_order_of_the_folds() -> None:
    kit = documents.built(
        documents.head()
        + documents.part("card", "half-fold card", size="4 x 5")
        + documents.part("envelope", "side-seam envelope", holds="card")
    )
    assert folded_flat(kit.part("card").pattern, "card base") == {"back": 1}
    # the tabs between the two leaves, the flap over both
    envelope = {"left tab": 1, "right tab": 1, "back": 2, "closing flap": 3}
    assert folded_flat(kit.part("envelope").pattern, "envelope") == envelope
    (copy,) = fold_data(kit.part("envelope"))["copies"]
    assert {panel["name"]: panel["lift"] for panel in copy["panels"]} == {"front": 0, **envelope}
