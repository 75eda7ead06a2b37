"""The steps of assembly say where things go."""

import pytest
from tests.printouts.make.test_whole_pack import planned

from kitwright.kit import read_kit
from kitwright.plan import plan
from kitwright.printouts.make.placement import placement_sentence


def test_what_is_glued_on_a_part_says_on_which_and_how_far_from_its_edges() -> None:
    cards = planned("thank-you-cards")
    told = {part.name: placement_sentence(cards, part) for part in cards.built.parts}
    # borders of 1/8 and 3/16 in, as the kit says
    assert told["first mat"] == "Glue it on the card base, in the middle: 1/8 in from every edge."
    assert told["second mat"] == "Glue it on the first mat, in the middle: 3/16 in from every edge."
    assert told["tray"] == ""


def test_unequal_borders_are_told_apart() -> None:
    kit = planned("postcard-set")
    # a pocket of 86 × 61.5 mm on a card of 148 × 105 mm: (148 − 86) / 2 and (105 − 61.5) / 2
    assert placement_sentence(kit, kit.built.part("seed pocket")) == (
        "Glue it on the folded card, in the middle: 31 mm from the left and right edges, 21.8 mm from the upper and lower edges."
    )


CLOSED = """
[kit]
name = "Soap"
units = "mm"
[paper.white]
sheet = "420 x 594"
weight = "200 gsm"
caliper = "0.25"
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
name = "label"
form = "mat"
on = "lid"
face = "inside"
border = "5"
paper = "white"
[[part]]
name = "band"
form = "belly band"
wraps = "lid"
height = "20"
goes = "{}"
paper = "white"
"""


@pytest.mark.parametrize(
    ("goes", "says"),
    [
        ("round the walls", "Round the walls of the lid."),
        (
            "over the top",
            "Over the top of the box, closed with the lid, down the front and the back and under the bottom.",
        ),
        ("end to end", "Over the top of the box, closed with the lid, down both sides and under the bottom."),
    ],
)
def test_a_band_says_which_way_it_goes_round(goes: str, says: str) -> None:
    made = plan(read_kit(CLOSED.format(goes)))
    assert placement_sentence(made, made.built.part("band")) == says


def test_what_is_glued_inside_a_lid_says_so() -> None:
    made = plan(read_kit(CLOSED.format("over the top")))
    assert placement_sentence(made, made.built.part("label")).startswith("Glue it inside the lid, in the middle: 5")
