"""The fold engine against the counts of nets that mathematics knows, and against its exact twin."""

from itertools import product

import numpy as np
import pytest
from tests.folding.oracle import closes, exact_corners, is_open_cube, volume
from tests.folding.shapes import (
    box_net,
    free_polyominoes,
    outline_key,
    polyomino_blank,
    polyomino_trees,
    spanning_trees,
)

from kitwright.folding import fold
from kitwright.pattern import Blank, PanelRef, Pattern


def box_nets(sides: tuple[int, int, int], *, angle: float = -90.0) -> list[Blank]:
    """One net of each outline, turned and mirrored ones being one."""
    nets = {outline_key(net): net for net in (box_net(sides, tree, angle=angle) for tree in spanning_trees())}
    return list(nets.values())


# Numbers of free polyominoes: OEIS A000105.
@pytest.mark.parametrize(("cells", "count"), [(1, 1), (2, 1), (3, 2), (4, 5), (5, 12), (6, 35)])
def test_polyominoes_are_drawn_completely(cells: int, count: int) -> None:
    assert len(free_polyominoes(cells)) == count


# Goldstone & Suzzi Valli, "Unfoldings of the cube", arXiv:1604.05004: 384 spanning trees, 11 nets.
def test_exactly_eleven_of_the_hexominoes_fold_to_a_cube() -> None:
    folds = [cells for cells in free_polyominoes(6) if any(map(closes, hinged(cells)))]
    assert len(folds) == 11


def hinged(cells: frozenset[tuple[int, int]]) -> list[Blank]:
    return [polyomino_blank(cells, tree) for tree in polyomino_trees(cells)]


# Derived: a 2×2 block leaves 43 spanning trees over the eight hexominoes that have one, and none closes.
def test_no_hexomino_with_a_block_of_four_folds_to_a_cube_whichever_slit_is_cut() -> None:
    blocks = [
        cells
        for cells in free_polyominoes(6)
        if any({(x, y), (x + 1, y), (x, y + 1), (x + 1, y + 1)} <= cells for x, y in cells)
    ]
    blanks = [blank for cells in blocks for blank in hinged(cells)]
    assert (len(blocks), len(blanks)) == (8, 43)
    assert not any(map(closes, blanks))


# Annenberg Learner, "Teaching Math: Open-top boxes" (learner.org): 8 of the 12 pentominoes.
def test_exactly_eight_of_the_pentominoes_fold_to_an_open_box() -> None:
    folds = [cells for cells in free_polyominoes(5) if any(map(is_open_cube, hinged(cells)))]
    assert len(folds) == 8


# 384 trees and 11 nets of the cube as above; 54 nets of a box with three different sides: encyclopedia, "Net (polyhedron)";
# 29 with two equal sides by counting.
@pytest.mark.parametrize(("sides", "count"), [((1, 1, 1), 11), ((1, 1, 2), 29), ((2, 3, 4), 54)])
def test_a_box_has_the_known_number_of_nets(sides: tuple[int, int, int], count: int) -> None:
    assert len(list(spanning_trees())) == 384
    assert len(box_nets(sides)) == count


@pytest.mark.parametrize("sides", [(1, 1, 1), (1, 1, 2), (2, 3, 4)])
def test_every_net_closes_with_the_print_outside_folded_mountain_and_inside_folded_valley(
    sides: tuple[int, int, int],
) -> None:
    a, b, c = sides
    for angle, sign in ((-90.0, 1), (90.0, -1)):
        nets = box_nets(sides, angle=angle)
        assert all(map(closes, nets))
        assert {volume(net) for net in nets} == {sign * a * b * c}


@pytest.mark.parametrize("sides", [(1, 1, 1), (1, 1, 2), (2, 3, 4)])
def test_the_engine_and_its_exact_twin_agree_on_every_corner_of_every_net(sides: tuple[int, int, int]) -> None:
    for net in box_nets(sides):
        folded = fold(Pattern((net,)))
        for name, corners in exact_corners(net).items():
            assert np.array_equal(folded.points(PanelRef("net", name)), np.array(corners, dtype=float))


def test_the_engine_and_its_exact_twin_agree_on_every_pentomino_folded_either_way() -> None:
    for cells, angle in product(free_polyominoes(5), (-90.0, 90.0, 180.0)):
        blank = polyomino_blank(cells, next(polyomino_trees(cells)), angle=angle)
        folded = fold(Pattern((blank,)))
        for name, corners in exact_corners(blank).items():
            assert np.array_equal(folded.points(PanelRef("net", name)), np.array(corners, dtype=float))
