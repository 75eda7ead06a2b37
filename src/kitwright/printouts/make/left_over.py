"""What is left over of the sheets, and what the papers on hand are enough for, in words."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.cutting import Holds, Objective, Possible, Reason, Unplaced, to_mm
from kitwright.measure import Ruler, counted
from kitwright.plan import FromStash, PaperOnHand, PaperPlan

__all__ = ["buy_words", "enough_sentence", "kept_over", "left_over_sentences", "stash_sentences"]


def left_over_sentences(paper: PaperPlan, ruler: Ruler) -> Iterator[str]:
    """What to keep, with sizes and counts, what is too small to keep, and whether a larger piece could be left."""
    kept = kept_over(paper, ruler)
    small = sum(one.times for one in paper.leftovers if not one.is_kept)
    if kept:
        listed = "; ".join(f"{size}, {counted(count, 'piece')}" for size, count in kept.items())
        yield f"Left over and worth keeping: {listed}."
    if small:
        yield f"Too small to keep: {counted(small, 'piece')}."
    if kept and any(piece.holds is Holds.UNTRIMMED for step in paper.steps for piece in step.gives):
        yield "These sizes are without margins, which are still on where the order of cuts says so."
    if kept and paper.gathered.is_proved:
        same = "for the same cost" if paper.cut_plan.objective is Objective.COST else "on as few sheets"
        yield f"No plan {same} leaves a larger piece."


def kept_over(paper: PaperPlan, ruler: Ruler) -> dict[str, int]:
    """How many offcuts worth keeping there are of every size, the largest first; sides down to the ruler's mark, with the unit."""
    kept: dict[str, int] = {}
    for one in paper.leftovers:
        if one.is_kept:
            size = f"{ruler.size(ruler.down(to_mm(one.width)), ruler.down(to_mm(one.height)))} {ruler.unit.value}"
            kept[size] = kept.get(size, 0) + one.times
    return kept


def stash_sentences(found: FromStash) -> Iterator[str]:
    """How many kits can be made from what is on hand, and what one more takes."""
    kits, more = counted(found.kits, "kit"), found.kits + 1
    yield f"{kits} can be made from what is on hand."
    if found.is_alike:
        yield "That is where kits share sheets; cut every one by the same layouts, as this kit says, it may be fewer."
    if not found.short:
        return
    yield f"For {more}, {' and '.join(short_words(paper.label, enough) for paper, enough in found.short)}."
    if not found.is_proved:
        yield f"Whether {more} could be made by another plan is not settled; more than {found.at_most} cannot."


def short_words(label: str, enough: Possible) -> str:
    """What is short of one paper."""
    missing = enough.missing
    if missing is not None:
        return f"{counted(missing, 'more sheet')} of {label} {'is' if missing == 1 else 'are'} needed"
    never = [why for why in map(why_never, enough.unplaced) if why]
    if never:
        return f"more sheets of {label} would not help: {never[0]}"
    return f"how many more sheets of {label} are needed was not found out"


def why_never(lacking: Unplaced) -> str:
    """Why no number of sheets gives a piece; empty where it might."""
    if lacking.is_out_of_reach:
        return f"the trimmer cannot make the cuts that free {lacking.piece}"
    return f"{lacking.piece} is too large for them" if lacking.reason is Reason.TOO_LARGE else ""


def buy_words(paper: PaperPlan) -> str:
    """How many sheets are to be bought for a batch; why that cannot be told, where not everything could be placed on sheets."""
    lacking = paper.cut_plan.unplaced
    if not lacking:
        return str(paper.to_buy)
    never = [why for why in map(why_never, lacking) if why]
    return f"cannot be made: {never[0]}" if never else "not everything is placed"


def enough_sentence(each: PaperOnHand) -> str:
    """For how many kits one paper is enough."""
    if each.enough_for is None:
        return "nothing is said of it: taken as bought as needed"
    return f"enough for {counted(each.enough_for.times, 'kit')}"
