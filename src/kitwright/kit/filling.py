"""What goes into a box or an envelope, as blocks where it lies in the folded part: the proof's own places. Millimetres."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import accumulate
from typing import Final

from kitwright.findings import Finding, Placed, Severity
from kitwright.kit.built import BuiltKit
from kitwright.kit.built_part import BuiltPart
from kitwright.kit.sums import lining, total
from kitwright.paper import layers_thickness
from kitwright.pattern import Axis
from kitwright.proof import is_turned_in_pocket

__all__ = ["Filling", "filling", "gathered"]

MOST_BLOCKS: Final = 24
"""More blocks than these are not told apart in a picture."""

TOUCHING: Final = 1e-6
"""Two blocks that lie so near to each other (mm) touch."""

FLAT_FITS: Final = ("envelope-fit", "pocket-fit")


@dataclass(frozen=True, slots=True)
class Filling:
    """What lies in a holder: blocks, their corners measured where the built part's `folded` has its panels.

    Where no place was found there are no blocks, and `why_not` says why. `left_out` things were too many to be told apart.
    """

    blocks: tuple[Placed, ...]
    why_not: str = ""
    left_out: int = 0


def filling(built: BuiltKit, holder: BuiltPart, findings: Iterable[Finding]) -> Filling:
    """The contents of a part as the findings of its kit's proof place them; of a part that holds nothing no blocks and no reason."""
    if not holder.part.holds:
        return Filling(())
    codes = ("contents-fit",) if Axis.DEPTH in holder.inside else FLAT_FITS
    found = [each for each in findings if each.code in codes and each.parts[:1] == (holder.name,)]
    unsettled = next(
        (each for each in found if each.severity in (Severity.FAIL, Severity.UNKNOWN) and not each.placed), None
    )
    if unsettled is not None:
        return Filling((), unsettled.message)
    if Axis.DEPTH in holder.inside:
        x, y, z = corner_inside(built, holder)
        placed = tuple(
            replace(block, corner=(block.corner[0] + x, block.corner[1] + y, block.corner[2] + z))
            for each in found
            for block in each.placed
        )
    else:
        placed = tuple(laid_flat(built, holder)) if found else ()
    blocks = sorted(gathered(placed), key=lambda each: -each.size[0] * each.size[1] * each.size[2])
    left_out = sum(each.count for each in blocks[MOST_BLOCKS:])
    return Filling(tuple(blocks[:MOST_BLOCKS]), left_out=left_out)


def corner_inside(built: BuiltKit, holder: BuiltPart) -> tuple[float, float, float]:
    """The left front lower corner of the room for contents, on what is glued on the bottom or on the front inside."""
    glued = lining(built.kit, holder.part)
    x, y, z = (
        holder.inside[axis].middle - holder.inside[axis].net / 2 + total(built.kit, built.by_name, glued.get(axis, ()))
        for axis in (Axis.WIDTH, Axis.DEPTH, Axis.HEIGHT)
    )
    return x, y, z


def laid_flat(built: BuiltKit, holder: BuiltPart) -> Iterator[Placed]:
    """Things in an envelope or pocket as the proof looks at them: on the pocket's bottom, or in the middle of the envelope.

    The folded part has no thickness, so that all of them lie within half the thickness of its card, the first in front.
    """
    wide, high = holder.inside[Axis.WIDTH], holder.inside[Axis.HEIGHT]
    room = holder.flat_room
    things = built.things_in(holder)
    thickness = math.fsum(thing.count * thing.thickness for thing in things)
    share = layers_thickness(1, holder.paper) / 2 / thickness
    deep = [thing.count * thing.thickness * share for thing in things]
    middle = math.fsum(bound[1] for bound in holder.folded.bounds()) / 2
    for thing, depth, reached in zip(things, deep, accumulate(deep), strict=True):
        width, height = thing.width, thing.height
        if holder.form.is_open:
            is_turned = is_turned_in_pocket((width, height, thickness), room)
        else:
            is_turned = min(room[0] - width, room[1] - height) < min(room[0] - height, room[1] - width)
        if is_turned:
            width, height = height, width
        up = high.middle - (high.net if holder.form.is_open else height) / 2
        front = middle - share * thickness / 2 + reached - depth
        yield Placed(thing.name, thing.count, (wide.middle - width / 2, front, up), (width, depth, height))


def gathered(placed: Iterable[Placed]) -> tuple[Placed, ...]:
    """Like things that lie against each other as one block with their count: first in rows, then in layers, then in piles."""
    blocks = tuple(placed)
    for axis in range(3):
        blocks = tuple(joined(blocks, axis))
    return blocks


def joined(blocks: Iterable[Placed], axis: int) -> Iterator[Placed]:
    """The blocks; those of one name that go on from each other along an axis, equally wide and high, as one."""

    def line(block: Placed) -> tuple[str, tuple[float, ...]]:
        across = [of[other] for of in (block.corner, block.size) for other in range(3) if other != axis]
        return block.name, tuple(round(each / TOUCHING) * TOUCHING for each in across)

    last: Placed | None = None
    for block in sorted(blocks, key=lambda each: (*line(each), each.corner[axis])):
        if last is None:
            last = block
            continue
        end = last.corner[axis] + last.size[axis]
        if line(last) == line(block) and abs(end - block.corner[axis]) < TOUCHING:
            sides = list(last.size)
            sides[axis] += block.size[axis]
            last = replace(last, count=last.count + block.count, size=(sides[0], sides[1], sides[2]))
            continue
        yield last
        last = block
    if last is not None:
        yield last
