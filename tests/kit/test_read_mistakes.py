# ruff: noqa: E501  (one mistake to a line reads best)
"""What is wrong in a document is told in plain words, with its line and what to do; everything at once, and never as a traceback."""

from __future__ import annotations

import pytest

from kitwright.errors import Mistakes
from kitwright.kit import LARGEST_DOCUMENT, read_kit, read_kit_bytes

GOOD = """\
[kit]
name = "box"
units = "in"

[paper.kraft]
sheet = "12 x 12"
weight = "80 lb cover"

[[part]]
name = "card"
form = "flat card"
size = "6 x 4"
paper = "kraft"

[[part]]
name = "box"
form = "tray"
holds = "card"
paper = "kraft"

[[extra]]
name = "pencil"
size = "7 x 5/16 x 5/16"
"""


def told(text: str) -> list[str]:
    """What is told about a document, line by line."""
    with pytest.raises(Mistakes) as caught:
        read_kit(text, document="box.toml")
    assert all(mistake.place.document == "box.toml" and mistake.do for mistake in caught.value.mistakes)
    return str(caught.value).split("\n")


def told_bytes(data: bytes) -> str:
    with pytest.raises(Mistakes) as caught:
        read_kit_bytes(data, document="box.toml")
    return str(caught.value)


def test_the_document_that_the_mistakes_are_made_in_is_good() -> None:
    assert len(read_kit(GOOD).parts) == 2


