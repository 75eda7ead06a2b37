"""How a form says what it is, and how it is found."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest

import kitwright.catalogue
import kitwright.forms  # fills the catalogue
from kitwright.catalogue import (
    CATALOGUE,
    Following,
    Form,
    Greatest,
    Least,
    Parameter,
    Share,
    choice,
    default_words,
    followed,
    form,
    get,
    length,
    parameters,
)
from kitwright.errors import Mistake
from kitwright.measure import MM_PER_INCH, Ruler, Unit
from kitwright.pattern import Axis, Draft, Pattern


@pytest.fixture
def own_catalogue(monkeypatch: pytest.MonkeyPatch) -> Iterator[dict[str, type[Form]]]:
    """A catalogue of its own for forms made in tests."""
    forms: dict[str, type[Form]] = {}
    monkeypatch.setattr(kitwright.catalogue, "_FORMS", forms)
    yield forms


def slat() -> type[Form]:
    """A form made for these tests."""

    @form("slat", title="Slat", summary="A strip of card.", size={"width": Axis.WIDTH})
    class Slat(Form):
        """A strip."""

        width: float = length("Width", at_least=10, at_most=200)
        end_hem: float = length("End hem", at_least=2, at_most=50, default=Share("width", 0.25), help="at both ends")
        ends: str = choice("Ends", "straight", "slanted")

        def draw(self) -> Pattern:
            """One panel."""
            draft = Draft("slat")
            draft.panel("front", self.width, self.end_hem)
            return Pattern((draft.finish(),))

    return Slat


def test_a_form_is_found_by_its_key_and_knows_its_names(own_catalogue: dict[str, type[Form]]) -> None:
    made = slat()
    assert own_catalogue == {"slat": made}
    assert (made.key, made.title, made.summary) == ("slat", "Slat", "A strip of card.")
    assert dict(made.size) == {"width": Axis.WIDTH}


def test_the_parameters_of_a_form_are_told_in_the_order_of_their_declaration(
    own_catalogue: dict[str, type[Form]],
) -> None:
    assert parameters(slat()) == (
        Parameter("width", "Width", "", None, 10, 200),
        Parameter("end_hem", "End hem", "at both ends", Share("width", 0.25), 2, 50),
        Parameter("ends", "Ends", "", "straight", choices=("straight", "slanted")),
    )


def test_a_parameter_is_written_without_underscores(own_catalogue: dict[str, type[Form]]) -> None:
    assert [parameter.word for parameter in parameters(slat())] == ["width", "end hem", "ends"]


def test_a_key_is_taken_only_once(own_catalogue: dict[str, type[Form]]) -> None:
    slat()
    with pytest.raises(ValueError, match="there is a form 'slat' already"):
        slat()


def test_a_form_takes_its_values_by_name_and_cannot_be_changed(own_catalogue: dict[str, type[Form]]) -> None:
    make: Any = slat()
    made = make(width=100, end_hem=20)
    assert made == make(width=100, end_hem=20, ends="straight")
    with pytest.raises(dataclasses.FrozenInstanceError):
        made.width = 90
    with pytest.raises(TypeError):
        make(end_hem=20)
    with pytest.raises(TypeError):
        make(100, 20)


def test_a_form_without_rules_has_no_findings(own_catalogue: dict[str, type[Form]]) -> None:
    make: Any = slat()
    assert list(make(width=100, end_hem=20).rules()) == []


def test_an_undrawn_form_says_so() -> None:
    with pytest.raises(NotImplementedError):
        Form().draw()


def test_a_misspelt_form_is_refused_with_the_nearest_known_one() -> None:
    with pytest.raises(Mistake, match="There is no form 'trai'") as refused:
        get("trai")
    assert "tray" in refused.value.do


def test_a_known_form_is_given() -> None:
    assert get("tray").title == "Tray"


def test_the_catalogue_cannot_be_written_to() -> None:
    with pytest.raises(TypeError):
        CATALOGUE["slat"] = Form  # type: ignore[index]


BY_DEPTH = Share("depth", 0.4)


@pytest.mark.parametrize(
    ("default", "depth", "comes_to"),
    [
        (12.5, 20.0, 12.5),
        (BY_DEPTH, 20.0, 8.0),
        (Share("depth", 0.25, more=3.0), 20.0, 8.0),
        (Least((12.5, BY_DEPTH)), 20.0, 8.0),
        (Least((12.5, BY_DEPTH)), 50.0, 12.5),
        (Greatest((12.5, BY_DEPTH)), 20.0, 12.5),
        (Greatest((12.5, BY_DEPTH)), 50.0, 20.0),
    ],
)
def test_a_default_follows_other_parameters(default: float | Following, depth: float, comes_to: float) -> None:
    assert followed(default, {"depth": depth}) == pytest.approx(comes_to)


def test_a_default_is_told_in_the_units_of_the_ruler() -> None:
    rulers = (Ruler(Unit.INCH, MM_PER_INCH / 16), Ruler(Unit.MILLIMETRE, Fraction(1, 2)))
    assert default_words(12.7, rulers) == "1/2 in / 12.5 mm"
    assert default_words(Least((12.7, BY_DEPTH)), rulers) == "1/2 in / 12.5 mm or 40 % of the depth, whichever is less"
    assert default_words(Greatest((BY_DEPTH, Share("side_tab", 0.5, more=6.0))), rulers[1:]) == (
        "40 % of the depth or 50 % of the side tab and 6 mm more, whichever is more"
    )
