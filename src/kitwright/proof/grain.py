"""Folds across the grain of the paper: which they are as the blank lies on its sheet, and whether the card is too heavy for them.

Millimetres. A fold along the grain is smooth, a fold across it may crack (Roberts & Etherington, *Bookbinding and the Conservation of
Books*, "grain").
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from kitwright.findings import Finding, Reading, Severity, judged
from kitwright.paper import SCORE_ABOVE, Fibres, Paper, fibres_in_blank, fold_strain
from kitwright.pattern import Blank, Pattern, Score

__all__ = ["CRACKS_ABOVE", "check_grain", "scores_across"]

CRACKS_ABOVE: Final = 2 * SCORE_ABOVE
"""Card thicker than this (0.010 in) may crack where it is folded flat across the grain. Common practice, no source."""

SCORED: Final = (
    "what is thicker than 0.005 in or folded across the grain is scored: a printer's published folding guide; that a right angle counts "
    "half: common practice, no source"
)
CRACKED: Final = "heavy card folded flat across the grain may crack, at a right angle at twice the thickness: common practice, no source"


def scores_across(blank: Blank, fibres: Fibres | None) -> tuple[Score, ...]:
    """The scores of a blank that run rather across its fibres than along them; none where the grain is not known."""
    if fibres is None:
        return ()
    axis = 0 if fibres is Fibres.WIDTH else 1
    return tuple(s for s in blank.scores if abs(s.end[axis] - s.start[axis]) < abs(s.end[1 - axis] - s.start[1 - axis]))


def check_grain(
    about: str, pattern: Pattern, paper: Paper, *, turns: tuple[int, ...], asked: Fibres | None
) -> Iterator[Finding]:
    """Whether the grain runs as it is asked to, and whether the folds across it can crack.

    `turns` are the quarter turns with which the blanks may lie on a sheet; of several the worst counts. Nothing is found out, and
    nothing is said, where the grain of the paper is not known, but that what is asked cannot be kept.
    """
    if asked is not None:
        yield as_asked(about, paper, turns, asked)
    if paper.grain_runs_up is None or not any(blank.scores for blank in pattern.blanks):
        return
    ways = dict.fromkeys(fibres_in_blank(paper, turn) for turn in turns)
    crossing = {
        way: [score for blank in pattern.blanks for score in scores_across(blank, way) if score.angle] for way in ways
    }
    strained = max(crossing.values(), key=lambda scores: (hardest(paper, scores), len(scores)))
    strain = hardest(paper, strained)
    if not strained:
        reading = Reading(0.0, SCORE_ABOVE, SCORED, is_upper_limit=True)
        yield judged("scores-and-grain", Severity.OK, about, "All its scores run along the grain.", reading)
        return
    may = "may run" if len(ways) > 1 else "runs" if len(strained) == 1 else "run"
    words = f"{score_words(strained)} {may} across the grain"
    if strain <= SCORE_ABOVE:
        reading = Reading(strain, SCORE_ABOVE, SCORED, is_upper_limit=True)
        yield judged("scores-and-grain", Severity.OK, about, f"{words}; it is thin enough to fold.", reading)
    elif strain <= CRACKS_ABOVE:
        reading = Reading(strain, SCORE_ABOVE, SCORED, is_upper_limit=True)
        told = f"{words}: score deeper there, in two light passes."
        yield judged("scores-and-grain", Severity.NOTE, about, told, reading)
    else:
        reading = Reading(strain, CRACKS_ABOVE, CRACKED, is_upper_limit=True)
        told = f"{words}, and card so heavy may crack there: score deeper, in two or three passes, and fold slowly."
        yield judged("scores-and-grain", Severity.WARNING, about, told, reading)


def as_asked(about: str, paper: Paper, turns: tuple[int, ...], asked: Fibres) -> Finding:
    """Whether the fibres run along the side of the blank that was asked for."""
    if paper.grain_runs_up is None:
        words = f"Its grain is asked to run along the {asked.value} of the blank, but the grain of {paper.label} is not known."
        told = f"{words} Bend a sheet both ways: where it bends more easily, the fold lies along the grain."
        return Finding("grain-as-asked", Severity.NOTE, about, told, because="common practice, no source")
    if all(fibres_in_blank(paper, turn) is asked for turn in turns):
        words = f"The grain runs along the {asked.value} of the blank, as asked."
        return Finding("grain-as-asked", Severity.OK, about, words, because="geometry")
    words = f"Its grain is asked to run along the {asked.value} of the blank, but its one-way print lets it lie only the other way."
    return Finding("grain-as-asked", Severity.FAIL, about, words, because="geometry")


def hardest(paper: Paper, scores: list[Score]) -> float:
    """The greatest strain among folds, mm; 0 where there is none."""
    return max((fold_strain(paper, angle=score.angle) for score in scores), default=0.0)


def score_words(scores: list[Score]) -> str:
    """Scores by the panels that they fold: `The score of the back`, `The scores of the back, the flap and 2 more`."""
    names = list(
        dict.fromkeys(f"the {score.child}" for score in sorted(scores, key=lambda s: (-abs(s.angle), -s.length)))
    )
    if len(names) == 1:
        return f"The score{'s' if len(scores) > 1 else ''} of {names[0]}"
    told = names if len(names) <= 3 else [*names[:2], f"{len(names) - 2} more"]
    return f"The scores of {', '.join(told[:-1])} and {told[-1]}"
