"""Things that cover, go round or hold others are counted against them."""

from __future__ import annotations

import pytest
from tests.kit.documents import built, head, part, quick_findings
from tests.kit.test_by_hand import extra

HEAD = head(units="mm", ruler="1", sheet="600 x 600", caliper="0.3")


def cards(count: int) -> str:
    return part("card", "flat card", size="100 x 70", quantity=count)


def envelopes(count: int, name: str = "envelope") -> str:
    return part(name, "side-seam envelope", holds="card", quantity=count)


BOTH = part("box", "tray", holds=["card", "envelope"])
BOXES = part("box", "tray", size="100 x 60 x 40", quantity=2)


def noted(text: str) -> list[str]:
    return [each.about for each in quick_findings(built(HEAD + text)) if each.code == "counted"]


@pytest.mark.parametrize(
    ("text", "about"),
    [
        (cards(6) + envelopes(6) + BOTH, []),
        (cards(6) + envelopes(5) + BOTH, ["card in envelope"]),
        (cards(20) + envelopes(1) + BOTH, ["card in envelope"]),
        (cards(20) + envelopes(1), []),  # all of them lie in it
        (cards(6) + envelopes(5), ["card in envelope"]),
        (cards(6) + envelopes(2) + envelopes(4, "other"), []),
        (cards(6) + envelopes(2) + envelopes(3, "other"), ["card in envelope and other"]),
        (BOXES + part("lid", "lift-off lid", covers="box"), ["lid over box"]),
        (BOXES + part("lid", "lift-off lid", covers="box", quantity=2), []),
        (BOXES + part("band", "belly band", wraps="box", height="20"), ["band round box"]),
        (cards(6) + part("band", "belly band", wraps="card", height="20", quantity=6), ["band round card"]),
        (cards(6) + part("band", "belly band", wraps="card", height="20"), []),
        (
            cards(4)
            + part("pocket", "pocket", on="card", holds="seeds", quantity=4)
            + extra("seeds", "40 x 30 x 1", packed="flat", quantity=5),
            ["seeds in pocket"],
        ),
    ],
)
def test_what_does_not_come_out_even_is_noted_once(text: str, about: list[str]) -> None:
    assert noted(text) == about
