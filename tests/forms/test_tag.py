"""The tag: the hole keeps a rim of card on every side."""

import pytest

from kitwright.findings import Finding
from kitwright.forms.tag import Tag


def findings(*, corner: float) -> list[Finding]:
    """What is said of a tag of 40 × 60 mm with a hole of 12 mm whose middle is 9 mm below the top."""
    return list(Tag(width=40, height=60, corner=corner, hole=12, hole_below_top=9).rules())


def test_a_hole_keeps_its_rim_from_the_cut_corners_too() -> None:
    # the cut runs from 17 mm along the top to 17 mm down the side; the hole's middle is 20 mm along and 9 mm down, so it is
    # (20 + 9 − 17) / √2 = 8.485 mm from the cut: 2.485 mm of rim
    (found,) = findings(corner=17)
    assert found.code == "tag-hole-near-edge"
    assert found.message == "The hole is so near to the cut corners that the card would tear."
    assert found.measured == pytest.approx(2.4853, abs=1e-4)
    # 16 mm of corner: (20 + 9 − 16) / √2 = 9.192 mm, so now the top edge is nearest, at just the least rim
    assert findings(corner=16) == []
