"""Money in whole minor units."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.errors import Mistake
from kitwright.measure import Money, parse_money


@pytest.mark.parametrize(
    ("text", "minor"),
    [
        ("1.10", 110),
        ("1.1", 110),
        ("12", 1200),
        ("0", 0),
        ("0.29", 29),
        ("0.57", 57),
        (" 4.35 ", 435),
        ("999999999.99", 99_999_999_999),
    ],
)
def test_an_amount_is_read_to_the_cent(text: str, minor: int) -> None:
    # 0.29, 0.57 and 4.35 are the usual ones to come out a cent short where floats are multiplied by a hundred.
    assert parse_money(text, "USD") == Money("USD", minor)


@pytest.mark.parametrize("text", ["", "$1.10", "1.10 USD", "1,10", "1.100", "-1", ".50", "1.", "1e3", "one", "1" * 10])
def test_an_amount_that_cannot_be_read_is_refused_in_one_sentence(text: str) -> None:
    with pytest.raises(Mistake) as refused:
        parse_money(text, "USD")
    assert str(refused.value) == f"{text!r} is not an amount of money. Write it like 1.10, without a currency sign."


@settings(deadline=None, max_examples=60)
@given(st.integers(0, 10**9))
def test_an_amount_is_printed_and_read_back_exactly(minor: int) -> None:
    printed, currency = str(Money("EUR", minor)).split()
    assert parse_money(printed, currency) == Money("EUR", minor)


@pytest.mark.parametrize(("minor", "text"), [(0, "0.00 USD"), (5, "0.05 USD"), (110, "1.10 USD"), (-5, "-0.05 USD")])
def test_an_amount_is_printed_with_two_places_and_its_currency(minor: int, text: str) -> None:
    assert str(Money("USD", minor)) == text


def test_money_adds_up_and_multiplies_in_whole_cents() -> None:
    assert Money("USD", 110) + Money("USD", 90) == Money("USD", 200)
    assert Money("USD", 110) * 3 == Money("USD", 330)


def test_money_of_one_currency_has_an_order() -> None:
    assert Money("USD", 110) < Money("USD", 111)
    assert Money("USD", 111) >= Money("USD", 111)
    assert not Money("USD", 110) < Money("USD", 110)
    assert max(Money("USD", 3), Money("USD", 20)) == Money("USD", 20)


def test_different_currencies_are_neither_added_nor_compared() -> None:
    dollars, euros = Money("USD", 110), Money("EUR", 110)
    assert dollars != euros
    with pytest.raises(Mistake, match=r"USD and EUR cannot be reckoned together\. Use one currency in a kit\."):
        dollars + euros
    with pytest.raises(Mistake, match="USD and EUR"):
        dollars < euros  # noqa: B015  # the comparison itself is what must fail
    with pytest.raises(Mistake, match="EUR and USD"):
        sorted([dollars, euros])
