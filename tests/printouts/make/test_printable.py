"""Proved means printable: every form over its whole range has its pictures, and a pack loses no word and no letter."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon
from tests.printouts.pack_faults import pack_faults
from tests.printouts.random_sets import UNBROKEN
from tests.strategies import accepted_forms, rulers

from kitwright.catalogue import CATALOGUE, Form
from kitwright.kit import read_kit
from kitwright.measure import Ruler
from kitwright.plan import plan
from kitwright.printouts.compose import fitted
from kitwright.printouts.drawing import Drawing
from kitwright.printouts.ink import SMALLEST_LETTERS, Text, ink_of
from kitwright.printouts.make.bench_pack import bench_pack
from kitwright.printouts.make.cut_away_words import about, group_name, shape_groups
from kitwright.printouts.make.panel_names import panel_name_labels
from kitwright.printouts.make.pattern_picture import bench_numbers, blank_marks
from kitwright.printouts.make.shape_picture import shapes_drawing
from kitwright.printouts.page import A4, US_LETTER, Page

FORMS = pytest.mark.parametrize("form", CATALOGUE.values(), ids=CATALOGUE)
SHARED = 0.1
"""The boxes of words are reckoned wide: two that share less than this part of the smaller one do not touch."""


def words_of(drawing: Drawing) -> list[Text]:
    """The words of a drawing, after it was seen that they can be read, lie on it, and do not lie on each other."""
    words = [ink for ink in ink_of(drawing) if isinstance(ink, Text)]
    boxes = [Polygon(each.corners()) for each in words]
    for each, box in zip(words, boxes, strict=True):
        left, low, right, high = box.bounds
        assert each.size >= SMALLEST_LETTERS - 1e-9, each
        assert left >= 0 and low >= 0 and right <= drawing.width and high <= drawing.height, each
    for (one, its), (other, others) in combinations(zip(words, boxes, strict=True), 2):
        assert its.intersection(others).area <= SHARED * min(its.area, others.area), (one, other)
    return words


@FORMS
@settings(max_examples=4, deadline=None)
@given(data=st.data(), ruler=rulers())
def test_every_blank_has_its_pictures_with_every_name_and_number(
    form: type[Form], data: st.DataObject, ruler: Ruler
) -> None:
    for blank in data.draw(accepted_forms(form)).draw().blanks:
        drawing = fitted((*blank_marks(blank, glue={}), *bench_numbers(blank, ruler)), width=98, height=76).drawing
        assert drawing.width <= 98 + 1e-6
        written = {each.text for each in words_of(drawing)}
        assert {label.text for label in panel_name_labels(blank)} <= written
        assert {ruler.with_unit(side) for side in blank.size} <= written
        groups = shape_groups(blank, ruler)
        if groups:
            drawing = shapes_drawing(groups, ruler, width=178)
            assert drawing.width <= 178
            written = {each.text for each in words_of(drawing)}
            for group in groups:
                one = group[0]
                assert {ruler.format(one.depth), ruler.format(one.at_score)} <= written
                assert one.left <= 0 or about(one.left, ruler) in written
                assert group_name(group).replace(" ", "") in "".join(written).replace(" ", "")


# ---- whole packs

PAPER = """
[paper.{key}]
label = "{label}"
sheet = "12 x 12"
weight = "80 lb cover"
caliper = "0.011"
two-sided = true
"""
SPACED = "for everybody who likes a long name and types it again and again, and then"


def long_name(about: str, *, spaces: bool) -> str:
    """A name of 80 signs."""
    return f"{about} {SPACED}"[:80].strip() if spaces else f"{about}{UNBROKEN}"[:80]


def document(ruler: str, papers: int, parts: list[tuple[str, str, str]], extras: int, *, spaces: bool) -> str:
    """A kit in which everything has a long name; `parts` are (what it is, its form, further lines with the names of others in {})."""
    names = {about: long_name(about, spaces=spaces) for about, _, _ in parts}
    lines = [f'[kit]\nname = "{long_name("kit", spaces=spaces)}"\nunits = "in"\nruler = "{ruler}"\n']
    lines += [PAPER.format(key=f"p{n}", label=long_name(f"paper {n}", spaces=spaces)) for n in range(papers)]
    for number, (what, form, more) in enumerate(parts):
        lines.append(f'[[part]]\nname = "{names[what]}"\nform = "{form}"\npaper = "p{number % papers}"')
        lines.append(more.format(**{key.replace(" ", "_"): name for key, name in names.items()}))
    lines += [
        f'[[extra]]\nname = "{long_name(f"thing {n}", spaces=spaces)}"\nsize = "1 x 1 x 1"\nquantity = {n + 1}'
        for n in range(extras)
    ]
    return "\n".join(lines) + "\n"


ENVELOPE = [("card", "flat card", 'size = "6 x 4"'), ("envelope", "side-seam envelope", 'size = "6 1/2 x 4 1/2"')]
BOX = [
    ("card", "flat card", 'size = "4 x 3"\nquantity = 12'),
    ("box", "tray", 'holds = "{card}"'),
    ("lid", "lift-off lid", 'covers = "{box}"\nheight = "3/8"'),
]
MANY = [
    *((f"card {number}", "flat card", f'size = "3 x {number % 3 + 1}"') for number in range(1, 17)),
    ("box", "tray", "holds = [" + ", ".join(f'"{{card_{number}}}"' for number in range(1, 17)) + "]"),
]


@pytest.mark.parametrize(
    ("kit", "page"),
    [
        (document("1/16", 1, ENVELOPE, 1, spaces=False), US_LETTER),
        (document("1/16", 2, BOX, 0, spaces=True), A4),
        (document("1/8", 4, MANY, 8, spaces=False), A4),
    ],
    ids=["an envelope in sixteenths, names in one word", "a box with its fits", "a box with many things in it"],
)
def test_a_pack_with_long_names_loses_no_word_and_no_letter(kit: str, page: Page) -> None:
    made = plan(read_kit(kit), batch=1)
    assert made.proof.is_proved
    assert pack_faults(made, bench_pack(made, page), page) == []
