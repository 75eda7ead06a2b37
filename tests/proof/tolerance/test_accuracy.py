"""How accurately a maker works: usual limits by tool, and limits that cannot be meant."""

from __future__ import annotations

import pytest

from kitwright.errors import Mistake
from kitwright.proof.tolerance import CUTTERS, SCORERS, USUAL_ACCURACY, Accuracy, Shape, accuracy_with


def test_the_usual_tools_are_a_trimmer_and_a_scoring_board_and_say_that_nobody_measured_them() -> None:
    assert accuracy_with() == USUAL_ACCURACY
    assert USUAL_ACCURACY.shape is Shape.UNIFORM
    assert USUAL_ACCURACY.because == "common practice, no source"


@pytest.mark.parametrize("cutter", CUTTERS)
@pytest.mark.parametrize("scorer", SCORERS)
def test_each_pair_of_tools_has_its_accuracy(cutter: str, scorer: str) -> None:
    found = accuracy_with(cutter=cutter, scorer=scorer)
    assert (found.cut, found.score) == (CUTTERS[cutter], SCORERS[scorer])
    assert (found.fold, found.glue) == (USUAL_ACCURACY.fold, USUAL_ACCURACY.glue)


def test_a_tool_that_is_not_known_is_refused_with_those_that_are() -> None:
    with pytest.raises(Mistake, match="no tool 'trimer'") as refused:
        accuracy_with(cutter="trimer")
    assert "trimmer" in refused.value.do


@pytest.mark.parametrize("limit", [0.0, 10.0])
def test_nothing_off_at_all_and_the_most_that_is_measured_can_be_meant(limit: float) -> None:
    assert Accuracy(cut=limit, score=limit, fold=limit, glue=limit).cut == limit


@pytest.mark.parametrize("limit", [-0.1, 10.1, float("nan"), float("inf")])
@pytest.mark.parametrize("name", ["cut", "score", "fold", "glue"])
def test_a_limit_that_cannot_be_meant_is_refused(name: str, limit: float) -> None:
    limits = {"cut": 0.1, "score": 0.1, "fold": 0.1, "glue": 0.1, name: limit}
    with pytest.raises(Mistake, match=f"A {name} that is off"):
        Accuracy(**limits)  # type: ignore[arg-type]
