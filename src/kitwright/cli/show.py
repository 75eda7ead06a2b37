"""Tables and sentences on the terminal, for people: plain words, numbers as read off the ruler."""

from __future__ import annotations

import json
import sys
from typing import Any

from rich.console import Console
from rich.table import Table

from kitwright.findings import Finding, Severity
from kitwright.measure import counted
from kitwright.plan import FromStash, PaperPlan, Plan
from kitwright.printouts.make.bench_words import step_words
from kitwright.printouts.make.left_over import buy_words, enough_sentence, left_over_sentences, stash_sentences
from kitwright.printouts.make.proof_words import NO_FIX, SEVERITY_WORDS
from kitwright.printouts.make.sheet_pages import bound_sentence, hand_sentences
from kitwright.printouts.make.signs import signs_of
from kitwright.proof import Proof

__all__ = ["console", "print_json", "show_cut_list", "show_proof", "show_sheets", "show_stash"]

STYLES = {
    Severity.FAIL: "bold red",
    Severity.WARNING: "yellow",
    Severity.UNKNOWN: "magenta",
    Severity.NOTE: "cyan",
    Severity.OK: "green",
}


def console() -> Console:
    """The terminal; wide enough for a table where its width is not known. Whatever is printed is plain text, names in brackets as well."""
    width = None if sys.stdout.isatty() else 110
    return Console(width=width, highlight=False, markup=False, emoji=False)


def print_json(data: Any) -> None:
    """Data for other programs."""
    print(json.dumps(data, indent=2, ensure_ascii=False))


def show_proof(screen: Console, proof: Proof, *, everything: bool) -> None:
    """The verdict and the findings, the gravest first; what fits is only counted unless `everything` is wanted."""
    for severity in reversed(Severity):
        found = proof.of(severity)
        if severity is Severity.OK and not everything:
            if found:
                screen.print(f"{counted(len(found), 'check fits', 'checks fit')} (--all shows them).", style="green")
            continue
        for finding in found:
            show_finding(screen, finding)
    screen.print()
    screen.print(proof.sentence(), style="bold green" if proof.is_proved else "bold red")


def show_finding(screen: Console, finding: Finding) -> None:
    """One finding on a few lines."""
    screen.print(f"{SEVERITY_WORDS[finding.severity]:>14}  ", style=STYLES[finding.severity], end="", soft_wrap=True)
    screen.print(f"{finding.about}: {finding.message}", soft_wrap=True)
    if finding.fix:
        screen.print(f"{'do this':>14}  {finding.fix.sentence}", style="bold", soft_wrap=True)
    if finding.advice:
        screen.print(f"{NO_FIX:>14}  {finding.advice}", style="bold", soft_wrap=True)
    if finding.severity in (Severity.FAIL, Severity.WARNING) and finding.because:
        screen.print(f"{'limit':>14}  {finding.because}", style="dim", soft_wrap=True)


def show_cut_list(screen: Console, plan: Plan) -> None:
    """The cut list as a table."""
    signs = signs_of(plan)
    table = Table(title=f"Cut list for {counted(plan.batch, 'kit')}", title_justify="left")
    for name in ("", "Blank", "Paper"):
        table.add_column(name)
    table.add_column("Count", justify="right")
    table.add_column(f"Size, {plan.ruler.unit.value}")
    for line in plan.lines:
        size = plan.ruler.size(*line.blank.size)
        table.add_row(signs[line.label], line.label, line.part.paper.label, str(line.in_batch), size)
    screen.print(table)


def show_sheets(screen: Console, plan: Plan, *, steps: bool) -> None:
    """Sheets of every paper, and the cuts if they are wanted."""
    table = Table(title="Sheets", title_justify="left")
    table.add_column("Paper")
    table.add_column("Sheets", justify="right")
    table.add_column("To buy", justify="right")
    table.add_column("What that means")
    for paper in plan.papers:
        table.add_row(paper.paper.label, str(paper.sheets), str(paper.to_buy), bound_sentence(paper))
    screen.print(table)
    for paper in plan.papers:
        for words in hand_sentences(paper):
            screen.print(f"{paper.paper.label}: {words}")
        for unplaced in paper.cut_plan.unplaced:
            screen.print(unplaced.sentence(plan.ruler), style="bold red")
        for fault in paper.faults:
            screen.print(f"The layout failed its check: {fault.message}", style="bold red")
        left = " ".join(left_over_sentences(paper, plan.ruler))
        if left:
            screen.print(f"{paper.paper.label}: {left}", soft_wrap=True)
        if steps:
            show_cuts(screen, plan, paper)


def show_stash(screen: Console, found: FromStash, made: Plan | None) -> None:
    """What is on hand of every paper, what that is enough for, and what to buy for the batch that is wanted."""
    table = Table(title="On hand", title_justify="left")
    table.add_column("Paper")
    table.add_column("Sheets", justify="right")
    table.add_column("Offcuts", justify="right")
    table.add_column("What that means")
    buys = {} if made is None else {paper.paper.key: buy_words(paper) for paper in made.papers}
    if made is not None:
        table.add_column(f"To buy for {made.batch} kit{'s' if made.batch > 1 else ''}", justify="right")
    for each in found.papers:
        sheets = "not said" if each.paper.on_hand is None else str(each.paper.on_hand)
        buy = [buys[each.paper.key]] if made is not None else []
        table.add_row(each.paper.label, sheets, str(each.offcuts), enough_sentence(each), *buy)
    screen.print(table)
    for sentence in stash_sentences(found):
        screen.print(sentence, soft_wrap=True)


def show_cuts(screen: Console, plan: Plan, paper: PaperPlan) -> None:
    """The order of cuts of one paper."""
    table = Table(title=f"Cuts: {paper.paper.label}", title_justify="left")
    for name in ("Take", "Lay it print up,"):
        table.add_column(name)
    table.add_column(f"Guide at, {plan.ruler.unit.value}", justify="right")
    table.add_column("Gives")
    for step in paper.steps:
        table.add_row(*step_words(step, plan.ruler))
    screen.print(table)