CHANGES = [
    # the kit
    ('units = "in"\n', "", 'line 1, kit: The units are missing. Add units = "in", "mm" or "cm".'),
    ('units = "in"', 'units = "feet"', "line 3, kit: units: 'feet' is not known here. Known are: cm, in, mm."),
    ('name = "box"\nunits', "units", 'line 1, kit: The name is missing. Add name = "Sunday recipe box".'),
    ('units = "in"', 'units = "in"\nruler = "0.5 mm"', "line 4, kit: ruler: this ruler is in mm, and the kit is in in. Use one system of units in a kit; a kit in the other is another document."),
    ('units = "in"', 'units = "in"\ncurrency = "dollars"', "line 4, kit: currency: 'dollars' is not a currency code. Write three capitals: USD, EUR or GBP."),
    ('units = "in"', 'units = "in"\nfit = 3', "line 4, kit: fit should be a table. Write it like { lid = \"1/16\" }."),
    ('units = "in"', 'units = "in"\nfit = { lids = "1/8" }', "line 4, kit: There is no key 'lids' here. Did you mean 'lid'?"),
    ('units = "in"', 'units = "in"\ncolour = 3', "line 4, kit: There is no key 'colour' here. Known are: accuracy, alike, currency, fit, for, keep, machine, name, ruler, trimmer, units."),
    ("[kit]\n", "[kti]\n", "line 1: There is no table or key 'kti' at this level. Did you mean 'kit'?"),
    ("[kit]\n", "kit = 3\n[more]\n", "line 1, kit: [kit] is no table. Begin with [kit], name = \"…\" and units = \"in\" (or \"mm\")."),
    # papers
    ('sheet = "12 x 12"\n', "", 'line 5, paper "kraft": The sheet is missing. Add sheet = "12 x 12".'),
    ('weight = "80 lb cover"\n', "", 'line 5, paper "kraft": The weight is missing. Add weight = "80 lb cover" or "216 gsm", as the wrapper says.'),
    ('weight = "80 lb cover"\n', 'caliper = "11 pt"\n', 'line 5, paper "kraft": The weight is missing. The caliper says how thick it is, not how heavy. Add weight = "80 lb cover" or "216 gsm" too.'),
    ('"80 lb cover"', '"80 lb"', "line 7, paper \"kraft\": weight: '80 lb' does not say of which grade, and 80 lb cover is nearly twice as heavy as 80 lb text. Add one of bond, text, cover, bristol, index, tag; the wrapper of the paper says which."),
    ('"80 lb cover"', '"80 lb cover"\ngrain = "along"', 'line 8, paper "kraft": grain: \'along\' is not known here. Did you mean \'long\'?'),
    ('"80 lb cover"', '"80 lb cover"\ntwo-sided = "yes"', 'line 8, paper "kraft": two-sided: This is words. Write true or false, without quotes.'),
    ('"80 lb cover"', '"80 lb cover"\nhinge = 1.5', 'line 8, paper "kraft": hinge: \'1.5\' is not a number from 0 to 1. Write it like 0.5.'),
    ('"80 lb cover"', '"80 lb cover"\nprice = "$1"', 'line 8, paper "kraft": price: \'$1\' is not an amount of money. Write it like "1.10".'),
    ('"80 lb cover"', '"80 lb cover"\non-hand = -1', 'line 8, paper "kraft": on-hand: This number should be from 0 to 1,000,000. Check it.'),
    ('"80 lb cover"', '"80 lb cover"\nmargins = { lft = 1 }', 'line 8, paper "kraft": There is no key \'lft\' here. Did you mean \'left\'?'),
    ('"80 lb cover"', '"80 lb cover"\nmargins = 6', 'line 5, paper "kraft": margins: They leave nothing of the sheet. Make the margins smaller.'),
    ('sheet = "12 x 12"', "sheet = 12", 'line 6, paper "kraft": sheet: \'12\' has one length, and two lengths should be here. Write width x height.'),
    ("[paper.kraft]", "[[paper]]", "line 5: Papers are written as [[paper]]. Give each paper a word of its own: [paper.kraft]."),
    ("[paper.kraft]", "[paper]", "line 6: 'sheet' stands under [paper] but is no paper. Give each paper a word of its own: [paper.kraft]."),
    # parts
    ('"6 x 4"', '"six by four"', "line 12, part \"card\": size: 'six' is not a length that can be read. Write it like \"5 x 4\"."),
    ('"6 x 4"', '"6 x 4 furlongs"', "line 12, part \"card\": size: 'furlongs' in '4 furlongs' is not a unit known here. Use in, mm or cm."),
    ('"6 x 4"', '"6 x 4 x 2"', "line 12, part \"card\": size: '6 x 4 x 2' has three lengths, and two lengths should be here. Write width x height."),
    ('"6 x 4"', '"6 x 0"', "line 12, part \"card\": size: '0' is zero. A length must be larger than zero."),
    ('"6 x 4"', '"-6 x 4"', "line 12, part \"card\": size: '-6' is below zero. A length must be larger than zero."),
    ('"6 x 4"', '"6 x 1000000000"', "line 12, part \"card\": size: '1000000000' is far too large or far too fine. Check the number and its unit."),
    ('"6 x 4"', '"6 x 1/2"', 'line 12, part "card": size: a height of 1/2 in is too small for this form. It can be from 13/16 to 23 9/16 in.'),
    ('"6 x 4"', '"30 x 4"', 'line 12, part "card": size: a width of 30 in is too large for this form. It can be from 13/16 to 23 9/16 in.'),
    ('"6 x 4"', '["6 x 4"]', 'line 12, part "card": size: This is a list, and a number is needed. Write it like "5 x 4".'),
    ('"6 x 4"', '"6 x 4"\nquantity = 0', 'line 13, part "card": quantity: This number should be from 1 to 10,000. Check it.'),
    ('"6 x 4"', '"6 x 4"\nquantity = 2.5', 'line 13, part "card": quantity: A whole number is needed, and this is a number (2.5). Write it like 24.'),
    ('"6 x 4"', '"6 x 4"\nquantity = 1_000_000_000', 'line 13, part "card": quantity: This number should be from 1 to 10,000. Check it.'),
    ('"6 x 4"', '"6 x 4"\nturn = "left"', 'line 13, part "card": turn: A whole number is needed, and this is words. Write it like 180.'),
    ('"6 x 4"', '"6 x 4"\nturn = 45', 'line 13, part "card": turn: 45 is not a quarter, half or three-quarter turn. Write 0, 90, 180 or 270.'),
    ('"6 x 4"', '"6 x 4"\nturn = 360', 'line 13, part "card": turn: 360 is not a quarter, half or three-quarter turn. Write 0, 90, 180 or 270.'),
    ('"6 x 4"', '"6 x 4"\ninside = "5 x 4"', 'line 13, part "card": The size is said more than once, as size and inside. Keep one of them.'),
    ('"6 x 4"', '"6 x 4"\nheight = "4"', 'line 13, part "card": height: the size says it already. Keep one of them.'),
    ('"6 x 4"', '"6 x 4"\nborder = "1/8"', 'line 13, part "card": border: it lies on nothing, so no border shows. Add what it lies on: on = "card".'),
    ('"6 x 4"', '"6 x 4"\ncontents = "lying"', 'line 13, part "card": contents: it holds nothing. Add what it holds: holds = ["card"].'),
    ('size = "6 x 4"\n', "", 'line 9, part "card": It has no size, and nothing that a size could follow from. Add size = "width x height" in numbers, or what it lies on, holds, covers or wraps.'),
    ('size = "6 x 4"', 'sise = "6 x 4"\non = "box"\nholds = "pencil"', "line 12, part \"card\": There is no key 'sise' here. Did you mean 'size'?"),
    ('"flat card"', '"flat crad"', "line 11, part \"card\": form: there is no form 'flat crad'. Did you mean 'flat card'?"),
    ('size = "6 x 4"\npaper = "kraft"', 'size = "6 x 4"\npaper = "craft"', "line 13, part \"card\": paper: there is no paper 'craft' in this kit. Did you mean 'kraft'?"),
    ('name = "card"\n', "", 'line 9, part number 1: The name is missing. Add name = "recipe card".'),
    ('name = "card"', 'name = " "', 'line 10, part number 1: name: Nothing is written between the quotes. Write it out, or leave the whole line out.'),
    ('name = "card"', 'name = 7', 'line 10, part number 1: name: This is a number, and words are needed. Write it like "recipe card".'),
    ('name = "card"', 'name = "box"', 'line 16, part "box": There is something called \'box\' already (line 9). Give one of them another name.'),
    ('holds = "card"', 'holds = "crad"', "line 18, part \"box\": holds: there is nothing called 'crad' in this kit. Did you mean 'card'?"),
    ('holds = "card"', 'holds = "box"', "line 18, part \"box\": holds: 'box' is the part itself. Name another part."),
    ('holds = "card"', 'holds = []', 'line 18, part "box": holds: The list is empty. Name something, or leave the line out.'),
    ('holds = "card"', 'holds = ["card", "card"]', "line 18, part \"box\": holds: 'card' is in the list twice. Name it once; its quantity says how many there are."),
    ('holds = "card"', 'covers = "pencil"', "line 18, part \"box\": covers: 'pencil' is an extra, and only parts are drawn. Name a part, or give a size."),
    ('holds = "card"', 'holds = "card"\ntabs = "insid"', "line 19, part \"box\": tabs: 'insid' is not known here. Did you mean 'inside'?"),
    ('size = "6 x 4"', 'on = "box"', "line 9, part \"card\": These go in a circle: 'card', which needs 'box', which needs 'card'. Take one of these relations out."),
    # extras
    ('"7 x 5/16 x 5/16"', '"7 x 5/16"', "line 23, extra \"pencil\": size: '7 x 5/16' has two lengths, and three lengths should be here. Write length x width x height."),
    ('"7 x 5/16 x 5/16"', '"7 x 1 x 1"\nweight = "5"', "line 24, extra \"pencil\": weight: '5' is not a weight that can be read. Write it like \"6 g\"."),
    ('"7 x 5/16 x 5/16"', '"7 x 1 x 1"\nkind = "magnets"', "line 24, extra \"pencil\": kind: 'magnets' is not known here. Did you mean 'magnet'?"),
    ('"7 x 5/16 x 5/16"', '"7 x 1 x 1"\npacked = "inside"', 'line 24, extra "pencil": packed: \'inside\' is not known here. Did you mean \'beside\'?'),
    ("[[extra]]", "[extra]", "line 21: extra is written with single brackets. Write [[extra]] with double brackets."),
    # how it is written
    ('size = "6 x 4"', "size = 6 x 4", 'line 12: Something stands after the value. Put words and sizes in quotes: size = "4 1/4 x 5 1/2". One key to a line.'),
    ('size = "6 x 4"', "size = six", 'line 12: The value cannot be read. Put words and sizes in quotes: size = "4 1/4 x 5 1/2".'),
    ('size = "6 x 4"', 'size = "6 x 4', "line 12: The quote is not closed on this line. Add the closing quote."),
    ('size = "6 x 4"', 'size = "6 x 4"\nsize = "6 x 5"', "line 13: This key is written twice. Keep one of the two lines."),
    ('size = "6 x 4"', 'size "6 x 4"', "line 12: There is no equals sign after the key. Write a key, = and a value: quantity = 24."),
    ("[paper.kraft]", "[paper.kraft", "line 5: The heading is not closed. Write it like [kit] or [paper.kraft]."),
    (
        "[paper.kraft]",
        "[part]\n[part]\n[paper.kraft]",
        "line 6: There is one [part] already. Write each part under its own [[part]], in double brackets.",
    ),
    ("[paper.kraft]", "[kit]", "line 5: This table is written twice. Put all its keys under one heading."),
    ("[[part]]\nname = \"card\"", "[[part]]\nname = 1979-02-30", "line 10: This looks like a date, and there is no such day or time. Put words and sizes in quotes: size = \"4 1/4 x 5 1/2\"."),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "says"), CHANGES, ids=[says[:60] for _, _, says in CHANGES])
