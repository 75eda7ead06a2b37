"""A kit's cutting machine: what is said of it, and the room that it leaves on a sheet."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.kit.documents import head, part

from kitwright.errors import Mistakes
from kitwright.kit import Kit, Machine, edition, read_kit, write_kit
from kitwright.measure import Unit
from kitwright.plan import lay_on_mats, plan
from kitwright.plan.machine import mat_for

SAID = 'mat = "12 x 12"\nedge = "1/4"\ngap = "1/8"\n'


def kit(said: str = SAID, **more: str) -> Kit:
    text = head(**{"sheet": "12 x 12", **more}).replace("[paper.card]", f"[kit.machine]\n{said}\n[paper.card]", 1)
    return read_kit(text + part("tag", "tag", size="2 x 3", quantity=2))


def test_a_machine_is_read_and_written() -> None:
    inch = Fraction(127, 5)
    assert kit().machine == Machine((12 * inch, 12 * inch), inch / 4, inch / 8)
    assert read_kit(write_kit(kit())).machine == kit().machine
    assert kit("").machine == Machine(None, inch / 4, inch / 16)
    assert edition(kit(""), Unit.MILLIMETRE).kit.machine == Machine(None, Fraction(6), Fraction(2))


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ('mat = "1/2 x 12"', "edge: It leaves nothing of the mat."),
        ('gap = "-1/8"', "gap: '-1/8' is below zero."),
        ('mat = "12"', "mat: "),
        ('blade = "sharp"', "There is no key 'blade' here."),
    ],
)
def test_what_cannot_be_meant_is_refused(said: str, told: str) -> None:
    with pytest.raises(Mistakes) as caught:
        kit(said)
    assert told in str(caught.value)


def test_the_room_is_what_edge_sheet_and_mat_leave() -> None:
    made = kit(sheet="8 1/2 x 14", more='margins = { left = "1/2" }')
    corner, mat = mat_for(made.machine, made.papers["card"])
    assert corner == (12.7, 6.35)  # a margin of 1/2 in at the left, the edge of 1/4 in below
    assert (mat.width, mat.height, mat.gap) == (8.5 * 25.4 - 12.7 - 6.35, 292.1, 3.175)


def test_a_batch_lies_on_mats_beside_what_the_trimmer_needs() -> None:
    (paper,) = lay_on_mats(plan(kit(), batch=2))
    assert (paper.is_complete, paper.nested.mats, paper.fewest, paper.by_trimmer) == (True, 1, 1, 1)
    assert paper.nested.layouts[0].counts == {"tag": 4}
