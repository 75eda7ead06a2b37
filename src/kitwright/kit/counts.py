"""How many there are of a part and of what it covers, goes round or holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitwright.findings import Finding
from kitwright.kit.model import Kit, Part
from kitwright.kit.sums import is_box, quantity_of
from kitwright.proof import Pairing, check_counts

__all__ = ["count_findings"]


def count_findings(kit: Kit, part: Part) -> Iterator[Finding]:
    """What is to be noted of how many there are of a part, its like reckoned in, and of what it is for."""
    for name, alike, pairing in pairs(kit, part):
        if alike[0] != part:
            continue  # told at the first
        names = " and ".join(each.name for each in alike)
        about = f"{name} in {names}" if name in part.holds else f"{names} {'over' if part.covers else 'round'} {name}"
        outer = names, sum(each.quantity for each in alike)
        found = check_counts(about, outer, (name, quantity_of(kit, name)), pairing)
        if found is not None:
            yield replace(found, parts=(part.name, name))


def pairs(kit: Kit, part: Part) -> Iterator[tuple[str, list[Part], Pairing]]:
    """What a part is for, all parts that are so for the same, and how many of them belong to how many of it."""
    if part.covers:
        yield part.covers, [each for each in kit.parts if each.covers == part.covers], Pairing.EACH
    if part.wraps:
        is_pile = not is_box(kit.part(part.wraps))
        yield part.wraps, [part], Pairing.ROUND_ALL if is_pile else Pairing.ROUND_EACH
    for name in () if is_box(part) else part.holds:
        holders = [each for each in kit.parts if name in each.holds]
        pairing = Pairing.EACH if any(map(is_box, holders)) else Pairing.SHARED
        yield name, [each for each in holders if not is_box(each)], pairing
