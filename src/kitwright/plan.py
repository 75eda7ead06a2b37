"""The one pipeline: a kit and a batch in, everything that is shown, printed or stored out. Pure: no files, no clock."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from kitwright.cutting import (
    QUICK,
    BenchStep,
    CutPlan,
    Effort,
    Fault,
    FreeSheet,
    Margins,
    Objective,
    PieceType,
    Placement,
    ProgressCall,
    Stock,
    TrimmerLimits,
    cut_order,
    joined,
    lay_by_hand,
    lay_out,
    placements,
    to_nm,
    verify_plan,
)
from kitwright.errors import Mistake
from kitwright.kit import BuiltKit, BuiltPart, Kit, Laid, build, prove
from kitwright.measure import Ruler, counted
from kitwright.paper import Fibres, Paper, fibres_in_blank, should_be_scored
from kitwright.pattern import Blank, ScoreChart, score_chart
from kitwright.proof import Proof

__all__ = ["CutLine", "PaperPlan", "Plan", "blank_label", "plan", "sheet_by_hand"]

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

    The first `by_hand` layouts are sheets on which the maker chose the places; `free` are such sheets that through cuts do not take
    apart, which are not in `cut_plan`; `unused` are those, by their place in the kit's list, that do not go with this batch.
    """

    paper: Paper
    lines: tuple[CutLine, ...]
    demand: tuple[PieceType, ...]
    stocks: tuple[Stock, ...]
    cut_plan: CutPlan
    steps: tuple[BenchStep, ...]
    faults: tuple[Fault, ...]
    free: tuple[FreeSheet, ...] = ()
    by_hand: int = 0
    unused: tuple[int, ...] = ()

    @property
    def sheets(self) -> int:
        """How many sheets are cut."""
        return self.cut_plan.sheets + sum(each.times for each in self.free)

    @property
    def at_least(self) -> int:
        """No plan can do with fewer sheets than this; worked out from the bound on cost where sheets have a price.

        Where not everything is cut by through cuts, that bound does not hold, and the area of the blanks is left.
        """
        found, price = self.cut_plan, self.stocks[0].price
        if self.free:
            stock = self.stocks[0]
            area = sum(piece.width * piece.height * piece.count for piece in self.demand)
            return -(-area // (stock.usable_width * stock.usable_height))
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
class Plan:
    """Everything about a batch of one kit."""

    built: BuiltKit
    proof: Proof
    batch: int
    papers: tuple[PaperPlan, ...]

    @property
    def kit(self) -> Kit:
        """The kit as it was said."""
        return self.built.kit

    @property
    def ruler(self) -> Ruler:
        """The maker's ruler."""
        return self.built.kit.ruler

    @property
    def lines(self) -> tuple[CutLine, ...]:
        """The whole cut list, in the order of the kit's parts."""
        order = {part.name: place for place, part in enumerate(self.built.parts)}
        every = [line for paper in self.papers for line in paper.lines]
        return tuple(sorted(every, key=lambda line: order[line.part.name]))

    def straining(self, line: CutLine) -> frozenset[Fibres]:
        """Along which sides of a blank the grain runs in its pieces, where folds across it matter: not in thin paper.

        As they lie on the sheets or, before there is a layout, as they may lie. None where the grain is not known.
        """
        paper = line.part.paper
        if not should_be_scored(paper):
            return frozenset()
        laid = frozenset(turn for each in self.papers if each.paper is paper for turn in each.turns(line.label))
        turns = laid or line.part.turns_on_sheet
        return frozenset(found for turn in turns if (found := fibres_in_blank(paper, turn)) is not None)


def plan(
    kit: Kit,
    *,
    batch: int = 1,
    effort: Effort = QUICK,
    trimmer: TrimmerLimits | None = None,
    progress: ProgressCall | None = None,
) -> Plan:
    """Build, prove and lay out a batch of a kit. Raises `Mistake` or `Mistakes`."""
    check_batch(batch)
    built = build(kit)
    return Plan(
        built, prove(built), batch, lay_out_kit(built, batch, effort=effort, trimmer=trimmer, progress=progress)
    )


def check_batch(batch: int) -> None:
    """Raise `Mistake` for a number of kits that cannot be meant."""
    if not 1 <= batch <= MOST_KITS:
        raise Mistake(f"A batch of {counted(batch, 'kit')} cannot be planned.", do=f"Ask for 1 to {MOST_KITS:,} kits.")


def lay_out_kit(
    built: BuiltKit,
    batch: int,
    *,
    effort: Effort = QUICK,
    trimmer: TrimmerLimits | None = None,
    progress: ProgressCall | None = None,
) -> tuple[PaperPlan, ...]:
    """One cutting plan per paper that the kit uses, each checked by the independent verifier."""
    plans = []
    for key, paper in built.kit.papers.items():
        lines = tuple(line for part in built.parts if part.part.paper == key for line in cut_lines(part, batch))
        if not lines:
            continue
        demand, stocks = tuple(piece_type(line) for line in lines), (sheet_stock(paper),)
        sheets = [sheet_by_hand(laid, demand) for laid in built.kit.laid.get(key, ())]
        hand = lay_by_hand(demand, stocks[0], sheets, any_way_up=paper.can_turn)
        found = lay_out(hand.trimmable, stocks, trimmer=trimmer, effort=effort, progress=progress)
        if hand.trimmed:
            rest = lay_out(hand.rest, stocks, trimmer=trimmer, effort=effort, progress=progress) if hand.rest else None
            found = joined(found, hand.trimmed, rest, stocks[0])
        plans.append(
            PaperPlan(
                paper=paper,
                lines=lines,
                demand=demand,
                stocks=stocks,
                cut_plan=found,
                steps=cut_order(found),
                faults=verify_plan(hand.trimmable, stocks, found, trimmer),
                free=hand.free,
                by_hand=len(hand.trimmed),
                unused=hand.unused,
            )
        )
    return tuple(plans)


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


def blank_label(part: BuiltPart, blank: Blank) -> str:
    """A blank's name for people: the part's name, with the blank's own where the part has several or needs it more than once."""
    plain = len(part.pattern.blanks) == 1 and blank.copies == 1
    return part.name if plain else f"{part.name}: {blank.name}"


def piece_type(line: CutLine) -> PieceType:
    """What the cutting plan must know of a blank: its rectangle, its count, and how it may lie on the sheet.

    The print's up on the blank is turned `turn` quarters to the left; on the sheet it points up. So with a one-way print the blank
    lies turned back by as much. Other papers may lie either way, unless the grain is asked to run along one side.
    """
    width, height = line.blank.size
    return PieceType(line.label, nm(width), nm(height), line.in_batch, line.part.turns_on_sheet)


def sheet_stock(paper: Paper) -> Stock:
    """A paper's sheets as stock for the cutting plan, as many as it takes; what is on hand only says how many are to be bought."""
    margins = paper.margins
    return Stock(
        name=paper.key,
        width=to_nm(paper.sheet_width_mm),
        height=to_nm(paper.sheet_height_mm),
        count=None,
        price=None if paper.price is None else paper.price.minor,
        margins=Margins(to_nm(margins.left), to_nm(margins.bottom), to_nm(margins.right), to_nm(margins.top)),
    )


def nm(mm: float) -> int:
    """A drawn length in whole nanometres; drawings carry less than a nanometre of rounding."""
    return to_nm(Fraction(round(mm * 10**6), 10**6))
