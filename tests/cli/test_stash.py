"""`kitwright stash` and what `kitwright sheets` says of offcuts, stacks and equal layouts."""

import json
from pathlib import Path

import pytest

from tests.cli.running import Run

KIT = """
[kit]
name = "Cards"
units = "in"

[paper.kraft]
label = "Kraft"
sheet = "12 x 12"
weight = "80 lb cover"
caliper = "0.011"
on-hand = 4

[[part]]
name = "card"
form = "flat card"
size = "5 x 7"
paper = "kraft"
quantity = 2
"""
OFFCUT = """
[[offcut]]
paper = "kraft"
size = "5 x 14"
"""


def flowing(table: str) -> str:
    """What stands in the cells of a printed table, without its rules and line ends."""
    return " ".join(table.replace("│", " ").split())


@pytest.fixture
def kit(tmp_path: Path) -> Path:
    path = tmp_path / "cards.toml"
    path.write_text(KIT, encoding="utf-8")
    return path


def test_stash_tells_how_many_kits_can_be_made_and_what_one_more_takes(run: Run, kit: Path) -> None:
    # three 5 × 7 come from a 12 × 12 by through cuts (geometry), so four sheets make six kits of two
    call = run("stash", str(kit))
    assert "6 kits can be made from what is on hand.\nFor 7, 1 more sheet of Kraft is needed.\n" in call.out
    assert call.code == 0


def test_an_offcut_in_the_document_makes_one_kit_more(run: Run, kit: Path) -> None:
    kit.write_text(KIT + OFFCUT, encoding="utf-8")
    assert "7 kits can be made from what is on hand." in run("stash", str(kit)).out


def test_stash_tells_what_to_buy_for_a_number_of_kits(run: Run, kit: Path) -> None:
    call = run("stash", str(kit), "--kits", "12", "--json")
    said = json.loads(call.out)
    assert (said["kits"], said["proved_most"], said["kits_wanted"]) == (6, True, 12)
    assert said["papers"][0]["to_buy"] == 4
    assert said["papers"][0]["missing_for_one_more"] == 1
    assert call.code == 1


def test_what_the_trimmer_cannot_cut_is_told_with_that_reason_and_not_as_nothing_to_buy(run: Run, kit: Path) -> None:
    # 5 × 7 from 12 × 12 begins with a cut of 12
    text = KIT.replace("[paper.kraft]", '[kit.trimmer]\nlongest-cut = "11"\n\n[paper.kraft]')
    kit.write_text(text, encoding="utf-8")
    out = run("stash", str(kit), "--kits", "1").out
    assert "For 1, more sheets of Kraft would not help: the trimmer cannot make the cuts that free card.\n" in out
    assert "cannot be made: the trimmer" in flowing(out)
    said = json.loads(run("stash", str(kit), "--kits", "1", "--json").out)["papers"][0]
    assert (said["to_buy"], said["cannot_be_cut"]) == (None, ["card"])
    assert "Nothing could be placed." in flowing(run("sheets", str(kit)).out)
    kit.write_text(text.replace("5 x 7", "5 x 13"), encoding="utf-8")
    assert "more sheets of Kraft would not help: card is too large for them." in run("stash", str(kit)).out


def test_a_document_that_says_nothing_of_what_is_on_hand_is_asked_for_it(run: Run, kit: Path) -> None:
    kit.write_text(KIT.replace("on-hand = 4\n", ""), encoding="utf-8")
    call = run("stash", str(kit))
    assert call.code == 2
    assert "Add on-hand = 12 under a paper, or [[offcut]] with paper and size." in call.err


def test_sheets_uses_offcuts_first_and_says_so(run: Run, kit: Path) -> None:
    kit.write_text(KIT + OFFCUT, encoding="utf-8")
    paper = json.loads(run("sheets", str(kit), "--kits", "4", "--json").out)["papers"][0]
    assert (paper["sheets"], paper["offcuts_used"]) == (2, 1)
    assert "2 sheets and 1 offcut on hand. No plan can do with fewer sheets." in flowing(
        run("sheets", str(kit), "--kits", "4").out
    )


def test_sheets_names_what_is_left_over_and_whether_it_is_worth_keeping(run: Run, kit: Path) -> None:
    out = run("sheets", str(kit)).out
    # two 5 × 7 take 7 × 10 of 12 × 12, so that 12 × 5 and 2 × 7 are left (geometry)
    assert "Kraft: Left over and worth keeping: 5 × 12 in, 1 piece; 7 × 2 in, 1 piece." in out


def test_every_kit_by_the_same_layouts_is_told_with_its_price(run: Run, kit: Path) -> None:
    paper = json.loads(run("sheets", str(kit), "--kits", "6", "--alike", "--json").out)["papers"][0]
    assert (paper["sheets"], paper["same_for_every_kit_costs_sheets"]) == (6, 2)
    words = flowing(run("sheets", str(kit), "--kits", "6", "--alike").out)
    assert "That is 2 more than if kits share sheets." in words


def test_a_stack_is_told_in_the_cuts(run: Run, kit: Path) -> None:
    stack = '[kit.trimmer]\nstack = "1/16"\n\n[paper.kraft]'
    kit.write_text(KIT.replace("[paper.kraft]", stack), encoding="utf-8")
    # 1/16 in hold five sheets of 0.011 in; 21 kits take 14 sheets
    out = run("sheets", str(kit), "--kits", "21", "--cuts").out
    assert "×14, 5 at a time" in out
