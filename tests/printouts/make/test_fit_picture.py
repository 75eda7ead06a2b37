"""Pictures of fits: drawn at true size from the folded parts, the gap as wide as the proof says, three answers never mixed up."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

import pytest
from tests.kit.documents import built, head, part

from kitwright.findings import Finding, Severity
from kitwright.kit import BuiltKit, prove
from kitwright.printouts.drawing import Drawing, Group, Label, Mark, Polygon, Role
from kitwright.printouts.ink import bounds
from kitwright.printouts.lettering import RESERVE
from kitwright.printouts.make.fit_picture import fit_picture, fit_shapes
from kitwright.printouts.make.fit_shapes import in_the_middle
from kitwright.printouts.make.glass import ENLARGEMENTS, shapes_drawing

CARDS = (
    head()
    + part("card", "flat card", size="6 x 4", quantity=6)
    + part("mat", "mat", on="card", border="1/8")
    + part("envelope", "side-seam envelope", holds="card", paper="thin", quantity=6)
    + part("tray", "tray", holds=["card", "envelope"])
    + part("lid", "lift-off lid", covers="tray")
    + part("band", "belly band", wraps="tray", paper="thin")
)
EXTRA = '[[extra]]\nname = "{name}"\nsize = "{size}"\nquantity = {count}\npacked = "beside"\n'


def findings(kit: BuiltKit) -> dict[tuple[str, str], Finding]:
    return {(each.code, each.about): each for each in prove(kit, with_fixes=False).findings}


def marks_of(drawing: Drawing) -> Iterator[Mark]:
    def visit(marks: tuple[Mark, ...]) -> Iterator[Mark]:
        for mark in marks:
            if isinstance(mark, Group):
                yield from visit(mark.marks)
            else:
                yield mark

    return visit(drawing.marks)


def words_in(drawing: Drawing) -> list[str]:
    return [mark.text for mark in marks_of(drawing) if isinstance(mark, Label)]


def test_every_fit_of_lid_envelope_mat_band_and_contents_has_a_picture() -> None:
    kit = built(CARDS)
    found = findings(kit)
    drawn = {code for (code, _), each in found.items() if fit_picture(kit, each, width=90, height=46)}
    fits = {code for (code, _), each in found.items() if each.makings}
    assert fits <= drawn
    assert {"lid-fit-width", "envelope-fit", "mat-on-card", "band-fit-depth", "contents-fit"} <= drawn


@pytest.mark.parametrize("code", ["lid-fit-width", "lid-fit-depth", "band-fit-width", "band-fit-depth"])
def test_the_gap_of_a_lid_or_band_is_as_wide_as_the_proof_says(code: str) -> None:
    kit = built(CARDS)
    (finding,) = (each for (its, _), each in findings(kit).items() if its == code)
    shapes = fit_shapes(kit, finding)
    assert shapes is not None and finding.measured is not None
    gap = shapes.gaps[0]
    assert math.dist(gap.start, gap.end) == pytest.approx(finding.measured, abs=1e-9)


def test_margins_of_a_mat_are_half_of_what_is_left_on_each_side() -> None:
    kit = built(CARDS)
    shapes = fit_shapes(kit, findings(kit)["mat-on-card", "mat on card"])
    assert shapes is not None
    assert [round(math.dist(gap.start, gap.end), 6) for gap in shapes.gaps] == [3.175, 3.175]  # 1/8 in
    assert [gap.words for gap in shapes.gaps] == ["1/8 in at the sides", "1/8 in top, bottom"]


def test_the_glass_says_how_much_it_enlarges_and_by_a_round_number() -> None:
    kit = built(CARDS)
    (lid,) = (each for (code, _), each in findings(kit).items() if code == "lid-fit-width")
    picture = fit_picture(kit, lid, width=90, height=46)
    assert picture is not None
    (said,) = (words for words in words_in(picture.drawing) if words.endswith("× enlarged"))
    assert int(said.split()[0]) in ENLARGEMENTS
    assert "cut through, to scale" in words_in(picture.drawing)
    assert picture.caption == "Dotted: as far as it may be off."


def test_a_lid_that_is_too_small_shows_where_lid_and_box_are_in_each_others_way() -> None:
    text = CARDS.replace('covers = "tray"', 'covers = "tray"\nsize = "6 x 4 1/2 x 1"')
    kit = built(text)
    tight = [each for each in findings(kit).values() if each.severity is Severity.FAIL and each.code == "lid-fit-width"]
    picture = fit_picture(kit, tight[0], width=90, height=46)
    assert picture is not None
    assert any(isinstance(mark, Polygon) and mark.role is Role.CLASH for mark in marks_of(picture.drawing))
    assert any(words.endswith("too small") for words in words_in(picture.drawing))


BOX = head() + part("tray", "tray", holds=["block"], inside="{inside}")


@pytest.mark.parametrize(
    ("count", "inside", "severity", "words"),
    [
        (8, "4 x 4 x 4", Severity.NOTE, None),  # eight cubes of 2 in fill 4 x 4 x 4 exactly
        (9, "4 x 4 x 4", Severity.FAIL, "no way to place them"),
    ],
)
def test_contents_that_fit_are_placed_and_those_that_do_not_are_not(
    count: int, inside: str, severity: Severity, words: str | None
) -> None:
    kit = built(BOX.replace("{inside}", inside) + EXTRA.format(name="block", size="2 x 2 x 2", count=count))
    (finding,) = (each for each in findings(kit).values() if each.code == "contents-fit")
    picture = fit_picture(kit, finding, width=90, height=46)
    assert picture is not None
    things = [mark for mark in marks_of(picture.drawing) if isinstance(mark, Polygon) and mark.role is Role.INNER]
    if words is None:
        assert finding.severity is not Severity.FAIL
        assert len(finding.placed) == count
        assert len(things) == 2 * count  # in both views
        assert picture.caption == "One way in which everything lies in it."
    else:
        assert finding.severity is severity
        assert finding.placed == ()
        assert things == []
        assert words_in(picture.drawing).count(words) == 2


def test_what_was_not_decided_is_drawn_as_neither_a_fit_nor_a_misfit() -> None:
    kit = built(BOX.replace("{inside}", "4 x 4 x 4") + EXTRA.format(name="block", size="2 x 2 x 2", count=1))
    finding = Finding("contents-fit", Severity.UNKNOWN, "contents of tray", "Not settled.", parts=("tray",))
    picture = fit_picture(kit, finding, width=90, height=46)
    assert picture is not None
    assert words_in(picture.drawing).count("not decided") == 2
    assert picture.caption == "Not decided: this is neither a fit nor a misfit."


def test_a_picture_stays_on_its_canvas() -> None:
    kit = built(CARDS)
    for finding in findings(kit).values():
        for width, height in ((90.0, 46.0), (57.0, 26.0)):
            picture = fit_picture(kit, finding, width=width, height=height)
            assert picture is None or picture.drawing.width <= width + 1e-6


TINY, STRIP, POST, SHEET, BOARD = (6.0, 6.0), (150.0, 6.0), (6.0, 150.0), (152.0, 152.0), (300.0, 250.0)
FITS = [
    (TINY, BOARD),
    (TINY, STRIP),
    (TINY, POST),
    (STRIP, SHEET),
    (POST, SHEET),
    (SHEET, BOARD),
    (BOARD, TINY),
    (POST, STRIP),
]
NAMES = (("7", "pocket"), ("flap lid", "a longer pocket"), ("a name as long as anybody would write", "pocket"))


def printed(label: Label) -> tuple[float, float, float, float]:
    """The box of a label in the letters of print, for which there is no reserve."""
    left, low, right, high = bounds([label]) or (0.0, 0.0, 0.0, 0.0)
    spare = (right - left) * (1 - 1 / RESERVE)
    part = {"start": 0.0, "middle": 0.5, "end": 1.0}[label.anchor]
    return left + spare * part, low, right - spare * (1 - part), high


def meet(one: Label, other: Label) -> bool:
    a, b = printed(one), printed(other)
    return all(min(a[k + 2], b[k + 2]) - max(a[k], b[k]) > 1e-6 for k in (0, 1))


@pytest.mark.parametrize(("width", "height"), [(57.0, 26.0), (70.0, 38.0), (82.0, 38.0), (176.0, 42.0)])
@pytest.mark.parametrize("names", NAMES, ids=["short", "longer", "long"])
def test_no_words_of_a_fit_lie_on_others_or_beyond_the_picture(
    width: float, height: float, names: tuple[str, str]
) -> None:
    ruler = built(CARDS).kit.ruler
    for inner, outer in FITS:
        drawing = shapes_drawing(in_the_middle(ruler, inner, outer, names=names), width=width, height=height)
        labels = [mark for mark in marks_of(drawing) if isinstance(mark, Label)]
        assert [(one.text, other.text) for one, other in combinations(labels, 2) if meet(one, other)] == []
        left, low, right, high = (
            side(ends) for side, ends in zip((min, min, max, max), zip(*map(printed, labels), strict=True), strict=True)
        )
        assert left >= 0 and low >= 0 and right <= width and high <= drawing.height


def test_the_length_of_a_margin_stands_in_one_line_with_its_unit() -> None:
    ruler = built(CARDS).kit.ruler
    drawing = shapes_drawing(
        in_the_middle(ruler, (50.8, 50.8), (177.8, 203.2), names=("pin", "pocket")), width=57, height=26
    )
    assert {"2 1/2 in\nat the sides", "3 in\ntop, bottom"} <= set(words_in(drawing))


def test_a_number_is_told_from_the_name_that_it_stands_for() -> None:
    kit = built(
        BOX.replace("{inside}", "4 x 4 x 4").replace("block", "7") + EXTRA.format(name="7", size="2 x 2 x 2", count=8)
    )
    (finding,) = (each for each in findings(kit).values() if each.code == "contents-fit")
    picture = fit_picture(kit, finding, width=90, height=46)
    assert picture is not None
    assert "1: 8 × 7" in words_in(picture.drawing)


@pytest.mark.parametrize("inside", ["7/8 x 7/8 x 5", "7/8 x 9 x 1", "9 x 7/8 x 1"])
def test_the_titles_of_the_two_views_stand_clear_of_each_other(inside: str) -> None:
    kit = built(BOX.replace("{inside}", inside) + EXTRA.format(name="block", size="1/2 x 1/2 x 1/2", count=1))
    (finding,) = (each for each in findings(kit).values() if each.code == "contents-fit")
    picture = fit_picture(kit, finding, width=57, height=26)
    assert picture is not None
    labels = [mark for mark in marks_of(picture.drawing) if isinstance(mark, Label)]
    assert not any(meet(one, other) for one, other in combinations(labels, 2))
    assert max(printed(label)[2] for label in labels) <= 57


def test_a_rim_that_leaves_little_to_hold_is_drawn_as_far_above_the_foot_as_is_told() -> None:
    kit = built(
        head(units="mm", ruler="1", caliper="1")
        + part("tray", "tray", size="110 x 66 x 19")
        + part("lid", "lift-off lid", covers="tray", height="16")
    )
    (finding,) = (each for (code, _), each in findings(kit).items() if code == "lid-height")
    shapes = fit_shapes(kit, finding)
    assert shapes is not None
    (gap,) = shapes.gaps
    assert gap.end[1] - gap.start[1] == pytest.approx(4.0)  # 19.5 - 15.5
    assert gap.words == "4 mm above foot"
    assert not [mark for mark in shapes.marks if isinstance(mark, Polygon) and mark.role is Role.CLASH]
    ends = [
        min(y for _, y in mark.points) for mark in shapes.marks if isinstance(mark, Polygon) and mark.role is Role.OUTER
    ]
    assert min(ends) == pytest.approx(4.0)


def test_each_flap_of_a_lid_is_drawn_where_it_ends_itself() -> None:
    kit = built(
        head(units="mm", ruler="1", caliper="1")
        + part("tray", "tray", size="110 x 66 x 59")
        + part("lid", "flap lid", covers="tray", front_flap="40", back="62")
    )
    found = [each for each in prove(kit, with_fixes=False).findings if each.code == "lid-height"]
    drawn = [shapes.gaps[0].words for each in found if (shapes := fit_shapes(kit, each)) is not None]
    assert drawn == ["20 mm above foot", "2 mm too long"]  # 59.5 high; the flap hangs down 39.5, the back 61.5


@pytest.mark.parametrize(("width", "outer", "margin"), [("96.5", "lid", 3.0), ("101.5", "tray", -0.5)])
def test_a_lining_inside_a_lid_is_drawn_in_the_lid_or_between_the_walls_that_are_too_close(
    width: str, outer: str, margin: float
) -> None:
    # two walls of 0.5 mm card and the tabs inside them: the lid is 102.5 wide inside, the tray 100.5
    kit = built(
        head(units="mm", ruler="1", caliper="0.5")
        + part("tray", "tray", size="102 x 72 x 40")
        + part("lid", "lift-off lid", covers="tray", size="104 x 74 x 20")
        + part("lining", "mat", on="lid", face="inside", size=f"{width} x 60")
    )
    (finding,) = (each for each in findings(kit).values() if each.code == "mat-on-card")
    shapes = fit_shapes(kit, finding)
    assert shapes is not None
    assert shapes.outer == outer
    gap = shapes.gaps[0]
    assert gap.end[0] - gap.start[0] == pytest.approx(margin)
