"""What a change of one part does to the others is told part by part."""

from __future__ import annotations

from tests.kit.documents import built, head, part

from kitwright.kit import Difference, differences, mend_kit

SMALL = (
    head(units="mm", ruler="1", sheet="600 x 600", caliper="0.3", more='print = "one-way"')
    + part("card", "flat card", size="120 x 80", quantity=40)
    + part("box", "tray", size="100 x 86 x 30", holds="card")
    + part("lid", "lift-off lid", covers="box", height="10", turn=180)
)


def test_what_follows_from_a_change_is_told_as_well_as_the_change() -> None:
    now = built(SMALL)
    then = built(SMALL.replace("100 x 86 x 30", "127 x 86 x 30").replace("turn = 180", "turn = 0"))
    assert list(differences(now, then)) == [
        Difference("box", "width × depth × height, score to score", "100 × 86 × 30", "127 × 86 × 30"),
        Difference("lid", "width × depth × height, score to score", "102 × 88 × 10", "129 × 88 × 10"),
        Difference("lid", "print turned to the left", "180°", "0°"),
    ]
    assert list(differences(now, now)) == []


def test_a_kit_is_mended_one_change_after_the_other_until_nothing_fails() -> None:
    mended = mend_kit(built(SMALL), warnings=True)
    assert mended.proof.is_proved
    assert [each.about for each in differences(built(SMALL), mended.built)] == ["box", "box", "lid", "lid"]
    assert len(mended.fixes) == 3
