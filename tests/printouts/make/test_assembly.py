"""The steps of assembly say where things go."""

from tests.printouts.make.test_whole_pack import planned

from kitwright.printouts.make.assembly import placement_sentence


def test_what_is_glued_on_a_part_says_on_which_and_how_far_from_its_edges() -> None:
    cards = planned("thank-you-cards")
    told = {part.name: placement_sentence(cards, part) for part in cards.built.parts}
    # borders of 1/8 and 3/16 in, as the kit says
    assert told["first mat"] == "Glue it on the card base, in the middle: 1/8 in from every edge."
    assert told["second mat"] == "Glue it on the first mat, in the middle: 3/16 in from every edge."
    assert told["tray"] == ""


def test_unequal_borders_are_told_apart() -> None:
    kit = planned("postcard-set")
    # a pocket of 86 × 77 mm on a card of 148 × 105 mm: (148 − 86) / 2 and (105 − 77) / 2
    assert placement_sentence(kit, kit.built.part("seed pocket")) == (
        "Glue it on the folded card, in the middle: 31 mm from the left and right edges, 14 mm from the upper and lower edges."
    )
