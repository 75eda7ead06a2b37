"""The limits of the forms' own rules: just inside they are drawn, on the limit too, just outside they are refused with their code.

The limits themselves are common practice, no source; the sums are geometry.
"""

from __future__ import annotations

import pytest

import kitwright.forms  # noqa: F401  (fills the catalogue)
from kitwright.catalogue import CATALOGUE
from kitwright.findings import Severity

HAIR = 1e-6
TRAY: dict[str, float | str] = {"width": 100.0, "depth": 30.0, "height": 20.0, "tab": 15.0, "tabs": "inside"}
BAND: dict[str, float | str] = {"width": 40.0, "depth": 10.0, "height": 30.0, "overlap": 40.0}
ENVELOPE: dict[str, float | str] = {"width": 60.0, "height": 100.0, "side_tab": 15.0, "back": 80.0, "flap": 40.0}
FLAP_LID: dict[str, float | str] = {"width": 100.0, "depth": 40.0, "front_flap": 20.0, "back": 60.0, "hem": 15.0}
BOX: dict[str, float | str] = {"width": 100.0, "depth": 40.0, "height": 50.0, "hem": 20.0}
POCKET: dict[str, float | str] = {"width": 90.0, "height": 60.0, "tab": 10.0, "notch": 10.0}
TAG: dict[str, float | str] = {"width": 50.0, "height": 60.0, "corner": 10.0, "hole": 4.0, "hole_below_top": 20.0}

Rule = tuple[str, dict[str, float | str], str, float, int, str]

RULES: list[Rule] = [
    # form, values, the one that is moved, its limit, +1 where more is refused and -1 where less is, code
    ("tray", TRAY, "tab", 15.0, +1, "tray-tabs-meet"),  # two tabs of 15 fill a side wall of 30
    ("tray", TRAY, "depth", 30.0, -1, "tray-tabs-meet"),
    ("lift-off lid", TRAY, "tab", 15.0, +1, "lid-tabs-meet"),
    ("belly band", BAND, "overlap", 40.0, +1, "band-overlap-too-long"),  # as long as the back is wide
    ("belly band", BAND, "width", 40.0, -1, "band-overlap-too-long"),
    ("side-seam envelope", ENVELOPE, "side_tab", 20.0, +1, "envelope-tabs-too-deep"),  # a third of the width of 60
    ("side-seam envelope", ENVELOPE, "back", 100.0, +1, "envelope-back-too-high"),
    ("side-seam envelope", ENVELOPE, "back", 70.0, -1, "envelope-flap-too-short"),  # 70 + 40 overlap 10 on 100
    ("side-seam envelope", ENVELOPE, "flap", 30.0, -1, "envelope-flap-too-short"),
    ("side-seam envelope", ENVELOPE, "flap", 100.0, +1, "envelope-flap-too-long"),
    ("flap lid", FLAP_LID, "hem", 15.0, +1, "flap-lid-hem-too-deep"),  # three quarters of the flap of 20
    ("flap lid", FLAP_LID, "front_flap", 20.0, -1, "flap-lid-hem-too-deep"),
    ("flap lid", {**FLAP_LID, "front_flap": 60.0}, "back", 20.0, -1, "flap-lid-hem-too-deep"),
    ("two-half wrap box", BOX, "hem", 25.0, +1, "wrap-box-hem-too-deep"),  # half the height of 50
    ("two-half wrap box", BOX, "height", 40.0, -1, "wrap-box-hem-too-deep"),
    ("pocket", POCKET, "tab", 20.0, +1, "pocket-tabs-too-deep"),  # a third of the height of 60
    ("pocket", {**POCKET, "height": 90.0}, "notch", 30.0, +1, "pocket-notch-too-wide"),  # a third of the width of 90
    ("pocket", POCKET, "notch", 30.0, +1, "pocket-notch-too-wide"),  # and half the height of 60
    ("pocket", {**POCKET, "height": 40.0}, "notch", 20.0, +1, "pocket-notch-too-wide"),  # half the height of 40
    ("tag", TAG, "corner", 22.0, +1, "tag-corners-meet"),  # leaves 6 mm of an edge of 50
    ("tag", TAG, "hole_below_top", 5.0, -1, "tag-hole-near-edge"),  # a rim of 3 above a hole of 4 across
    ("tag", {**TAG, "hole_below_top": 40.0}, "height", 45.0, -1, "tag-hole-near-edge"),
]


def refused(key: str, values: dict[str, float | str]) -> set[str]:
    """The codes of all that the form's rules refuse."""
    return {finding.code for finding in CATALOGUE[key](**values).rules() if finding.severity is Severity.FAIL}


@pytest.mark.parametrize("rule", RULES, ids=[f"{code} {name}" for _, _, name, _, _, code in RULES])
def test_a_rule_holds_up_to_its_limit_and_on_it_and_not_a_hair_beyond(rule: Rule) -> None:
    key, values, name, limit, bad, code = rule
    assert code not in refused(key, {**values, name: limit - bad * HAIR})
    assert code not in refused(key, {**values, name: limit})
    assert code in refused(key, {**values, name: limit + bad * HAIR})


def test_the_slanted_ends_of_a_hem_leave_something_of_it() -> None:
    # the ends are taken back by a quarter of the hem: hems of 30 lose 15 of a side 15 deep, which leaves nothing
    box = {**BOX, "height": 100.0, "hem": 30.0}
    assert refused("two-half wrap box", {**box, "depth": 15.0}) == {"wrap-box-hem-too-deep"}
    assert refused("two-half wrap box", {**box, "depth": 15.0 + HAIR}) == set()
