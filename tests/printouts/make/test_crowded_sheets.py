"""Sheets with very many pieces, or very many kinds of them: what their pictures and pages weigh, and that they stay readable."""

from dataclasses import replace
from functools import cache

from tests.printouts.pack_faults import page_faults
from tests.printouts.write.pdf_letters import letters_of

from kitwright.cutting import Placement, placements
from kitwright.kit import read_kit
from kitwright.plan import Plan, plan
from kitwright.printouts.drawing import Callouts, Role, Shapes
from kitwright.printouts.make.bench_pack import Section, bench_pack, bench_pack_source
from kitwright.printouts.make.layout_picture import MOST_APART, blocks_of
from kitwright.printouts.make.sheet_pages import layout_drawing
from kitwright.printouts.page import US_LETTER

HEAD = '[kit]\nname = "Tags"\nunits = "in"\n[paper.card]\nsheet = "60 x 60"\nweight = "110 lb cover"\n'
TAG = '[[part]]\nname = "tag {0}"\nform = "flat card"\npaper = "card"\nquantity = {1}\nsize = "{2} x {3}"\n'


@cache
def one_kind() -> Plan:
    return plan(read_kit(HEAD + TAG.format(1, 4000, "13/16", "1")))


@cache
def many_kinds() -> Plan:
    parts = (TAG.format(number, 60, f"{14 + number % 11}/16", f"{13 + number % 7}/16") for number in range(36))
    return plan(read_kit(HEAD + "".join(parts)))


def test_neighbours_of_one_kind_are_drawn_as_one_where_there_are_very_many() -> None:
    (paper,) = one_kind().papers
    layout = paper.cut_plan.layouts[0]
    lying = placements(layout)
    assert len(lying) > MOST_APART
    blocks = blocks_of(lying)
    assert len(blocks) < 10
    assert sum(each.width * each.height for each in blocks) == sum(each.width * each.height for each in lying)
    drawing = layout_drawing(one_kind(), paper, layout, width=66, height=90)
    marks = [mark for group in drawing.marks for mark in getattr(group, "marks", (group,))]
    (pieces,) = [mark for mark in marks if isinstance(mark, Shapes) and mark.role is Role.PIECE]
    assert len(pieces.outlines) == len(blocks)
    (names,) = [mark for mark in marks if isinstance(mark, Callouts)]
    assert len(names.labels) == len(blocks)


def test_pieces_that_lie_apart_or_another_way_round_are_not_drawn_as_one() -> None:
    first = Placement("tag", 0, 0, 0, 3, 2)
    assert blocks_of([first, replace(first, x=3)]) == (replace(first, width=6),)
    for other in (
        replace(first, x=4),
        replace(first, y=3),
        replace(first, x=3, turn=2),
        replace(first, x=3, piece="b"),
    ):
        assert set(blocks_of([first, other])) == {first, other}


def test_a_picture_of_a_layout_is_in_the_source_once_however_many_cuts_it_has() -> None:
    source = bench_pack_source(many_kinds(), US_LETTER, [Section.SHEETS])
    layouts = sum(len(paper.cut_plan.layouts) for paper in many_kinds().papers)
    assert len(many_kinds().papers[0].steps) > 28
    assert source.count('alt: "Layout ') == layouts


def test_the_picture_of_very_many_kinds_goes_on_its_page() -> None:
    read = letters_of(bench_pack(many_kinds(), US_LETTER, [Section.SHEETS]))
    assert [fault for fault in page_faults(read, US_LETTER) if "footer" in fault or "edge" in fault] == []
