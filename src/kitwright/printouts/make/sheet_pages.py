"""Sheet layouts with the order of cuts, paper by paper."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TypeAlias, TypedDict

from kitwright.cutting import CutPlan, FreeSheet, Layout, Reason, Stock, to_mm
from kitwright.measure import MM_PER_INCH, counted
from kitwright.paper import Print
from kitwright.plan import PaperPlan, Plan
from kitwright.printouts.compose import Fitted, fitted
from kitwright.printouts.drawing import Drawing
from kitwright.printouts.make.bench_words import step_words
from kitwright.printouts.make.layout_picture import layout_marks, sheet_marks, with_names
from kitwright.printouts.make.left_over import left_over_sentences
from kitwright.printouts.make.signs import signs_of
from kitwright.printouts.write.house import (
    caution,
    columns,
    heading,
    paragraph,
    picture,
    shared,
    table,
    table_height,
    together,
)
from kitwright.printouts.write.typst import Markup

__all__ = [
    "FREE_WORDS",
    "bound_sentence",
    "free_drawing",
    "free_fitted",
    "hand_sentences",
    "layout_drawing",
    "layout_fitted",
    "layout_title",
    "sheet_blocks",
    "times_words",
]

SHEET_WIDTH = 66.0
HIGHEST_BESIDE = 150.0
"""A picture of a layout that its signs and names make higher than this (mm) stands above its cuts, not beside them."""
WIDE, HIGH = 165.0, 130.0
"""Room (mm) for the sheet of such a picture; its names stand below in columns."""
MOST_ROWS = 14
"""Cuts that stand beside one picture of their layout; more of them follow beside the same picture again."""
CutRow: TypeAlias = tuple[str, str, str, str]
COLUMN_WIDTHS = (25.0, 30.0, 18.0, 38.0)
"""Shares of a table of cuts; beside a picture they are mm on the narrower page."""
HIGHEST = 205.0
"""What is not higher than this (mm) goes on any page with its heading."""
FREE_WORDS = (
    "Laid by you so that no cuts from edge to edge free these blanks: draw them on the back of the sheet and cut them out with "
    "scissors, or with a knife along a ruler."
)


def sheet_blocks(plan: Plan) -> Iterator[Markup]:
    """Every paper: how many sheets, why no fewer, each layout with its cuts."""
    for number, paper in enumerate(plan.papers, 1):
        words = " ".join([bound_sentence(paper), *left_over_sentences(paper, plan.ruler)])
        head = [heading(f"Sheets: {paper.paper.label}"), paragraph(words)]
        head += [paragraph(words) for words in hand_sentences(paper)]
        lacking = [each.sentence(plan.ruler) for each in paper.cut_plan.unplaced]
        head += [caution(*lacking, word="Not on any sheet")] if lacking else []
        if paper.faults:
            words = "The layout failed its check: do not cut"
            head.append(caution(*(fault.message for fault in paper.faults), word=words))
        first = True
        for place, layout in enumerate(paper.cut_plan.layouts):
            drawing = layout_drawing(plan, paper, layout, width=SHEET_WIDTH, height=1.4 * SHEET_WIDTH)
            if drawing.height > HIGHEST_BESIDE:
                blocks = list(wide_layout_blocks(plan, paper, layout, place))
            else:
                said, shown = shared(f"layout-{number}-{place + 1}", layout_picture(paper, drawing, place))
                yield said
                blocks = list(layout_blocks(plan, paper, place, shown))
            yield together(*head, blocks[0]) if first else blocks[0]
            yield from blocks[1:]
            first = False
        if first:
            yield together(*head)
        for place, free in enumerate(paper.free, len(paper.cut_plan.layouts)):
            drawing = free_drawing(plan, paper, free, width=SHEET_WIDTH, height=1.2 * SHEET_WIDTH)
            alone = picture(drawing, alt=f"{layout_title(paper, place)} of {paper.paper.label}")
            yield together(
                heading(layout_title(paper, place), level=2),
                columns([alone], [paragraph(FREE_WORDS)], widths=[f"{SHEET_WIDTH:g}mm", "1fr"], between=5),
            )


def layout_picture(paper: PaperPlan, drawing: Drawing, number: int) -> Markup:
    """The picture of a layout."""
    return picture(drawing, alt=f"Layout {layout_letter(number)} of {paper.paper.label}")


def wide_layout_blocks(plan: Plan, paper: PaperPlan, layout: Layout, number: int) -> Iterator[Markup]:
    """A layout of very many kinds of pieces: its picture as wide as the page, its cuts below."""
    drawing = layout_drawing(plan, paper, layout, width=WIDE, height=HIGH)
    low = drawing.height <= HIGHEST
    yield together(heading(layout_title(paper, number), level=2), layout_picture(paper, drawing, number), low=low)
    rows = cut_rows(plan, paper, number)
    if rows:
        yield cut_table(plan, rows)


def cut_rows(plan: Plan, paper: PaperPlan, number: int) -> list[CutRow]:
    """A layout's cuts in their order."""
    return [step_words(step, plan.ruler) for step in paper.steps if step.layout == number]


