"""Stacks of tolerances against published sums: worst case, root of the sum of squares, what is common, and the exact law of sums."""

from __future__ import annotations

import math
from statistics import NormalDist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.proof.tolerance import Makes, Shape, Share, Stack, Variation


def stack(*parts: tuple[float, float], shape: Shape = Shape.UNIFORM) -> Stack:
    """A sum of lengths (below zero: taken off), each with its own ± tolerance."""
    found = Stack(0.0)
    for number, (length, reach) in enumerate(parts):
        sign = math.copysign(1.0, length)
        found = found + Stack(length, {Variation(f"part {number}", reach, shape): sign})
    return found


@pytest.mark.parametrize(
    ("parts", "nominal", "worst", "rss"),
    [
        ([(1.0, 0.1)] * 10, 10.0, 1.0, 0.316228),  # ten equal parts ± 0.1: published tutorial on tolerance stacks
        ([(10.0, 0.20), (10.0, 0.10), (10.0, 0.15)], 30.0, 0.45, 0.269258),  # three unequal parts: published tutorial
        ([(40.0, 0.10), (-25.0, 0.05), (-2.0, 0.03), (-10.0, 0.05)], 3.0, 0.23, 0.126095),  # published example of a gap
    ],
)
def test_a_stack_has_the_published_worst_case_and_root_sum_square(
    parts: list[tuple[float, float]], nominal: float, worst: float, rss: float
) -> None:
    found = stack(*parts)
    assert found.nominal == pytest.approx(nominal)
    assert found.worst == pytest.approx(worst)
    assert found.rss == pytest.approx(rss, abs=1e-6)
    assert (found.least, found.greatest) == pytest.approx((nominal - worst, nominal + worst))


@pytest.mark.parametrize(
    ("shape", "sigma"), [(Shape.UNIFORM, 0.8660254), (Shape.TRIANGULAR, 0.6123724), (Shape.NORMAL, 0.5)]
)  # NIST TN 1297, 4.6: a/√3 (1.5 gives 0.87), a/√6; ± three standard deviations
def test_each_shape_gives_the_makes_its_standard_deviation(shape: Shape, sigma: float) -> None:
    found = stack((0.0, 1.5), shape=shape)
    errors = Makes().lengths(found)
    assert float(errors.std()) == pytest.approx(sigma, rel=0.01)
    assert float(errors.mean()) == pytest.approx(0.0, abs=0.01)
    if shape is not Shape.NORMAL:
        assert float(abs(errors).max()) <= 1.5


IRWIN_HALL = [  # exact, from the volume of the cube cut by a plane (Irwin 1927, Hall 1927)
    (2, 1.0, (2 - math.sqrt(2)) ** 2 / 4),
    (3, 1.0, 0.084936),
    (4, 1.0, 1 / 12),
    (6, 1.0, 0.083330),
    (3, 1.5, 0.002705),
    (4, 1.5, 0.005208),
    (6, 1.5, 0.006869),
]


@pytest.mark.parametrize(("n", "times", "exact"), IRWIN_HALL)
def test_even_errors_lie_beyond_the_root_sum_square_as_often_as_they_must(n: int, times: float, exact: float) -> None:
    found = stack(*[(0.0, 1.0)] * n)
    beyond = share_of(found, beyond=times * found.rss)
    assert beyond.interval[0] - 0.0005 < exact < beyond.interval[1] + 0.0005


def test_two_even_errors_never_lie_beyond_one_and_a_half_of_it() -> None:
    found = stack((0.0, 1.0), (0.0, 1.0))
    assert share_of(found, beyond=1.5 * found.rss).count == 0  # 1.5 √2 > 2


@pytest.mark.parametrize(("quantile", "p"), [(1.281552, 0.90), (1.959964, 0.975), (2.575829, 0.995)])
def test_normal_errors_have_normal_quantiles(quantile: float, p: float) -> None:
    assert NormalDist().inv_cdf(p) == pytest.approx(quantile, abs=1e-6)
    found = stack(*[(0.0, 0.3)] * 4, shape=Shape.NORMAL)
    share = share_of(found, beyond=quantile * found.rss / 3).share
    assert share == pytest.approx(2 * (1 - p), abs=0.003)


