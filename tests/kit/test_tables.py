"""Whole tables come and go; every other sign of the document stays."""

from __future__ import annotations

from importlib import resources

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.errors import KitwrightError, Mistake
from kitwright.kit import build, free_paper_word, read_kit, rename_changes, said_in, take_out, with_table
from kitwright.kit.edit import apply_changes
from kitwright.kit.syntax import parse_document
from kitwright.kit.tables import without_table

DOCUMENT = """\
# mine
[kit]
name = "box"
units = "in"

[paper.kraft]
sheet = "12 x 12"
weight = "80 lb cover"
[paper.kraft.margins]
left = "1/4"

# ---- the card
[[part]]
name = "card"
form = "flat card"
size = "6 x 4"      # finished
paper = "kraft"
quantity = 4

# ---- its box
[[part]]
name = "box"
form = "tray"
holds = ["card", "pencil"]
paper = "kraft"

[[part]]
name = "lid"
form = "lift-off lid"
covers = "box"
height = "1/2"
paper = "kraft"

# ---- bought
[[extra]]
name = "pencil"
size = "5 x 1/4 x 1/4"
weight = "6 g"
# the end
"""
EXAMPLES = ("recipe-box", "thank-you-cards", "postcard-set")


def example(name: str) -> str:
    return resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text()


def test_a_table_says_what_would_be_typed_into_its_fields() -> None:
    assert said_in(DOCUMENT.replace('"6 g"', "6.50"), "extra", "pencil")["weight"] == "6.50"
    assert said_in(DOCUMENT, "part", "card") == {
        "name": "card",
        "form": "flat card",
        "size": "6 x 4",
        "paper": "kraft",
        "quantity": "4",
    }
    assert "margins" not in said_in(DOCUMENT, "paper", "kraft")
    assert said_in(DOCUMENT, "paper", "kraft", inside="margins") == {"left": "1/4"}
    assert said_in(DOCUMENT, "part", "card", inside="margins") == {}


def test_a_new_part_stands_after_the_last_part_and_nothing_else_moves() -> None:
    said = {"name": "mat", "form": "mat", "on": "card", "paper": "kraft", "size": ""}
    made = with_table(DOCUMENT, "part", said)
    block = '\n\n[[part]]\nname = "mat"\nform = "mat"\non = "card"\npaper = "kraft"'
    assert made == DOCUMENT.replace('height = "1/2"\npaper = "kraft"\n', f'height = "1/2"\npaper = "kraft"{block}\n')


def test_the_first_thing_to_buy_comes_at_the_end() -> None:
    bare = DOCUMENT[: DOCUMENT.index("# ---- bought")].replace(', "pencil"', "")
    made = with_table(bare, "extra", {"name": "tape", "size": "1 x 1 x 1"})
    assert made == bare.rstrip("\n") + '\n\n[[extra]]\nname = "tape"\nsize = "1 x 1 x 1"\n'


def test_a_new_paper_gets_a_word_that_is_free_and_lines_that_end_as_the_others() -> None:
    text = DOCUMENT.replace("\n", "\r\n")
    word = free_paper_word(text, "Kraft!")
    assert word == "kraft-2"
    made = with_table(text, "paper", {"label": "Kraft!", "sheet": "8 1/2 x 11", "weight": "65 lb cover"}, word=word)
    assert '[paper.kraft-2]\r\nlabel = "Kraft!"\r\n' in made
    assert "\n" not in made.replace("\r\n", "")


def test_a_table_goes_with_the_tables_in_it_and_the_remark_of_the_next_stays() -> None:
    gone = without_table(DOCUMENT, "paper", "kraft")
    assert "kraft]" not in gone
    assert "margins" not in gone
    assert "# ---- the card" in gone
    assert without_table(DOCUMENT, "extra", "pencil").endswith("# ---- bought\n# the end\n")


