"""The numbers that a maker leaves out never make a part impossible: at the smallest and the largest sizes of every form, on every ruler."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from types import MappingProxyType

import pytest
from tests.kit.documents import head
from tests.kit.documents import part as one_part

from kitwright.catalogue import CATALOGUE, Form, parameters
from kitwright.errors import Mistakes
from kitwright.kit import build, read_kit
from kitwright.kit.model import Kit, Part, Sizing, SizingKind
from kitwright.measure import MM_PER_INCH, Ruler, Unit

RULERS = [
    *(Ruler(Unit.INCH, MM_PER_INCH / parts) for parts in (8, 16, 32, 64)),
    Ruler(Unit.MILLIMETRE, Fraction(1)),
    Ruler(Unit.MILLIMETRE, Fraction(1, 2)),
]


def extremes(form: type[Form], ruler: Ruler) -> Iterator[tuple[Fraction, ...]]:
    """Every mix of the least and the greatest mark that each side of a form can have."""
    sides = {parameter.name: parameter for parameter in parameters(form)}
    yield from product(*((ruler.up(sides[name].at_least), ruler.down(sides[name].at_most)) for name in form.size))


@pytest.mark.parametrize("ruler", RULERS, ids=lambda ruler: ruler.name)
@pytest.mark.parametrize("key", CATALOGUE)
def test_what_is_left_out_can_be_drawn_at_the_smallest_and_the_largest_sizes(key: str, ruler: Ruler) -> None:
    papers = read_kit(head() + one_part("x", "flat card", size="4 x 4")).papers
    refused = []
    for size in extremes(CATALOGUE[key], ruler):
        part = Part("part", key, "card", sizing=Sizing(SizingKind.SIZE, size))
        try:
            build(Kit("a kit", ruler.unit, ruler, MappingProxyType(papers), (part,)))
        except Mistakes as mistakes:
            refused.append(f"{ruler.size(*size)}: {mistakes}")
    assert refused == []
