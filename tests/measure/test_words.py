"""Offering the word that was probably meant."""

import pytest

from kitwright.measure import counted, nearest_word, plain_number, plain_word, suggestion, with_article

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


@pytest.mark.parametrize(
    ("count", "said"), [(0, "0 cards"), (1, "1 card"), (2, "2 cards"), (12_000, "12,000 cards"), (-1, "-1 cards")]
)
def test_one_thing_is_one_and_all_other_counts_are_several(count: int, said: str) -> None:
    assert counted(count, "card") == said


def test_what_is_not_made_several_by_an_s_says_how() -> None:
    assert counted(1, "check fits", "checks fit") == "1 check fits"
    assert counted(3, "check fits", "checks fit") == "3 checks fit"


@pytest.mark.parametrize(
    ("words", "plain"),
    [
        # the decompositions are those of the Unicode Character Database; the letters it does not decompose are from memory
        ("Acht Grüße", "acht-grusse"),
        ("Blåbær & smørbrød", "blabaer-smorbrod"),
        ("Łódź, Đakovo", "lodz-dakovo"),
        ("Þórr’s œuvre", "thorr-s-oeuvre"),
        ("Tea box 4¼", "tea-box-4-1-4"),
        ("cafe\u0301", "cafe"),  # a letter and its accent apart, as some systems write names
        ("открытка Й", "открытка-й"),
        ("箱 三つ", "箱-三つ"),
        ("हिन्दी", "हिन्दी"),
        ("../..\\x:y\x00", "x-y"),
        ("?!", ""),
        ("Tea\N{SERVICE MARK} \N{TRADE MARK SIGN}", "teasm-tm"),
    ],
)
def test_words_become_plain_and_keep_the_letters_of_other_scripts(words: str, plain: str) -> None:
    assert plain_word(words) == plain


@pytest.mark.parametrize(("word", "said"), [("lid", "a lid"), ("overlap", "an overlap"), ("end", "an end")])
def test_a_word_has_its_article(word: str, said: str) -> None:
    assert with_article(word) == said


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (27040.16, "27040"),
        (1e4, "10000"),
        (1234567.0, "1235000"),
        (216.35, "216.3"),
        (0.00001234, "0.00001234"),
        (0.0, "0"),
    ],
)
def test_a_number_is_written_out_whatever_its_size(value: float, said: str) -> None:
    assert plain_number(value) == said
