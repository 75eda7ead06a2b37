"""Plans for the page: worked out once for each document and number of kits, kept while they are likely to be looked at again."""

from __future__ import annotations

import hashlib
import threading
from collections import OrderedDict, deque
from collections.abc import Mapping
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from typing import Final

from kitwright.cutting import QUICK, STEADY, THOROUGH, Effort, Progress
from kitwright.errors import KitwrightError
from kitwright.kit import BuiltKit, PartProof, build, part_proofs, prove, read_kit
from kitwright.plan import PaperPlan, Plan, ProvedKit, check_batch, lay_out_kit
from kitwright.web.bench import BenchCard, bench_steps
from kitwright.web.contained import contained, internal
from kitwright.web.nesting import Nesting
from kitwright.web.printed import picture_of
from kitwright.workshop import Scans

__all__ = ["Making", "Search"]

MOST_KEPT: Final = 40
MOST_DRAWN: Final = 6
"""Whole plans whose steps at the bench stay drawn."""

MOST_NESTED: Final = 10
"""Batches whose mats are kept."""

WORKERS: Final = 2
LOOKS: Final[tuple[Effort, ...]] = (QUICK, STEADY, THOROUGH)
"""How hard the sheets are looked at, one after the other, until nothing better can be: there is a plan to show after the first."""


@dataclass(eq=False)
class Search:
    """A search for layouts that runs: how far it is, the best plan so far, and whether it is to stop with what it has.

    A plan is shown only after it was checked; `shown` counts the plans, so that a page knows whether there is a newer one.
    """

    outcome: Future[Plan] = field(default_factory=Future)
    progress: Progress | None = None
    is_stopped: bool = False
    best: Plan | None = None
    shown: int = 0
    look: int = 0
    papers: int = 1
    begun: int = 0

    def tell(self, progress: Progress) -> bool:
        """Called by the search: note how far it is, and answer whether to go on."""
        self.progress = progress
        self.begun += progress.stage == FIRST_STAGE
        return not self.is_stopped

    def show(self, plan: Plan) -> None:
        """A plan that can be cut, better than what was there."""
        self.best, self.shown = plan, self.shown + 1

    @property
    def share(self) -> float:
        """How much of the papers of this look has been begun, from 0 to 1."""
        return min(1.0, max(0.0, (self.begun - 0.5) / self.papers))

    @property
    def words(self) -> str:
        """How far it is, for the maker."""
        at = min(max(self.begun, 1), self.papers)
        if self.look == 0:
            return f"Laying out paper {at} of {self.papers}."
        return f"These layouts work. Looking {'once more' if self.look == 1 else 'hard'} for fewer sheets: paper {at} of {self.papers}."


FIRST_STAGE: Final = "first plan"
"""What a search says when it takes up a paper."""


@dataclass(frozen=True, eq=False, slots=True)
class Known:
    """A kit built and proved, and what is known of its parts by themselves."""

    proved: ProvedKit
    own: Mapping[str, PartProof]


