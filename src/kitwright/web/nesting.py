"""Blanks being laid on the mats of a cutting machine, which takes some seconds: how far it is, and what is done."""

from __future__ import annotations

from concurrent.futures import Future
from dataclasses import dataclass, field

from kitwright.errors import KitwrightError
from kitwright.measure import counted
from kitwright.plan import MachinePaper, Plan, lay_paper_on_mats
from kitwright.web.contained import internal

__all__ = ["Nesting"]


@dataclass(eq=False)
class Nesting:
    """The papers of a plan laid on mats, one after the other. Of a stopped one, only papers that were done are kept.

    `mats` is the number of them so far for the paper under way, `looked` how much of its work is done, from 0 to 1.
    """

    plan: Plan
    outcome: Future[tuple[MachinePaper, ...]] = field(default_factory=Future)
    papers: tuple[MachinePaper, ...] = ()
    is_stopped: bool = False
    mats: int = 0
    looked: float = 0.0

    def run(self) -> None:
        """Lay every paper; whatever comes of it is the outcome."""
        self.outcome.set_running_or_notify_cancel()
        try:
            for paper in self.plan.papers:
                if self.is_stopped:
                    break
                self.mats, self.looked = 0, 0.0
                laid = lay_paper_on_mats(self.plan, paper, self.tell)
                if not self.is_stopped:
                    self.papers = (*self.papers, laid)
        except KitwrightError as error:
            self.outcome.set_exception(error)
        except BaseException as error:  # also what is no `Exception`: a panic in compiled code
            self.outcome.set_exception(internal("laying blanks on mats", error))
        else:
            self.outcome.set_result(self.papers)

    def tell(self, mats: int, looked: float) -> bool:
        """Called again and again: note how far it is, and answer whether to go on."""
        self.mats, self.looked = mats, looked
        return not self.is_stopped

    @property
    def is_useless(self) -> bool:
        """Whether it came to an end before all was laid."""
        return self.outcome.done() and (self.is_stopped or self.outcome.exception() is not None)

    @property
    def share(self) -> float:
        """How much of all papers has been looked at, from 0 to 1."""
        if not self.outcome.running():
            return float(self.outcome.done())
        return min(1.0, (len(self.papers) + self.looked) / max(1, len(self.plan.papers)))

    @property
    def words(self) -> str:
        """How far it is, for the maker."""
        if not self.outcome.running():
            return "Waiting until other mats are laid."
        paper = self.plan.papers[min(len(self.papers), len(self.plan.papers) - 1)].paper
        found = f"{counted(self.mats, 'mat', 'mats')} so far, looking for fewer" if self.mats else "none so far"
        return f"Laying {paper.label} on mats: {found}."
