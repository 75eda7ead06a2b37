"""How the print of a part stands where it is used."""

from __future__ import annotations

from kitwright.findings import Finding, Severity
from kitwright.kit.built_part import BuiltPart
from kitwright.kit.model import Goes
from kitwright.kit.placing import HALF_ROUND, laid
from kitwright.proof import check_print

__all__ = ["print_findings"]


def print_findings(part: BuiltPart, *, turn: int) -> tuple[Finding, ...]:
    """How a print turned so many quarters on the blank stands on the finished part.

    A band over the top is asked for the face that lies on top only, and may be laid on either way round.
    """
    goes = part.part.goes
    if goes is Goes.WALLS:
        return tuple(check_print(part.name, part.folded, part.paper, turn=turn))
    one = laid(part.folded, goes)
    ways = [
        tuple(check_print(part.name, way, part.paper, turn=turn, only_main=True, words={"front": "top"}))
        for way in (one, one.moved(HALF_ROUND))
    ]
    return min(ways, key=lambda found: sum(each.severity is Severity.FAIL for each in found))