def share_of(found: Stack, *, beyond: float) -> Share:
    makes = Makes()
    return makes.share(abs(makes.lengths(found) - found.nominal) > beyond)


def lid_over_base(*, shared: bool) -> Stack:
    """Lid 102.2 ± 0.2, base 100 ± 0.2, a pack 0.30 ± 0.015 with 2 walls and 2 more layers in between."""
    found = stack((102.2, 0.2), (-100.0, 0.2), shape=Shape.NORMAL)
    for layer in range(4):
        name = "pack" if shared else f"sheet {layer}"
        found = found - Stack(0.30, {Variation(name, 0.015, Shape.NORMAL): 1.0})
    return found


def test_the_thickness_of_one_pack_is_one_variable() -> None:
    # derived by hand: ± (0.2 + 0.2 + 4 x 0.015); √(2 x 0.2² + (4 x 0.015)²), not √(2 x 0.2² + 4 x 0.015²)
    common, independent = lid_over_base(shared=True), lid_over_base(shared=False)
    assert common.nominal == pytest.approx(1.0)
    assert common.worst == pytest.approx(0.460)
    assert common.least == pytest.approx(0.540)
    assert common.rss == pytest.approx(0.2891, abs=5e-5)
    assert independent.rss == pytest.approx(0.2844, abs=5e-5)
    makes = Makes(400_000)
    tight = makes.share(makes.lengths(common) < 0.7)
    assert tight.interval[0] < 0.00093 < tight.interval[1]  # upper tail of the normal law at 0.3 / (0.2891 / 3)


def test_what_is_common_cancels() -> None:
    pack = Variation("pack", 0.1)
    free = Stack(10.0, {pack: 2.0}) - Stack(9.0, {pack: 2.0})
    assert (free.nominal, free.worst, free.rss) == (1.0, 0.0, 0.0)


def test_wilsons_interval_is_as_published() -> None:
    # 81 of 263: 0.2553 to 0.3662 (R. G. Newcombe, Statistics in Medicine 17, 1998, table I, method 3; quoted from memory)
    assert Share(81, 263).interval == pytest.approx((0.2553, 0.3662), abs=5e-5)
    assert Share(15, 148).interval == pytest.approx((0.0624, 0.1605), abs=5e-5)
    assert Share(0, 20).interval == pytest.approx((0.0, 0.1611), abs=5e-5)
    assert Share(1, 29).interval == pytest.approx((0.0061, 0.1718), abs=5e-5)


@given(st.lists(st.tuples(st.floats(-50, 50), st.floats(0, 2)), min_size=1, max_size=6))
@settings(deadline=None, max_examples=30)
def test_no_make_is_worse_than_the_worst_case(parts: list[tuple[float, float]]) -> None:
    found = stack(*parts)
    lengths = Makes(2_000).lengths(found)
    slack = 1e-3
    assert found.least - slack <= float(lengths.min()) <= float(lengths.max()) <= found.greatest + slack
    assert found.rss <= found.worst + 1e-9


def test_the_same_seed_gives_the_same_makes_whatever_else_is_made() -> None:
    found = stack((1.0, 0.5), (2.0, 0.25))
    alone, after = Makes(1_000), Makes(1_000)
    after.lengths(stack((1.0, 9.0), (1.0, 8.0)))
    assert (alone.lengths(found) == after.lengths(found)).all()
    assert not (alone.lengths(found) == Makes(1_000, seed=2).lengths(found)).all()


@pytest.mark.parametrize("reach", [-0.1, math.inf, math.nan])
def test_a_reach_that_cannot_be_is_refused(reach: float) -> None:
    with pytest.raises(ValueError, match="a cut cannot be off"):
        Variation("a cut", reach)
