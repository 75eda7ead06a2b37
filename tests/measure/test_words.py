"""Offering the word that was probably meant."""

import pytest

from kitwright.measure import nearest_word, suggestion

KNOWN = ["kraft", "gingham", "cover"]


@pytest.mark.parametrize(
    ("word", "near"), [("krafft", "kraft"), ("GINGHAM", "gingham"), ("covr", "cover"), ("zebra", None), ("", None)]
)
def test_the_nearest_known_word_is_found_or_none(word: str, near: str | None) -> None:
    assert nearest_word(word, KNOWN) == near


def test_a_near_miss_is_answered_with_a_question_and_anything_else_with_the_list() -> None:
    assert suggestion("krafft", KNOWN) == "Did you mean 'kraft'?"
    assert suggestion("zebra", KNOWN) == "Known are: cover, gingham, kraft."


def test_known_words_may_come_from_a_generator() -> None:
    assert suggestion("zebra", (word for word in KNOWN)) == "Known are: cover, gingham, kraft."
