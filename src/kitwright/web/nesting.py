"""Blanks being laid on the mats of a cutting machine, which takes seconds for every mat: how far it is, and what is done."""

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

    `mats` and `left` are those of the paper under way.
    """

    plan: Plan
    outcome: Future[tuple[MachinePaper, ...]] = field(default_factory=Future)
    papers: tuple[MachinePaper, ...] = ()
    is_stopped: bool = False
    mats: int = 0
    left: int = 0

    def run(self) -> None:
        """Lay every paper; whatever comes of it is the outcome."""
        self.outcome.set_running_or_notify_cancel()
        try:
            for paper in self.plan.papers:
                if self.is_stopped:
                    break
                self.mats, self.left = 0, sum(line.in_batch for line in paper.lines)
                laid = lay_paper_on_mats(self.plan.kit.machine, paper, self.tell)
                if not self.is_stopped:
                    self.papers = (*self.papers, laid)
        except KitwrightError as error:
            self.outcome.set_exception(error)
        except BaseException as error:  # also what is no `Exception`: a panic in compiled code
            self.outcome.set_exception(internal("laying blanks on mats", error))
        else:
            self.outcome.set_result(self.papers)

    def tell(self, mats: int, left: int) -> bool:
        """Called between two tries: note how far it is, and answer whether to go on."""
        self.mats, self.left = mats, left
        return not self.is_stopped

    @property
    def is_useless(self) -> bool:
        """Whether it came to an end before all was laid."""
        return self.outcome.done() and (self.is_stopped or self.outcome.exception() is not None)

    @property
    def share(self) -> float:
        """How much of all blanks has been laid, from 0 to 1."""
        if not self.outcome.running():
            return float(self.outcome.done())
        counts = [sum(line.in_batch for line in paper.lines) for paper in self.plan.papers]
        at = len(self.papers)
        laid = sum(counts[:at]) + (counts[at] - self.left if at < len(counts) else 0)
        return max(0.0, laid / max(1, sum(counts)))

    @property
    def words(self) -> str:
        """How far it is, for the maker."""
        if not self.outcome.running():
            return "Waiting until other mats are laid."
        paper = self.plan.papers[min(len(self.papers), len(self.plan.papers) - 1)].paper
        mats, left = counted(self.mats, "mat", "mats"), counted(self.left, "blank", "blanks")
        return f"Laying {paper.label} on mats: {mats} so far, {left} left."
