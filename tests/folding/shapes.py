"""Patterns drawn for the tests of folding: trays, cartons, nets of boxes and polyominoes. Lengths in mm."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product

import numpy as np
from numpy.typing import ArrayLike
from shapely import Point, Polygon

from kitwright.folding import EdgeKind, Folded, Plate, PlateEdge, Viewpoint
from kitwright.pattern import (
    Axis,
    Blank,
    Claims,
    Draft,
    EdgeRef,
    End,
    Extent,
    Joint,
    Panel,
    PanelKind,
    PanelRef,
    Pattern,
    Score,
    Side,
    Stance,
)

Cell = tuple[int, int]
Corner = tuple[int, int, int]

FROM_FRONT = Viewpoint(turn=0.0, rise=0.0)
FROM_ABOVE = Viewpoint(turn=0.0, rise=90.0)


def block_plates(name: str, low: ArrayLike, high: ArrayLike) -> tuple[Plate, ...]:
    """The six faces of a block with sides along the axes, from its low corner to its high corner."""
    corners = np.array([low, high], dtype=np.float64)
    found = []
    for axis in range(3):
        first, second = (axis + 1) % 3, (axis + 2) % 3
        for side in (0, 1):
            ring = np.empty((4, 3))
            ring[:, axis] = corners[side, axis]
            ring[:, first] = corners[[0, 1, 1, 0], first]
            ring[:, second] = corners[[0, 0, 1, 1], second]
            normal = np.zeros(3)
            normal[axis] = 1.0 if side else -1.0
            edges = (PlateEdge(EdgeKind.CUT),) * 4
            found.append(Plate(PanelRef("block", name), ring if side else ring[::-1].copy(), edges, normal))
    return tuple(found)


def tray(width: float, depth: float, height: float, *, tabs: Side = Side.UNDER, name: str = "tray") -> Pattern:
    """A bottom with four walls, print outside; the front and back walls carry tabs glued to the side walls."""
    draft = Draft(name)
    bottom = draft.panel("bottom", width, depth)
    walls = {side: bottom.fold_out(side, side, height) for side in ("south", "east", "north", "west")}
    joints = []
    for side, right, left in (("south", "west", "east"), ("north", "east", "west")):
        wall = walls[side]
        to_right, to_left = (
            wall.tab("right", 10, name=f"{side} right tab"),
            wall.tab("left", 10, name=f"{side} left tab"),
        )
        joints.append(Joint(to_right.ref, walls[right].ref, tabs))
        joints.append(Joint(to_left.ref, walls[left].ref, tabs))
    ends: dict[Axis, tuple[End, End]] = {
        Axis.WIDTH: (walls["east"].ref, walls["west"].ref),
        Axis.DEPTH: (walls["south"].ref, walls["north"].ref),
        Axis.HEIGHT: (bottom.ref, walls["south"].edge("far")),
    }
    extents = tuple(Extent(axis, low, high) for axis, (low, high) in ends.items())
    return Pattern(
        (draft.finish(),),
        joints=tuple(joints),
        stance=Stance.FACE_DOWN,
        claims=Claims(inside=extents, outside=extents),
    )


def ring(sides: tuple[float, float, float, float], height: float, tab: float, bevel: float) -> Pattern:
    """Four walls in a row, print outside, with a glue tab at the end that lands under the first wall."""
    draft = Draft("sleeve")
    first = draft.panel("wall 1", sides[0], height)
    second = first.fold_out("east", "wall 2", sides[1])
    third = second.fold_out("far", "wall 3", sides[2])
    fourth = third.fold_out("far", "wall 4", sides[3])
    flap = fourth.fold_out("far", "tab", tab, taper=(bevel, bevel), kind=PanelKind.TAB)
    joint = Joint(flap.ref, first.ref, Side.UNDER)
    return Pattern((draft.finish(),), joints=(joint,), stance=Stance.STANDING)


def margins(folded: Folded, joint: Joint) -> list[float]:
    """How far each corner of a glued tab is inside the outline of its target, mm; below zero where it is outside."""
    target = Polygon(folded.pattern.panel(joint.target).outline)
    corners = [Point(corner[:2]) for corner in folded.to_panel(joint.target, folded.points(joint.tab))]
    return [target.boundary.distance(corner) * (1 if target.covers(corner) else -1) for corner in corners]


def box_net(sides: tuple[int, int, int], tree: tuple[tuple[int, int], ...], *, angle: float = -90.0) -> Blank:
    """A net of an a × b × c box: its six faces unfolded along a spanning tree (pairs of face numbers)."""
    faces = box_faces(sides)
    start = faces[0]
    width, height = length(start[0], start[1]), length(start[1], start[2])
    flat: dict[int, dict[Corner, tuple[int, int]]] = {
        0: dict(zip(start, ((0, 0), (width, 0), (width, height), (0, height)), strict=True))
    }
    panels = [Panel("face 0", tuple((float(x), float(y)) for x, y in flat[0].values()), tuple("abcd"))]
    scores = []
    waiting = list(tree)
    while waiting:
        here = next(pair for pair in waiting if (pair[0] in flat) != (pair[1] in flat))
        waiting.remove(here)
        parent, child = here if here[0] in flat else (here[1], here[0])
        ring3 = faces[parent]
        at = next(i for i in range(4) if {ring3[i], ring3[(i + 1) % 4]} <= set(faces[child]))
        p3, q3 = ring3[at], ring3[(at + 1) % 4]
        own = faces[child]
        turn = own.index(q3)
        _, _, r3, s3 = (own[(turn + i) % 4] for i in range(4))
        p, q = flat[parent][p3], flat[parent][q3]
        depth, along = length(p3, r3), length(p3, q3)
        out = ((q[1] - p[1]) // along * depth, -(q[0] - p[0]) // along * depth)
        flat[child] = {q3: q, p3: p, r3: (p[0] + out[0], p[1] + out[1]), s3: (q[0] + out[0], q[1] + out[1])}
        points = tuple((float(x), float(y)) for x, y in flat[child].values())
        panels.append(Panel(f"face {child}", points, tuple("abcd")))
        ends = ((float(p[0]), float(p[1])), (float(q[0]), float(q[1])))
        scores.append(Score(f"face {parent}", f"face {child}", *ends, angle))
    return Blank("net", tuple(panels), tuple(scores))


def box_faces(sides: tuple[int, int, int]) -> list[tuple[Corner, ...]]:
    """The faces of a box at the origin, corners counter-clockwise seen from outside."""
    a, b, c = sides
    x, y, z = (0, a), (0, b), (0, c)
    return [
        ((x[0], y[0], z[1]), (x[1], y[0], z[1]), (x[1], y[1], z[1]), (x[0], y[1], z[1])),
        ((x[0], y[1], z[0]), (x[1], y[1], z[0]), (x[1], y[0], z[0]), (x[0], y[0], z[0])),
        ((x[0], y[0], z[0]), (x[1], y[0], z[0]), (x[1], y[0], z[1]), (x[0], y[0], z[1])),
        ((x[1], y[1], z[0]), (x[0], y[1], z[0]), (x[0], y[1], z[1]), (x[1], y[1], z[1])),
        ((x[1], y[0], z[0]), (x[1], y[1], z[0]), (x[1], y[1], z[1]), (x[1], y[0], z[1])),
        ((x[0], y[1], z[0]), (x[0], y[0], z[0]), (x[0], y[0], z[1]), (x[0], y[1], z[1])),
    ]


def length(one: Corner, other: Corner) -> int:
    """The distance between two corners that differ in one coordinate."""
    return sum(abs(a - b) for a, b in zip(one, other, strict=True))


def spanning_trees() -> Iterator[tuple[tuple[int, int], ...]]:
    """The spanning trees of the six faces of a box; opposite faces do not touch."""
    touching = [pair for pair in combinations(range(6), 2) if pair not in {(0, 1), (2, 3), (4, 5)}]
    for tree in combinations(touching, 5):
        reached = {0}
        for _ in range(5):
            reached |= {face for pair in tree if set(pair) & reached for face in pair}
        if len(reached) == 6:
            yield tree


def outline_key(blank: Blank) -> frozenset[frozenset[tuple[float, float]]]:
    """The flat shape of a blank, the same for turned and mirrored ones."""
    rings = [panel.outline for panel in blank.panels]
    keys = []
    for flip, turn in product((1, -1), range(4)):
        moved = [[spin(flip * x, y, turn) for x, y in ring] for ring in rings]
        left, low = min(x for r in moved for x, _ in r), min(y for r in moved for _, y in r)
        keys.append(frozenset(frozenset((x - left, y - low) for x, y in r) for r in moved))
    return min(keys, key=lambda key: sorted(sorted(part) for part in key))


def spin(x: float, y: float, turn: int) -> tuple[float, float]:
    """A point turned about the origin by so many quarters."""
    for _ in range(turn):
        x, y = -y, x
    return (x, y)


def free_polyominoes(count: int) -> list[frozenset[Cell]]:
    """All free polyominoes of so many cells (turned and mirrored ones are one)."""
    shapes = {frozenset({(0, 0)})}
    for _ in range(count - 1):
        shapes = {
            canonical(shape | {(x + dx, y + dy)})
            for shape in shapes
            for x, y in shape
            for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1))
            if (x + dx, y + dy) not in shape
        }
    return sorted(shapes, key=sorted)


def canonical(cells: frozenset[Cell]) -> frozenset[Cell]:
    """The one of a polyomino's eight positions that stands for all."""
    best: list[Cell] | None = None
    for flip, turn in product((1, -1), range(4)):
        moved = [spin(flip * x, y, turn) for x, y in cells]
        left, low = min(x for x, _ in moved), min(y for _, y in moved)
        key = sorted((int(x - left), int(y - low)) for x, y in moved)
        best = key if best is None or key < best else best
    return frozenset(best or ())


