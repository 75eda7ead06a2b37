"""How accurately a maker works with each tool: how far a cut, score, fold or glued edge may be off, up or down, in millimetres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

from kitwright.errors import Mistake
from kitwright.measure import suggestion
from kitwright.proof.tolerance.variation import Shape

__all__ = [
    "CUTTERS",
    "MOST_OFF",
    "SCORERS",
    "USUAL_ACCURACY",
    "USUAL_CUTTER",
    "USUAL_SCORER",
    "Accuracy",
    "accuracy_with",
]

COMMON: Final = "common practice, no source"
USUAL_CUTTER: Final = "trimmer"
USUAL_SCORER: Final = "scoring board"
MOST_OFF: Final = 10
"""Millimetres. What may be off by more is not measured at all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Accuracy:
    """Limits ±mm: of a cut from the edge on the guide, of a score from its mark, of a fold from its score, of a glued edge.

    Errors lie evenly between their limits (`shape`), since nobody knows more of them. `because` names where the numbers are from.
    Raises `Mistake` for limits that cannot be meant.
    """

    cut: float
    score: float
    fold: float
    glue: float
    shape: Shape = Shape.UNIFORM
    because: str = COMMON

    def __post_init__(self) -> None:
        for name in ("cut", "score", "fold", "glue"):
            limit = getattr(self, name)
            if not 0 <= limit <= MOST_OFF:
                raise Mistake(
                    f"A {name} that is off by {limit:g} mm cannot be reckoned with.",
                    do=f"Write how far it may be off, from 0 to {MOST_OFF} mm.",
                )


CUTTERS: Final[Mapping[str, float]] = MappingProxyType(
    {"trimmer": 0.4, "knife and ruler": 0.5, "scissors": 1.0, "cutting machine": 0.2}
)
"""How far a cut may be off, ±mm, by tool. Common practice, no source: 0.4 mm is about 1/64 in."""

SCORERS: Final[Mapping[str, float]] = MappingProxyType(
    {"scoring board": 0.25, "bone folder and ruler": 0.5, "cutting machine": 0.2}
)
"""How far a score may be off its mark, ±mm, by tool. Common practice, no source: a board leads the tool in a groove."""

USUAL_ACCURACY: Final = Accuracy(cut=CUTTERS[USUAL_CUTTER], score=SCORERS[USUAL_SCORER], fold=0.1, glue=0.4)
"""A trimmer and a scoring board, used with care. Common practice, no source."""


def accuracy_with(*, cutter: str = USUAL_CUTTER, scorer: str = USUAL_SCORER) -> Accuracy:
    """The usual accuracy of these tools. Raises `Mistake` for a tool that is not known."""
    for tool, known in ((cutter, CUTTERS), (scorer, SCORERS)):
        if tool not in known:
            raise Mistake(f"There is no tool {tool!r} here.", do=suggestion(tool, known))
    return replace(USUAL_ACCURACY, cut=CUTTERS[cutter], score=SCORERS[scorer])