def cut_table(plan: Plan, rows: Sequence[Sequence[str]]) -> Markup:
    """Cuts in words."""
    return table(
        ["Take", "Lay it print up,", f"Guide, {plan.ruler.unit.value}", "Gives"],
        rows,
        align=["left", "left", "right", "left"],
        widths=[f"{width:g}fr" for width in COLUMN_WIDTHS],
    )


def layout_blocks(plan: Plan, paper: PaperPlan, number: int, shown: Markup) -> Iterator[Markup]:
    """One layout: its picture at the left, its cuts at the right; where there are many cuts, the picture is shown again."""
    letter = layout_letter(number)
    rows = cut_rows(plan, paper, number)
    for place, part in enumerate(parts_of(rows) or [[]]):
        title = layout_title(paper, number) if place == 0 else f"Layout {letter}, its further cuts"
        cuts = [cut_table(plan, part)] if part else []
        beside = columns([shown], cuts, widths=[f"{SHEET_WIDTH:g}mm", "1fr"], between=5)
        low = table_height(part, COLUMN_WIDTHS) <= HIGHEST
        yield together(heading(title, level=2), beside, low=low)


def parts_of(rows: Sequence[CutRow]) -> list[list[CutRow]]:
    """Cuts in parts that stand beside one picture each."""
    parts: list[list[CutRow]] = []
    for row in rows:
        if parts and len(parts[-1]) < MOST_ROWS and table_height([*parts[-1], row], COLUMN_WIDTHS) <= HIGHEST:
            parts[-1].append(row)
        else:
            parts.append([row])
    return parts


def layout_title(paper: PaperPlan, number: int) -> str:
    """What a layout is called: its letter, how many sheets are cut so, and whether the maker laid it. Free sheets come last."""
    found = paper.cut_plan.layouts
    times = found[number].times if number < len(found) else paper.free[number - len(found)].times
    many = times_words(paper, found[number].stock if number < len(found) else paper.stocks[0], times)
    hand = ", laid by hand" if not paper.by_hand <= number < len(found) else ""
    return f"Layout {layout_letter(number)}, {many}{hand}"


def hand_sentences(paper: PaperPlan) -> tuple[str, ...]:
    """What is to be said of sheets laid by hand."""
    said = []
    if paper.by_hand or paper.free:
        made = sum(each.times for each in paper.cut_plan.layouts[: paper.by_hand]) + sum(
            each.times for each in paper.free
        )
        said.append(f"{'One sheet was' if made == 1 else f'{made} sheets were'} laid by your own hand.")
    if paper.unused and paper.shared is not None:
        said.append("What you laid by hand is left out, because every kit is cut by the same layouts.")
    elif paper.unused:
        one = len(paper.unused) == 1
        said.append(
            f"{'One sheet' if one else f'{len(paper.unused)} sheets'} that you laid by hand {'is' if one else 'are'} not used: this "
            "batch does not need all its blanks, or they have changed since."
        )
    return tuple(said)


