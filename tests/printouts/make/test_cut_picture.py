"""The picture of a cut: the paper as it lies at the guide, every cut where the ruler says, every piece with its name."""

from __future__ import annotations

import pytest
from tests.kit.documents import head, part

from kitwright.cutting import BenchStep, to_mm
from kitwright.kit import read_kit
from kitwright.plan import Plan, plan
from kitwright.printouts.drawing import Dimension, Label, Line, Polygon, Role
from kitwright.printouts.ink import Text, ink_of
from kitwright.printouts.make.bench_words import step_words
from kitwright.printouts.make.cut_picture import cut_marks, order_drawing
from kitwright.printouts.make.left_over import left_over_sentences

SMALL = head(sheet="12 x 12", more='margins = { left = "1/2" }') + part("card", "flat card", size="5 x 7", quantity=2)
LONG = (
    head(units="mm", ruler="1", sheet="450 x 640", caliper="0.3", more='margins = "5"')
    + part("card", "flat card", size="105 x 148", quantity=2)
    + '[kit.trimmer]\nlongest-cut = "460"\n'
)
"""A sheet that is cut across before its margins come off."""


@pytest.fixture(scope="module", params=[SMALL, LONG])
def made(request: pytest.FixtureRequest) -> Plan:
    return plan(read_kit(request.param), batch=1)


def steps(made: Plan) -> tuple[BenchStep, ...]:
    (paper,) = made.papers
    return paper.steps


def test_every_cut_stands_where_the_guide_says_and_the_paper_ends_where_it_does(made: Plan) -> None:
    for step in steps(made):
        marks = list(cut_marks(step, made.ruler))
        guide = float(to_mm(step.guide))
        cuts = [mark for mark in marks if isinstance(mark, Line) and mark.role is Role.ACTION]
        assert [mark.start[0] for mark in cuts] == pytest.approx([guide * n for n in range(1, step.repeats + 1)])
        (outline,) = (mark for mark in marks if isinstance(mark, Polygon) and mark.role is Role.OUTLINE)
        wide, high = outline.points[2]
        assert {round(wide, 6), round(high, 6)} == {
            round(float(to_mm(side)), 6) for side in (step.take.width, step.take.height)
        }
        assert high == pytest.approx(float(to_mm(step.length)))  # the blade runs right across
        (number,) = (mark for mark in marks if isinstance(mark, Dimension))
        assert number.text == made.ruler.format(guide)


def test_the_pieces_of_a_cut_fill_the_paper_and_bear_their_names(made: Plan) -> None:
    for step in steps(made):
        marks = list(cut_marks(step, made.ruler))
        pieces = [m for m in marks if isinstance(m, Polygon) and m.role in (Role.PIECE, Role.BLANK, Role.OFFCUT)]
        area = sum((m.points[2][0] - m.points[0][0]) * (m.points[2][1] - m.points[0][1]) for m in pieces)
        assert area == pytest.approx(float(to_mm(step.take.width)) * float(to_mm(step.take.height)))
        named = [mark.text for mark in marks if isinstance(mark, Label)]
        assert len(named) == len(step.gives)
        assert all(piece.piece in named for piece in step.gives if piece.piece)


def test_the_order_says_of_every_cut_what_is_taken_and_where_the_guide_stands(made: Plan) -> None:
    drawing = order_drawing(steps(made), made.ruler)
    told = [each.text for each in ink_of(drawing) if isinstance(each, Text)]
    for number, step in enumerate(steps(made), 1):
        assert any(text.startswith(f"{number}. ") and step.take.mark in text for text in told)
    assert sum(text.startswith("guide at ") for text in told) == len(steps(made))


def test_what_is_left_over_with_its_margins_is_told_so() -> None:
    long = plan(read_kit(LONG))
    (paper,) = long.papers
    gives = [step_words(step, long.ruler)[-1] for step in paper.steps]
    assert [words for words in gives if "left over" in words] == [
        "strip A1; left over, margins and all",
        "2 × card; left over",
    ]
    note = "These sizes are without margins, which are still on where the order of cuts says so."
    assert note in tuple(left_over_sentences(paper, long.ruler))
    small = plan(read_kit(SMALL))
    assert note not in tuple(left_over_sentences(small.papers[0], small.ruler))
