"""What a proof of a kit says: which checks are made of which part, and that nothing passes for another."""

from __future__ import annotations

from collections.abc import Iterable

import pytest
from tests.kit.documents import bad, built, finding, findings_of, head, part, quick_findings

from kitwright.findings import Change, Finding, Severity
from kitwright.kit import build, prove, read_kit
from kitwright.kit.change import changed
from kitwright.kit.part_proof import part_proofs
from kitwright.kit.prove import tried_findings
from kitwright.pattern import Axis
from kitwright.proof.tolerance import Makes

INCH = 25.4

ALL = (
    head()
    + part("card", "half-fold card", size="5 1/2 x 4 1/4", fold="top")
    + part("mat", "mat", on="card")
    + part("e", "side-seam envelope", paper="thin", holds="card")
    + part("box", "tray", holds=["card", "mat", "e"])
    + part("lid", "lift-off lid", covers="box")
    + part("band", "belly band", paper="thin", wraps="box")
)


def test_every_part_and_every_relation_is_checked() -> None:
    checked = {(each.code, each.about) for each in prove(built(ALL)).findings}
    for name in ("card", "mat", "e", "box", "lid", "band"):
        assert {(code, name) for code in ("nothing-passes-through", "blank-on-sheet", "on-the-ruler")} <= checked
    for name in ("card", "e", "box", "lid", "band"):
        assert ("folding-motion", name) in checked
    for name in ("e", "box", "lid", "band"):
        assert ("tabs-land", name) in checked
    assert {
        ("mat-on-card", "mat on card"),
        ("envelope-fit", "card in e"),
        ("contents-fit", "contents of box"),
        ("lid-fit-width", "lid over box"),
        ("lid-fit-depth", "lid over box"),
        ("lid-height", "lid over box"),
        ("band-fit-width", "band round box"),
        ("band-fit-depth", "band round box"),
        ("band-place", "band round box"),
    } <= checked


def test_every_finding_names_its_source_and_a_severity_fits_its_margin() -> None:
    for each in prove(built(ALL)).findings:
        assert each.because, each.code
        assert each.message.endswith((".", "up.")), each.message
        if each.margin is not None and each.severity is Severity.OK:
            assert each.margin >= -0.001, each.code
        if each.margin is not None and each.severity is Severity.FAIL:
            assert each.margin < 0, each.code


def test_two_proofs_of_one_kit_are_equal() -> None:
    assert prove(built(ALL)).findings == prove(built(ALL)).findings


def test_an_estimated_thickness_is_noted_once_and_only_for_papers_that_are_used() -> None:
    text = ALL.replace('caliper = "0.006"\n', "").replace(
        "[[part]]", '[paper.spare]\nsheet = "12 x 12"\nweight = "65 lb cover"\n[[part]]', 1
    )
    notes = [each.about for each in quick_findings(built(text)) if each.code == "caliper-estimated"]
    assert notes == ["thin"]


@pytest.mark.parametrize(
    ("lid", "severity"),
    [("6 1/16 x 4 1/16", Severity.OK), ("6 x 4 1/16", Severity.FAIL), ("6 1/4 x 4 1/16", Severity.WARNING)],
)
def test_a_lid_is_judged_on_the_folded_parts_not_on_the_numbers_said(lid: str, severity: Severity) -> None:
    # tray 6 in with its tabs inside measures 6.011 over all; the lid's inside is 0.011 smaller than said: 6 in over 6 does not go on
    text = head() + part("tray", "tray", size="6 x 4 x 2")
    text += part("lid", "lift-off lid", covers="tray", tabs="outside", size=lid)
    assert finding(text, "lid-fit-width").severity is severity
    assert finding(text, "lid-fit-depth").severity is Severity.OK


def test_a_second_layer_of_card_counts() -> None:
    # the lid that goes on with its tabs outside has 0.022 in less inside with two tabs in the way
    text = head() + part("tray", "tray", size="6 x 4 x 2")
    text += part("lid", "lift-off lid", covers="tray", size="6 1/16 x 4 1/16", tabs="inside")
    out = finding(text.replace('tabs = "inside"', 'tabs = "outside"'), "lid-fit-width")
    within = finding(text, "lid-fit-width")
    assert out.measured is not None
    assert within.measured is not None
    assert out.measured - within.measured == pytest.approx(2 * 0.011 * INCH)


CARDS = part("card", "flat card", size="6 x 4", quantity=40)
PEN = '[[extra]]\nname = "pen"\nsize = "6 x 3/8 x 3/8"\npacked = "beside"\n'


