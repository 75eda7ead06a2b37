"""Plans are worked out once, beside the page, and a search can be stopped without being lost or mistaken for a finished one."""

import threading
from collections.abc import Callable, Iterator
from dataclasses import replace
from importlib import resources

import pytest

from kitwright.cutting import QUICK, Effort, Progress
from kitwright.errors import InternalError
from kitwright.kit import BuiltKit
from kitwright.plan import PaperPlan, lay_out_kit
from kitwright.web import making
from kitwright.web.making import Making, digest

DOCUMENT = resources.files("kitwright").joinpath("examples", "postcard-set.toml").read_text()


@pytest.fixture
def plans() -> Iterator[Making]:
    made = Making()
    yield made
    made.close()


@pytest.fixture
def endless(monkeypatch: pytest.MonkeyPatch) -> threading.Event:
    """A search that goes on until it is told to stop; the event says that it runs."""
    runs = threading.Event()

    def search(
        built: BuiltKit, batch: int, *, effort: Effort, progress: Callable[[Progress], bool]
    ) -> tuple[PaperPlan, ...]:
        while progress(Progress("looking", 9, 8)):
            runs.set()
        return lay_out_kit(built, batch)

    monkeypatch.setattr(making, "lay_out_kit", search)
    return runs


def test_a_plan_is_worked_out_once_for_one_document(plans: Making) -> None:
    assert plans.proved(DOCUMENT) is plans.proved(DOCUMENT)
    assert plans.search(DOCUMENT, 3) is plans.search(DOCUMENT, 3)
    assert plans.whole(DOCUMENT, 3).batch == 3


def test_what_a_change_leaves_as_it_is_is_not_built_and_proved_again(plans: Making) -> None:
    before, changed = (
        plans.proved(DOCUMENT),
        DOCUMENT.replace('name = "postcard"', 'name = "postcard"\ngrain = "width"', 1),
    )
    assert changed != DOCUMENT
    after = plans.proved(changed, like=DOCUMENT)
    assert after.proof == Making().proved(changed).proof != before.proof
    for part in after.built.parts:
        assert part.folded is before.built.part(part.name).folded
        assert plans.known[digest(changed)].own[part.name].made is plans.known[digest(DOCUMENT)].own[part.name].made


LINED = """\
[kit]
name = "Soap"
units = "mm"
ruler = "1"
[paper.card]
sheet = "600 x 900"
weight = "240 gsm"
caliper = "0.3"
[paper.felt]
sheet = "600 x 900"
weight = "240 gsm"
caliper = "0.15"
[[part]]
name = "box"
form = "tray"
paper = "card"
holds = "soap"
[[part]]
name = "lid"
form = "lift-off lid"
paper = "card"
covers = "box"
[[part]]
name = "liner"
form = "mat"
paper = "felt"
on = "lid"
face = "inside"
[[extra]]
name = "soap"
size = "80 x 50 x 25"
"""


def test_a_changed_document_is_planned_as_if_it_had_never_been_another(plans: Making) -> None:
    plans.proved(LINED)
    changed = LINED.replace('"0.15"', '"2.15"')
    after, fresh = plans.proved(changed, like=LINED), Making().proved(changed)
    assert after.built.part("box").lengths == fresh.built.part("box").lengths
    assert after.proof == fresh.proof


def test_a_stopped_search_gives_what_it_has(plans: Making, endless: threading.Event) -> None:
    search = plans.search(DOCUMENT, 2)
    assert endless.wait(20)
    plans.stop(DOCUMENT, 2)
    assert search.outcome.result(20).papers
    assert plans.search(DOCUMENT, 2) is search
    assert search.progress == Progress("looking", 9, 8)


def test_after_a_stopped_search_the_pack_is_made_from_a_whole_one(
    plans: Making, endless: threading.Event, monkeypatch: pytest.MonkeyPatch
) -> None:
    search = plans.search(DOCUMENT, 2)
    assert endless.wait(20)
    plans.stop(DOCUMENT, 2)
    search.outcome.result(20)
    monkeypatch.setattr(making, "lay_out_kit", lay_out_kit)
    plans.whole(DOCUMENT, 2)
    assert plans.search(DOCUMENT, 2) is not search


def test_the_page_answers_while_searches_run(plans: Making, endless: threading.Event) -> None:
    running = [plans.search(DOCUMENT, kits) for kits in range(1, 9)]
    assert endless.wait(20)
    assert plans.proved(DOCUMENT + "\n").proof.findings
    assert not any(search.outcome.done() for search in running)


def test_a_fault_in_a_search_is_told_to_whoever_asks(plans: Making, monkeypatch: pytest.MonkeyPatch) -> None:
    def fault(*_: object, **__: object) -> None:
        raise RuntimeError("a fault")

    monkeypatch.setattr(making, "lay_out_kit", fault)
    with pytest.raises(InternalError) as told:
        plans.whole(DOCUMENT, 1)
    assert str(told.value.__cause__) == "a fault"
    monkeypatch.setattr(making, "lay_out_kit", lay_out_kit)
    assert plans.whole(DOCUMENT, 1).papers


def test_the_first_plan_is_shown_while_a_better_one_is_looked_for_and_the_best_is_kept(
    plans: Making, monkeypatch: pytest.MonkeyPatch
) -> None:
    first_shown, go_on = threading.Event(), threading.Event()

    def search(
        built: BuiltKit, batch: int, *, effort: Effort, progress: Callable[[Progress], bool]
    ) -> tuple[PaperPlan, ...]:
        found = lay_out_kit(built, batch)
        if effort is QUICK:  # as if more might be saved
            return tuple(unproved(paper) for paper in found)
        first_shown.set()
        assert go_on.wait(20)
        progress(Progress("first plan", None, None))
        return found

    monkeypatch.setattr(making, "lay_out_kit", search)
    running = plans.search(DOCUMENT, 2)
    assert first_shown.wait(20)
    assert not running.outcome.done()
    assert running.best is not None
    assert running.shown == 1
    assert not running.best.papers[0].cut_plan.is_proved
    assert running.words.startswith("These layouts work.")
    go_on.set()
    assert running.outcome.result(20) is running.best
    assert running.shown == 2
    assert all(paper.cut_plan.is_proved for paper in running.best.papers)


def unproved(paper: PaperPlan) -> PaperPlan:
    bound = replace(paper.cut_plan.bound, value=paper.cut_plan.bound.value - (paper.stocks[0].price or 1))
    return replace(paper, gathered=replace(paper.gathered, plan=replace(paper.cut_plan, bound=bound)))


def test_a_search_says_how_many_papers_it_has_taken_up(plans: Making) -> None:
    search = plans.search(DOCUMENT, 2)
    search.outcome.result(20)
    assert (search.begun, search.papers) == (3, 3)
    assert search.share == pytest.approx(2.5 / 3)
