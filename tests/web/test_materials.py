"""What a batch takes: counts and costs are those of the plan, weights those of the papers; what is not known is said to be."""

from importlib import resources

import pytest

from kitwright.kit import read_kit
from kitwright.measure import Unit
from kitwright.plan import plan
from kitwright.web.materials import grams_words, materials_values

DOCUMENT = """
[kit]
name = "k"
units = "mm"
currency = "EUR"
[paper.one]
sheet = "200 x 300"
weight = "200 gsm"
price = "0.35"
on-hand = 1
[paper.two]
sheet = "200 x 300"
weight = "100 gsm"
[[part]]
name = "card"
form = "flat card"
size = "100 x 150"
paper = "one"
quantity = 5
[[part]]
name = "slip"
form = "flat card"
size = "190 x 200"
paper = "two"
[[part]]
name = "envelope"
form = "side-seam envelope"
holds = "card"
paper = "two"
[[extra]]
name = "clip"
size = "30 x 8 x 1"
weight = "1.5 g"
quantity = 2
[[extra]]
name = "charm"
size = "10 x 10 x 3"
"""


def test_sheets_costs_and_what_is_left_are_those_of_the_batch() -> None:
    # By hand: 5 cards of 100 × 150 mm at 4 to a sheet, 3 kits: 15 cards, 4 sheets, of which one is on hand; 4 × 0.35 = 1.40.
    values = materials_values(plan(read_kit(DOCUMENT), batch=3))
    one, two = values["papers"]
    assert (one["sheets"], one["to_buy"], str(one["cost"]), one["used"]) == (4, 3, "1.40 EUR", 94)
    assert one["cost_share"] == 100.0
    assert one["weight"] == "48 g"  # 4 sheets of 0.06 m² at 200 g/m²
    # three cards turned take 150 × 300 of the last sheet, with a setting of the guide fewer than beside a rest of 100 × 150
    assert one["left"] == ["1 of 50 × 300 mm"]
    assert two["cost"] is None
    assert (str(values["total"]), str(values["each_kit"])) == ("1.40 EUR", "0.47 EUR")
    assert values["unpriced"] == ["two"]
    assert values["extras"] == [(6, "clip", "30 × 8 × 1 mm"), (3, "charm", "10 × 10 × 3 mm")]


def test_what_fits_on_no_sheet_is_not_counted_as_cut_from_them() -> None:
    # By hand: the card of 350 mm goes on no sheet; 4 of 100 × 150 mm fill one of 200 × 300.
    wide = DOCUMENT.replace('size = "190 x 200"\npaper = "two"', 'size = "350 x 200"\npaper = "one"')
    wide = wide.replace("quantity = 5", "quantity = 4")
    one = materials_values(plan(read_kit(wide), batch=1))["papers"][0]
    assert (one["sheets"], one["used"]) == (1, 100)


def test_a_kit_weighs_its_paper_and_what_is_bought_and_says_what_is_missing() -> None:
    values = materials_values(plan(read_kit(DOCUMENT)))
    made = plan(read_kit(DOCUMENT))
    paper = 5 * 0.015 * 200 + 0.038 * 100 + made.built.part("envelope").pattern.area * 1e-6 * 100
    assert values["weight"] == f"{paper + 3:.0f} g"
    assert values["unweighed"] == ("charm",)


def test_every_piece_for_the_post_bears_what_the_offices_make_of_it() -> None:
    text = resources.files("kitwright").joinpath("examples", "recipe-box.toml").read_text()
    ((name, size, weight, verdicts),) = materials_values(plan(read_kit(text)))["post"]
    assert name == "box with lid, filled"
    assert size.startswith("6.444 in × ")  # with its band
    assert weight.endswith(" oz)")
    assert "USPS, United States: parcel." in [words for words, _ in verdicts]


@pytest.mark.parametrize(
    ("grams", "unit", "words"),
    [
        (28.349523125, Unit.INCH, "28 g (1.0 oz)"),  # NIST Handbook 44, appendix C: 1 oz avoirdupois
        (453.59237, Unit.INCH, "454 g (16.0 oz)"),
        (1234.5, Unit.MILLIMETRE, "1.23 kg"),
    ],
)
def test_weights_are_told_in_the_makers_system(grams: float, unit: Unit, words: str) -> None:
    assert grams_words(grams, unit) == words
