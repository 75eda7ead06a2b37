"""Changing a document: what is changed is changed, and everything else stays sign for sign."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.errors import Mistake
from kitwright.findings import Change
from kitwright.kit import apply_changes, new_kit_document, read_kit
from kitwright.kit.edit import quoted, typed
from kitwright.kit.keys import EXTRA_KEYS, KIT_KEYS, OFFCUT_KEYS, PAPER_KEYS, PART_KEYS
from kitwright.kit.syntax import parse_document
from kitwright.measure import Unit
from kitwright.paper import Margins

EXAMPLES = sorted((Path(__file__).parents[2] / "src" / "kitwright" / "examples").glob("*.toml"))

DOCUMENT = """\
# my kit
[kit]
name = "box"   # the name
units = "in"

[paper.kraft]
sheet = "12 x 12"
weight = "80 lb cover"
[paper.kraft.margins]
left = "1/4"

# ---- the card
[[part]]
  name = " card "
  form = "flat card"
  size = "6 x 4"      # finished
  paper = "kraft"
  quantity = 4

# ---- the box
[[part]]
name = "box"
form = "tray"
holds = [
  "card",   # all of them
]
inside = "7 x 5 x 1"
paper = "kraft"
# the end
"""


def test_a_value_is_put_in_place_of_another_and_its_remark_stays() -> None:
    changed = apply_changes(DOCUMENT, [Change("card", "size", "6 x 4 1/2"), Change("card", "quantity", "12")])
    assert changed == DOCUMENT.replace('"6 x 4" ', '"6 x 4 1/2" ').replace("quantity = 4", "quantity = 12")


def test_a_new_key_comes_after_the_last_of_its_table_as_that_is_set_in() -> None:
    changed = apply_changes(
        DOCUMENT,
        [
            Change("card", "turn", "180"),
            Change("kraft", "grain", "long", table="paper"),
            Change("", "ruler", "1/32", table="kit"),
        ],
    )
    assert changed == (
        DOCUMENT.replace("  quantity = 4\n", "  quantity = 4\n  turn = 180\n")
        .replace('weight = "80 lb cover"\n', 'weight = "80 lb cover"\ngrain = "long"\n')
        .replace('units = "in"\n', 'units = "in"\nruler = "1/32"\n')
    )


def test_a_table_under_a_heading_of_its_own_is_changed_there_and_its_remarks_stay() -> None:
    text = DOCUMENT.replace('left = "1/4"\n', 'left = "1/4"  # white\nbottom = \'1/8\'\nright = "1/8"\n')
    wider = apply_changes(
        text, [Change("kraft", "margins", '{ left = "1/2", bottom = "1/8", top = 1 }', table="paper")]
    )
    assert wider == text.replace('"1/4"', '"1/2"').replace('right = "1/8"', "top = 1")
    none = apply_changes(wider, [Change("kraft", "margins", "", table="paper")])
    assert none == wider.replace("left = \"1/2\"  # white\nbottom = '1/8'\ntop = 1\n", "")
    assert read_kit(none).papers["kraft"].margins == Margins()


def test_an_empty_value_takes_the_whole_key_out_and_is_nothing_where_there_is_none() -> None:
    changed = apply_changes(DOCUMENT, [Change("box", "inside", ""), Change("box", "outside", "")])
    assert changed == DOCUMENT.replace('inside = "7 x 5 x 1"\n', "")
    assert apply_changes(DOCUMENT, [Change("box", "holds", "")]) == re.sub(r"(?s)holds = .*?\]\n", "", DOCUMENT)


def test_a_document_that_ends_without_a_line_end_can_be_added_to() -> None:
    text = DOCUMENT.removesuffix("# the end\n").rstrip("\n")
    assert apply_changes(text, [Change("box", "tabs", "outside")]) == text + '\ntabs = "outside"'


def test_windows_line_ends_stay() -> None:
    changes = [Change("card", "turn", "180"), Change("box", "inside", "8 x 5 x 1"), Change("card", "size", "")]
    windows = apply_changes(DOCUMENT.replace("\n", "\r\n"), changes)
    assert windows == apply_changes(DOCUMENT, changes).replace("\n", "\r\n")


def test_the_changed_document_reads_as_the_changed_kit() -> None:
    kit = read_kit(apply_changes(DOCUMENT, [Change("box", "inside", ""), Change("box", "size", "7 x 5 x 1")]))
    assert kit.part("box").sizing.kind.value == "size"


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (Change("bxo", "size", "1 x 1"), "There is no part called 'bxo'. Did you mean 'box'?"),
        (Change("card", "sise", "1 x 1"), "A part has no key 'sise'. Did you mean 'size'?"),
        (Change("plain", "sheet", "1 x 1", table="paper"), "There is no paper called 'plain'. Known are: kraft."),
        (Change("pen", "size", "1 x 1 x 1", table="extra"), "There is no extra in this document."),
        (Change("pen", "size", "1", table="shop"), "There is no shop in this document."),
        (Change("kraft", "margins", "1/2", table="paper"), "The margins of kraft cannot be changed here. Change it by hand"),
    ],
)  # fmt: skip
def test_what_cannot_be_changed_is_told(change: Change, says: str) -> None:
    with pytest.raises(Mistake) as caught:
        apply_changes(DOCUMENT, [change])
    assert str(caught.value).startswith(says)


@pytest.mark.parametrize(
    "text",
    [
        'part = [{name = "box", size = "1 x 1"}]',
        'part = [{name = "box"}]',
    ],
)
def test_a_table_in_braces_is_left_for_the_hand(text: str) -> None:
    with pytest.raises(Mistake, match=r"cannot be changed here\. Change it by hand"):
        apply_changes(text, [Change("box", "size", "2 x 2")])


def test_a_document_that_cannot_be_read_is_told_with_its_line() -> None:
    with pytest.raises(Mistake, match="line 2: "):
        apply_changes("[kit]\nname = box", [Change("", "name", "a", table="kit")])


words = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=12)


@settings(deadline=None, max_examples=150)
@given(words)
def test_any_words_can_be_put_in_quotes_and_read_back(said: str) -> None:
    assert parse_document(f"a = {quoted(said)}") == {"a": said}


@settings(deadline=None, max_examples=100)
@given(st.data())
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_any_change_of_an_example_changes_that_value_and_no_other_line(path: Path, data: st.DataObject) -> None:
    text = path.read_text(encoding="utf-8")
    kit = read_kit(text)
    part = data.draw(st.sampled_from(kit.parts))
    key = data.draw(st.sampled_from(["size", "paper", "on", "form", "name", "hem"]))
    said = data.draw(words)
    before, after = text.split("\n"), apply_changes(text, [Change(part.name, key, said)]).split("\n")
    place = kit.parts.index(part)
    read_back = parse_document("\n".join(after))["part"][place]
    assert read_back[key] == said
    if len(after) == len(before):
        (changed,) = [line for line, (old, new) in enumerate(zip(before, after, strict=True)) if old != new] or [0]
        assert changed == 0 or before[changed].startswith(f"{key} = ")
        assert "#" not in before[changed] or before[changed].split("#")[-1] in after[changed]
    else:
        (added,) = [line for line in range(len(after)) if before == after[:line] + after[line + 1 :]][:1]
        assert after[added].startswith(f"{key} = ")
    back = parse_document(text)["part"][place].get(key, "")
    assert apply_changes("\n".join(after), [Change(said.strip() if key == "name" else part.name, key, back)]) == text


@pytest.mark.parametrize("unit", [Unit.INCH, Unit.MILLIMETRE])
@pytest.mark.parametrize("name", ["Nine tulips", 'My "own" kit', "It's \\ ours", "both \" and '"])
def test_a_new_document_bears_its_name_and_reads(unit: Unit, name: str) -> None:
    kit = read_kit(new_kit_document(name, unit))
    assert (kit.name, kit.unit, len(kit.parts)) == (name, unit, 5)


def test_a_new_document_explains_itself_and_its_remarks_stand_in_one_column() -> None:
    lines = new_kit_document("A", Unit.INCH).splitlines()
    columns = {
        line.index("  # ") + 2 if line[26:28] == "  " else line.rindex(" # ") + 1 for line in lines if "  # " in line
    }
    assert len([line for line in lines if "#" in line]) > 20
    assert columns and max(len(line) for line in lines) <= 132


@pytest.mark.parametrize(("name", "unit"), [("", Unit.INCH), ("a\nb", Unit.INCH), ("a", Unit.CENTIMETRE)])
def test_a_new_document_without_a_name_or_in_centimetres_is_refused(name: str, unit: Unit) -> None:
    with pytest.raises(Mistake):
        new_kit_document(name, unit)


def test_every_key_takes_its_own_example_as_it_is_typed() -> None:
    """What is written with quotes and what without follows from what a key takes."""
    for keys in (KIT_KEYS, PAPER_KEYS, PART_KEYS, EXTRA_KEYS, OFFCUT_KEYS):
        for key in keys.values():
            assert typed(key.name, key.example.strip('"')) == key.example
