"""Mistakes told to a person: what, where, what to do."""

import pytest

from kitwright.errors import KitwrightError, Mistake, Mistakes, Place


@pytest.mark.parametrize(
    ("place", "text"),
    [
        (Place(), ""),
        (Place("box.toml"), "box.toml"),
        (Place("box.toml", 12), "box.toml, line 12"),
        (Place("box.toml", 12, 'part "lid"'), 'box.toml, line 12, part "lid"'),
        (Place(spot='part "lid"'), 'part "lid"'),
        (Place(line=0), "line 0"),
    ],
)
def test_a_place_reads_from_the_document_to_the_spot_and_leaves_out_what_is_unknown(place: Place, text: str) -> None:
    assert str(place) == text


def test_a_mistake_says_where_what_and_what_to_do_in_that_order() -> None:
    mistake = Mistake("The lid is red.", do="Paint it blue.", place=Place("box.toml", 3))
    assert str(mistake) == "box.toml, line 3: The lid is red. Paint it blue."


def test_a_mistake_without_place_or_advice_is_only_its_sentence() -> None:
    assert str(Mistake("The lid is red.")) == "The lid is red."
    assert str(Mistake("The lid is red.", place=Place(line=3))) == "line 3: The lid is red."


def test_a_mistake_carries_its_fields_for_a_program() -> None:
    mistake = Mistake("What.", do="Do.", place=Place("a.toml"))
    assert (mistake.what, mistake.do, mistake.place) == ("What.", "Do.", Place("a.toml"))
    assert Mistake("What.").place == Place()


def test_filling_in_a_place_keeps_what_was_known_already() -> None:
    vague = Mistake("What.", do="Do.", place=Place(spot="size"))
    placed = vague.at(Place("a.toml", 7, "part"))
    assert placed.place == Place("a.toml", 7, "size")
    assert (placed.what, placed.do) == ("What.", "Do.")
    assert str(placed) == "a.toml, line 7, size: What. Do."
    assert placed.at(Place("b.toml", 9, "other")).place == placed.place


def test_a_line_that_is_known_to_be_zero_is_not_overwritten() -> None:
    assert Mistake("What.", place=Place(line=0)).at(Place(line=7)).place.line == 0


def test_filling_in_a_place_leaves_the_first_mistake_as_it_was() -> None:
    vague = Mistake("What.")
    vague.at(Place("a.toml"))
    assert vague.place == Place()


def test_mistakes_are_told_together_one_a_line_in_the_order_of_their_lines() -> None:
    later, sooner, nowhere = Mistake("C.", place=Place(line=9)), Mistake("B.", place=Place(line=2)), Mistake("A.")
    together = Mistakes([later, sooner, nowhere])
    assert together.mistakes == (nowhere, sooner, later)
    assert str(together) == "A.\nline 2: B.\nline 9: C."
    first_line = Mistake("B.", place=Place(line=1))
    assert Mistakes([first_line, nowhere]).mistakes == (nowhere, first_line)


def test_mistakes_of_one_line_keep_the_order_in_which_they_were_found() -> None:
    first, second = Mistake("Z.", place=Place(line=2)), Mistake("A.", place=Place(line=2))
    assert Mistakes(mistake for mistake in (first, second)).mistakes == (first, second)


@pytest.mark.parametrize("error", [Mistake("What."), Mistakes([Mistake("What.")])])
def test_both_kinds_can_be_caught_as_the_root_error_and_as_a_value_error(error: Exception) -> None:
    assert isinstance(error, KitwrightError)
    assert isinstance(error, ValueError)


def test_one_mistake_is_not_many_and_many_are_not_one() -> None:
    assert not issubclass(Mistake, Mistakes)
    assert not issubclass(Mistakes, Mistake)
