"""The maker's accuracy in a kit document: read, usual where nothing is said, refused where it cannot be meant."""

from __future__ import annotations

import pytest
from tests.kit.documents import finding, head, part

from kitwright.errors import Mistakes
from kitwright.findings import Severity
from kitwright.kit import read_kit
from kitwright.proof.tolerance import USUAL_ACCURACY, Accuracy, accuracy_with

BOX = part("tray", "tray", size="6 x 4 x 2") + part(
    "lid", "lift-off lid", covers="tray", tabs="outside", size="6 1/16 x 4 1/16"
)


def kit_with(accuracy: str, *, units: str = "in") -> Accuracy:
    return read_kit(document(accuracy, units=units)).accuracy


def document(accuracy: str, *, units: str = "in") -> str:
    return (head(units=units) if units == "in" else head(units="mm", ruler="1", caliper="0.3")).replace(
        "[paper.card]", f"[kit.accuracy]\n{accuracy}\n[paper.card]"
    ) + part("tray", "tray", size="6 x 4 x 2" if units == "in" else "150 x 100 x 50")


def test_a_kit_that_says_nothing_is_made_with_the_usual_accuracy() -> None:
    assert read_kit(head() + BOX).accuracy == USUAL_ACCURACY
    assert kit_with("") == USUAL_ACCURACY


def test_tools_have_their_accuracy_and_what_is_said_goes_before() -> None:
    assert kit_with('cutter = "scissors"') == accuracy_with(cutter="scissors")
    said = kit_with('cutter = "scissors"\nscorer = "cutting machine"\ncut = "1/32"\nfold = "0.2 mm"')
    assert (said.cut, said.score, said.fold, said.glue) == (25.4 / 32, 0.2, 0.2, USUAL_ACCURACY.glue)
    assert said.because == "common practice, no source"


def test_an_accuracy_that_is_said_whole_is_the_makers_own() -> None:
    said = kit_with('cut = "0.1"\nscore = "0.2"\nfold = 0\nglue = "0.3"', units="mm")
    assert (said.cut, said.score, said.fold, said.glue) == (0.1, 0.2, 0.0, 0.3)
    assert said.because == "as the kit says"


@pytest.mark.parametrize(
    ("accuracy", "what"),
    [
        ('cutter = "trimer"', "cutter: 'trimer' is not known here."),
        ('cut = "1 in"', "cut: '1 in' is more than anything can be off."),
        ('cut = "-1"', "cut:"),
        ('cuts = "1"', "There is no key 'cuts' here."),
        ('scorer = "scissors"', "scorer: 'scissors' is not known here."),
    ],
)
def test_what_cannot_be_meant_is_refused_with_its_line(accuracy: str, what: str) -> None:
    with pytest.raises(Mistakes) as refused:
        read_kit(document(accuracy))
    (mistake,) = refused.value.mistakes
    assert mistake.what.startswith(what)
    assert document(accuracy).splitlines()[mistake.place.line - 1] == accuracy  # type: ignore[operator]


def test_a_lid_that_goes_on_with_a_board_may_be_too_tight_too_often_with_a_ruler() -> None:
    text = head() + BOX
    assert finding(text, "lid-fit-width").severity is Severity.OK
    rough = text.replace("[paper.card]", '[kit.accuracy]\nscorer = "bone folder and ruler"\n[paper.card]')
    assert finding(rough, "lid-fit-width").severity is Severity.WARNING
