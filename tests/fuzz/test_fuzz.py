"""Kit documents by chance, the same every time, and the judge who looks at them: that both do what they are for.

Many more documents are tried by `python -m benchmarks fuzz`.
"""

from __future__ import annotations

import copy
import tomllib
from collections import Counter
from dataclasses import replace
from random import Random
from typing import Any

import pytest
from tests.fuzz.documents import kit_document, kit_table
from tests.fuzz.small import made_small
from tests.fuzz.spoil import EXAMPLES, spoilt
from tests.fuzz.trial import Amiss, Phase, Trial, contradictions, look_at_plan, paper_faults, try_document
from tests.fuzz.values import choices_in, toml_text

from kitwright.catalogue import CATALOGUE, parameters
from kitwright.errors import Mistakes
from kitwright.findings import Finding, Makings, Severity
from kitwright.kit import read_kit
from kitwright.kit.keys import EXTRA_KEYS, KIT_KEYS, OFFCUT_KEYS, PAPER_KEYS, PART_KEYS, TABLES
from kitwright.kit.read_part import key_of
from kitwright.plan import Plan, plan
from kitwright.printouts.make.as_data import plan_as_data

TRIED = 44
LAID_OUT = 6


@pytest.fixture(scope="module")
def tables() -> list[dict[str, Any]]:
    return [kit_table(Random(f"all keys/{number}")) for number in range(250)]


def test_every_form_key_and_parameter_is_written_about_sooner_or_later(tables: list[dict[str, Any]]) -> None:
    assert {name for table in tables for name in table} == set(TABLES)
    for name, keys in (("part", PART_KEYS), ("extra", EXTRA_KEYS), ("offcut", OFFCUT_KEYS)):
        assert set(keys) <= {key for table in tables for each in table.get(name, ()) for key in each}
    assert set(KIT_KEYS) == {key for table in tables for key in table["kit"]}
    assert set(PAPER_KEYS) == {key for table in tables for each in table["paper"].values() for key in each}
    written = {(part["form"], key) for table in tables for part in table["part"] for key in part}
    wanted = {
        (key, key_of(parameter))
        for key, form in CATALOGUE.items()
        for parameter in parameters(form)
        if parameter.name not in form.size
    }
    assert wanted <= written


def test_every_relation_is_written_about(tables: list[dict[str, Any]]) -> None:
    parts = [part for table in tables for part in table["part"]]
    found = Counter(key for part in parts for key in ("on", "holds", "covers", "wraps") if key in part)
    assert min(found[key] for key in ("on", "holds", "covers", "wraps")) > 20


def test_a_document_is_written_so_that_it_reads_as_it_was_meant(tables: list[dict[str, Any]]) -> None:
    for table in tables[:60]:
        assert tomllib.loads(toml_text(table)) == table


def test_choices_are_read_off_the_words_of_a_key() -> None:
    assert choices_in("none, all-over or one-way") == ("none", "all-over", "one-way")
    assert choices_in("0, 90, 180 or 270") == ("0", "90", "180", "270")
    assert not choices_in("a length or 0")
    assert not choices_in("pounds with the grade, or grams per square metre")


def document(number: int) -> str:
    rng = Random(f"suite/{number}")
    return kit_document(rng) if number % 2 else spoilt(rng, rng.choice(EXAMPLES) if number % 4 else kit_document(rng))


def test_documents_by_chance_go_through_reading_building_and_proving_and_little_is_refused() -> None:
    trials = {number: try_document(document(number), [Phase.PROVE]) for number in range(TRIED)}
    assert {number: trial.troubles for number, trial in trials.items() if trial.troubles} == {}
    assert sum("proved" in trial.outcome for trial in trials.values()) > TRIED / 4


@pytest.mark.parametrize("number", range(LAID_OUT))
def test_an_example_with_other_numbers_goes_through_all_but_the_typesetter_and_the_page(number: int) -> None:
    rng = Random(f"laid out/{number}")
    trial = try_document(spoilt(rng, EXAMPLES[number % len(EXAMPLES)]), [Phase.MEND, Phase.SHEETS])
    assert trial.troubles == []