def test_a_mistake_is_told_with_its_line_and_what_to_do(old: str, new: str, says: str) -> None:
    assert old in GOOD
    assert f"box.toml, {says}" in told(GOOD.replace(old, new, 1))


def test_a_mistake_in_one_place_is_told_once() -> None:
    for old, new in (
        ('"6 x 4"', '"six by four"'),
        ('"80 lb cover"', '"80 lb"'),
        ('"flat card"', '"flat crad"'),
        ('units = "in"', 'units = "feet"'),
        ('size = "6 x 4"', 'on = "box"'),
        # a misspelt word is one cause, whatever would follow from it
        ('size = "6 x 4"', 'sise = "6 x 4"'),
        ('size = "6 x 4"', 'sise = "six by four"'),
        ('holds = "card"', 'hold = "card"'),
        ('holds = "card"', 'hold = "card"\ncontents = "standing"'),
        ('size = "6 x 4"', 'size = "6 x 4"\nonn = "pencil"\nborder = "1/8"'),
        ('name = "card"', 'nmae = "card"'),
        ('form = "flat card"', 'from = "flat card"'),
        ('size = "6 x 4"\npaper', 'size = "6 x 4"\npapr'),
        ('sheet = "12 x 12"', 'sheets = "12 x 12"'),
        ("[paper.kraft]", "[papr.kraft]"),
        ("[paper.kraft]", "[paper.kratf]"),  # named by two parts
        ("[kit]", "[kti]"),
        ('units = "in"', 'unit = "in"'),
        ('[[part]]\nname = "card"', '[[prat]]\nname = "card"'),
        ('name = "card"', 'name = "crad"'),
        ("[[extra]]", '[[part]]\nname = "second box"\nform = "tray"\nholds = "crd"\npaper = "kraft"\n[[extra]]'),
    ):
        assert old in GOOD
        assert len(told(GOOD.replace(old, new, 1))) == 1, new