class Making:
    """Works plans out in a few threads of its own, so that the page answers meanwhile; mats, which take long, in one of theirs."""

    def __init__(self) -> None:
        self.lock = threading.Lock()
        self.drawn: OrderedDict[str, BuiltKit] = OrderedDict()
        self.known: OrderedDict[str, Known] = OrderedDict()
        self.searches: OrderedDict[tuple[str, int], Search] = OrderedDict()
        self.drawn_steps: deque[tuple[Plan, tuple[str, ...], tuple[BenchCard, ...]]] = deque(maxlen=MOST_DRAWN)
        self.nestings: OrderedDict[tuple[str, int], Nesting] = OrderedDict()
        self.pool = ThreadPoolExecutor(WORKERS, thread_name_prefix="kitwright-search")
        self.mats_pool = ThreadPoolExecutor(1, thread_name_prefix="kitwright-mats")

    @contained("building a kit")
    def built(self, document: str) -> BuiltKit:
        """A kit built, not yet proved: enough to draw it. Raises `Mistake` or `Mistakes`."""
        key = digest(document)
        with self.lock:
            if key in self.drawn:
                self.drawn.move_to_end(key)
                return self.drawn[key]
        made = build(read_kit(document))
        with self.lock:
            self.drawn[key] = made
            while len(self.drawn) > MOST_KEPT:
                self.drawn.popitem(last=False)
        return made

    @contained("proving a kit")
    def proved(self, document: str, *, like: str = "") -> ProvedKit:
        """A kit built and proved; what is known of its parts from a document that is `like` this one is taken over.

        Raises `Mistake` or `Mistakes`.
        """
        key = digest(document)
        with self.lock:
            if key in self.known:
                self.known.move_to_end(key)
                return self.known[key].proved
            before = self.known.get(digest(like))
        built = self.built(document)
        own = part_proofs(built, like=before.own if before else None)
        made = Known(ProvedKit(built, prove(built, known=own)), own)
        with self.lock:
            self.known[key] = made
            while len(self.known) > MOST_KEPT:
                self.known.popitem(last=False)
        return made.proved

    @contained("drawing the steps at the bench")
    def steps(self, document: str, batch: int, scans: Scans) -> tuple[BenchCard, ...]:
        """The steps at the bench of a whole plan, drawn once for the same pictures of its papers. Raises `Mistake` or `Mistakes`."""
        whole = self.whole(document, batch)
        shown = tuple((picture_of(paper.paper, scans) or {}).get("address", "") for paper in whole.papers)
        with self.lock:
            for plan, pictures, steps in self.drawn_steps:
                if plan is whole and pictures == shown:
                    return steps
        made = bench_steps(whole, scans)
        with self.lock:
            self.drawn_steps.append((whole, shown, made))
        return made

    def search(self, document: str, batch: int) -> Search:
        """The search for the layouts of a batch, begun if it was not. Raises `Mistake` or `Mistakes`."""
        check_batch(batch)
        made = self.proved(document)
        key = digest(document), batch
        with self.lock:
            if key in self.searches:
                self.searches.move_to_end(key)
                return self.searches[key]
            search = self.searches[key] = Search()
            while len(self.searches) > MOST_KEPT:
                _, old = self.searches.popitem(last=False)
                old.is_stopped = True
        self.pool.submit(self.run, search, made, batch)
        return search

    def forget(self, document: str, batch: int) -> None:
        """Begin anew when these layouts are asked for again: what a stopped search found is shown once."""
        with self.lock:
            self.searches.pop((digest(document), batch), None)

    @staticmethod
    def run(search: Search, made: ProvedKit, batch: int) -> None:
        """Do a search; whatever comes of it is its outcome."""
        try:
            best = looked(search, made, batch)
        except KitwrightError as error:
            search.outcome.set_exception(error)
        except BaseException as error:  # also what is no `Exception`: a panic in compiled code
            search.outcome.set_exception(internal("a search for layouts", error))
        else:
            search.outcome.set_result(best)

    def outcome(self, search: Search) -> Plan:
        """What came of a search, waited for. One that failed is told once: it is begun anew when it is asked for again.

        Raises `Mistake`, `Mistakes` or `InternalError`.
        """
        try:
            return search.outcome.result()
        except KitwrightError:
            with self.lock:
                for key in [key for key, each in self.searches.items() if each is search]:
                    del self.searches[key]
            raise

    def nesting(self, document: str, batch: int) -> Nesting | None:
        """The mats of a cutting machine that are being laid or were laid for a batch; None if nobody asked for them."""
        with self.lock:
            return self.nestings.get((digest(document), batch))

    def begin_nesting(self, document: str, plan: Plan) -> Nesting:
        """Begin to lay a whole plan on mats, anew if that was done before."""
        made = Nesting(plan)
        with self.lock:
            self.nestings[digest(document), plan.batch] = made
            while len(self.nestings) > MOST_NESTED:
                _, old = self.nestings.popitem(last=False)
                old.is_stopped = True
        self.mats_pool.submit(made.run)
        return made

    def whole(self, document: str, batch: int) -> Plan:
        """The whole plan of a batch, waited for; never what a stopped search had found."""
        while True:
            search = self.search(document, batch)
            found = self.outcome(search)
            if not search.is_stopped:
                return found
            self.forget(document, batch)

    def stop(self, document: str, batch: int) -> None:
        """Let a search end with what it has."""
        with self.lock:
            search = self.searches.get((digest(document), batch))
        if search is not None and not search.outcome.done():
            search.is_stopped = True

    def close(self) -> None:
        """Stop everything."""
        with self.lock:
            for search in self.searches.values():
                search.is_stopped = True
            for nesting in self.nestings.values():
                nesting.is_stopped = True
        for pool in (self.pool, self.mats_pool):
            pool.shutdown(wait=False, cancel_futures=True)


def looked(search: Search, made: ProvedKit, batch: int) -> Plan:
    """The best layouts found, each better plan shown as soon as there is one."""
    search.papers = len({part.part.paper for part in made.built.parts})
    first, *harder = LOOKS
    best = Plan(made.built, made.proof, batch, lay_out_kit(made.built, batch, effort=first, progress=search.tell))
    search.show(best)
    for look, effort in enumerate(harder, 1):
        if search.is_stopped or all(paper.cut_plan.is_proved or paper.cut_plan.unplaced for paper in best.papers):
            break
        search.look, search.begun = look, 0
        papers = lay_out_kit(made.built, batch, effort=effort, progress=search.tell)
        better = tuple(map(better_of, best.papers, papers))
        if any(one is not other for one, other in zip(better, best.papers, strict=True)):
            best = replace(best, papers=better)
            search.show(best)
    return best


def better_of(one: PaperPlan, other: PaperPlan) -> PaperPlan:
    """The better of two plans for one paper: sound, whole, with fewer sheets or less cost, or with a better bound; the first if alike."""

    def rank(paper: PaperPlan) -> tuple[bool, bool, int, int]:
        found = paper.cut_plan
        return bool(paper.faults), not found.is_complete, found.value, -found.bound.value

    return min(one, other, key=rank)


def digest(document: str) -> str:
    """A short name for a document's content."""
    return hashlib.sha256(document.encode("utf-8", "surrogatepass")).hexdigest()
