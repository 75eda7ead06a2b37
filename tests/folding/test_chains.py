"""Chains of hinges round an inner corner, which the fold engine must close although it only knows trees."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitwright.folding import fold
from kitwright.pattern import Blank, Panel, PanelRef, Pattern, Point, Score


def around_corner(sectors: tuple[float, ...], folds: tuple[float, ...], *, radius: float = 50.0) -> Pattern:
    """Triangles round one inner corner, cut open along the first crease: `folds[i]` is the fold before sector i."""
    headings = [sum(sectors[:i]) for i in range(len(sectors) + 1)]
    rim: list[Point] = [(radius * math.cos(math.radians(h)), radius * math.sin(math.radians(h))) for h in headings]
    panels = tuple(Panel(str(i), ((0.0, 0.0), rim[i], rim[i + 1]), ("in", "rim", "out")) for i in range(len(sectors)))
    scores = tuple(Score(str(i - 1), str(i), rim[i], (0.0, 0.0), folds[i]) for i in range(1, len(sectors)))
    return Pattern((Blank("corner", panels, scores),))


def ratios(alpha: float, beta: float) -> tuple[float, float]:
    a, b = math.radians(alpha), math.radians(beta)
    return math.cos((a + b) / 2) / math.cos((a - b) / 2), math.sin((a - b) / 2) / math.sin((a + b) / 2)


def folds_of(tangents: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(math.degrees(2 * math.atan(t)) for t in tangents)


def gap(pattern: Pattern, first_fold: float) -> tuple[float, float]:
    """By how far the two cut edges miss each other, and by how many degrees the first fold is not what it should be."""
    folded = fold(pattern)
    count = len(pattern.blanks[0].panels)
    first, last = PanelRef("corner", "0"), PanelRef("corner", str(count - 1))
    start, end = folded.points(first)[1], folded.points(last)[2]
    axis = -start / np.linalg.norm(start)
    one, other = folded.normal(last), folded.normal(first)
    turned = math.degrees(math.atan2(float(np.cross(one, other) @ axis), float(one @ other)))
    return float(np.linalg.norm(start - end)), abs(-turned - first_fold)


# Akitaya et al., "Rigid foldability is NP-hard", JoCG 11(1) 2020, arXiv:1812.01160: p for flat-foldable corners of degree four.
@pytest.mark.parametrize(
    ("alpha", "beta", "p", "q"),
    [
        (60, 90, 0.267949, -0.267949),
        (45, 75, 0.517638, -0.298858),
        (70, 55, 0.465733, 0.147153),
        (60, 60, 0.5, 0.0),
    ],
)
def test_corners_of_degree_four_close_in_both_of_their_modes(alpha: float, beta: float, p: float, q: float) -> None:
    assert ratios(alpha, beta) == pytest.approx((p, q), abs=1e-6)
    sectors = (alpha, beta, 180 - alpha, 180 - beta)
    p, q = ratios(alpha, beta)
    for t in (0.2, 0.7, 1.5):
        for tangents in ((t, -p * t, t, p * t), (q * t, t, -q * t, t)):
            folds = folds_of(tangents)
            miss, turned = gap(around_corner(sectors, folds), folds[0])
            assert miss < 1e-12
            assert turned < 1e-9


def test_a_corner_folded_out_of_proportion_does_not_close() -> None:
    folds = folds_of((0.7, -0.3 * 0.7, 0.7, 0.3 * 0.7))
    miss, _ = gap(around_corner((60, 90, 120, 90), folds), folds[0])
    assert miss > 0.5


@settings(deadline=None, max_examples=60)
@given(alpha=st.floats(20, 160), beta=st.floats(20, 160), t=st.floats(0.01, 3))
def test_every_flat_foldable_corner_of_degree_four_closes(alpha: float, beta: float, t: float) -> None:
    p, _ = ratios(alpha, beta)
    folds = folds_of((t, -p * t, t, p * t))
    miss, _ = gap(around_corner((alpha, beta, 180 - alpha, 180 - beta), folds), folds[0])
    assert miss < 1e-10


# Schenk & Guest, "Geometry of Miura-folded metamaterials", PNAS 110(9) 2013, doi 10.1073/pnas.1217998110: unit cell with a = b = 1,
# sector angle gamma, dihedral between facets and base theta; second fold derived from the same paper's parameters.
@pytest.mark.parametrize(
    ("gamma", "theta", "sizes", "second"),
    [
        (60, 45, (0.612372, 0.774597, 0.790569, 0.632456), 53.130102),
        (60, 30, (0.433013, 0.832050, 0.901388, 0.554700), 32.204228),
        (45, 45, (0.5, 0.577350, 0.866025, 0.816497), 70.528779),
        (70, 60, (0.813798, 0.808479, 0.581148, 0.588525), 61.284684),
    ],
)
def test_a_cell_of_the_miura_fold_has_the_published_size(
    gamma: float, theta: float, sizes: tuple[float, float, float, float], second: float
) -> None:
    height, s, length, v = sizes  # H, S, L, V of the paper
    derived = math.degrees(2 * math.atan(math.cos(math.radians(gamma)) * math.tan(math.radians(theta))))
    assert derived == pytest.approx(second, abs=1e-6)
    sectors, folds = (gamma, 180 - gamma, 180 - gamma, gamma), (-derived, 2 * theta, derived, 2 * theta)
    pattern = around_corner(sectors, folds, radius=1.0)
    assert gap(pattern, folds[0]) == pytest.approx((0, 0), abs=1e-9)
    folded = fold(pattern)
    ends = [folded.points(PanelRef("corner", str(i)))[1] for i in range(4)]
    corner = folded.points(PanelRef("corner", "0"))[0]
    # opposite creases: half the distance of their ends, and how far the corner is from the middle between them
    half = [float(np.linalg.norm(ends[i] - ends[i + 2])) / 2 for i in range(2)]
    rise = [float(np.linalg.norm((ends[i] + ends[i + 2]) / 2 - corner)) for i in range(2)]
    assert sorted(zip(half, rise, strict=True)) == [
        pytest.approx(pair, abs=1e-6) for pair in sorted(((length, height), (s, v)))
    ]
