"""How a blank may lie on a sheet of its paper: as its print asks, and as the fibres of the sheet are wanted to run in it."""

from __future__ import annotations

from kitwright.paper.grain import Fibres
from kitwright.paper.stock import Paper

__all__ = ["fibres_in_blank", "turns_on_mat", "turns_on_sheet"]


def turns_on_sheet(paper: Paper, *, print_turn: int, has_up: bool, fibres: Fibres | None) -> tuple[int, ...]:
    """The quarter turns, anticlockwise, with which a blank may lie on a sheet; never none.

    `print_turn` is how often the print is turned a quarter to the left on the blank, `has_up` whether the print shows on a face where a
    way up could be wrong: then a one-way print leaves one way only. Others leave two, of which the wanted `fibres` leave one if the
    grain is known. What the print asks goes before what the fibres ask.
    """
    if has_up and not paper.can_turn:
        return (-print_turn % 4,)
    kept = tuple(turn for turn in (0, 1) if fibres in (None, fibres_in_blank(paper, turn)))
    return kept or (0, 1)


def turns_on_mat(paper: Paper, *, print_turn: int, has_up: bool, fibres: Fibres | None) -> tuple[int, ...]:
    """The same for the mat of a cutting machine, where blanks lie with their outlines: half a turn makes another way of each.

    A one-way print still leaves one way only.
    """
    turns = turns_on_sheet(paper, print_turn=print_turn, has_up=has_up, fibres=fibres)
    if has_up and not paper.can_turn:
        return turns
    return tuple(sorted({*turns, *((turn + 2) % 4 for turn in turns)}))


def fibres_in_blank(paper: Paper, turn: int) -> Fibres | None:
    """Along which side of a blank the fibres run if it lies with so many quarter turns; None where the grain is not known."""
    if paper.grain_runs_up is None:
        return None
    return Fibres.HEIGHT if paper.grain_runs_up is (turn % 2 == 0) else Fibres.WIDTH
