"""How the print of a part stands where it is used."""

from __future__ import annotations

from kitwright.findings import Finding
from kitwright.folding import Folded
from kitwright.kit.built_part import BuiltPart
from kitwright.kit.model import Goes
from kitwright.kit.placing import HALF_ROUND, laid
from kitwright.pattern import Axis, PanelRef
from kitwright.proof import check_print

__all__ = ["as_used", "print_findings"]


def as_used(part: BuiltPart, folded: Folded, *, turn: int) -> Folded:
    """A part at some state of folding as it lies where it is used, its print turned so many quarters on the blank.

    A band over the top can be laid on either way round: so that its print is not upside down on top.
    """
    there = laid(folded, part.part.goes)
    if part.part.goes is Goes.WALLS:
        return there
    up = there.print_up(top_of(part), turns=turn)
    return there.moved(HALF_ROUND).standing() if up[1] < -0.5 else there


def top_of(part: BuiltPart) -> PanelRef:
    """The panel of a band over the top that lies on top: the one at the front as it is drawn."""
    front = next(each for each in part.pattern.claims.outside if each.axis is Axis.DEPTH).low
    return front if isinstance(front, PanelRef) else front.panel


def print_findings(part: BuiltPart, *, turn: int) -> tuple[Finding, ...]:
    """How a print turned so many quarters on the blank stands on the finished part.

    A band over the top is asked for the face that lies on top only.
    """
    if part.part.goes is Goes.WALLS:
        return tuple(check_print(part.name, part.folded, part.paper, turn=turn, model=part.model))
    there, top = as_used(part, part.folded, turn=turn), top_of(part)
    return tuple(check_print(part.name, there, part.paper, turn=turn, only_main=True, words={top.panel: "top"}))
