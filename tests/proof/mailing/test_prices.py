from fractions import Fraction

import pytest

from kitwright.errors import Mistakes
from kitwright.measure import Money
from kitwright.proof.mailing import MailPiece, Shape, judge, load_services, parse_prices

US = next(service for service in load_services() if service.code == "us")

# Steps of a retail letter, not over 1, 2, 3 and 3.5 oz: USPS DMM 101, second-hand. The prices are made up for this test.
TABLE = """
date = "1 Jan 2020"
currency = "USD"
[[price]]
service = "USPS"
class = "letter"
over = "0"
up_to = "1 oz"
price = "1.00"
[[price]]
service = "USPS"
class = "letter"
over = "1 oz"
up_to = "2 oz"
price = "1.30"
[[price]]
service = "USPS"
class = "letter"
kind = "non-machinable letter"
over = "0"
up_to = "3.5 oz"
price = "2.00"
"""


def price(length, height, weight):
    verdict = judge(MailPiece(length, height, 2, weight, Shape.ENVELOPE), US)
    return parse_prices(TABLE).find_price(verdict, weight)


# 1 oz = 28.349523125 g
@pytest.mark.parametrize(
    ("weight", "minor"), [(0.1, 100), (28.3495, 100), (28.3496, 130), (56.699, 130), (56.6991, None)]
)
def test_a_fraction_of_an_ounce_counts_as_the_next_step(weight, minor):
    assert price(184, 133, weight) == (Money("USD", minor) if minor else None)


def test_exactly_an_ounce_is_still_the_first_step_in_whatever_order_the_steps_are_written():
    ounce = Fraction(28_349_523_125, 10**9)
    head, *rows = TABLE.split("[[price]]")
    verdict = judge(MailPiece(184, 133, 2, ounce, Shape.ENVELOPE), US)
    for ordered in (rows, rows[::-1]):
        assert parse_prices("[[price]]".join((head, *ordered))).find_price(verdict, ounce) == Money("USD", 100)


def test_a_non_machinable_letter_has_its_own_price():
    assert price(152.4, 152.4, 20) == Money("USD", 200)


def refused(text):
    with pytest.raises(Mistakes) as caught:
        parse_prices(text, document="prices.toml")
    return [str(mistake) for mistake in caught.value.mistakes]


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        (
            'over = "1 oz"',
            'over = "1.5 oz"',
            "prices.toml, price 2: USPS, letter: the step over 42.5243 g leaves a gap",
        ),
        ('over = "1 oz"', 'over = "0.5 oz"', "prices.toml, price 2: USPS, letter: the step over 14.1748 g overlaps"),
        ('up_to = "2 oz"', 'up_to = "1 oz"', "prices.toml, price 2: The step from 1 oz to 1 oz is empty"),
        ('price = "1.30"', 'price = "1,30"', "prices.toml, price 2: '1,30' is not an amount of money."),
        ('price = "1.30"', "price = 1.30", "prices.toml, price 2: A price row holds texts in quotes only."),
        ('price = "1.30"', "", "prices.toml, price 2: Not known: nothing; missing: price."),
        ('price = "1.30"', 'cost = "1.30"', "prices.toml, price 2: Not known: cost; missing: price."),
        ('kind = "non-machinable letter"', 'kind = "too big"', "prices.toml, price 3: kind = 'too big' cannot have"),
        ('date = "1 Jan 2020"', "", "prices.toml: 'date' is missing."),
        ('currency = "USD"', "currency = 3 4", "prices.toml: This is not TOML"),
    ],
)
def test_a_price_table_that_does_not_hang_together_is_refused_with_its_row(old, new, told):
    assert old in TABLE
    assert refused(TABLE.replace(old, new, 1))[0].startswith(told)
