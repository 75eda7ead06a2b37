"""Plans for the page: worked out once for each document and number of kits, kept while they are likely to be looked at again."""

from __future__ import annotations

import hashlib
import threading
from collections import OrderedDict
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field
from typing import Final

from kitwright.cutting import Progress
from kitwright.kit import BuiltKit, build, prove, read_kit
from kitwright.plan import Plan, check_batch, lay_out_kit

__all__ = ["Making", "Search"]

MOST_KEPT: Final = 40
WORKERS: Final = 2


@dataclass(eq=False)
class Search:
    """A search for layouts that runs: how far it is, and whether it is to stop with what it has."""

    outcome: Future[Plan] = field(default_factory=Future)
    progress: Progress | None = None
    is_stopped: bool = False

    def tell(self, progress: Progress) -> bool:
        """Called by the search: note how far it is, and answer whether to go on."""
        self.progress = progress
        return not self.is_stopped


class Making:
    """Works plans out in a few threads of its own, so that the page answers meanwhile."""

    def __init__(self) -> None:
        self.lock = threading.Lock()
        self.drawn: OrderedDict[str, BuiltKit] = OrderedDict()
        self.proved: OrderedDict[str, Plan] = OrderedDict()
        self.searches: OrderedDict[tuple[str, int], Search] = OrderedDict()
        self.pool = ThreadPoolExecutor(WORKERS, thread_name_prefix="kitwright-search")

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

    def plan(self, document: str) -> Plan:
        """A kit built and proved, without any layout. Raises `Mistake` or `Mistakes`."""
        key = digest(document)
        with self.lock:
            if key in self.proved:
                self.proved.move_to_end(key)
                return self.proved[key]
        built = self.built(document)
        made = Plan(built, prove(built), 1, ())
        with self.lock:
            self.proved[key] = made
            while len(self.proved) > MOST_KEPT:
                self.proved.popitem(last=False)
        return made

    def search(self, document: str, batch: int) -> Search:
        """The search for the layouts of a batch, begun if it was not. Raises `Mistake` or `Mistakes`."""
        check_batch(batch)
        made = self.plan(document)
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
    def run(search: Search, made: Plan, batch: int) -> None:
        """Do a search; whatever comes of it is its outcome."""
        try:
            papers = lay_out_kit(made.built, batch, progress=search.tell)
        except BaseException as error:
            search.outcome.set_exception(error)
        else:
            search.outcome.set_result(Plan(made.built, made.proof, batch, papers))

    def whole(self, document: str, batch: int) -> Plan:
        """The whole plan of a batch, waited for; never what a stopped search had found."""
        while True:
            search = self.search(document, batch)
            found = search.outcome.result()
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
        self.pool.shutdown(wait=False, cancel_futures=True)


def digest(document: str) -> str:
    """A short name for a document's content."""
    return hashlib.sha256(document.encode("utf-8", "surrogatepass")).hexdigest()
