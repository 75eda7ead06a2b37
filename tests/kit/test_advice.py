"""What fails and has no fix says why, and what the maker can do, with numbers that hold."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.kit.documents import bad, built, finding, head, part, quick_findings

from kitwright.findings import Finding
from kitwright.kit import prove
from kitwright.kit.advice import where_a_band_goes


def advised(text: str, code: str, about: str | None = None) -> Finding:
    found = finding(text, code, about, with_fixes=True)
    assert found.fix is None
    return found


@pytest.mark.parametrize(
    ("form", "size", "sheet", "at_most"),
    [
        # by hand: a tray of w x d x h is cut from w + 2 h by d + 2 h
        ("tray", "8 x 6 x 2", "11 x 11", {"width": "7", "height": "1 1/2"}),
        ("flat card", "9 x 6", "8 x 8", {"width": "8"}),
        # a half-fold card is twice as wide
        ("half-fold card", "5 x 4", "8 x 8", {"width": "4"}),
        # a band: twice the width and the depth, and the overlap of 1 in
        ("belly band", "4 x 3 x 1", "12 x 12", {"width": "2 1/2", "depth": "1 1/2"}),
    ],
)
def test_a_blank_too_large_for_every_sheet_is_told_how_large_the_part_may_be(
    form: str, size: str, sheet: str, at_most: dict[str, str]
) -> None:
    names = ("width", "depth", "height") if size.count("x") == 2 else ("width", "height")
    words = {"width": "wide", "depth": "deep", "height": "high"}
    found = advised(head(sheet=sheet) + part("piece", form, size=size), "blank-on-sheet")
    assert (
        f"No sheet of this kit is large enough: the largest is card, with {sheet.replace('x', '×')} to use."
        in found.advice
    )
    told = [f"{length} {words[name]}" for name, length in at_most.items()]
    assert f"it can be at most {' or '.join(told)}, its other sides as they are." in found.advice
    for name, length in at_most.items():
        for more, goes in ((0, True), (Fraction(1, 16), False)):
            lengths = dict(zip(names, size.split(" x "), strict=True))
            lengths[name] = str(sum(map(Fraction, length.split()), Fraction(0)) + more)
            whole, rest = divmod(Fraction(lengths[name]), 1)
            lengths[name] = f"{whole} {rest}" if rest else str(whole)
            kit = built(head(sheet=sheet) + part("piece", form, size=" x ".join(lengths.values())))
            assert (("blank-on-sheet", "piece") not in bad(quick_findings(kit))) is goes


def test_where_no_side_alone_helps_the_largest_size_in_the_same_proportions_is_told() -> None:
    found = advised(head(sheet="8 x 8") + part("piece", "flat card", size="12 x 10"), "blank-on-sheet")
    # 67 hundredths of 12 are 8.04, down to the mark 8; of 10 they are 6.7, down to 6 11/16
    assert "From card it can be at most 8 × 6 11/16 in the same proportions." in found.advice


def test_no_size_is_told_that_the_form_refuses() -> None:
    # on paper 3 1/2 in wide a pocket with tabs of 15/16 in could be 1 5/8 in wide, but each may take no more than a third of that
    text = head(sheet="3 1/2 x 12") + part("p", "pocket", size="3 1/2 x 11", tab="15/16")
    found = advised(text, "blank-on-sheet")
    assert "wide" not in found.advice


def test_a_size_that_follows_says_from_what_and_boxes_that_hold_the_same_are_pointed_to() -> None:
    text = head(sheet="8 x 8") + part("card", "flat card", size="7 x 5") + part("box", "tray", holds="card")
    found = advised(text, "blank-on-sheet", "box")
    assert "or make box smaller (its size follows from card)." in found.advice
    assert "kitwright boxes" in found.advice


def test_a_card_that_goes_on_its_sheet_folded_the_other_way_is_told_so() -> None:
    text = head(sheet="7 x 12") + part("card", "half-fold card", size="7 x 5", fold="side")
    found = advised(text, "blank-on-sheet")
    assert 'With fold = "top" it would go on one.' in found.advice


def test_contents_that_cannot_be_given_more_room_are_told_how_many_go_in() -> None:
    # by hand: 100 cards of 0.011 in with a tenth of springback are 1.21 in high. The sheet is large enough for the tray as it is, no more.
    text = head(sheet="7 1/2 x 5 3/4", caliper="0.011") + part("card", "flat card", size="5 x 3 1/4", quantity=100)
    text += part("box", "tray", size="5 1/4 x 3 1/2 x 1", holds="card")
    found = advised(text, "contents-fit")
    assert "the contents need 5 × 3 1/4 × 1 1/4 inside" in found.advice
    many = int(found.advice.partition(" of the 100 × card go in.")[0].rpartition(" ")[2])
    assert "that would mend it, but then box: Its blank of" in found.advice
    for count, fails in ((many, False), (many + 1, True)):
        kit = built(text.replace("quantity = 100", f"quantity = {count}"))
        assert (("contents-fit", "contents of box") in bad(quick_findings(kit))) is fails


def test_a_maker_too_rough_is_told_how_accurate_to_be_or_how_large_the_side_must_be() -> None:
    text = head(units="mm", ruler="0.5", sheet="600 x 600", caliper="0.3")
    text = text.replace("[paper.card]", '[kit.accuracy]\ncut = "10"\n[paper.card]') + part(
        "strip", "flat card", size="90 x 20"
    )
    found = advised(text, "too-rough")
    assert (
        "Work to less than 10 mm, and write that under [kit.accuracy], or make that side at least 20.5 mm."
        in found.advice
    )
    for old, new in (('"10"', '"9.9"'), ("x 20", "x 20.5")):
        assert bad(quick_findings(built(text.replace(old, new)))) == []


def test_only_what_fails_or_was_not_decided_has_advice_and_only_without_a_fix() -> None:
    text = head(sheet="8 x 8") + part("card", "flat card", size="7 x 5", quantity=3) + part("box", "tray", holds="card")
    text += part("lid", "lift-off lid", covers="box", size="6 x 4") + part("piece", "flat card", size="7 x 9")
    for each in prove(built(text)).findings:
        is_amiss = (each.code, each.about) in bad([each])
        assert bool(each.advice) == (is_amiss and each.fix is None), each


@pytest.mark.parametrize(
    ("more", "goes", "says"),
    [
        ("", "round the walls", "Make box higher, or leave band out."),
        ("", "over the top", "Make box wider, or leave band out."),
        ("", "end to end", "Make box deeper, or leave band out."),
        (part("lid", "lift-off lid", covers="box", height="5/8"), "round the walls", "higher, lid shorter, or leave"),
        (
            part("lid", "lift-off lid", covers="box", height="3/8"),
            "round the walls",
            "Make box higher, or leave band out.",
        ),
        (
            part("lid", "lift-off lid", covers="box"),
            "over the top",
            "lid lies there: lay band round lid, or round the walls of box, or leave one of the two out.",
        ),
    ],
)
def test_a_band_without_room_is_told_only_what_makes_room_for_it(more: str, goes: str, says: str) -> None:
    text = head() + part("box", "tray", size="4 x 3 x 1") + more
    kit = built(text + part("band", "belly band", wraps="box", goes=goes, height="5"))
    told = " ".join(where_a_band_goes(kit, kit.part("band")))
    assert says in told
    assert ("shorter" in told) == ("shorter" in says)
