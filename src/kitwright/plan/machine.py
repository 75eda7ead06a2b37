"""A batch on the mats of a cutting machine: blanks with their true outlines, paper by paper, beside what the trimmer needs."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from kitwright.cutting import Fault, Mat, NestedPlan, Outlined, fewest_by_area, nest, verify_nested
from kitwright.kit import Machine
from kitwright.paper import Paper
from kitwright.plan.pipeline import CutLine, PaperPlan, Plan

__all__ = ["MachinePaper", "lay_on_mats", "lay_paper_on_mats", "mat_for", "outlined"]


@dataclass(frozen=True, eq=False)
class MachinePaper:
    """One paper on mats: its blanks, the layouts with what was found wrong with them, and the room as it lies on a sheet.

    `corner` is where the room begins on the sheet, right and up from the sheet's lower left corner, mm. `fewest` mats cannot be
    undercut, by the area of the blanks that fit on one. `by_trimmer` is how many sheets through cuts take for the same batch.
    """

    paper: Paper
    lines: tuple[CutLine, ...]
    pieces: tuple[Outlined, ...]
    nested: NestedPlan
    faults: tuple[Fault, ...]
    corner: tuple[float, float]
    fewest: int
    by_trimmer: int

    @property
    def is_complete(self) -> bool:
        """Whether every blank lies on a mat, and the check found nothing."""
        return not self.nested.unplaced and not self.nested.unreached and not self.faults

    def line(self, name: str) -> CutLine:
        """The blank of a piece. Raises `KeyError`."""
        return {each.label: each for each in self.lines}[name]


def lay_on_mats(plan: Plan, *, tell: Callable[[int, float], bool] | None = None) -> tuple[MachinePaper, ...]:
    """All papers of a plan laid out for the kit's cutting machine. `tell` hears of a paper's mats so far and the share of its work that is
    done, and may stop it.

    Prints and grain are kept to as on the trimmer. Raises `Mistake` where the machine's edge leaves no room on a sheet.
    """
    return tuple(lay_paper_on_mats(plan, paper, tell) for paper in plan.papers)


def lay_paper_on_mats(plan: Plan, paper: PaperPlan, tell: Callable[[int, float], bool] | None = None) -> MachinePaper:
    """One paper of a plan laid out for a cutting machine, with its share of the work for the plan.

    Raises `Mistake` where the machine's edge leaves no room on a sheet.
    """
    corner, mat = mat_for(plan.kit.machine, paper.paper)
    pieces = outlined(paper.lines)
    nested = nest(pieces, mat, tell=tell, papers=len(plan.papers))
    return MachinePaper(
        paper=paper.paper,
        lines=paper.lines,
        pieces=pieces,
        nested=nested,
        faults=verify_nested(pieces, nested),
        corner=corner,
        fewest=fewest_by_area([each for each in pieces if each.name not in nested.unplaced], mat),
        by_trimmer=paper.sheets,
    )


def outlined(lines: Iterable[CutLine]) -> tuple[Outlined, ...]:
    """Blanks of a cut list as they are asked of the nesting."""
    return tuple(Outlined(each.label, each.blank.outline, each.in_batch, each.part.turns_on_mat) for each in lines)


def mat_for(machine: Machine, paper: Paper) -> tuple[tuple[float, float], Mat]:
    """The room for blanks on a sheet that lies in the lower left corner of the mat, and where on the sheet it begins, mm.

    The edge is left free of the mat and of the sheet, and so is what cannot be used of the sheet. Raises `Mistake` where nothing is left.
    """
    width, height = paper.sheet_width_mm, paper.sheet_height_mm
    wide, high = machine.mat or (width, height)
    edge, margins = machine.edge, paper.margins
    left, low = max(edge, margins.left), max(edge, margins.bottom)
    right = min(width - max(edge, margins.right), wide - edge)
    top = min(height - max(edge, margins.top), high - edge)
    return (float(left), float(low)), Mat(float(right - left), float(top - low), float(machine.gap))
