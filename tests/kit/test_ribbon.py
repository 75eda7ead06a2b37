"""A ribbon is judged by how long it is unwound, never by how it is packed."""

from __future__ import annotations

import pytest
from tests.kit.documents import head, part

from kitwright.errors import Mistakes
from kitwright.kit import read_kit
from kitwright.kit.cautions import kit_cautions
from kitwright.kit.edition import edition
from kitwright.kit.write import write_kit
from kitwright.measure import Unit


def ribbon(*, length: str = "", kind: str = "ribbon") -> str:
    """A kit in mm with a ribbon wound up to 40 mm."""
    return (
        head(units="mm", ruler="1", sheet="600 x 600", caliper="0.28")
        + part("card", "flat card", size="100 x 150")
        + f'[[extra]]\nname = "satin ribbon"\nsize = "40 x 40 x 10"\nkind = "{kind}"\n'
        + (f'length = "{length}"\n' if length else "")
    )


def codes(document: str) -> set[str]:
    """The codes of a document's cautions."""
    return {caution.code for caution in kit_cautions(read_kit(document))}


# The limit of 220 mm: EN 71-1:2005+A8:2009, 5.4, as quoted by a test house
@pytest.mark.parametrize(("length", "is_long"), [("", True), ("500", True), ("220.5", True), ("220", False)])
def test_a_wound_up_ribbon_calls_for_a_caution_unless_it_is_said_to_be_short(length: str, is_long: bool) -> None:
    assert ("long-ribbon" in codes(ribbon(length=length))) is is_long


def test_a_ribbon_without_a_length_is_asked_for_it_by_name() -> None:
    (caution,) = (each for each in kit_cautions(read_kit(ribbon())) if each.code == "long-ribbon")
    assert caution.ask.startswith("Say how long it is unwound (satin ribbon); until then it counts as long.")


def test_only_a_ribbon_has_a_length() -> None:
    with pytest.raises(Mistakes, match="only a ribbon has one"):
        read_kit(ribbon(length="500", kind="glue"))


def test_a_ribbon_keeps_its_length_when_its_kit_is_written() -> None:
    assert read_kit(write_kit(read_kit(ribbon(length="220.5")))).extras[0].length == 220.5


def test_a_ribbon_keeps_its_length_in_the_edition_of_its_kit_in_inches_and_never_gets_shorter() -> None:
    other = edition(read_kit(ribbon(length="220.5")), Unit.INCH).kit.extras[0].length
    assert other is not None
    assert 220.5 <= other < 220.5 + 25.4 / 16
