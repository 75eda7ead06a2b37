"""Reading kit documents that are well written."""

from __future__ import annotations

from fractions import Fraction

import pytest

from kitwright.kit import FitRules, Packed, SizingKind, read_kit, read_kit_bytes
from kitwright.measure import Money, Unit
from kitwright.paper import Grain, Print

INCH = Fraction(127, 5)

WHOLE = """\
[kit]
name = "  Garden box "
units = "in"
ruler = "1/32"
currency = "EUR"
fit = { lid = 0, envelope = "3/8" }

[paper.kraft]
label = "Kraft cardstock"
sheet = "8 1/2 x 11"
weight = "80 lb cover"
caliper = 0.011
grain = "long"
print = "one-way"
two-sided = true
price = +1.1
on-hand = 12
margins = { left = 0, bottom = "1/2" }
hinge = 0.4

[paper.plain]
sheet = "210 x 297 mm"
weight = "120 gsm"
margins = "1/4"

[[part]]
name = "card"
form = "half-fold card"
size = "4 1/4 x 5 1/2"
fold = "top"
paper = "plain"
quantity = 6
turn = 270

[[part]]
name = "mat"
form = "mat"
on = "card"
border = 0.25
paper = "kraft"

[[part]]
name = "box"
form = "tray"
inside = "7 x 6 x 2"
holds = ["card", "mat", "pencil"]
contents = "lying"
paper = "kraft"

[[part]]
name = "lid"
form = "flap lid"
covers = "box"
front-flap = "1 3/4"
paper = "kraft"

[[part]]
name = "band"
form = "belly band"
wraps = "box"
height = "2"
paper = "plain"

[[extra]]
name = "pencil"
size = "7 x 5/16 x 5/16"
quantity = 2
packed = "beside"
weight = "1 oz"
kind = "small part"
"""


def test_a_whole_document_is_read_to_exact_numbers() -> None:
    kit = read_kit(WHOLE, document="garden.toml")
    assert (kit.name, kit.unit, kit.ruler.step, kit.currency) == ("Garden box", Unit.INCH, INCH / 32, "EUR")
    usual = FitRules.usual(Unit.INCH)
    assert kit.fit == FitRules(
        lid=Fraction(0), envelope=INCH * 3 / 8, contents=usual.contents, band=usual.band, border=usual.border
    )
    kraft = kit.papers["kraft"]
    assert (kraft.label, kraft.sheet_width_mm, kraft.sheet_height_mm) == ("Kraft cardstock", INCH * 17 / 2, INCH * 11)
    assert (kraft.grain, kraft.print_, kraft.two_sided, kraft.price) == (
        Grain.LONG, Print.ONE_WAY, True, Money("EUR", 110),
    )  # fmt: skip
    assert (kraft.on_hand, kraft.margins.bottom, kraft.margins.left, kraft.hinge_depth) == (
        12,
        INCH / 2,
        Fraction(0),
        0.4,
    )
    assert kraft.thickness == pytest.approx(0.2794)
    assert not kraft.caliper.is_estimate
    card, mat, box, lid, band = kit.parts
    assert (card.sizing.kind, card.sizing.lengths) == (SizingKind.SIZE, (INCH * 17 / 4, INCH * 11 / 2))
    assert (card.settings, card.quantity, card.turn) == ({"fold": "top"}, 6, 3)
    assert (mat.sizing.kind, mat.on, mat.border, mat.quantity) == (SizingKind.DERIVED, "card", INCH / 4, 1)
    assert (box.sizing.kind, box.holds, box.standing) == (SizingKind.INSIDE, ("card", "mat", "pencil"), False)
    assert (lid.covers, lid.settings) == ("box", {"front_flap": INCH * 7 / 4})
    assert (band.wraps, band.settings, band.standing) == ("box", {"height": INCH * 2}, None)
    (pencil,) = kit.extras
    assert pencil.size == (INCH * 7, INCH * 5 / 16, INCH * 5 / 16)
    assert (pencil.quantity, pencil.packed, pencil.kind) == (2, Packed.BESIDE, "small part")
    assert pencil.weight_g == pytest.approx(28.349523125)
    assert str(lid.place) == 'garden.toml, line 50, part "lid"'


def test_what_is_not_said_of_a_paper_is_estimated_or_unknown() -> None:
    plain = read_kit(WHOLE).papers["plain"]
    assert (plain.label, plain.grain, plain.print_, plain.price, plain.on_hand) == (
        "plain", Grain.UNKNOWN, Print.NONE, None, None,
    )  # fmt: skip
    assert plain.caliper.is_estimate
    assert (plain.sheet_width_mm, plain.margins.top) == (Fraction(210), INCH / 4)


SMALL = """\
[kit]
name = "small"
units = "{units}"
[paper.k]
sheet = "300 x 300 mm"
weight = "200 gsm"
[[part]]
name = "c"
form = "{form}"
paper = "k"
size = "{size}"
"""


@pytest.mark.parametrize(
    ("units", "size", "width", "step"),
    [("in", "2 1/2 x 3", INCH * 5 / 2, INCH / 16), ("mm", "60 x 30", 60, 1), ("cm", "6 x 3", 60, 1)],
)
def test_bare_numbers_are_in_the_units_of_the_kit(units: str, size: str, width: Fraction, step: Fraction) -> None:
    kit = read_kit(SMALL.format(units=units, form="flat card", size=size))
    assert kit.ruler.step == step
    assert kit.parts[0].sizing.lengths[0] == width


def test_the_same_document_reads_the_same_with_windows_line_ends_and_a_byte_order_mark() -> None:
    plain = read_kit_bytes(WHOLE.encode())
    for data in (WHOLE.replace("\n", "\r\n").encode(), b"\xef\xbb\xbf" + WHOLE.encode()):
        assert read_kit_bytes(data) == plain
        assert read_kit_bytes(data).parts[3].place.line == 50
    assert read_kit("\ufeff" + WHOLE) == plain


@pytest.mark.parametrize(("said", "count"), [("6 x 2", 2), ("6 x 2 x 1", 3)])
def test_a_last_side_that_has_a_usual_length_may_be_left_out_of_a_size(said: str, count: int) -> None:
    kit = read_kit(SMALL.format(units="in", form="belly band", size=said))
    assert len(kit.parts[0].sizing.lengths) == count