def test_what_is_not_there_is_told_where_it_is_first_named_with_the_other_lines() -> None:
    lid = '[[part]]\nname = "lid"\nform = "lift-off lid"\ncovers = "bxo"\npaper = "kratf"\n'
    band = '[[part]]\nname = "band"\nform = "belly band"\nwraps = "bxo"\npaper = "kratf"\n'
    assert told(GOOD + lid + band) == [
        "box.toml, line 27, part \"lid\": covers: there is nothing called 'bxo' in this kit (named in line 32 too). "
        "Did you mean 'box'?",
        "box.toml, line 28, part \"lid\": paper: there is no paper 'kratf' in this kit (named in line 33 too). "
        "Did you mean 'kraft'?",
    ]


def test_mistakes_in_a_misspelt_table_are_told_with_their_own_lines() -> None:
    bad = GOOD.replace('[[part]]\nname = "box"', '[[prat]]\nname = "box"').replace('"tray"', '"tary"')
    assert told(bad) == [
        "box.toml, line 15: There is no table or key 'prat' at this level. Did you mean 'part'?",
        "box.toml, line 17, part \"box\": form: there is no form 'tary'. Did you mean 'tray'?",
    ]


def test_all_mistakes_are_told_together_in_the_order_of_their_lines() -> None:
    bad = GOOD.replace("80 lb cover", "80 cover").replace("flat card", "flt card").replace("5/16 x 5/16", "0 x 5/16")
    lines = told(bad.replace('"card"\npaper', '"crad"\npaper'))
    assert [line.split(",")[1].strip() for line in lines] == ["line 7", "line 11", "line 18", "line 23"]