def polyomino_trees(cells: frozenset[Cell]) -> Iterator[tuple[tuple[Cell, Cell], ...]]:
    """The spanning trees of a polyomino's cells."""
    pairs = [(a, b) for a, b in combinations(sorted(cells), 2) if abs(a[0] - b[0]) + abs(a[1] - b[1]) == 1]
    for tree in combinations(pairs, len(cells) - 1):
        reached = {min(cells)}
        for _ in tree:
            reached |= {cell for pair in tree if set(pair) & reached for cell in pair}
        if len(reached) == len(cells):
            yield tree


def polyomino_blank(cells: frozenset[Cell], tree: tuple[tuple[Cell, Cell], ...], *, angle: float = -90.0) -> Blank:
    """Unit squares hinged along a spanning tree, all scores at one angle."""
    root = min(cells)
    reached, scores = [root], []
    waiting = list(tree)
    while waiting:
        here = next(pair for pair in waiting if (pair[0] in reached) != (pair[1] in reached))
        waiting.remove(here)
        parent, child = here if here[0] in reached else (here[1], here[0])
        reached.append(child)
        x, y = parent
        start, end = {
            (0, -1): ((x, y), (x + 1, y)),
            (1, 0): ((x + 1, y), (x + 1, y + 1)),
            (0, 1): ((x + 1, y + 1), (x, y + 1)),
            (-1, 0): ((x, y + 1), (x, y)),
        }[child[0] - x, child[1] - y]
        scores.append(Score(str(parent), str(child), start, end, angle))
    panels = tuple(
        Panel(str((x, y)), ((x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)), ("south", "east", "north", "west"))
        for x, y in reached
    )
    return Blank("net", panels, tuple(scores))


def edge_of(pattern: Pattern, panel: str, edge: str) -> EdgeRef:
    """A named edge of the only copy of a pattern's first blank."""
    return EdgeRef(next(ref for ref, _ in pattern.panels() if ref.panel == panel), edge)


__all__ = [
    "box_faces",
    "box_net",
    "edge_of",
    "free_polyominoes",
    "outline_key",
    "polyomino_blank",
    "polyomino_trees",
    "ring",
    "spanning_trees",
    "tray",
]
