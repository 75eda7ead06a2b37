"""Whether the maker's trimmer can free a blank from a sheet of its paper, where something is said of the trimmer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from kitwright.cutting import Freeing, PieceType, Stock, TrimmerLimits, can_hold, freeing, to_mm
from kitwright.findings import Finding, Reading, Severity, judged
from kitwright.kit.built import BuiltKit
from kitwright.kit.built_part import BuiltPart
from kitwright.kit.for_cutting import blank_label, drawn_nm, stocks_for, trimmer_limits
from kitwright.measure import Ruler
from kitwright.paper import Paper
from kitwright.pattern import Blank

__all__ = ["Reach", "check_reach", "reach_for"]

SAID: Final = "what the kit says of the trimmer"
"""Where the limit comes from."""


@dataclass(frozen=True, slots=True)
class Reach:
    """What the trimmer can do, the whole sheet of a paper and the offcuts of it on hand, and which of a part's blanks are laid by hand."""

    trimmer: TrimmerLimits
    sheet: Stock
    offcuts: tuple[Stock, ...]
    by_hand: frozenset[str]


def reach_for(built: BuiltKit, part: BuiltPart) -> Reach | None:
    """What a part's blanks are freed from and with; None where nothing is said of the trimmer that could be in the way.

    Where every kit is cut by the same layouts, neither offcuts nor sheets laid by hand are used.
    """
    kit = built.kit
    trimmer = trimmer_limits(kit.trimmer)
    if trimmer == TrimmerLimits():
        return None
    sheet, *offcuts = stocks_for(kit, part.paper)
    if kit.alike:
        return Reach(trimmer, sheet, (), frozenset())
    laid = {one.blank for sheet in kit.laid.get(part.paper.key, ()) for one in sheet}
    own = {blank_label(part, blank) for blank in part.pattern.blanks}
    return Reach(trimmer, sheet, tuple(offcuts), frozenset(laid & own))


def check_reach(part: BuiltPart, blank: Blank, reach: Reach, ruler: Ruler) -> Finding | None:
    """Whether the trimmer can free the blank from a whole sheet in one of the turns that print and grain allow.

    A note where it cannot, but an offcut on hand or a sheet laid by hand may give the blank all the same; how many, the layouts tell.
    None where the blank is larger than what can be used of the sheet, which is told by itself.
    """
    width, height = blank.size
    label = blank_label(part, blank)
    piece = PieceType(label, drawn_nm(width), drawn_nm(height), 1, part.turns_on_sheet)
    ways = [found for turn in piece.turns if (found := freeing(reach.sheet, piece, turn)) is not None]
    if not ways:
        return None
    size, trimmer = ruler.size(width, height), reach.trimmer
    if any(each.is_possible(trimmer) for each in ways):
        words = f"The trimmer can free its blank of {size} from a sheet of {part.paper.label}."
        return Finding("blank-in-reach", Severity.OK, part.name, words, because=SAID)
    reading, why = hindrance(ways, reach, part.paper, ruler)
    asks = "the grain is asked to run" if part.paper.can_turn else "the one-way print asks"
    held = f", lying as {asks}" if len({turn % 2 for turn in piece.turns}) == 1 else ""
    words = f"The trimmer cannot free its blank of {size} from a sheet of {part.paper.label}{held}: {why}"
    if label in reach.by_hand:
        words += " You laid it by hand: see the sheets for how it is cut out."
    elif any(can_hold(offcut, piece, turn, trimmer) for offcut in reach.offcuts for turn in piece.turns):
        words += " There are offcuts on hand that it can be freed from: see the sheets for whether they are enough."
    else:
        return judged("blank-in-reach", Severity.FAIL, part.name, words, reading)
    return judged("blank-in-reach", Severity.NOTE, part.name, words, reading)


def hindrance(ways: list[Freeing], reach: Reach, paper: Paper, ruler: Ruler) -> tuple[Reading, str]:
    """What the nearest way to free a blank takes, where the trimmer makes none of them, against what it does, and that in words.

    The length of the cut, wherever the hand has enough to hold one way or the other; else what it has to hold.
    """
    trimmer = reach.trimmer
    steady = [each for each in ways if each.held is None or each.held >= trimmer.smallest_strip]
    if trimmer.longest_cut is not None and steady:
        cut, longest = to_mm(min(each.cut for each in steady)), to_mm(trimmer.longest_cut)
        words = f"that takes a cut of {ruler.near(cut)}, and its longest is {ruler.near(longest)}."
        if paper.usable_width_mm < paper.sheet_width_mm or paper.usable_height_mm < paper.sheet_height_mm:
            words = f"with the margins to cut off, first or last, {words}"
        return Reading(float(cut), float(longest), SAID, is_upper_limit=True), words
    held, narrowest = to_mm(max(each.held or 0 for each in ways)), to_mm(trimmer.smallest_strip)
    words = (
        f"what lies under the hand at one of the cuts is {ruler.near(held)} wide at most, and {ruler.near(narrowest)} must be there to "
        "hold."
    )
    return Reading(float(held), float(narrowest), SAID), words
