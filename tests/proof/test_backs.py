"""What the back of a paper does where it shows: white inside a box, or with a print that has its own way up."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.folding.shapes import tray

from kitwright.findings import Severity
from kitwright.folding import fold, seen_backs
from kitwright.paper import Caliper, Paper, Print
from kitwright.pattern import Draft, Pattern, Stance
from kitwright.proof import check_backs


def paper(print_: Print, *, two_sided: bool = False, back: Print = Print.NONE, back_turn: int = 0) -> Paper:
    size = Fraction(300)
    return Paper(
        key="p",
        label="P",
        sheet_width_mm=size,
        sheet_height_mm=size,
        gsm=200,
        caliper=Caliper(0.3, is_estimate=False),
        print_=print_,
        two_sided=two_sided,
        back=back,
        back_turn=back_turn,
    )


def closed_box() -> Pattern:
    """A box shut on all six sides."""
    draft = Draft("box")
    front = draft.panel("front", 60, 30)
    back = front.fold_out("east", "right", 40).fold_out("far", "back", 60)
    back.fold_out("far", "left", 40)
    for side in ("north", "south"):
        front.fold_out(side, side, 40)
    return Pattern((draft.finish(),), stance=Stance.STANDING)


def column() -> Pattern:
    """Two walls facing each other, one hanging from the other's top: the upper end of the far one's back points down."""
    draft = Draft("wall")
    front = draft.panel("front", 60, 30)
    front.fold_out("north", "top", 40).fold_out("far", "back", 30)
    return Pattern((draft.finish(),), stance=Stance.STANDING)


def test_the_backs_of_an_open_tray_show_and_those_of_a_shut_box_do_not() -> None:
    seen = {ref.panel for ref in seen_backs(fold(tray(60, 40, 20)))}
    assert {"floor", "south", "north", "east", "west"} - seen <= {"floor"}
    assert seen_backs(fold(closed_box())) == ()


def test_the_back_of_a_deep_narrow_box_is_seen_from_steeply_above() -> None:
    assert len([ref for ref in seen_backs(fold(tray(60, 40, 80))) if "tab" not in ref.panel]) == 5


@pytest.mark.parametrize(
    ("print_", "two_sided", "back", "codes"),
    [
        (Print.ALL_OVER, False, Print.NONE, {"back-shows"}),
        (Print.ONE_WAY, False, Print.NONE, {"back-shows"}),
        (Print.NONE, False, Print.NONE, set()),  # without a print both sides look the same
        (Print.ALL_OVER, True, Print.NONE, set()),
        (Print.ALL_OVER, False, Print.ALL_OVER, set()),
        (Print.ALL_OVER, False, Print.ONE_WAY, {"back-print-up"}),
    ],
)
def test_white_is_noted_only_where_a_printed_paper_shows_it(
    print_: Print, two_sided: bool, back: Print, codes: set[str]
) -> None:
    found = list(check_backs("t", fold(tray(60, 40, 20)), paper(print_, two_sided=two_sided, back=back), turn=0))
    assert {each.code for each in found} == codes
    assert all(each.severity is Severity.NOTE for each in found)


@pytest.mark.parametrize(
    ("turn", "back_turn", "wrong"),
    [(0, 0, {"top", "back"}), (0, 2, {"front"}), (2, 2, {"top", "back"}), (2, 0, {"front"})],
)
def test_the_up_of_a_back_turned_over_like_a_page_is_the_up_of_its_front_turned_by_its_own(
    turn: int, back_turn: int, wrong: set[str]
) -> None:
    # geometry: turned over like a page, up stays up; over the top of an arch, what hangs down beyond it is upside down.
    # The top's underside is seen from below, where up is towards the person in front.
    made = paper(Print.ALL_OVER, back=Print.ONE_WAY, back_turn=back_turn)
    (found,) = check_backs("arch", fold(column()), made, turn=turn)
    told = {
        name
        for name in ("front", "top", "back")
        if f"the {name}" in found.message.removeprefix("The one-way print of the back")
    }
    assert told == wrong
