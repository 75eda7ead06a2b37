"""The waste of a plan gathered into one large offcut worth keeping, without spoiling what the plan already is good at.

The aims in their order: cost, different layouts, guide settings, cuts, and only then the largest offcut. A plan is changed only for one
that is at least as good in all the aims before. Two ways are tried: the pieces of one layout arranged anew (exact), and the whole batch
laid out with the offcut as one more part; sizes that the bound rules out are not tried at all.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from kitwright.cutting.arrange import arrangements
from kitwright.cutting.beside import offcuts_allowed
from kitwright.cutting.check import find_unplaceable
from kitwright.cutting.job import make_job
from kitwright.cutting.leftover import USUAL_KEEPING, KeepRule, Leftover, largest_kept
from kitwright.cutting.order import count_guide_settings, cut_order
from kitwright.cutting.plan import QUICK, CutPlan, Effort, Progress, ProgressCall, prices_of
from kitwright.cutting.search import search_plan
from kitwright.cutting.stock import UPRIGHT, PieceType, Stock, TrimmerLimits
from kitwright.cutting.tree import Cut, CutTree, Layout, Offcut, Part, count_parts
from kitwright.cutting.verify import verify_plan

__all__ = ["Gathered", "gather_offcut"]

TRY: Final = Effort(rounds=60, patterns=200, nodes=20, steps=600, work=1_000_000, work_a_piece=4_000)
"""How hard each size is tried."""

SHARE: Final = 2
"""The work is that of a search for the plan divided by this."""

MOST_SIZES: Final = 2_000
"""Of the sizes that are allowed, so many of the largest are looked at."""

WORK_OF_COMPARING: Final = 2_000
"""Microseconds for each layout of a plan that is compared with another one."""

MOST_TRIES: Final = 16
MOST_ARRANGEMENTS: Final = 6


@dataclass(frozen=True, slots=True)
class Gathered:
    """A plan with its largest offcut worth keeping (None: there is none), and the area (nm²) that no plan of that value can exceed."""

    plan: CutPlan
    largest: Leftover | None
    most_area: int | None

    @property
    def is_proved(self) -> bool:
        """Whether no plan of the same value has a larger offcut that is worth keeping."""
        return self.most_area is not None and self.most_area <= (self.largest.area if self.largest else 0)


Aims = tuple[int, int, int, int, int]
"""Value, layouts, guide settings, cuts, and the area of the largest offcut below zero: the less the better, in this order."""


def gather_offcut(
    demand: Sequence[PieceType],
    stocks: Sequence[Stock],
    plan: CutPlan,
    *,
    rule: KeepRule = USUAL_KEEPING,
    trimmer: TrimmerLimits | None = None,
    alike: bool = False,
    effort: Effort = QUICK,
    progress: ProgressCall | None = None,
) -> Gathered:
    """The plan, or one as good in everything else with a larger offcut; every change has passed the verifier.

    With `alike` pieces stay in their layouts. A plan that is not complete is left as it is. The work is counted, not timed: the same
    question with the same effort gives the same answer, unless `progress` answers False and so ends it.
    """
    if not plan.is_complete or not plan.layouts:
        return Gathered(plan, largest_kept(plan, rule), None)
    best = plan
    work = effort.work_for(sum(piece.count for piece in demand)) // SHARE
    here = Progress("offcuts", plan.value, plan.bound.value)
    for place in range(len(plan.layouts)):
        if work <= 0 or (progress is not None and not progress(here)):
            return Gathered(best, largest_kept(best, rule), None)
        others, spent = arranged(best.layouts[place], demand, rule)
        work -= spent
        for layout in others:
            work -= WORK_OF_COMPARING * len(best.layouts)
            layouts = (*best.layouts[:place], layout, *best.layouts[place + 1 :])
            best = better(best, replace(best, layouts=layouts), (demand, stocks, trimmer), rule)
    if not alike:
        return with_one_part_more((demand, stocks, trimmer), best, rule, work, progress)
    return Gathered(best, largest_kept(best, rule), None)


def arranged(layout: Layout, demand: Sequence[PieceType], rule: KeepRule) -> tuple[list[Layout], int]:
    """The layout with its pieces arranged anew, the largest offcut first; and the work."""
    stock = layout.stock
    pieces = [piece for piece in demand if piece.may_come_from(stock)]
    found, work = arrangements(count_parts(layout.tree), pieces, stock.usable_width, stock.usable_height)
    kept = (tree for width, height, tree in found[:MOST_ARRANGEMENTS] if rule.keeps(width, height))
    return [Layout(stock, tree, layout.times) for tree in kept], work


Question = tuple[Sequence[PieceType], Sequence[Stock], TrimmerLimits | None]


def better(old: CutPlan, new: CutPlan, question: Question, rule: KeepRule) -> CutPlan:
    """The new plan if it is better by the aims and the verifier finds nothing wrong with it, otherwise the old one."""
    demand, stocks, trimmer = question
    if aims_of(new, rule, trimmer) < aims_of(old, rule, trimmer) and not verify_plan(demand, stocks, new, trimmer):
        return new
    return old


def aims_of(plan: CutPlan, rule: KeepRule, trimmer: TrimmerLimits | None) -> Aims:
    """How good a plan is."""
    steps = cut_order(plan, trimmer=trimmer)
    largest = largest_kept(plan, rule)
    cuts = sum(step.sheets * step.repeats for step in steps)
    return plan.value, len(plan.layouts), count_guide_settings(steps), cuts, -largest.area if largest else 0


Size = tuple[str, int, int]
"""Stock, width and height (nm) of an offcut."""


def with_one_part_more(
    question: Question, plan: CutPlan, rule: KeepRule, work: int, progress: ProgressCall | None
) -> Gathered:
    """Lay out the batch again with an offcut as one more part, for sizes between the largest allowed and what there is."""
    demand, stocks, trimmer = question
    job = make_job(demand, stocks, trimmer or TrimmerLimits())
    here = Progress("offcuts", plan.value, plan.bound.value)
    allowed, spent = offcuts_allowed(
        job, plan.bound, plan.value, work=work // 2, goes_on=lambda: progress is None or progress(here)
    )
    work -= spent
    if allowed is None:
        return Gathered(plan, largest_kept(plan, rule), None)
    best, largest = plan, largest_kept(plan, rule)
    larger = sorted((size for size in allowed if rule.keeps(*size[1:]) and is_larger(size, largest)), key=by_area)
    smaller, open_ = larger[:-MOST_SIZES], larger[-MOST_SIZES:]
    failed: set[Size] = set()
    for number in range(MOST_TRIES):
        untried = [size for size in open_ if size not in failed]
        if not untried or work <= 0:
            break
        # the largest of all, then halving, then the largest again: what fits is common at the small end and rare at the large one
        size = untried[-1] if number == 0 or number > MOST_TRIES // 2 else untried[len(untried) // 2]
        found, spent = lay_out_beside(question, plan, size, work, progress)
        work -= spent + WORK_OF_COMPARING * len(plan.layouts)
        if found is None:
            open_ = [one for one in open_ if not holds(one, size)]
        elif found:
            best = better(best, found, question, rule)
            largest = largest_kept(best, rule)
            open_ = [one for one in open_ if is_larger(one, largest)]
        failed.add(size)
        if number <= MOST_TRIES // 2 and not (largest and largest.area >= size[1] * size[2]):
            failed |= {one for one in open_ if number and by_area(one) > by_area(size)}
    most = max((size[1] * size[2] for size in (*smaller[-1:], *open_)), default=0)
    return Gathered(best, largest, max(most, largest.area if largest else 0))


def by_area(size: Size) -> tuple[int, int, str]:
    """Smallest area first; of equal ones, the longest first."""
    return size[1] * size[2], min(size[1:]), size[0]


def is_larger(size: Size, largest: Leftover | None) -> bool:
    """Whether an offcut of this size would be larger than the largest one."""
    return largest is None or size[1] * size[2] > largest.area


def holds(outer: Size, inner: Size) -> bool:
    """Whether an offcut of the one size holds one of the other size on the same stock."""
    return outer[0] == inner[0] and outer[1] >= inner[1] and outer[2] >= inner[2]


def lay_out_beside(
    question: Question, plan: CutPlan, size: Size, work: int, progress: ProgressCall | None
) -> tuple[CutPlan | Literal[False] | None, int]:
    """A plan of the same value with an offcut of this size; None if there is provably none, False if none was found. Then the work."""
    demand, stocks, trimmer = question
    stock, width, height = size
    extra = PieceType(free_name(demand), width, height, 1, UPRIGHT, (stock,))

    def goes_on(far: Progress) -> bool:
        reached = far.best is not None and far.best <= plan.value
        ruled_out = far.bound is not None and far.bound > plan.value
        return not reached and not ruled_out and (progress is None or progress(replace(far, stage="offcuts")))

    effort = replace(TRY, work=min(TRY.work, work))
    found, spent = search_plan([*demand, extra], stocks, trimmer=trimmer, effort=effort, progress=goes_on)
    if found.bound.value > plan.value and not find_unplaceable([*demand, extra], stocks, trimmer or TrimmerLimits()):
        return None, spent
    if not found.is_complete or found.value > plan.value:
        return False, spent
    layouts = tuple(
        Layout(layout.stock, without(layout.tree, extra.name), layout.times)
        for layout in found.layouts
        if set(count_parts(layout.tree)) - {extra.name}
    )
    price = dict(zip((each.name for each in stocks), prices_of(stocks), strict=True))
    value = sum(price[layout.stock.name] * layout.times for layout in layouts)
    return replace(plan, layouts=merged(layouts), value=value), spent


def free_name(demand: Sequence[PieceType]) -> str:
    """A name that no piece has."""
    name = "offcut"
    while any(piece.name == name for piece in demand):
        name += "*"
    return name


def without(tree: CutTree, name: str) -> CutTree:
    """The tree with the pieces of this name left over, and offcuts beside each other left together."""
    if isinstance(tree, Part):
        return Offcut() if tree.piece == name else tree
    if isinstance(tree, Offcut):
        return tree
    low, high = without(tree.low, name), without(tree.high, name)
    if isinstance(low, Offcut) and isinstance(high, Offcut):
        return low
    return Cut(tree.axis, tree.at, low, high)


def merged(layouts: Sequence[Layout]) -> tuple[Layout, ...]:
    """Equal layouts put together."""
    times: dict[tuple[str, CutTree], Layout] = {}
    for layout in layouts:
        key = (layout.stock.name, layout.tree)
        before = times[key].times if key in times else 0
        times[key] = Layout(layout.stock, layout.tree, before + layout.times)
    return tuple(times.values())
