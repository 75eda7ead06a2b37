import re
from itertools import product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.errors import Mistake
from kitwright.proof.cautions import (
    Bag,
    Contents,
    Cord,
    Material,
    Outline,
    Piece,
    Place,
    Rigidity,
    Supply,
    SupplyKind,
    Tool,
    ToolKind,
    Topic,
    derive_cautions,
    words,
)

DOT = Piece("foam dot", (10, 10, 2), outline=Outline.DISC)

CLAIMS = re.compile(
    r"\bsafe\b|\bsafely\b|non-?\s?toxic|conform|complian|certif|approved|harmless|\bCE\b|UKCA|ASTM|child-?proof|guarantee",
    re.IGNORECASE,
)
AGES = re.compile(r"\d\s*(?:\+|years?|yrs?|months?)|\bage[sd]?\b|\b(?:under|over|from)\s+\d", re.IGNORECASE)


def codes(**contents):
    return [caution.code for caution in derive_cautions(Contents(**contents))]


def test_an_empty_kit_still_carries_the_general_caution():
    (only,) = derive_cautions(Contents())
    assert only.text == words.GENERAL
    assert only.places == (Place.BENCH, Place.BOOKLET)


@pytest.mark.parametrize(
    ("contents", "code"),
    [
        ({"pieces": (DOT,)}, "small-parts"),
        ({"pieces": (Piece("something", None),)}, "small-parts"),
        ({"pieces": (Piece("pompom", (90, 90, 90), rigidity=Rigidity.SOFT),)}, "small-parts"),
        ({"pieces": (Piece("clasp magnet", (80, 40, 5), is_magnet=True),)}, "magnet"),
        ({"pieces": (Piece("long pin", (80, 1, 1), is_sharp=True),)}, "sharp-in-kit"),
        ({"bags": (Bag("sleeve", 152.4, 228.6, 0.02),)}, "bag"),
        ({"bags": (Bag("sleeve", 152.4, 228.6, 0.05),)}, "bag-advised"),
        ({"cords": (Cord("ribbon", 220.1),)}, "long-ribbon"),
        ({"cords": (Cord("hanger", 0, loop=381),)}, "large-loop"),
        ({"tools": (Tool("craft knife", ToolKind.KNIFE, in_kit=False),)}, "blade"),
        ({"tools": (Tool("awl", ToolKind.AWL, in_kit=False),)}, "point"),
        ({"tools": (Tool("scissors", ToolKind.SCISSORS, in_kit=True),)}, "sharp-in-kit"),
        ({"tools": (Tool("embossing gun", ToolKind.HEAT_TOOL, in_kit=False),)}, "heat"),
        ({"supplies": (Supply("PVA", SupplyKind.GLUE, in_kit=False, has_statement=True),)}, "supply"),
        ({"for_children": True}, "for-children"),
        ({"for_sale": True}, "selling"),
        ({"sent_abroad": True}, "abroad"),
    ],
)
def test_each_hazard_brings_its_caution(contents, code):
    assert code in codes(**contents)


@pytest.mark.parametrize(
    "contents",
    [
        {"pieces": (Piece("paper dot", (10, 10, 0.3), material=Material.PAPER),)},  # 16 CFR 1501.3: paper articles
        {"pieces": (Piece("thread", (10, 1, 1), material=Material.TEXTILE),)},  # 16 CFR 1501.4(b)(2)
        {"pieces": (Piece("tile", (32, 32, 5)),)},
        {"bags": (Bag("sleeve", 101.6, 152.4, 0.03048),)},
        {"cords": (Cord("ribbon", 220, loop=380),)},  # EN 71-1:2005+A8:2009, 5.4: the limits themselves pass
    ],
)
def test_what_lies_within_the_limits_brings_no_caution_of_its_own(contents):
    assert codes(**contents) == ["general"]


def test_cautions_come_gravest_topic_first_and_name_their_things():
    found = derive_cautions(
        Contents(
            pieces=(DOT, Piece("gem", (6, 6, 3))),
            bags=(Bag("sleeve", 152.4, 228.6, 0.02),),
            tools=(Tool("craft knife", ToolKind.KNIFE, in_kit=False),),
        )
    )
    assert [caution.topic for caution in found] == [Topic.BAG, Topic.SMALL_PARTS, Topic.BLADE, Topic.GENERAL]
    assert found[1].about == ("foam dot", "gem")