def test_a_document_is_made_small_and_stays_what_it_was() -> None:
    text = EXAMPLES[0] + '[[part]]\nname = "spoilt"\nform = "no such form"\npaper = "card"\n'
    small = made_small(text, lambda tried: "no such form" in tried)
    assert small == 'form = "no such form"\n'


# ---------------------------------------------------------------- the judge

KIT = """\
[kit]
name = "judged"
units = "mm"
[paper.card]
sheet = "200 x 200"
weight = "200 gsm"
[[part]]
name = "card"
form = "flat card"
paper = "card"
size = "90 x 60"
quantity = 8
"""


@pytest.fixture(scope="module")
def made() -> Plan:
    return plan(read_kit(KIT))


def test_the_judge_finds_nothing_in_a_good_plan(made: Plan) -> None:
    trial = Trial()
    look_at_plan(trial, made)
    assert trial.troubles == []


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"x_mm": 150.0}, "over the edge"),
        ({"y_mm": -1.0}, "over the edge"),
        ({"width_mm": 89.0}, "is laid out"),
        ({"x_mm": 1.0, "y_mm": 1.0}, "overlap"),
    ],
)
def test_the_judge_finds_a_piece_that_lies_wrongly(made: Plan, change: dict[str, float], words: str) -> None:
    (paper,) = made.papers
    told = copy.deepcopy(plan_as_data(made)["papers"][0])
    told["layouts"][0]["parts"][-1] |= change
    assert any(words in fault for fault in paper_faults(paper, told, {"card": (90.0, 60.0)}))


def test_the_judge_finds_sheets_that_cannot_be_so_few(made: Plan) -> None:
    (paper,) = made.papers
    told = {**plan_as_data(made)["papers"][0], "sheets": 1, "at_least": 2}
    assert len(list(paper_faults(paper, told, {"card": (90.0, 60.0)}))) == 2


def test_the_judge_finds_pieces_that_are_not_accounted_for(made: Plan) -> None:
    (paper,) = made.papers
    layout, *more = paper.cut_plan.layouts
    fewer = replace(paper.cut_plan, layouts=(replace(layout, times=layout.times + 1), *more))
    trial = Trial()
    look_at_plan(trial, replace(made, papers=(replace(paper, gathered=replace(paper.gathered, plan=fewer)),)))
    assert any("accounted for" in trouble.words for trouble in trial.troubles)


MADE = Makings(100, 0.9, 0.8, 0.95, 0.1, 0.0, 1.0, 0.5, 1.5, 0.2, "common practice")


@pytest.mark.parametrize(
    "finding",
    [
        Finding("x", Severity.OK, "a", "b", measured=1.0, required=2.0, margin=-1.0),
        Finding("x", Severity.OK, "a", "b", measured=float("nan")),
        Finding("x", Severity.OK, "a", "b", makings=replace(MADE, too_tight=0.3)),
        Finding("x", Severity.OK, "a", "b", makings=replace(MADE, nominal=2.0)),
        Finding("x", Severity.OK, "a", "b", makings=replace(MADE, share=0.4, low=0.3, high=0.5, too_tight=0.6)),
    ],
)
def test_the_judge_finds_numbers_that_do_not_go_together(finding: Finding) -> None:
    assert list(contradictions(finding))
    assert not list(contradictions(replace(finding, severity=Severity.FAIL, margin=0.0, measured=0.0, makings=MADE)))


def test_the_judge_hears_of_whatever_is_raised_and_of_mistakes_without_advice(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> None:
        raise KeyError("card")

    monkeypatch.setattr("tests.fuzz.trial.build", broken)
    (trouble,) = try_document(KIT, [Phase.BUILD]).troubles
    assert (trouble.amiss, trouble.phase, trouble.words) == (Amiss.RAISED, Phase.BUILD, "KeyError: 'card'")

    def speechless(*_: object) -> None:
        raise Mistakes([])

    monkeypatch.setattr("tests.fuzz.trial.build", speechless)
    trial = try_document(KIT, [Phase.BUILD])
    assert (trial.outcome, trial.troubles) == ("refused (build)", [])