def test_of_very_many_mistakes_the_first_hundred_are_told_and_how_many_more_there_are() -> None:
    lines = told(GOOD + '[[extra]]\nname = "pen"\nsize = "1 x 1 x 1"\n' + "".join(f"odd{n} = 1\n" for n in range(130)))
    assert len(lines) == 101
    assert lines[-1] == "box.toml, line 126: There are 30 more mistakes after this. Mend these first."


def test_a_long_circle_is_told_once_and_whole() -> None:
    ring = "".join(
        f'[[part]]\nname = "{name}"\nform = "tray"\nholds = "{inner}"\npaper = "kraft"\n'
        for name, inner in (("a", "b"), ("b", "c"), ("c", "a"), ("d", "a"))
    )
    assert told(GOOD + ring) == [
        "box.toml, line 24, part \"a\": These go in a circle: 'a', which needs 'b', which needs 'c', which needs 'a'. "
        "Take one of these relations out."
    ]


def test_a_kit_without_parts_says_so() -> None:
    assert told(GOOD[: GOOD.index("[[part]]")]) == [
        "box.toml, line 1: There is no part in this kit. Add one under the heading [[part]]."
    ]


@pytest.mark.parametrize("text", ["", " \n\t\n", "\ufeff"])
def test_an_empty_document_says_how_to_begin(text: str) -> None:
    assert told(text) == [
        'box.toml: This document is empty. Begin with [kit], a name and the units, or start one with "kitwright new".'
    ]


def test_another_encoding_is_named_as_far_as_it_can_be_known() -> None:
    assert told_bytes(GOOD.replace("pencil", "Stiftühle").encode("latin-1")) == (
        "box.toml, line 22: This file is not saved as UTF-8. Save it as UTF-8: most editors offer the encoding when saving."
    )
    assert "saved as UTF-16, not as UTF-8" in told_bytes(GOOD.encode("utf-16"))
    assert "This file is not a text." in told_bytes(b"PK\x03\x04\x00\x00")


def test_a_large_file_is_refused_before_it_is_read() -> None:
    assert told_bytes(b"[" * (LARGEST_DOCUMENT + 1)) == (
        "box.toml: This file is larger than 1 MB, and a kit document is a short text. "
        "Choose the kit document (a .toml file)."
    )


def test_a_text_may_be_as_long_as_a_file() -> None:
    room = LARGEST_DOCUMENT - len(GOOD.encode())
    lines = "# é\n" * (room // 5)
    assert read_kit(GOOD + lines + "\n" * (room % 5)) == read_kit_bytes((GOOD + lines).encode())
    assert told(GOOD + lines + "\n" * (room % 5 + 1)) == [
        "box.toml: This document is 1,000,001 bytes long, and a kit document may be 1,000,000 bytes long. "
        "Take out what does not belong to the kit."
    ]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("a = " + "[" * 400 + "]" * 400, "There is no table or key 'a' at this level."),
        ("a = " + "[" * 2400 + "]" * 2400, "Lists and tables are nested too deeply."),
        ("a = " + "9" * 4400, "A number in this document has too many digits."),
        ("a." * 2600 + "a = 1", "This line has more than 5,000 signs"),
        (GOOD.replace('"6 x 4"', "0x" + "f" * 4000), "size: This number is far too large."),
        (GOOD.replace('"6 x 4"', "1e999999"), "is not a unit known here"),
        (GOOD.replace('"6 x 4"', "nan"), "size: 'nan' is not a length that can be read."),
        (GOOD.replace('"6 x 4"', "1979-05-27"), "size: This is a date or time, and a number is needed."),
        (GOOD.replace('"6 x 4"', '"' + "9" * 4400 + '"'), "is longer than 200 signs"),
        (GOOD.replace('"card"', '"""a\nb"""'), "holds a line break or a sign that cannot be printed"),
        ('part = ["a"]\n' + GOOD[: GOOD.index("[[part]]")], "This part is no table."),
        (GOOD.replace("[paper.kraft]", '[paper." "]'), "The word of this paper cannot be used."),
        ("paper = 3\n" + GOOD.replace("[paper.kraft]", "[other]"), "paper is no table."),
    ],
)  # fmt: skip
def test_absurd_values_get_a_sentence_too(text: str, says: str) -> None:
    assert says in "\n".join(told(text))
