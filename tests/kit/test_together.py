"""Lids and bands put in their places as solids: where the sizes leave no room, card is in the way of card, and only there."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.kit.documents import built, findings_of, head, part

from kitwright.findings import Finding, Severity
from kitwright.kit import mend_document
from kitwright.measure import NEAR_MARK

HAIR = float(NEAR_MARK)


def judge(text: str) -> tuple[list[Finding], Finding | None]:
    """The sums of sizes, and what the solids say, of the one thing that goes over another."""
    found = findings_of(built(text))
    fits = [each for each in found if each.code.startswith(("lid-fit-", "band-fit-"))]
    return fits, next((each for each in found if each.code == "layers-in-the-way"), None)


def free_play(fits: list[Finding]) -> float:
    """The least free play, mm. What fails or is tight was measured as free play; so was what is well."""
    return min(each.measured for each in fits if each.measured is not None)


def boxed(host: str, outer: str, *, size: str, over: str, caliper: str, tabs: tuple[str, str]) -> str:
    words = {"tabs": tabs[0]} if host == "tray" else {}
    mine = {"tabs": tabs[1]} if outer == "lift-off lid" else {}
    relation = {"wraps": "box"} if outer == "belly band" else {"covers": "box"}
    text = head(units="mm", ruler="0.5", sheet="900 x 900", caliper=caliper) + part("box", host, size=size, **words)
    return text + part("over", outer, size=over, **mine, **relation)


SIDES = st.sampled_from(["inside", "outside"])


@settings(deadline=None, max_examples=40)
@given(
    pair=st.sampled_from(
        [
            ("tray", "lift-off lid"),
            ("tray", "belly band"),
            ("two-half wrap box", "flap lid"),
            ("two-half wrap box", "belly band"),
        ]
    ),
    caliper=st.sampled_from(["0.15", "0.28", "0.4"]),
    more=st.tuples(st.integers(0, 40), st.integers(0, 40)),
    tabs=st.tuples(SIDES, SIDES),
)
def test_the_sizes_leave_no_room_just_where_card_is_in_the_way_of_card(
    pair: tuple[str, str], caliper: str, more: tuple[int, int], tabs: tuple[str, str]
) -> None:
    over = f"{100 + more[0] / 10} x {60 + more[1] / 10}"
    fits, together = judge(boxed(*pair, size="100 x 60 x 50", over=over, caliper=caliper, tabs=tabs))
    free = free_play(fits)
    assume(abs(free + HAIR) > 1e-3)  # a hair's breadth either way is nobody's business
    if together is None:
        assert free <= -2 * float(caliper) + 1e-6 or free >= 0.5 - 1e-6
    else:
        assert (together.severity is Severity.FAIL) is (free < -HAIR)


@pytest.mark.parametrize("tabs", ["inside", "outside"])
def test_the_place_where_card_is_in_the_way_is_told(tabs: str) -> None:
    # the box's tabs lie inside; with the lid's tabs outside only its walls meet the box's walls, with tabs inside first of all the tabs
    over = {"inside": "101.1 x 61", "outside": "100.5 x 61"}[tabs]
    fits, together = judge(
        boxed("tray", "lift-off lid", size="100 x 60 x 50", over=over, caliper="0.3", tabs=("inside", tabs))
    )
    assert together is not None
    assert together.about == "over on box"
    what = {"inside": "tab", "outside": "wall"}[tabs]
    # half of the 0.1 mm that are missing, at either end
    assert together.measured == pytest.approx(0.05, abs=1e-6)
    assert f" {what}" in together.message.split(" of over ")[0]
    assert free_play(fits) == pytest.approx(-0.1)


def test_card_in_the_way_is_mended_with_the_size_that_follows() -> None:
    text = boxed(
        "tray", "lift-off lid", size="100 x 60 x 50", over="101.1 x 61", caliper="0.3", tabs=("inside", "inside")
    )
    mended = mend_document(text)
    assert mended.proof.is_proved
    fits, together = judge(mended.text)
    assert together is None or together.severity is Severity.OK
    assert free_play(fits) > 0