def layout_letter(number: int) -> str:
    """A, B, C … for the layouts of one paper, as the strips' marks begin."""
    return (layout_letter(number // 26 - 1) if number >= 26 else "") + chr(ord("A") + number % 26)


def bound_sentence(paper: PaperPlan) -> str:
    """How many sheets, and whether fewer would do, in words."""
    found = paper.cut_plan
    count = sheets_words(paper)
    if found.unplaced and not found.layouts and found.unplaced[0].reason is Reason.STOPPED:
        return "No layout yet: the search was stopped before one was found."
    if found.unplaced and not found.layouts and not paper.free:
        return "Nothing could be placed."
    if found.unplaced:
        return f"{count}; not everything could be placed."
    if paper.shared is not None:
        more = paper.same_costs
        cost = (
            "Sharing sheets between kits would take no fewer"
            if more <= 0
            else f"That is {more} more than if kits share sheets"
        )
        return f"{count}, every kit cut by the same layouts. {cost}."
    least = paper.at_least or 0
    if least >= paper.sheets:
        return f"{count}. No plan can do with fewer{' sheets' if paper.offcuts_used else ''}."
    fewer = "between them" if paper.sheets - least > 1 else f"with {least}"
    needed = f"At least {counted(least, 'is', 'are')} needed; whether a plan {fewer} exists is not settled."
    return f"{count}. {needed}{too_fine(found)}"


def too_fine(found: CutPlan) -> str:
    """Why no more could be found out, and what would help."""
    if found.step is None:
        return ""
    step = to_mm(found.step)
    return (
        f" The sizes have so many different sums that they were rounded to {float(step):g} mm ({float(step / MM_PER_INCH):.2g} in) "
        "while plans were looked for; they are cut in their true sizes. Sizes on the marks of one ruler would help."
    )


def sheets_words(paper: PaperPlan) -> str:
    """`3 sheets`, `3 sheets and 2 offcuts on hand`."""
    used = [f"{counted(paper.offcuts_used, 'offcut')} on hand"] if paper.offcuts_used else []
    return " and ".join([*([counted(paper.sheets, "sheet")] if paper.sheets or not used else []), *used])


def times_words(paper: PaperPlan, stock: Stock, times: int) -> str:
    """`one sheet`, `12 sheets alike, 5 at a time: 3 runs`, `one offcut 5 × 12`."""
    if stock.name != paper.stocks[0].name:
        words = f"one {stock.name}" if times == 1 else f"{times} × {stock.name}"
    else:
        words = "one sheet" if times == 1 else f"{times} sheets alike"
    if paper.at_once == 1 or times == 1:
        return words
    runs = -(-times // paper.at_once)
    return f"{words}, {'cut together' if runs == 1 else f'{paper.at_once} at a time: {runs} runs'}"


def layout_drawing(plan: Plan, paper: PaperPlan, layout: Layout, *, width: float, height: float) -> Drawing:
    """A layout as large as fits, below it the names of pieces that only bear their signs."""
    return with_names(layout_fitted(plan, paper, layout, width=width, height=height).drawing, names_of(plan, paper))


def layout_fitted(plan: Plan, paper: PaperPlan, layout: Layout, *, width: float, height: float) -> Fitted:
    """A layout as large as fits, and where a point of the sheet stands on it."""
    marks = layout_marks(layout, plan.ruler, **words_on(plan, paper))
    return fitted(marks, width=width, height=height)


def free_drawing(plan: Plan, paper: PaperPlan, free: FreeSheet, *, width: float, height: float) -> Drawing:
    """A sheet that is cut with scissors or a knife, as large as fits, below it the names of pieces that only bear their signs."""
    return with_names(free_fitted(plan, paper, free, width=width, height=height).drawing, names_of(plan, paper))


def free_fitted(plan: Plan, paper: PaperPlan, free: FreeSheet, *, width: float, height: float) -> Fitted:
    """A sheet that is cut with scissors or a knife, as large as fits, and where a point of the sheet stands on it."""
    marks = sheet_marks(free.stock, free.lying, (), plan.ruler, **words_on(plan, paper))
    return fitted(marks, width=width, height=height)


def names_of(plan: Plan, paper: PaperPlan) -> dict[str, str]:
    """The blanks of a paper by their signs: name and size."""
    signs, ruler = signs_of(plan), plan.ruler
    sizes = {line.label: ruler.size(*line.blank.size).replace(" ", "\N{NO-BREAK SPACE}") for line in paper.lines}
    return {signs[label]: f"{label}, {size}" for label, size in sizes.items()}


class WordsOn(TypedDict):
    """What is written on the pieces of a sheet."""

    one_way: bool
    turns: Mapping[str, int]
    letters: Mapping[str, str]


def words_on(plan: Plan, paper: PaperPlan) -> WordsOn:
    """The signs of a paper's pieces, and how the print is turned on them."""
    return {
        "one_way": paper.paper.print_ is Print.ONE_WAY,
        "turns": {line.label: line.part.part.turn for line in paper.lines},
        "letters": signs_of(plan),
    }
