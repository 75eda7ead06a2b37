"""Promises of the whole catalogue, over the whole range of every form's parameters. An author of a form writes no test for these."""

from __future__ import annotations

import ast
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon
from tests.pattern.checks import check_pattern
from tests.pattern.readings import distinct_positions, mark_count, scored_by_mistake, scored_the_wrong_way, times_scored
from tests.strategies import accepted_forms, any_forms, everyday_form, is_accepted

import kitwright.forms
from kitwright.catalogue import (
    CATALOGUE,
    Following,
    Form,
    Greatest,
    Least,
    Parameter,
    Share,
    followed,
    parameters,
)
from kitwright.pattern import Axis, PanelKind, Side, score_chart

FORMS = pytest.mark.parametrize("form", CATALOGUE.values(), ids=CATALOGUE)
PARAMETERS = pytest.mark.parametrize(
    ("form", "parameter"),
    [
        pytest.param(form, parameter, id=f"{key}, {parameter.word}")
        for key, form in CATALOGUE.items()
        for parameter in parameters(form)
    ],
)
FOLDER = Path(kitwright.forms.__file__).parent
ALLOWED = {
    "kitwright.catalogue",
    "kitwright.errors",
    "kitwright.findings",
    "kitwright.measure",
    "kitwright.paper",
    "kitwright.pattern",
}
PLAIN = {"collections.abc", "typing", "__future__"}


@FORMS
@settings(deadline=None, max_examples=60)
@given(data=st.data())
def test_accepted_parameters_give_a_pattern_that_can_be_cut(form: type[Form], data: st.DataObject) -> None:
    made = data.draw(accepted_forms(form))
    assert check_pattern(made.draw()) == ()


@FORMS
@settings(deadline=None, max_examples=30)
@given(data=st.data())
def test_the_areas_add_up(form: type[Form], data: st.DataObject) -> None:
    pattern = data.draw(accepted_forms(form)).draw()
    for blank in pattern.blanks:
        chart = score_chart(blank)
        panels = sum(Polygon(panel.outline, panel.holes).area for panel in blank.panels)
        assert blank.area == pytest.approx(panels, rel=1e-9)
        assert blank.shape.area == pytest.approx(panels, rel=1e-6)
        assert (chart.width, chart.height) == blank.size
        left_over = blank.size[0] * blank.size[1] - blank.area
        # pieces of less than a hundredth of a square millimetre are not told
        assert sum(piece.width * piece.height for piece in chart.cut_away) >= left_over - 0.1
        assert (left_over < 0.1) == (chart.cut_away == ())
    assert pattern.area == pytest.approx(sum(blank.area * blank.copies for blank in pattern.blanks))


@FORMS
@settings(deadline=None, max_examples=40)
@given(data=st.data())
def test_the_score_chart_is_complete_and_sets_no_mark_twice(form: type[Form], data: st.DataObject) -> None:
    for blank in data.draw(accepted_forms(form)).draw().blanks:
        chart = score_chart(blank)
        straight = [score for score in blank.scores if score not in chart.aslant]
        assert [times_scored(chart, score) for score in straight] == [1] * len(straight)
        assert scored_by_mistake(chart, blank) < 0.05
        assert scored_the_wrong_way(chart, blank) == 0
        assert mark_count(chart) <= distinct_positions(blank)


@FORMS
@settings(deadline=None, max_examples=15)
@given(data=st.data())
def test_drawing_is_deterministic(form: type[Form], data: st.DataObject) -> None:
    made = data.draw(accepted_forms(form))
    assert made.draw() == made.draw()


@FORMS
@settings(deadline=None, max_examples=60)
@given(data=st.data())
def test_rules_speak_in_findings_with_a_code_and_about_a_parameter(form: type[Form], data: st.DataObject) -> None:
    made = data.draw(any_forms(form))
    words = {parameter.word for parameter in parameters(form)}
    for finding in made.rules():
        assert re.fullmatch(r"[a-z]+(-[a-z]+)+", finding.code)
        assert finding.about in words
        assert finding.message[0].isupper() and finding.message.endswith(".")
        if finding.measured is not None and finding.required is not None:
            assert finding.margin == pytest.approx(finding.measured - finding.required, abs=1e-9)
            assert finding.because


@FORMS
def test_the_defaults_are_accepted_at_an_ordinary_size(form: type[Form]) -> None:
    made = everyday_form(form)
    assert is_accepted(made)
    assert check_pattern(made.draw()) == ()


def leaders(default: float | str | Following | None) -> tuple[str, ...]:
    """The parameters that a default follows."""
    match default:
        case Share(of=of):
            return (of,)
        case Least(of=several) | Greatest(of=several):
            return tuple(dict.fromkeys(name for each in several for name in leaders(each)))
        case _:
            return ()


@PARAMETERS
def test_every_parameter_has_a_label_limits_and_a_default_inside_them(form: type[Form], parameter: Parameter) -> None:
    assert re.fullmatch(r"[A-Z].*[^.]", parameter.label)
    if parameter.choices:
        assert len(set(parameter.choices)) == len(parameter.choices) >= 2
        assert parameter.default == parameter.choices[0]
        return
    assert 0 < parameter.at_least < parameter.at_most
    match parameter.default:
        case Share() | Least() | Greatest() as default:
            others = [other for other in parameters(form) if other.name in leaders(default)]
            assert {other.name for other in others} == set(leaders(default))
            assert not any(isinstance(other.default, Following) for other in others)
            assert followed(default, {other.name: other.at_least for other in others}) <= parameter.at_most
            assert followed(default, {other.name: other.at_most for other in others}) >= parameter.at_least
        case None:
            assert parameter.name in form.size, "only the size may be left to follow from something else"
        case default:
            assert isinstance(default, float | int)
            assert parameter.at_least <= default <= parameter.at_most