@pytest.mark.parametrize("table", ["part", "extra"])
def test_a_list_written_in_one_line_is_left_to_the_maker(table: str) -> None:
    text = '[kit]\nname = "k"\nunits = "mm"\n'
    text = f'{table} = [{{ name = "a" }}]\n' + text
    with pytest.raises(Mistake, match="text"):
        without_table(text, table, "a")
    with pytest.raises(Mistake, match="text"):
        with_table(text, table, {"name": "b"})


def test_a_key_that_no_such_table_has_is_refused() -> None:
    with pytest.raises(Mistake, match="no key"):
        with_table(DOCUMENT, "extra", {"name": "a", "sheet": "1 x 1"})


def test_a_renamed_part_takes_its_relations_along() -> None:
    kit = read_kit(DOCUMENT)
    made = read_kit(apply_changes(DOCUMENT, rename_changes(kit, "box", 'the "box"', table="part")))
    assert made.part("lid").covers == 'the "box"'
    held = read_kit(apply_changes(DOCUMENT, rename_changes(kit, "pencil", "pen", table="extra"))).part("box").holds
    assert held == ("card", "pen")


def test_what_followed_from_a_part_that_is_gone_keeps_the_size_it_had() -> None:
    built = build(read_kit(DOCUMENT))
    kit = read_kit(take_out(DOCUMENT, built, "box", table="part"))
    lid = kit.part("lid")
    assert lid.covers is None
    assert build(kit).part("lid").lengths == built.part("lid").lengths


def test_what_only_makes_sense_beside_a_part_goes_with_it() -> None:
    text = DOCUMENT.replace(
        "# ---- bought",
        '[[part]]\nname = "mat"\nform = "mat"\non = "card"\nborder = "1/8"\nface = "outside"\npaper = "kraft"\n'
        '[[part]]\nname = "band"\nform = "belly band"\nwraps = "box"\ngoes = "round the walls"\npaper = "kraft"\n',
    )
    built = build(read_kit(text))
    left = take_out(take_out(text, built, "card", table="part"), built, "box", table="part")
    kit = read_kit(left)
    assert (kit.part("mat").on, kit.part("mat").border, kit.part("band").wraps) == (None, None, None)
    assert "goes" not in left
    assert build(kit).part("mat").lengths == built.part("mat").lengths


def test_a_paper_that_is_used_and_the_only_part_stay() -> None:
    built = build(read_kit(DOCUMENT))
    with pytest.raises(Mistake, match="card, box, lid is cut from"):
        take_out(DOCUMENT, built, "kraft", table="paper")
    alone = DOCUMENT[: DOCUMENT.index("# ---- its box")]
    with pytest.raises(Mistake, match="only part"):
        take_out(alone, build(read_kit(alone)), "card", table="part")


@pytest.mark.parametrize("name", EXAMPLES)
def test_any_part_or_thing_can_be_taken_out_of_a_ready_made_kit_and_it_still_builds(name: str) -> None:
    text = example(name)
    built = build(read_kit(text))
    things = [("part", part.name) for part in built.kit.parts] + [("extra", extra.name) for extra in built.kit.extras]
    for table, thing in things:
        left = take_out(text, built, thing, table=table)
        kit = read_kit(left)
        assert thing not in {*(part.name for part in kit.parts), *(extra.name for extra in kit.extras)}
        assert build(kit).parts
        assert f'"{thing}"' not in left


@settings(deadline=None, max_examples=60)
@given(said=st.dictionaries(st.sampled_from(["name", "size", "weight", "kind"]), st.text(max_size=30), min_size=1))
def test_whatever_is_typed_is_written_so_that_it_reads_back_or_is_refused(said: dict[str, str]) -> None:
    try:
        made = with_table(DOCUMENT, "extra", said)
    except KitwrightError:
        return
    assert parse_document(made)["extra"][-1] == {key: value for key, value in said.items() if value}
    assert made.startswith(DOCUMENT[: DOCUMENT.index("# the end")].rstrip("\n"))
