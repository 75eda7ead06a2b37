"""Each form's drawing at an ordinary size, against a text kept in `golden/`. `pytest --update-goldens` writes them anew."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.forms.golden_text import as_text, number_text
from tests.strategies import everyday_form

from kitwright.catalogue import CATALOGUE, Form

GOLDEN = Path(__file__).parent / "golden"


def file_of(key: str) -> Path:
    return GOLDEN / f"{key.replace(' ', '-')}.txt"


@pytest.mark.parametrize("form", CATALOGUE.values(), ids=CATALOGUE)
def test_a_forms_drawing_is_the_one_on_record(form: type[Form], updating_goldens: bool) -> None:
    path, drawn = file_of(form.key), as_text(everyday_form(form).draw())
    if updating_goldens:
        path.write_text(drawn, "utf-8")
    assert path.exists(), "no golden text yet: look at the drawing, then run pytest --update-goldens"
    assert drawn.splitlines() == path.read_text("utf-8").splitlines()


def test_no_golden_text_is_left_over() -> None:
    assert {path.name for path in GOLDEN.glob("*.txt")} == {file_of(key).name for key in CATALOGUE}


def test_numbers_in_golden_texts_do_not_depend_on_the_last_place() -> None:
    assert number_text(25.4 * 3) == number_text(76.2) == "76.2"
    assert number_text(-1e-9) == "0"
    assert number_text(100.0) == "100"
