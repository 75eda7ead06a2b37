"""Short signs for the blanks of a kit: 1, 2, 3 … in the order of the cut list, the same on every page. (Letters name layouts.)"""

from __future__ import annotations

from kitwright.plan import Plan

__all__ = ["signs_of"]


def signs_of(plan: Plan) -> dict[str, str]:
    """The sign of every blank by its label."""
    return {line.label: str(number) for number, line in enumerate(plan.lines, 1)}