@FORMS
def test_every_form_says_what_it_is_and_which_parameters_are_its_size(form: type[Form]) -> None:
    names = {parameter.name for parameter in parameters(form)}
    assert re.fullmatch(r"[a-z][a-z -]*[a-z]", form.key)
    assert form.title[0].isupper() and not form.title.endswith(".")
    assert form.summary[0].isupper() and form.summary.endswith(".")
    assert set(form.size) <= names
    assert len(set(form.size.values())) == len(form.size) >= 1
    assert set(form.hangs) <= names
    assert form.spans <= set(Axis)


@FORMS
def test_every_form_promises_its_size_shows_a_main_face_and_tells_how_it_is_made(form: type[Form]) -> None:
    pattern = everyday_form(form).draw()
    promised = {extent.axis for extent in (*pattern.claims.inside, *pattern.claims.outside)}
    assert set(form.size.values()) <= promised
    assert any(shows.main for shows in pattern.claims.shows)
    assert pattern.stages
    assert all(re.fullmatch(r"[A-Z].*\.", stage.words) for stage in pattern.stages)


@FORMS
def test_every_fold_and_every_glued_tab_has_its_stage(form: type[Form]) -> None:
    pattern = everyday_form(form).draw()
    folds = [name for stage in pattern.stages for name in stage.folds]
    glues = [name for stage in pattern.stages for name in stage.glues]
    assert sorted(folds) == sorted({score.child for blank in pattern.blanks for score in blank.scores})
    assert set(glues) == {joint.tab.panel for joint in pattern.joints if joint.glued}
    assert len(glues) == len(set(glues))


@FORMS
def test_a_form_is_found_in_the_file_that_bears_its_name(form: type[Form]) -> None:
    assert form.__module__ == "kitwright.forms." + form.key.replace(" ", "_").replace("-", "_")


def test_every_file_of_forms_is_in_the_catalogue() -> None:
    files = {path.stem for path in FOLDER.glob("*.py")} - {"__init__"}
    assert files == {form.__module__.rpartition(".")[2] for form in CATALOGUE.values()}
    assert files == set(kitwright.forms.__all__)


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.py")), ids=lambda path: path.stem)
def test_a_form_imports_only_the_layers_below_it_and_no_other_form(path: Path) -> None:
    allowed = ALLOWED | PLAIN | ({"kitwright.forms"} if path.stem == "__init__" else set())
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            assert {alias.name for alias in node.names} <= allowed
        elif isinstance(node, ast.ImportFrom):
            assert node.module in allowed


BENCH: dict[str, Callable[[Form], tuple[float, float]]] = {
    "belly band": lambda f: (2 * f.width + 2 * f.depth + f.overlap, f.height),  # type: ignore[attr-defined]
    "flap lid": lambda f: (f.width, f.back + f.depth + f.front_flap + 2 * f.hem),  # type: ignore[attr-defined]
    "flat card": lambda f: (f.width, f.height),  # type: ignore[attr-defined]
    "half-fold card": lambda f: (2 * f.width, f.height) if f.fold == "side" else (f.width, 2 * f.height),  # type: ignore[attr-defined]
    "mat": lambda f: (f.width, f.height),  # type: ignore[attr-defined]
    "pocket": lambda f: (f.width + 2 * f.tab, f.height + f.tab),  # type: ignore[attr-defined]
    "side-seam envelope": lambda f: (f.width + 2 * f.side_tab, f.back + f.height + f.flap),  # type: ignore[attr-defined]
    "tag": lambda f: (f.width, f.height),  # type: ignore[attr-defined]
    "tray": lambda f: (f.width + 2 * max(f.height, f.tab), f.depth + 2 * f.height),  # type: ignore[attr-defined]
    "lift-off lid": lambda f: (f.width + 2 * max(f.height, f.tab), f.depth + 2 * f.height),  # type: ignore[attr-defined]
    "two-half wrap box": lambda f: (f.width + 2 * f.depth, f.height + f.depth + f.hem),  # type: ignore[attr-defined]
}
"""What a maker would reckon for the blank: sums of the sizes, without any thickness."""


@pytest.mark.parametrize(("key", "reckoned"), BENCH.items(), ids=BENCH)
@settings(deadline=None, max_examples=30)
@given(data=st.data())
def test_the_blank_measures_what_the_bench_would_reckon(
    key: str, reckoned: Callable[[Form], tuple[float, float]], data: st.DataObject
) -> None:
    made = data.draw(accepted_forms(CATALOGUE[key]))
    assert made.draw().blanks[0].size == pytest.approx(reckoned(made), abs=1e-6)


@FORMS
@settings(deadline=None, max_examples=10)
@given(data=st.data())
def test_a_face_that_shows_its_print_is_no_tab_or_hem_and_is_named_once(form: type[Form], data: st.DataObject) -> None:
    pattern = data.draw(accepted_forms(form)).draw()
    shown = [shows.panel for shows in pattern.claims.shows if not shows.back]
    glued_under = {joint.tab for joint in pattern.joints if joint.side is Side.UNDER}
    assert len(shown) == len(set(shown))
    assert not set(shown) & glued_under
    assert all(pattern.panel(ref).kind not in {PanelKind.TAB, PanelKind.HEM} for ref in shown)
