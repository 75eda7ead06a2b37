"""Bench language: the cut list, the score chart and the order of cuts as sentences, lengths as read off the maker's ruler."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from kitwright.cutting import BenchStep, Holds, TopPoints, to_mm
from kitwright.measure import Ruler, counted
from kitwright.paper import Fibres
from kitwright.pattern import FoldWay, RuleSide, ScoreMark, ScorePass
from kitwright.plan import CutLine
from kitwright.printouts.make.cut_away_words import away_sentences, listed

__all__ = [
    "guide_words",
    "mixed_sentences",
    "pass_sentence",
    "pass_sentences",
    "score_sentences",
    "shape_sentences",
    "step_words",
]


ACROSS: Final = "across the grain: press deeper, in two light passes."
"""What to do where the fibres would rather break than bend. Common practice, no source."""


def score_sentences(
    line: CutLine, ruler: Ruler, *, printed: bool = True, fibres: frozenset[Fibres] = frozenset()
) -> Iterator[str]:
    """The whole score chart of one blank, a sentence a pass, then what is cut away and what needs the template.

    `fibres`: along which sides of the blank the grain runs in its pieces, none where that does not matter or is not known. Scores that
    are set along the rule on just that side run across it.
    """
    yield from pass_sentences(line, ruler, printed=printed, fibres=fibres)
    yield from mixed_sentences(line, fibres)
    yield from shape_sentences(line, ruler)
    if not line.chart.passes and not line.chart.cut_away:
        yield "No scores."


def pass_sentences(
    line: CutLine, ruler: Ruler, *, printed: bool = True, fibres: frozenset[Fibres] = frozenset()
) -> Iterator[str]:
    """One for every pass of the score chart, in its order: how the blank is turned since the last one, and where to score."""
    turned = over = False
    for each in line.chart.passes:
        moves = ["Print side up."] if each is line.chart.passes[0] and printed else []
        if (each.way is FoldWay.VALLEY) != over:
            over = not over
            moves.append("Turn the blank over like a page.")
        if (each.side is RuleSide.HEIGHT) != turned:
            turned = not turned
            moves.append("Turn it a quarter to the right." if turned else "Turn it a quarter back to the left.")
        across = [f"These run {ACROSS}"] if {way.value for way in fibres} == {each.side.value} else []
        yield " ".join([*moves, pass_sentence(each, ruler), *across])


def mixed_sentences(line: CutLine, fibres: frozenset[Fibres]) -> Iterator[str]:
    """What is said of all passes where the grain runs the one way in some blanks and the other way in others."""
    if len(fibres) > 1 and line.chart.passes:
        yield f"On the sheets some of these lie the one way and some the other. Where a score runs {ACROSS}"


def shape_sentences(line: CutLine, ruler: Ruler) -> Iterator[str]:
    """What is done to a blank besides scoring along the rule: what is cut away, and what needs the template."""
    yield from away_sentences(line.blank, line.chart, ruler)
    if line.chart.aslant:
        yield f"{counted(len(line.chart.aslant), 'score runs', 'scores run')} aslant: use the template page."


def pass_sentence(each: ScorePass, ruler: Ruler) -> str:
    """`The 10 1/4 side along the rule: score at 2 and 8 1/4.`"""
    marks = [mark_words(mark, ruler) for mark in each.marks]
    return f"The {ruler.format(each.length)} side along the rule: score at {listed(marks)}."


def mark_words(mark: ScoreMark, ruler: Ruler) -> str:
    """One mark, with its stretches where it must not go all the way."""
    if not mark.runs:
        return ruler.format(mark.at)
    runs = [f"{ruler.format(low)} to {ruler.format(high)}" for low, high in mark.runs]
    return f"{ruler.format(mark.at)} (only from {listed(runs)})"


def step_words(step: BenchStep, ruler: Ruler) -> tuple[str, str, str, str]:
    """A cut as four cells: what is taken, how it lies, where the guide stands, what comes of it."""
    takes = f"sheet {step.take.mark}" if len(step.take.mark) == 1 else f"strip {step.take.mark}"
    if step.sheets > 1:
        stacked = (
            f", {step.at_once} at a time"
            if 1 < step.at_once < step.sheets
            else ", together"
            if step.at_once > 1
            else ""
        )
        takes += f" (×{step.sheets}{stacked})"
    lies = {
        TopPoints.AWAY: "top away from you",
        TopPoints.TOWARDS: "top towards you",
        TopPoints.LEFT: "top to the left",
        TopPoints.RIGHT: "top to the right",
    }[step.top]
    return takes, lies, guide_words(step, ruler), "; ".join(gives_words(step))


def guide_words(step: BenchStep, ruler: Ruler, *, unit: str = "") -> str:
    """`4`, or `4, 2 times` where the cut is made again; with the unit behind the number, `4 in, 2 times`, where no heading says it."""
    at = f"{ruler.format(float(to_mm(step.guide)))} {unit}".strip()
    return at + (f", {step.repeats} times" if step.repeats > 1 else "")


def gives_words(step: BenchStep) -> Iterator[str]:
    """What each side of a cut is."""
    counted: dict[str, int] = {}
    for piece in step.gives:
        if piece.holds is Holds.PART:
            word = piece.piece
        elif piece.holds is Holds.STRIP:
            word = f"strip {piece.mark}"
        else:
            word = "left over, margins and all" if piece.holds is Holds.UNTRIMMED else "left over"
        counted[word] = counted.get(word, 0) + 1
    for word, count in counted.items():
        yield word if count == 1 else f"{count} × {word}"
