"""What the back of a printed paper does where it shows: white, or with a print of its own that has a way up."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kitwright.findings import Finding, Severity
from kitwright.folding import Folded, LayerModel, layers, print_up, seen_backs
from kitwright.paper import Paper, Print
from kitwright.pattern import PanelKind, Shows

__all__ = ["check_backs", "check_core"]


def check_backs(
    about: str, folded: Folded, paper: Paper, *, turn: int, model: LayerModel | None = None
) -> Iterator[Finding]:
    """Notes about backs that can be seen on the finished part, as inside a box; tabs are not told.

    A paper printed on one side only shows white there. A one-way print of the back is asked for its way up, each back by itself: no
    sheet stands right on all walls inside. `turn`: quarter turns of the front's print on the blank. A paper without any print, or
    coloured through, looks the same on both sides. Give the layer `model` if it is at hand.
    """
    is_white = paper.print_ is not Print.NONE and not paper.two_sided and paper.back is Print.NONE
    if not is_white and paper.back is not Print.ONE_WAY:
        return
    known = model or layers(folded)
    seen = [ref for ref in seen_backs(folded, model=known) if folded.pattern.panel(ref).kind is not PanelKind.TAB]
    if is_white and seen:
        names = names_of(ref.panel for ref in seen)
        words = f"The unprinted back shows on the inside of {names}: line it, or choose a paper that may show its back."
        yield Finding("back-shows", Severity.NOTE, about, words, because="geometry")
    if is_white or not seen:
        return
    turns = turn - paper.back_turn
    faces = ((ref, print_up(folded, Shows(ref, back=True), turns=turns, model=known)) for ref in seen)
    wrong = [ref.panel for ref, face in faces if not face.is_upright]
    if wrong:
        words = f"The one-way print of the back does not stand upright on the inside of {names_of(wrong)}."
        yield Finding("back-print-up", Severity.NOTE, about, words, because="geometry")
    else:
        words = "The one-way print of the back stands upright wherever it shows."
        yield Finding("back-print-up", Severity.OK, about, words, because="geometry")


def check_core(about: str, folded: Folded, paper: Paper) -> Finding | None:
    """A note about hems of a paper that is printed on one side only: a print may break along a fold that is shut flat, and the white
    core of the card shows there. None without such hems.
    """
    if paper.print_ is Print.NONE or paper.two_sided:
        return None
    hems = [panel.name for blank in folded.pattern.blanks for panel in blank.panels if panel.kind is PanelKind.HEM]
    if not hems:
        return None
    words = (
        f"Along the folds of {names_of(hems)} the print may break and the white core of the card show: score well, fold once and slowly, "
        "or go along the edge with ink of its colour."
    )
    return Finding("core-shows", Severity.NOTE, about, words, because="common practice, no source")


def names_of(panels: Iterable[str]) -> str:
    """`the bottom`, `the bottom and the back wall`, `the bottom, the back wall and 3 more`."""
    names = [f"the {panel}" for panel in dict.fromkeys(panels)]
    told = names if len(names) <= 3 else [*names[:2], f"{len(names) - 2} more"]
    return told[0] if len(told) == 1 else f"{', '.join(told[:-1])} and {told[-1]}"
