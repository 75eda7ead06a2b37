"""Whether a blank can be cut from a sheet of its paper, and whether its numbers lie on the maker's ruler. Millimetres."""

from __future__ import annotations

from kitwright.findings import Finding, Reading, Severity, judged
from kitwright.measure import NUMERIC_TOLERANCE, Ruler, counted
from kitwright.paper import Paper, caliper_tolerance
from kitwright.pattern import Blank

__all__ = ["check_caliper", "check_ruler", "check_sheet"]


def check_sheet(about: str, blank: Blank, paper: Paper, ruler: Ruler, *, turns: tuple[int, ...]) -> Finding:
    """Whether the blank's rectangle fits the usable part of a sheet with one of the quarter `turns` that print and grain allow."""
    width, height = blank.size
    ways = [(height, width) if turn % 2 else (width, height) for turn in turns]
    usable = (float(paper.usable_width_mm), float(paper.usable_height_mm))
    lack = min(max(way[0] - usable[0], way[1] - usable[1]) for way in ways)
    size, sheet = ruler.size(*ways[0]), ruler.size(*usable)
    reading = Reading(lack, 0.0, "geometry", is_upper_limit=True)
    if lack > NUMERIC_TOLERANCE:
        asks = "grain is asked to run" if paper.can_turn else "one-way print asks"
        held = f" lying as its {asks}" if len(turns) == 1 else ""
        words = (
            f"Its blank of {size} is {ruler.near(lack)} too large for a sheet of {paper.label} ({sheet} usable){held}. "
            f"A sheet would need {size} to use."
        )
        return judged("blank-on-sheet", Severity.FAIL, about, words, reading)
    return judged("blank-on-sheet", Severity.OK, about, f"Its blank of {size} fits a sheet of {paper.label}.", reading)


def check_ruler(about: str, lengths: dict[str, float], ruler: Ruler) -> Finding:
    """Whether every number that the maker sets lies on a mark of the ruler."""
    off = {name: mm for name, mm in lengths.items() if not ruler.is_on_mark(mm)}
    if not off:
        return Finding(
            "on-the-ruler", Severity.OK, about, f"Every cut and score lies on a {ruler.name} mark.", because="geometry"
        )
    worst = max(off, key=lambda name: abs(float(ruler.nearest(off[name])) - off[name]))
    many = counted(len(off), "of its numbers lies", "of its numbers lie")
    return Finding(
        "on-the-ruler",
        Severity.NOTE,
        about,
        f"{many} between the {ruler.name} marks, first of all the {worst}: {ruler.near(off[worst])}.",
        measured=off[worst],
        required=float(ruler.nearest(off[worst])),
        margin=-abs(float(ruler.nearest(off[worst])) - off[worst]),
        because="common practice, no source",
    )


def check_caliper(paper: Paper, ruler: Ruler) -> Finding | None:
    """A note where the thickness of a paper was not measured but estimated; None where it was given."""
    if not paper.caliper.is_estimate:
        return None
    low, high = paper.thickness - caliper_tolerance(paper), paper.thickness + caliper_tolerance(paper)
    return Finding(
        "caliper-estimated",
        Severity.NOTE,
        paper.label,
        f"Its thickness is estimated from its weight: {ruler.thickness(paper.thickness)}, likely {ruler.thickness(low)} to "
        f"{ruler.thickness(high)}. Measure a stack of ten sheets and write it down.",
        measured=paper.thickness,
        because=paper.caliper.sentence,
    )
