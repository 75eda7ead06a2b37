"""From a kit and a batch to the whole plan: built, proved, every paper laid out and checked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from kitwright.cutting import (
    QUICK,
    BenchStep,
    CutPlan,
    Effort,
    Fault,
    FreeSheet,
    Gathered,
    KeepRule,
    Layout,
    Leftover,
    Objective,
    PieceType,
    Placement,
    ProgressCall,
    Reason,
    Stock,
    TrimmerLimits,
    cut_order,
    gather_offcut,
    joined,
    largest_kept,
    lay_by_hand,
    lay_out,
    leftovers,
    nm_up,
    placements,
    same_for_every,
    to_mm,
    to_nm,
    verify_plan,
)
from kitwright.errors import Mistake
from kitwright.kit import (
    BuiltKit,
    BuiltPart,
    Keeping,
    Kit,
    Laid,
    blank_label,
    build,
    drawn_nm,
    prove,
    stocks_for,
    trimmer_limits,
)
from kitwright.measure import Ruler, counted
from kitwright.paper import Fibres, Paper, fibres_in_blank, should_be_scored
from kitwright.pattern import Blank, ScoreChart, score_chart
from kitwright.proof import Proof

__all__ = [
    "MOST_KITS",
    "CutLine",
    "PaperPlan",
    "Plan",
    "ProvedKit",
    "check_batch",
    "cut_lines",
    "lay_out_kit",
    "lines_for",
    "piece_type",
    "plan",
    "sheet_by_hand",
]


MOST_KITS = 100_000
"""A batch larger than this is a slip of the keyboard."""


@dataclass(frozen=True, eq=False)
class CutLine:
    """One line of the cut list: a blank, how many of it one kit and the batch need, and its score chart."""

    part: BuiltPart
    blank: Blank
    per_kit: int
    in_batch: int
    chart: ScoreChart

    @property
    def label(self) -> str:
        """The blank's name for people; unique in a kit."""
        return blank_label(self.part, self.blank)


