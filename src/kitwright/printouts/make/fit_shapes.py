"""The two things of a fit as they stand to each other, for its picture: lid and box cut through, band and box from above, card and
envelope or mat and card from the front. Everything at true size, in millimetres, measured on the folded parts."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from operator import le
from typing import Final

from kitwright.findings import Finding, Severity
from kitwright.kit import BuiltKit, BuiltPart, Goes, Thing, along, face_sides, hanging, length_over
from kitwright.measure import Ruler
from kitwright.pattern import Axis
from kitwright.printouts.drawing import Line, Mark, Point, Role
from kitwright.printouts.make.shapes import Gap, Shapes, rectangle
from kitwright.printouts.make.walls import Walls, walls_along

__all__ = ["band_shapes", "card_shapes", "foot_shapes", "lid_shapes", "mat_shapes"]

LITTLE: Final = 0.05
"""A gap below this (mm) is none."""


def lid_shapes(built: BuiltKit, finding: Finding, lid: BuiltPart, host: BuiltPart, axis: Axis) -> Shapes:
    """Lid and box cut through along an axis. The box is pushed to the left, so that all free play is at the right."""
    free = finding.measured or 0.0
    section = Section(lid, host, axis, over=lid.inside[axis].net - free)
    right = section.box_size
    low = section.height - min(section.rims)
    middle = section.height - min(section.rims) / 2
    walls = [*section.box.high, *section.lid.high]
    hints = [right + by for by in range_of(finding)]
    edges = [*hints, *(edge for sheet in walls for edge in sheet)]
    marks = list(section.marks())
    if free < -LITTLE:
        marks.append(rectangle((section.lid.size, low), (right, section.height), Role.CLASH))
    return Shapes(
        marks=tuple(marks),
        gaps=(Gap((right, middle), (section.lid.size, middle), *free_words(free, built.kit.ruler)),),
        inner=host.name,
        outer=lid.name,
        seen="cut through",
        glass=((min(edges) + max(edges)) / 2, middle),
        reach=(max(edges) - min(edges)) / 2,
        hints=tuple(Line((x, middle - section.height), (x, middle + section.height), Role.RANGE) for x in hints),
    )


def foot_shapes(built: BuiltKit, finding: Finding, lid: BuiltPart, host: BuiltPart, axis: Axis) -> Shapes:
    """Lid and box cut through, seen where the rim that a finding is about ends above, or below, the foot of the box."""
    section = Section(lid, host, axis)
    told = finding.measured or 0.0
    at_right = abs(section.rims[1] - told) <= abs(section.rims[0] - told)
    x = section.lid.outer[1] if at_right else section.lid.outer[0]
    left = section.height - section.rims[at_right]
    words = (built.kit.ruler.near(abs(left)), "above foot" if left >= 0 else "too long")
    marks = list(section.marks())
    wall, beyond = (section.box.high, section.lid.high) if at_right else (section.box.low, section.lid.low)
    edges = [edge for sheet in (*wall, *beyond) for edge in sheet]
    if left < -LITTLE:
        marks.append(rectangle((beyond[0][0], left), (beyond[-1][1], 0.0), Role.CLASH))
    return Shapes(
        marks=tuple(marks),
        gaps=(Gap((x, 0.0), (x, left), *words),),
        inner=host.name,
        outer=lid.name,
        seen="cut through",
        glass=((min(edges) + max(edges)) / 2, left / 2),
        reach=max(abs(left), (max(edges) - min(edges)) / 2),
    )


class Section:
    """Lid and box cut through along an axis: the box's outer face at 0, the lid's inner face on it."""

    def __init__(self, lid: BuiltPart, host: BuiltPart, axis: Axis, *, over: float | None = None) -> None:
        """`over` is how far the lid must reach, if that is more than the box: something is glued on the box then."""
        box = walls_along(host, axis)
        self.box = box.moved(-box.outer[0])
        self.lid = walls_along(lid, axis)
        size = box.outer[1] - box.outer[0]
        self.box_size = size if over is None else over
        if self.box.high and self.box_size > size + LITTLE:
            self.box = replace(self.box, high=(*self.box.high, (size, self.box_size)))
        self.floor = walls_along(host, Axis.HEIGHT).low if Axis.HEIGHT in host.inside else ()
        self.height = host.outside[Axis.HEIGHT].net if Axis.HEIGHT in host.outside else host.thickness
        rims = [hanging(lid, name) for name in lid.form.hangs] or [self.height / 3]
        self.rims = (rims[0], rims[-1])

    def marks(self) -> Iterator[Mark]:
        """Every sheet of card as it is cut through."""
        yield from upright(self.box.low, 0.0, self.height, Role.INNER)
        yield from upright(self.box.high, 0.0, self.height, Role.INNER)
        if not self.box.low:
            yield rectangle((0.0, 0.0), (self.box_size, self.height), Role.INNER)
        thick = math.fsum(end - start for start, end in self.floor)
        for start, end in self.floor:
            yield rectangle((0.0, start + thick), (self.box_size, end + thick), Role.INNER)
        outermost = max((end - start for start, end in self.lid.high), default=0.3)
        yield from upright(self.lid.low, self.height - self.rims[0], self.height, Role.OUTER)
        yield from upright(self.lid.high, self.height - self.rims[1], self.height, Role.OUTER)
        low, high = self.lid.outer
        yield rectangle((low, self.height), (high, self.height + outermost), Role.OUTER)


def upright(sheets: Sequence[tuple[float, float]], low: float, high: float, role: Role) -> Iterator[Mark]:
    """Sheets of a standing wall."""
    for start, end in sheets:
        yield rectangle((start, low), (end, high), role)


def band_shapes(built: BuiltKit, finding: Finding, band: BuiltPart, host: BuiltPart, axis: Axis) -> Shapes:
    """Band and what it goes round, from above, pushed together at the left and in front."""
    across, deep = walls_along(band, Axis.WIDTH), walls_along(band, Axis.DEPTH)
    is_width, stands = axis is Axis.WIDTH, band.part.goes is Goes.WALLS
    size = band.inside[axis].net - (finding.measured or 0.0)
    other = length_over(built.kit, built.by_name, host, along(band.part, Axis.DEPTH if is_width else Axis.WIDTH))
    wide, far = (size, other) if is_width else (other, size)
    marks: list[Mark] = [rectangle((0.0, 0.0), (wide, far), Role.INNER)]
    hollow = (walls_along(host, Axis.WIDTH), walls_along(host, Axis.DEPTH)) if stands and not host.is_flat else None
    if hollow is not None and hollow[0].low and hollow[1].low:
        marks += [
            rectangle((0.0, 0.0), (wide, far), Role.BLANK),
            *ring_of(hollow[0].moved(-hollow[0].outer[0]), hollow[1].moved(-hollow[1].outer[0]), Role.INNER),
        ]
    marks += ring_of(across, deep, Role.OUTER)
    walls = across if is_width else deep
    free = walls.size - size
    hints = [size + by for by in range_of(finding)]
    edges = [size, *hints, *(edge for sheet in walls.high for edge in sheet)]
    middle = (deep.size if is_width else across.size) / 2

    def at(along: float, other: float) -> Point:
        return (along, other) if is_width else (other, along)

    if free < -LITTLE:
        marks.append(rectangle(at(walls.size, 0.0), at(size, far if is_width else wide), Role.CLASH))
    return Shapes(
        marks=tuple(marks),
        gaps=(Gap(at(size, middle), at(walls.size, middle), *free_words(free, built.kit.ruler)),),
        inner=host.name,
        outer=band.name,
        seen="from above" if stands else "cut through",
        glass=at((min(edges) + max(edges)) / 2, middle),
        reach=max((max(edges) - min(edges)) / 2, 0.6),
        hints=tuple(Line(at(place, middle - 100), at(place, middle + 100), Role.RANGE) for place in hints),
    )


def ring_of(across: Walls, deep: Walls, role: Role) -> Iterator[Mark]:
    """Four walls from above, the side walls between the front and the back."""
    (left, right), (front, back) = across.outer, deep.outer
    for start, end in (*deep.low, *deep.high):
        yield rectangle((left, start), (right, end), role)
    inner_front, inner_back = (deep.low[0][1] if deep.low else front), (deep.high[0][0] if deep.high else back)
    for start, end in (*across.low, *across.high):
        yield rectangle((start, inner_front), (end, inner_back), role)


def card_shapes(built: BuiltKit, envelope: BuiltPart, thing: Thing) -> Shapes:
    """A card in the middle of its envelope or pocket, upright or turned, whichever leaves more."""
    inside = envelope.flat_room
    ways = ((thing.width, thing.height), (thing.height, thing.width))
    card = max(ways, key=lambda way: min(inside[0] - way[0], inside[1] - way[1]))
    return in_the_middle(built.kit.ruler, card, inside, names=(thing.name, envelope.name))


def mat_shapes(built: BuiltKit, finding: Finding, mat: BuiltPart, host: BuiltPart) -> Shapes:
    """A mat in the middle of what it is glued on; inside a lid, where it does not go between the walls of the box, between those."""
    size = (mat.outside[Axis.WIDTH].net, mat.outside[Axis.HEIGHT].net)
    ground = face_size(built, mat, host, is_closed=False)
    names = (mat.name, host.name)
    if finding.severity is Severity.FAIL and host.part.covers and all(map(le, size, ground)):
        ground, names = face_size(built, mat, host, is_closed=True), (mat.name, host.part.covers)
    return in_the_middle(built.kit.ruler, size, ground, names=names)


def face_size(built: BuiltKit, mat: BuiltPart, host: BuiltPart, *, is_closed: bool) -> Point:
    """Width and height of the face that something is glued on; see `face_sides`."""
    wide, high = face_sides(built.by_name, mat.part, host, is_closed=is_closed)
    return wide[1].net, high[1].net


def in_the_middle(ruler: Ruler, inner: Point, outer: Point, *, names: tuple[str, str]) -> Shapes:
    """A rectangle in the middle of another, with the margin at the right and above; what sticks out is marked."""
    left, low = (outer[0] - inner[0]) / 2, (outer[1] - inner[1]) / 2
    right, top = outer[0] - left, outer[1] - low
    marks: list[Mark] = [
        rectangle((0.0, 0.0), outer, Role.OUTER),
        rectangle((left, low), (right, top), Role.INNER),
    ]
    if left < -LITTLE:
        marks += [rectangle((left, low), (0.0, top), Role.CLASH), rectangle((outer[0], low), (right, top), Role.CLASH)]
    if low < -LITTLE:
        marks += [
            rectangle((left, low), (right, 0.0), Role.CLASH),
            rectangle((left, outer[1]), (right, top), Role.CLASH),
        ]
    beside = Gap((right, low), (outer[0], low), *margin_words(left, "at the sides", ruler))
    above = Gap((right, top), (right, outer[1]), *margin_words(low, "top, bottom", ruler))
    gaps = (beside, above) if left <= low else (above, beside)
    middle = (outer[0], outer[1] / 2) if left <= low else (outer[0] * 0.9, outer[1])
    return Shapes(
        marks=tuple(marks),
        gaps=gaps,
        inner=names[0],
        outer=names[1],
        seen="from the front",
        glass=middle,
        reach=max(abs(min(left, low)), 0.5),
    )


def margin_words(margin: float, where: str, ruler: Ruler) -> tuple[str, str]:
    """A margin that is there on two sides, in words: its length, and which it is."""
    return ruler.near(abs(margin)), where if margin >= 0 else f"too much {where}"


def free_words(free: float, ruler: Ruler) -> tuple[str, str]:
    """Free play in all, in words: its length, and which it is."""
    return ruler.near(abs(free)), "free in all" if free >= 0 else "too small"


def range_of(finding: Finding) -> tuple[float, ...]:
    """The worst cases of the free play, where they are known."""
    return () if finding.makings is None else (finding.makings.least, finding.makings.greatest)
