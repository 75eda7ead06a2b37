"""Pictures, proof and fixes agree on how a one-way print stands on the finished part."""

import numpy as np
import pytest

from kitwright.findings import Severity
from kitwright.folding import fold, plates
from kitwright.kit import apply_changes, as_used, build, mend_document, prove, read_kit
from kitwright.pattern import PanelRef

CLOSED = """
[kit]
name = "Soap"
units = "mm"
[paper.white]
sheet = "420 x 594"
weight = "200 gsm"
caliper = "0.25"
[paper.leaves]
sheet = "420 x 594"
weight = "120 gsm"
caliper = "0.15"
print = "one-way"
[[part]]
name = "box"
form = "tray"
size = "100 x 80 x 40"
paper = "white"
[[part]]
name = "lid"
form = "lift-off lid"
covers = "box"
paper = "white"
[[part]]
name = "band"
form = "belly band"
wraps = "lid"
height = "20"
goes = "{goes}"
turn = {turn}
paper = "leaves"
"""


@pytest.mark.parametrize(
    ("goes", "upright"), [("over the top", {90, 270}), ("end to end", {0, 180}), ("round the walls", {0})]
)
def test_the_print_of_a_band_is_judged_on_the_face_that_lies_on_top(goes: str, upright: set[int]) -> None:
    # worked by hand: over the top the strip runs from front to back, so its print must run along it; it may be laid on either way
    for turn in (0, 90, 180, 270):
        found = prove(build(read_kit(CLOSED.format(goes=goes, turn=turn))), with_fixes=False).findings
        fails = [
            each
            for each in found
            if each.about == "band" and each.code.startswith("print-up-") and each.severity is Severity.FAIL
        ]
        assert bool(fails) is (turn not in upright)
        if fails and goes != "round the walls":
            assert "on the top" in fails[0].message


def test_a_print_that_lies_across_a_band_over_the_top_has_a_fix() -> None:
    text = CLOSED.format(goes="over the top", turn=0)
    (found,) = [each for each in prove(build(read_kit(text))).findings if each.code == "print-up-front"]
    assert found.fix is not None
    assert [(change.key, change.value) for change in found.fix.changes] == [("turn", "90")]
    assert mend_document(text).proof.is_proved
    assert "turn = 90" in apply_changes(text, found.fix.changes)


@pytest.mark.parametrize(("turns", "up"), [(0, (0, 1)), (1, (-1, 0)), (2, (0, -1)), (3, (1, 0))])
def test_a_picture_shows_the_print_as_it_is_turned_on_the_blank(turns: int, up: tuple[int, int]) -> None:
    card = build(read_kit(CLOSED.format(goes="end to end", turn=0))).part("band")
    folded = fold(card.pattern)
    (front,) = [plate for plate in plates(folded, turns=turns) if plate.panel == PanelRef("band", "front")]
    assert front.print_up is not None
    assert np.allclose(front.print_up, folded.poses[PanelRef("band", "front")][:3, :2] @ np.array(up))
    assert all(plate.print_up is None for plate in plates(folded, turns=None))


@pytest.mark.parametrize("turn", [90, 270])
def test_a_band_over_the_top_is_pictured_the_way_round_on_which_its_print_stands_upright(turn: int) -> None:
    band = build(read_kit(CLOSED.format(goes="over the top", turn=turn))).part("band")
    there = as_used(band, band.folded, turn=band.part.turn)
    # on top, up is away from the person in front
    assert np.allclose(there.print_up(PanelRef("band", "front"), turns=band.part.turn), (0, 1, 0))
