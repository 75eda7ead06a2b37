"""What the filled envelopes and boxes of a kit are to the post."""

from importlib import resources

import pytest
from tests.kit.documents import head, part

from kitwright.findings import Severity
from kitwright.kit import build, post_findings, posted_pieces, read_kit
from kitwright.proof.mailing import Shape

CARDS = """
[kit]
name = "Four cards"
units = "in"
ruler = "1/16"
[paper.white]
sheet = "12 x 12"
weight = "80 lb cover"
caliper = "0.011"
[[part]]
name = "card"
form = "half-fold card"
size = "5 1/2 x 4 1/4"
fold = "top"
paper = "white"
quantity = 4
[[part]]
name = "envelope"
form = "side-seam envelope"
{size}
holds = "card"
paper = "white"
quantity = 4
"""


def us_finding(size: str) -> tuple[str, Severity]:
    """Code and severity of what the US post says of the filled envelope."""
    built = build(read_kit(CARDS.format(size=size)))
    (found,) = [each for each in post_findings(built) if "United States" in each.message]
    return found.code, found.severity


def test_the_envelope_that_follows_from_an_a2_card_is_a_plain_letter() -> None:
    # 4 3/8 × 5 3/4 in, aspect 1.314: within 1.3 to 2.5 (USPS DMM 101 1.2a, 9 Jul 2023)
    assert us_finding("") == ("mailing-letter", Severity.NOTE)


def test_an_envelope_an_eighth_higher_costs_extra_as_a_non_machinable_letter() -> None:
    # 4 1/2 × 5 3/4 in, aspect 1.278 (USPS DMM 101 1.2a, 9 Jul 2023)
    assert us_finding('size = "5 3/4 x 4 1/2"') == ("mailing-non-machinable-letter", Severity.WARNING)


def test_the_address_runs_along_the_longer_side() -> None:
    (posted,) = posted_pieces(build(read_kit(CARDS.format(size=""))))
    assert posted.piece.shape is Shape.ENVELOPE
    assert float(posted.piece.along_address) == pytest.approx(5.75 * 25.4)
    assert float(posted.piece.across_address) == pytest.approx(4.375 * 25.4)


def test_a_filled_envelope_weighs_its_own_card_and_one_card() -> None:
    built = build(read_kit(CARDS.format(size="")))
    (posted,) = posted_pieces(built)
    # 80 lb cover is 216.3 g/m² (20 × 26 in, 500 sheets): area of both blanks in m² times that
    area = sum(part.pattern.area for part in built.parts) / 1e6
    assert posted.piece.weight == pytest.approx(area * 80 * 1406.139 / (20 * 26), rel=1e-4)


def test_a_box_is_posted_with_its_lid_and_all_it_holds() -> None:
    text = resources.files("kitwright").joinpath("examples", "thank-you-cards.toml").read_text(encoding="utf-8")
    pieces = {each.name: each.piece for each in posted_pieces(build(read_kit(text)))}
    box = pieces["tray with lid, filled"]
    assert box.shape is Shape.BOX
    envelope = pieces["envelope, filled"]
    assert box.weight is not None
    assert envelope.weight is not None
    assert box.weight > 6 * envelope.weight


def posted_height(more: str = "", *, lid: str = "18") -> float:
    """The least side of a low box of 1 mm card with its lid on. Asked for 25 mm high, it is 24 mm to the rim's edge from the score, which
    lies half a card above the underside: 24.5 mm.
    """
    text = head(units="mm", ruler="1", caliper="1", sheet="900 x 900")
    text += part("note", "flat card", size="200 x 130", quantity=3)
    text += part("box", "tray", outside="220 x 150 x 25", holds="note")
    text += part("lid", "lift-off lid", covers="box", height=lid) + more
    return float(posted_pieces(build(read_kit(text)))[-1].piece.thickness)


def test_a_box_is_posted_as_high_as_its_lid_lies_on_its_rim() -> None:
    assert posted_height() == pytest.approx(24.5 + 1)


def test_what_is_glued_on_the_lid_and_below_the_box_goes_into_the_post_with_it() -> None:
    label = part("label", "mat", on="lid", size="60 x 40")
    foot = part("foot", "mat", on="box", size="60 x 40")
    assert posted_height(label) == pytest.approx(24.5 + 1 + 1)
    assert posted_height(label + foot) == pytest.approx(24.5 + 1 + 1 + 1)


def test_a_lid_that_hangs_lower_than_its_box_is_posted_as_far_as_it_hangs() -> None:
    assert posted_height(lid="40") == pytest.approx(40 + 0.5)  # from the score, and half a card above it
