"""Pockets on one face of one part need room side by side: what is proved, told and offered of it."""

from __future__ import annotations

from tests.kit.documents import bad, built, finding, head, part, quick_findings
from tests.kit.test_by_hand import extra

from kitwright.findings import Finding, Severity
from kitwright.kit import apply_changes
from kitwright.kit.likely import likely_fixes

HEAD = head(units="mm", ruler="1", sheet="600 x 600", caliper="0.3")
SEEDS = extra("seeds", "60 x 40 x 1", packed="flat", quantity=20)


def pockets(form: str, count: int, *, size: str = "200 x 150", hosts: int = 1, **keys: str) -> str:
    """So many pockets for twenty packets of seeds on so many cards or boxes."""
    host = part("host", form, size=size, quantity=hosts)
    return HEAD + host + part("pocket", "pocket", on="host", holds="seeds", quantity=count, **keys) + SEEDS


def side_by_side(text: str) -> list[Finding]:
    return [each for each in quick_findings(built(text)) if each.code == "side-by-side"]


def test_twenty_pockets_on_a_card_that_has_room_for_nine_are_not_proved() -> None:
    text = pockets("flat card", 20)
    assert bad(quick_findings(built(text))) == [("side-by-side", "pocket on host")]
    found = finding(text, "side-by-side", with_fixes=True)
    assert "room for 9 at most" in found.message
    assert found.fix is not None
    assert bad(quick_findings(built(apply_changes(text, found.fix.changes)))) == []


def test_no_fix_makes_more_pockets_than_have_room() -> None:
    text = pockets("flat card", 1, size="80 x 60")  # far too many packets for one pocket, and no room for two
    found = finding(text, "thickness", with_fixes=True)
    assert found.severity is Severity.FAIL
    assert found.fix is None or all(change.key != "quantity" for change in found.fix.changes)


def test_each_card_has_its_own_room_and_a_folded_one_has_it_on_both_leaves() -> None:
    assert [each.severity for each in side_by_side(pockets("flat card", 2, size="100 x 70"))] == [Severity.FAIL]
    assert side_by_side(pockets("flat card", 2, size="100 x 70", hosts=2)) == []
    assert [each.severity for each in side_by_side(pockets("half-fold card", 2, size="100 x 70"))] == [Severity.OK]
    assert [each.severity for each in side_by_side(pockets("half-fold card", 3, size="100 x 70"))] == [Severity.FAIL]


def test_pockets_inside_a_lid_do_not_take_room_from_those_on_it() -> None:
    box = HEAD + part("box", "tray", size="150 x 60 x 40") + part("lid", "lift-off lid", covers="box")
    on = "".join(part(name, "pocket", on="lid", size="50 x 40", face=name) for name in ("inside", "outside"))
    assert side_by_side(box + on) == []
    more = on + part("another", "pocket", on="lid", size="104 x 40", face="inside")
    assert [(each.severity, each.about) for each in side_by_side(box + more)] == [
        (Severity.FAIL, "inside and another inside lid")
    ]


def test_nothing_is_left_out_for_a_warning_and_the_maker_is_told_what_to_do_where_nothing_helps() -> None:
    card = HEAD + part("card", "flat card", size="100 x 70")
    close = card + part("wide", "pocket", on="card", size="100 x 35", tab="10")
    close += part("narrow", "pocket", on="card", size="50 x 35", tab="10", quantity=2)
    warned = finding(close, "side-by-side")
    assert warned.severity is Severity.WARNING
    tried = [change.key for fix in likely_fixes(built(close), warned) for change in fix.changes]
    assert "size" in tried
    assert "quantity" not in tried
    far_too_many = finding(pockets("flat card", 9999, size="75 x 50"), "side-by-side", with_fixes=True)
    assert far_too_many.fix is None
    assert "Glue fewer on host" in far_too_many.advice