def test_what_does_not_go_in_as_a_stack_is_packed_before_it_is_called_a_fail() -> None:
    # 40 cards of 0.011 with a tenth of springback are 0.484 in; a pen lies beside or on them
    text = head() + CARDS + PEN
    holds = {"paper": "card", "holds": ["card", "pen"]}
    beside = finding(text + part("tray", "tray", inside="6 1/8 x 4 1/2 x 1/2", **holds), "contents-fit")  # type: ignore[arg-type]
    assert beside.severity in (Severity.OK, Severity.NOTE, Severity.WARNING)
    on_top = finding(text + part("tray", "tray", inside="6 1/8 x 4 1/16 x 7/8", **holds), "contents-fit")  # type: ignore[arg-type]
    assert on_top.severity in (Severity.OK, Severity.NOTE, Severity.WARNING)
    neither = finding(text + part("tray", "tray", inside="6 1/8 x 4 1/16 x 1/2", **holds), "contents-fit")  # type: ignore[arg-type]
    assert neither.severity is Severity.FAIL


def test_a_box_that_its_contents_only_just_fill_is_a_warning() -> None:
    text = head() + CARDS + part("tray", "tray", inside="6 1/32 x 4 1/32 x 1/2", holds="card")
    assert finding(text, "contents-fit").severity is Severity.WARNING


def test_a_print_is_asked_of_one_way_papers_only_and_turns_with_the_part() -> None:
    def codes(print_: str, turn: int) -> set[str]:
        text = head(more=f'print = "{print_}"') + part("tray", "tray", size="6 x 4 x 2", turn=90 * turn)
        return {each.code for each in quick_findings(built(text)) if each.code.startswith("print-up")}

    assert codes("all-over", 0) == codes("none", 2) == set()
    assert codes("one-way", 0) != codes("one-way", 2)
    assert all(code != "print-up" for code in codes("one-way", 2))


def test_a_kit_is_not_changed_by_looking_for_fixes() -> None:
    text = (
        head() + part("tray", "tray", size="6 x 4 x 2") + part("lid", "lift-off lid", covers="tray", size="5 x 4 x 1")
    )
    kit = read_kit(text)
    made = build(kit)
    before = [dict(each.lengths) for each in made.parts]
    assert bad(prove(made).findings) == bad(prove(made, with_fixes=False).findings) != []
    assert [dict(each.lengths) for each in made.parts] == before


def told(findings: Iterable[Finding]) -> set[tuple[str, str]]:
    return {(each.code, each.about) for each in findings}


def test_what_has_nothing_to_do_with_a_change_is_left_out_and_only_that() -> None:
    groups = [
        part(f"card {group}", "half-fold card", size="5 1/2 x 4 1/4", quantity=2)
        + part(f"mat {group}", "mat", on=f"card {group}", quantity=2)
        + part(f"box {group}", "tray", holds=[f"card {group}"])
        + part(f"lid {group}", "lift-off lid", covers=f"box {group}")
        + part(f"band {group}", "belly band", paper="thin", wraps=f"box {group}", height="1/2")
        for group in "ab"
    ]
    before = built(head() + "".join(groups))
    known, makes = part_proofs(before), Makes(0)
    for change in (
        Change("mat a", "size", "5 x 4"),
        Change("box a", "size", "6 x 5 x 1"),
        Change("band a", "goes", "over the top"),
    ):
        after = build(changed(before.kit, [change]))
        whole = set(tried_findings(after, known=known, makes=makes))
        near = set(tried_findings(after, known=known, makes=makes, near=["lid a"]))
        assert near < whole
        assert told(whole) == told(findings_of(after))
        left_out = whole - near
        assert left_out <= set(findings_of(before))
        assert {name for each in left_out for name in each.parts} == {
            f"{name} b" for name in ("card", "mat", "box", "lid", "band")
        }
        both = set(tried_findings(after, known=known, makes=makes, near=["lid a", "card b"]))
        assert both == whole


@pytest.mark.parametrize("size", ["6 1/2 x 4 1/2 x 1", "4 1/2 x 6 1/2 x 1"])
def test_cards_lie_in_a_tray_along_whichever_side_they_go(size: str) -> None:
    kit = built(
        head() + part("card", "flat card", size="6 x 4", quantity=20) + part("tray", "tray", holds="card", size=size)
    )
    (contents,) = [each for each in prove(kit).findings if each.code == "contents-fit"]
    assert contents.severity is Severity.OK
    assert contents.makings is not None
    assert contents.makings.share == 1
    (block,) = contents.placed
    inside = kit.part("tray").inside
    assert all(side < inside[axis].net for side, axis in zip(block.size, Axis, strict=True))