def test_the_bag_warning_carries_the_type_size_of_its_bag():
    big, small = Bag("big", 304.8, 457.2, 0.02), Bag("small", 152.4, 228.6, 0.02)
    found = derive_cautions(Contents(bags=(big, small)))
    assert [(caution.about, caution.least_points) for caution in found[:2]] == [(("big",), 14), (("small",), 10)]


def test_supplies_without_their_suppliers_statement_are_listed_by_name():
    found = derive_cautions(
        Contents(
            supplies=(
                Supply("PVA", SupplyKind.GLUE, in_kit=True, has_statement=True),
                Supply("gold ink", SupplyKind.INK, in_kit=False, has_statement=False),
            )
        )
    )
    assert found[0].text.endswith("No statement of the supplier is on file for: gold ink.")
    assert found[0].places == (Place.BENCH, Place.BOOKLET)


def test_a_tool_that_stays_at_the_bench_does_not_worry_the_recipient():
    found = derive_cautions(Contents(tools=(Tool("scissors", ToolKind.SCISSORS, in_kit=False),)))
    assert [caution.places for caution in found if caution.topic is Topic.BLADE] == [(Place.BENCH,)]


def test_a_kit_for_children_is_sent_to_a_laboratory_for_every_hazard_that_asks_for_one():
    found = derive_cautions(
        Contents(
            pieces=(DOT,),
            tools=(Tool("scissors", ToolKind.SCISSORS, in_kit=True),),
            bags=(Bag("sleeve", 200, 300, 0.01),),
            for_children=True,
        )
    )
    asks = {caution.code: caution.ask for caution in found}
    assert "laboratory" in asks["small-parts"]
    assert "laboratory" in asks["sharp-in-kit"]
    assert "laboratory" in asks["for-children"]
    assert words.BAG_CANADA in asks["bag"]
    assert words.BAG_CANADA_THIN in asks["bag"]


@pytest.mark.parametrize("cord", [Cord("ribbon", -1), Cord("ribbon", 10, loop=0)])
def test_a_cord_without_length_is_refused(cord):
    with pytest.raises(Mistake, match="ribbon"):
        derive_cautions(Contents(cords=(cord,)))


# CPSIA section 103(c) on claims, second-hand: the program makes none, and it never chooses an age.
def no_claim(text):
    return not CLAIMS.search(text) and not AGES.search(text)


def test_the_search_for_claims_finds_claims():
    for text in ("conforms to ASTM D-4236", "safe for all", "Non-toxic", "CE", "Not for under 3", "ages 8+", "8 years"):
        assert not no_claim(text)


def test_no_constant_text_makes_a_claim_or_names_an_age():
    texts = [value for name, value in vars(words).items() if name.isupper() and isinstance(value, str)]
    assert len(texts) >= 25
    assert [text for text in texts if not no_claim(text)] == []


def every_kind_of_thing():
    return {
        "pieces": (DOT, Piece("m", (5, 5, 5), is_magnet=True), Piece("p", (80, 1, 1), is_sharp=True)),
        "bags": (Bag("b", 152, 228, 0.02), Bag("c", 305, 457, None), Bag("d", 80, 80, 0.05)),
        "cords": (Cord("r", 500, loop=600),),
        "supplies": tuple(Supply(kind.value, kind, in_kit=True, has_statement=False) for kind in SupplyKind),
        "tools": tuple(Tool(kind.value, kind, in_kit=True) for kind in ToolKind),
    }


def test_no_caution_makes_a_claim_or_names_an_age_whatever_the_answers():
    for children, sale, abroad in product((False, True), repeat=3):
        found = derive_cautions(
            Contents(**every_kind_of_thing(), for_children=children, for_sale=sale, sent_abroad=abroad)
        )
        assert len(found) >= 12
        for caution in found:
            assert no_claim(caution.text), caution.text
            assert no_claim(caution.ask), caution.ask
            assert caution.ask
            assert caution.because


things = every_kind_of_thing()


@settings(deadline=None, max_examples=40)
@given(st.sampled_from(sorted(things)), st.data())
def test_adding_a_thing_never_takes_a_caution_away(kind, data):
    base: dict[str, Any] = {
        key: tuple(data.draw(st.lists(st.sampled_from(values), max_size=2))) for key, values in things.items()
    }
    more = {**base, kind: (*base[kind], data.draw(st.sampled_from(things[kind])))}
    assert {caution.code for caution in derive_cautions(Contents(**base))} <= {
        caution.code for caution in derive_cautions(Contents(**more))
    }
