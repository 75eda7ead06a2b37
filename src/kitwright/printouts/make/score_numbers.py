"""The scores of a blank numbered in the order in which they are set at the bench, and the numbers as marks round its drawing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kitwright.measure import Ruler
from kitwright.pattern import Blank, FoldWay, RuleSide, Score, score_chart, scores_at
from kitwright.printouts.drawing import Mark, Role, Running

__all__ = ["NumberedScore", "numbered_scores", "score_rings"]

WAY_WORDS = {FoldWay.VALLEY: "valley, towards you", FoldWay.MOUNTAIN: "mountain, away from you"}
"""How a score folds, seen from the print side."""


@dataclass(frozen=True, slots=True)
class NumberedScore:
    """One setting of the scoring tool: its number at the bench, the scores it makes, and where it stands on the drawing.

    `at` is in mm from the left (`side` width) or from below (height), print side up; `side` None for a score that runs aslant.
    """

    number: int
    scores: tuple[Score, ...]
    side: RuleSide | None
    at: float

    def words(self, ruler: Ruler) -> str:
        """`Score 2, at 8 1/4 in from the left: valley, towards you`."""
        where = {
            RuleSide.WIDTH: f", at {ruler.with_unit(self.at)} from the left",
            RuleSide.HEIGHT: f", at {ruler.with_unit(self.at)} from below",
            None: ", aslant",
        }[self.side]
        return f"Score {self.number}{where}: {WAY_WORDS[self.scores[0].way]}"


def numbered_scores(blank: Blank) -> tuple[NumberedScore, ...]:
    """Every setting of a blank, pass after pass, then each score that runs aslant."""
    chart = score_chart(blank)
    settings = [
        (
            scores_at(blank, one, mark),
            one.side,
            one.length - mark.at if one.way is FoldWay.VALLEY else mark.at,
        )
        for one in chart.passes
        for mark in one.marks
    ]
    slanting = [((score,), None, 0.0) for score in chart.aslant]
    return tuple(NumberedScore(n, *each) for n, each in enumerate([*settings, *slanting], 1))


def score_rings(blank: Blank) -> Iterator[Mark]:
    """The numbers in rings above and to the right of the blank; that of a slanting score on the score itself."""
    width, height = blank.size
    stops: dict[RuleSide, list[tuple[float, str]]] = {RuleSide.WIDTH: [], RuleSide.HEIGHT: []}
    for each in numbered_scores(blank):
        if each.side is None:
            (one,) = each.scores
            middle = ((one.start[0] + one.end[0]) / 2, (one.start[1] + one.end[1]) / 2)
            yield Running(middle, one.end, ((0.0, str(each.number)),), offset=0.5, role=Role.NOTE, ringed=True)
        else:
            stops[each.side].append((each.at, str(each.number)))
    ways = (
        (RuleSide.WIDTH, (0.0, height), (width, height), 2.5),
        (RuleSide.HEIGHT, (width, 0.0), (width, height), -2.5),
    )
    for side, start, end, offset in ways:
        if stops[side]:
            yield Running(start, end, tuple(sorted(stops[side])), offset=offset, role=Role.NOTE, ringed=True)
