"""The whole-number programmes over patterns, and those that are solved beside the search."""

from collections.abc import Sequence

from tests.cutting.published import GCUT5D

from kitwright.cutting import STEADY, UPRIGHT, PieceType, Stock, TrimmerLimits, lay_out, verify_plan
from kitwright.cutting.bound import area_bound
from kitwright.cutting.cases import Cases
from kitwright.cutting.choose import ask_for_plan, choose_whole, is_within
from kitwright.cutting.fill import fill_batch
from kitwright.cutting.generate import Budget, make_pricings
from kitwright.cutting.job import Job, make_job, ranges_of
from kitwright.cutting.master import Master
from kitwright.cutting.plan import Progress
from kitwright.cutting.sketch import Leaf, Pattern, Split
from kitwright.cutting.solver import Halt
from kitwright.cutting.watch import Watch, cost_of

# Two halves fit on a sheet of 10 × 10, of one kind or of both; a whole piece takes one to itself.
PIECES = [
    PieceType("half", 10, 5, 4, UPRIGHT),
    PieceType("whole", 10, 10, 3, UPRIGHT),
]
SHEETS = [Stock("sheet", 10, 10, None, 6), Stock("dear", 10, 10, None, 9)]

# In the units of the job, 5 long: a sheet is 2 × 2, and the larger kind comes first.
ONE = Pattern(0, (0, 1), Split(False, 1, Leaf(1, 0), None))
TWO = Pattern(0, (0, 2), Split(False, 1, Leaf(1, 0), Leaf(1, 0)))
WHOLE = Pattern(0, (1, 0), Leaf(0, 0))
DEAR = Pattern(1, (1, 0), Leaf(0, 0))


def made() -> Job:
    job = make_job(PIECES, SHEETS, TrimmerLimits())
    assert [kind.poses[0] for kind in job.kinds] == [(2, 2), (2, 1)]
    assert [sheet.price for sheet in job.sheets] == [6, 9]
    return job


def opened(job: Job, watch: Watch, first: Sequence[tuple[Pattern, int]] = ((ONE, 4), (WHOLE, 3))) -> Cases:
    pricings, master = make_pricings(job), Master(job)
    for pattern, _ in first:
        master.add(pattern)
    cases = Cases(job, pricings, master, Budget(50))
    cases.start(watch, to_the_end=True)
    return cases


def choose(job: Job, *, below: int | None, start: list[tuple[Pattern, int]]) -> list[tuple[Pattern, int]] | None:
    return choose_whole(
        job, [ONE, TWO], job.demand, ranges_of(job), Halt(), below=below, enough=0, nodes=100, start=start
    ).used


def test_an_answer_to_set_out_from_lends_its_patterns_and_is_bettered() -> None:
    job = made()
    start = [(ONE, 4), (WHOLE, 3)]
    chosen = choose(job, below=cost_of(job, start), start=start)
    assert chosen is not None
    assert cost_of(job, chosen) == 30
    assert {pattern.counts for pattern, _ in chosen} == {(0, 2), (1, 0)}


def test_an_answer_that_cannot_be_bettered_is_not_given_back() -> None:
    job = made()
    start = [(TWO, 2), (WHOLE, 3)]
    assert choose(job, below=cost_of(job, start), start=start) is None
    assert choose(job, below=None, start=start) is not None


def test_a_question_is_answered_beside_the_search_and_taken_up_when_asked_for() -> None:
    job = made()
    watch = Watch(job, area_bound(job), None)
    watch.tell_plan([(ONE, 4), (WHOLE, 3)])
    cases = opened(job, watch)
    assert cases.top is not None
    question = ask_for_plan(watch, cases.top.ranges, [ONE, TWO, WHOLE], nodes=100, is_near=True)
    assert watch.value == 42
    work = watch.work
    found = question.take(watch, "whole sheets")
    assert found is not None
    assert watch.tell_plan(found)
    assert watch.value == 30
    assert watch.work < work
    again = ask_for_plan(watch, cases.top.ranges, [ONE, TWO, WHOLE], nodes=100, is_near=True)
    assert again.take(watch, "whole sheets") is None


def test_a_stop_is_heard_while_an_answer_is_waited_for() -> None:
    job = made()
    watch = Watch(job, area_bound(job), None)
    watch.tell_plan([(ONE, 4), (WHOLE, 3)])
    cases = opened(job, watch)
    assert cases.top is not None
    question = ask_for_plan(watch, cases.top.ranges, [ONE, TWO, WHOLE], nodes=100)
    question.answer = type(question.answer)()  # one that never comes
    watch.progress = lambda _: False
    assert question.take(watch, "whole sheets") is None
    assert watch.is_stopped
    assert question.halt.is_said


def test_a_plan_is_within_ranges_only_if_every_sheet_is() -> None:
    job = made()
    plan = [(TWO, 2), (DEAR, 3)]
    assert is_within(job, plan, ((2, 2), (0, None)))
    assert not is_within(job, plan, ((0, 1), (0, None)))
    assert not is_within(job, plan, ((0, None), (4, None)))


# Some pieces of a published job, from three sheets priced by area.
MANY = [PieceType(str(i), w, h, count, (0, 1)) for i, (w, h, count) in enumerate(GCUT5D[:8])]
THREE = [Stock(f"{w} by {h}", w, h, None, w * h) for w, h in ((500, 500), (500, 480), (450, 550))]


def test_what_is_sure_to_be_cut_does_not_make_an_answer_look_better_than_it_is() -> None:
    """Fifty pieces take a sheet each, whatever else is cut: the solver could leave their price out."""
    job = make_job([*MANY, PieceType("all of a sheet", 500, 500, 50, UPRIGHT)], THREE, TrimmerLimits())
    watch = Watch(job, area_bound(job), None)
    first, _ = fill_batch(job)
    patterns = opened(job, watch, first).master.patterns
    for nodes in (40, 400):
        chosen = choose_whole(
            job,
            patterns,
            job.demand,
            ranges_of(job),
            Halt(),
            below=cost_of(job, first),
            enough=watch.bound.value,
            nodes=nodes,
            start=first,
        ).used
        assert chosen is not None
        again = choose_whole(
            job, patterns, job.demand, ranges_of(job), Halt(), below=None, enough=0, nodes=0, start=chosen
        ).used
        assert again is not None
        assert cost_of(job, again) <= cost_of(job, chosen) < cost_of(job, first)


def test_a_programme_that_is_told_to_halt_looks_no_further() -> None:
    job = make_job(MANY, THREE, TrimmerLimits())
    watch = Watch(job, area_bound(job), None)
    first, _ = fill_batch(job)
    patterns = opened(job, watch, first).master.patterns

    def choose_with(halt: Halt) -> list[tuple[Pattern, int]] | None:
        below = cost_of(job, first)
        return choose_whole(
            job, patterns, job.demand, ranges_of(job), halt, below=below, enough=0, nodes=400, start=first
        ).used

    halt = Halt()
    assert choose_with(halt) is not None
    assert halt.solver is not None
    halt.say()
    assert halt.solver.getOptionValue("time_limit")[1] == 0.0
    assert choose_with(halt) is None


def test_questions_beside_the_search_change_nothing_about_its_plan() -> None:
    stages: list[str] = []

    def note(progress: Progress) -> bool:
        stages.append(progress.stage)
        return stages.count("cases") < 60  # a count of steps, so that both stop at the same place

    plans = []
    for _ in range(2):
        stages.clear()
        plans.append(lay_out(MANY, THREE, effort=STEADY, progress=note))
    assert plans[0] == plans[1]
    assert verify_plan(MANY, THREE, plans[0]) == ()