@dataclass(frozen=True, eq=False)
class PaperPlan:
    """All cutting from one paper: what is wanted, the sheets, the layouts, and the order of cuts. `faults` of the check: none if well.

    The first of `stocks` is the whole sheet, the others are offcuts on hand. `gathered` holds the plan with its largest offcut. Where
    every kit is cut by the same layouts, `shared` is the plan that lets kits share sheets. `at_once` sheets are cut in one stack.
    The first `by_hand` layouts are sheets on which the maker chose the places; `free` are such sheets that through cuts do not take
    apart, which are not in `cut_plan`; `unused` are those, by their place in the kit's list, that do not go with this batch.
    """

    paper: Paper
    lines: tuple[CutLine, ...]
    demand: tuple[PieceType, ...]
    stocks: tuple[Stock, ...]
    gathered: Gathered
    keeping: KeepRule
    shared: CutPlan | None
    at_once: int
    steps: tuple[BenchStep, ...]
    faults: tuple[Fault, ...]
    free: tuple[FreeSheet, ...] = ()
    by_hand: int = 0
    unused: tuple[int, ...] = ()

    @property
    def cut_plan(self) -> CutPlan:
        """Layouts, bound and what could not be placed."""
        return self.gathered.plan

    @property
    def sheets(self) -> int:
        """How many whole sheets are cut."""
        return self.sheets_in(self.cut_plan) + sum(each.times for each in self.free)

    @property
    def offcuts_used(self) -> int:
        """How many offcuts on hand are cut."""
        return self.cut_plan.sheets - self.sheets_in(self.cut_plan)

    @property
    def cut_area_mm2(self) -> float:
        """How much paper is cut up, whole sheets and offcuts on hand (mm²)."""
        offcuts = (layout for layout in self.cut_plan.layouts if self.is_offcut(layout))
        cut_up = sum(layout.stock.width * layout.stock.height * layout.times for layout in offcuts)
        return float(self.paper.sheet_area_mm2) * self.sheets + float(to_mm(1)) ** 2 * cut_up

    @property
    def same_costs(self) -> int:
        """How many sheets more it takes to cut every kit by the same layouts; 0 where that is not asked for."""
        return 0 if self.shared is None else self.sheets - self.sheets_in(self.shared)

    @property
    def leftovers(self) -> tuple[Leftover, ...]:
        """What is left over, the largest first."""
        return leftovers(self.cut_plan, self.keeping)

    def is_offcut(self, layout: Layout) -> bool:
        """Whether a layout is cut from an offcut on hand."""
        return layout.stock.name != self.stocks[0].name

    def sheets_in(self, plan: CutPlan) -> int:
        """How many whole sheets a plan for this paper cuts."""
        return sum(layout.times for layout in plan.layouts if not self.is_offcut(layout))

    @property
    def at_least(self) -> int | None:
        """No plan can do with fewer sheets than this; worked out from the bound on cost where sheets have a price.

        Where not everything is cut by through cuts, that bound does not hold, and the area of the blanks is left. None where there are
        pieces that no number of sheets is enough for.
        """
        found, price = self.cut_plan, self.stocks[0].price
        if any(each.reason is not Reason.STOPPED for each in found.unplaced):
            return None
        if self.free:
            stock, *on_hand = self.stocks
            area = sum(piece.width * piece.height * piece.count for piece in self.demand)
            area -= sum(each.usable_width * each.usable_height * (each.count or 0) for each in on_hand)
            return max(0, -(-area // (stock.usable_width * stock.usable_height)))
        if found.objective is Objective.COST and price:
            return -(-found.bound.value // price)
        return found.bound.value

    def turns(self, label: str) -> frozenset[int]:
        """The quarter turns with which the pieces of a blank lie on the sheets."""
        return frozenset(
            each.turn for layout in self.cut_plan.layouts for each in placements(layout) if each.piece == label
        )

    @property
    def to_buy(self) -> int:
        """How many sheets are missing; all of them where nothing is said of what is on hand."""
        return max(0, self.sheets - (self.paper.on_hand or 0))


@dataclass(frozen=True, eq=False)
class ProvedKit:
    """A kit that was built and proved, whatever the proof says; nothing is laid out."""

    built: BuiltKit
    proof: Proof

    @property
    def kit(self) -> Kit:
        """The kit as it was said."""
        return self.built.kit

    @property
    def ruler(self) -> Ruler:
        """The maker's ruler."""
        return self.built.kit.ruler

    def turns(self, line: CutLine) -> frozenset[int]:
        """The quarter turns with which the pieces of a blank may lie on a sheet."""
        return frozenset(line.part.turns_on_sheet)

    def straining(self, line: CutLine) -> frozenset[Fibres]:
        """Along which sides of a blank the grain runs in its pieces, where folds across it matter: not in thin paper.

        None where the grain is not known.
        """
        paper = line.part.paper
        if not should_be_scored(paper):
            return frozenset()
        return frozenset(found for turn in self.turns(line) if (found := fibres_in_blank(paper, turn)) is not None)


@dataclass(frozen=True, eq=False)
class Plan(ProvedKit):
    """Everything about a batch of one kit: proved, and laid out on sheets."""

    batch: int
    papers: tuple[PaperPlan, ...]

    @property
    def lines(self) -> tuple[CutLine, ...]:
        """The whole cut list, in the order of the kit's parts."""
        order = {part.name: place for place, part in enumerate(self.built.parts)}
        every = [line for paper in self.papers for line in paper.lines]
        return tuple(sorted(every, key=lambda line: order[line.part.name]))

    def turns(self, line: CutLine) -> frozenset[int]:
        """The quarter turns with which the pieces of a blank do lie on the sheets; may lie, where none of them has a place."""
        laid = (each.turns(line.label) for each in self.papers if each.paper is line.part.paper)
        return frozenset[int]().union(*laid) or super().turns(line)


def plan(
    kit: Kit,
    *,
    batch: int = 1,
    alike: bool = False,
    effort: Effort = QUICK,
    progress: ProgressCall | None = None,
) -> Plan:
    """Build, prove and lay out a batch of a kit; with `alike`, or where the kit says so, every kit by the same layouts.

    Raises `Mistake` or `Mistakes`.
    """
    check_batch(batch)
    built = build(kit)
    return Plan(built, prove(built), batch, lay_out_kit(built, batch, alike=alike, effort=effort, progress=progress))


def check_batch(batch: int) -> None:
    """Raise `Mistake` for a number of kits that cannot be meant."""
    if not 1 <= batch <= MOST_KITS:
        raise Mistake(f"A batch of {counted(batch, 'kit')} cannot be planned.", do=f"Ask for 1 to {MOST_KITS:,} kits.")


def lay_out_kit(
    built: BuiltKit,
    batch: int,
    *,
    alike: bool = False,
    effort: Effort = QUICK,
    progress: ProgressCall | None = None,
) -> tuple[PaperPlan, ...]:
    """One cutting plan per paper that the kit uses, each checked by the independent verifier.

    With `alike`, or where the kit says so, every kit is cut by the same layouts, and sheets that were laid by hand are not used. The
    papers share the work of the effort.
    """
    lay = lay_out_alike if alike or built.kit.alike else lay_out_paper
    papers = [(key, lines) for key in built.kit.papers if (lines := lines_for(built, key, batch))]
    how = Search(trimmer_limits(built.kit.trimmer), effort.shared(len(papers)), progress)
    return tuple(lay(built.kit, key, lines, batch, how) for key, lines in papers)


@dataclass(frozen=True, slots=True)
class Search:
    """How a layout is looked for: the trimmer's limits, how hard, and who is told."""

    trimmer: TrimmerLimits
    effort: Effort
    progress: ProgressCall | None

    def lay_out(self, demand: Sequence[PieceType], stocks: Sequence[Stock]) -> CutPlan:
        """A plan for this demand."""
        return lay_out(demand, stocks, trimmer=self.trimmer, effort=self.effort, progress=self.progress)


def lay_out_paper(kit: Kit, key: str, lines: tuple[CutLine, ...], _: int, how: Search) -> PaperPlan:
    """The plan for one paper: sheets laid by hand first, all else on the fewest sheets, with the largest offcut.

    Where the maker laid a sheet, nothing is arranged anew.
    """
    paper, keeping = kit.papers[key], keep_rule(kit.keeping)
    demand, stocks = tuple(piece_type(line) for line in lines), stocks_for(kit, paper)
    sheets = [sheet_by_hand(laid, demand) for laid in kit.laid.get(key, ())]
    hand = lay_by_hand(demand, stocks[0], sheets, any_way_up=paper.can_turn, trimmer=how.trimmer)
    found = how.lay_out(hand.trimmable, stocks)
    if hand.trimmed:
        found = joined(found, hand.trimmed, how.lay_out(hand.rest, stocks) if hand.rest else None, stocks[0])
        gathered = Gathered(found, largest_kept(found, keeping), None)
    else:
        gathered = gather_offcut(
            hand.trimmable, stocks, found, rule=keeping, trimmer=how.trimmer, effort=how.effort, progress=how.progress
        )
    at_once = kit.trimmer.at_once(paper.thickness)
    return PaperPlan(
        paper=paper,
        lines=lines,
        demand=demand,
        stocks=stocks,
        gathered=gathered,
        keeping=keeping,
        shared=None,
        at_once=at_once,
        steps=cut_order(gathered.plan, trimmer=how.trimmer, at_once=at_once),
        faults=verify_plan(hand.trimmable, stocks, gathered.plan, how.trimmer),
        free=hand.free,
        by_hand=len(hand.trimmed),
        unused=hand.unused,
    )


def lay_out_alike(kit: Kit, key: str, lines: tuple[CutLine, ...], batch: int, how: Search) -> PaperPlan:
    """The plan for one paper by which every kit is cut by the same layouts, from whole sheets."""
    paper, keeping = kit.papers[key], keep_rule(kit.keeping)
    demand, stocks = tuple(piece_type(line) for line in lines), stocks_for(kit, paper)[:1]
    how = replace(how, effort=how.effort.shared(2))
    shared = how.lay_out(demand, stocks)
    one = how.lay_out([replace(piece, count=line.per_kit) for piece, line in zip(demand, lines, strict=True)], stocks)
    found = same_for_every(one, shared, batch)
    gathered = gather_offcut(
        demand,
        stocks,
        found,
        rule=keeping,
        trimmer=how.trimmer,
        alike=True,
        effort=how.effort,
        progress=how.progress,
    )
    at_once = kit.trimmer.at_once(paper.thickness)
    return PaperPlan(
        paper=paper,
        lines=lines,
        demand=demand,
        stocks=stocks,
        gathered=gathered,
        keeping=keeping,
        shared=shared,
        at_once=at_once,
        steps=cut_order(gathered.plan, trimmer=how.trimmer, at_once=at_once),
        faults=verify_plan(demand, stocks, gathered.plan, how.trimmer),
        unused=tuple(range(len(kit.laid.get(key, ())))),
    )


def lines_for(built: BuiltKit, key: str, batch: int) -> tuple[CutLine, ...]:
    """The cut list of one paper for a batch."""
    return tuple(line for part in built.parts if part.part.paper == key for line in cut_lines(part, batch))


def keep_rule(keeping: Keeping) -> KeepRule:
    """Which offcuts are kept, as the cutting plan knows it."""
    width, height = keeping.area
    return KeepRule(side=nm_up(keeping.side), area=nm_up(width) * nm_up(height))


def cut_lines(part: BuiltPart, batch: int) -> tuple[CutLine, ...]:
    """The cut list of one part, a line per blank."""
    return tuple(
        CutLine(
            part=part,
            blank=blank,
            per_kit=part.part.quantity * blank.copies,
            in_batch=part.part.quantity * blank.copies * batch,
            chart=score_chart(blank),
        )
        for blank in part.pattern.blanks
    )


def sheet_by_hand(laid: Sequence[Laid], demand: Sequence[PieceType]) -> tuple[Placement, ...]:
    """The places that the maker chose on one sheet; a blank that is not there any more takes no room, and is found to be missing."""
    known = {piece.name: piece for piece in demand}
    lying = []
    for one in laid:
        width, height = known[one.blank].size(one.turn) if one.blank in known else (0, 0)
        lying.append(Placement(one.blank, one.turn, to_nm(one.at[0]), to_nm(one.at[1]), width, height))
    return tuple(lying)


def piece_type(line: CutLine) -> PieceType:
    """What the cutting plan must know of a blank: its rectangle, its count, and how it may lie on the sheet.

    The print's up on the blank is turned `turn` quarters to the left; on the sheet it points up. So with a one-way print the blank
    lies turned back by as much. Other papers may lie either way, unless the grain is asked to run along one side.
    """
    width, height = line.blank.size
    return PieceType(line.label, drawn_nm(width), drawn_nm(height), line.in_batch, line.part.turns_on_sheet)
