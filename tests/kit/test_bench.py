"""What a document says of the bench: the trimmer, which offcuts are kept, what lies there from before."""

from fractions import Fraction

import pytest

from kitwright.errors import Mistakes
from kitwright.kit import Keeping, Trimmer, edition, read_kit, write_kit
from kitwright.measure import Unit
from kitwright.paper import Margins

INCH = Fraction(127, 5)
PLAIN = """
[kit]
name = "Cards"
units = "in"

[paper.kraft]
sheet = "12 x 12"
weight = "80 lb cover"

[[part]]
name = "card"
form = "flat card"
size = "4 x 6"
paper = "kraft"
"""
BENCH = """
[kit.trimmer]
longest-cut = "12"
narrowest = "1/2"
stack = "1/16"

[kit.keep]
side = "1 1/2"
area = "4 x 6"

[[offcut]]
paper = "kraft"
size = "5 x 12"
count = 3
margins = { left = "1/4" }

[[offcut]]
paper = "kraft"
size = "8 x 8"
"""


def test_trimmer_rule_and_offcuts_are_read_in_the_units_of_the_kit() -> None:
    kit = read_kit(PLAIN + BENCH)
    assert kit.trimmer == Trimmer(12 * INCH, INCH / 2, INCH / 16)
    assert kit.keeping == Keeping(INCH * 3 / 2, (4 * INCH, 6 * INCH))
    first, second = kit.offcuts
    assert (first.paper, first.width, first.height, first.count) == ("kraft", 5 * INCH, 12 * INCH, 3)
    assert first.margins == Margins(left=INCH / 4)
    assert (second.count, second.margins) == (1, Margins())


def test_nothing_said_of_the_bench_limits_nothing_and_keeps_what_is_usual() -> None:
    kit = read_kit(PLAIN)
    assert (kit.trimmer, kit.offcuts) == (Trimmer(), ())
    assert kit.keeping == Keeping.usual(Unit.INCH) == Keeping(2 * INCH, (3 * INCH, 4 * INCH))


def test_the_bench_is_written_and_read_back_the_same() -> None:
    kit = read_kit(PLAIN + BENCH)
    again = read_kit(write_kit(kit))
    assert (again.trimmer, again.keeping) == (kit.trimmer, kit.keeping)
    assert again.offcuts == kit.offcuts


def test_the_edition_for_the_other_ruler_keeps_the_offcuts_that_are_there() -> None:
    offcut = '[[offcut]]\npaper = "kraft"\nsize = "5 x 12"\n'
    found = edition(read_kit(PLAIN + offcut), Unit.MILLIMETRE)
    assert (found.kit.offcuts[0].width, found.kit.offcuts[0].height) == (5 * INCH, 12 * INCH)
    assert edition(read_kit(PLAIN), Unit.MILLIMETRE).kit.keeping == Keeping.usual(Unit.MILLIMETRE)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('paper = "kraft"\nsize = "5 x 12"', 'paper = "krft"\nsize = "5 x 12"', "Did you mean 'kraft'?"),
        ('size = "5 x 12"', 'size = "5"', "two lengths should be here"),
        ("count = 3", "count = -1", "from 0 to 1,000,000"),
        ('left = "1/4"', 'left = "5"', "margins: They leave nothing of this offcut."),
        ('stack = "1/16"', 'stak = "1/16"', "Did you mean 'stack'?"),
        ('side = "1 1/2"', 'sid = "1 1/2"', "Did you mean 'side'?"),
    ],
)
def test_a_mistake_about_the_bench_is_told(old: str, new: str, says: str) -> None:
    assert old in BENCH
    with pytest.raises(Mistakes, match=says):
        read_kit(PLAIN + BENCH.replace(old, new, 1))


def test_a_stack_is_as_many_sheets_as_the_trimmer_takes_and_one_at_least() -> None:
    # 1/16 in = 1.5875 mm: five sheets of 0.28 mm (80 lb cover) make 1.4 mm, six 1.68 mm
    assert Trimmer(stack=INCH / 16).at_once(0.28) == 5
    assert Trimmer(stack=INCH / 64).at_once(0.5) == 1
    assert Trimmer().at_once(0.28) == 1
