"""Reading what is at the bench: `[kit.trimmer]`, `[kit.keep]` and every `[[offcut]]` of a kit document."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from kitwright.errors import Mistake
from kitwright.kit.bench import Keeping, Machine, OffcutOnHand, Trimmer
from kitwright.kit.entry import Entry
from kitwright.kit.keys import KEEP_KEYS, MACHINE_KEYS, OFFCUT_KEYS, TRIMMER_KEYS
from kitwright.kit.read_paper import MOST_SHEETS, read_margins
from kitwright.kit.values import length_in, length_or_zero_in, one_of, sizes_in, whole
from kitwright.measure import Unit

__all__ = ["read_keeping", "read_machine", "read_offcut", "read_trimmer"]


def read_trimmer(entry: Entry, unit: Unit) -> Trimmer:
    """What the trimmer can do, as far as it is said."""
    table = entry.table("trimmer")
    if table is None:
        return Trimmer()
    table = table.only(TRIMMER_KEYS)
    return Trimmer(
        longest_cut=table.read("longest-cut", length_in(unit)),
        narrowest=table.read("narrowest", length_in(unit)),
        stack=table.read("stack", length_in(unit)),
    )


def read_machine(entry: Entry, unit: Unit) -> Machine:
    """The cutting machine; as usual for what is not said."""
    usual = Machine.usual(unit)
    table = entry.table("machine")
    if table is None:
        return usual
    table = table.only(MACHINE_KEYS)
    mat = table.read("mat", sizes_in(unit, least=2, names=("width", "height")))
    edge, gap = (table.read(key, length_or_zero_in(unit)) for key in ("edge", "gap"))
    found = Machine(
        mat=(mat[0], mat[1]) if mat else None,
        edge=usual.edge if edge is None else edge,
        gap=usual.gap if gap is None else gap,
    )
    if found.mat is not None and 2 * found.edge >= min(found.mat):
        table.add(Mistake("edge: It leaves nothing of the mat.", do="Make the edge smaller."), "edge")
        return usual
    return found


def read_keeping(entry: Entry, unit: Unit) -> Keeping:
    """Which offcuts are kept; as usual for what is not said."""
    usual = Keeping.usual(unit)
    table = entry.table("keep")
    if table is None:
        return usual
    table = table.only(KEEP_KEYS)
    area = table.read("area", sizes_in(unit, least=2, names=("width", "height")))
    return Keeping(
        side=table.read("side", length_in(unit)) or usual.side, area=(area[0], area[1]) if area else usual.area
    )


def read_offcut(entry: Entry, unit: Unit, papers: Iterable[str]) -> OffcutOnHand | None:
    """One kind of offcut on hand; None where it has a mistake, which has been noted."""
    before = len(entry.notes.mistakes)
    entry = entry.only(OFFCUT_KEYS)
    paper = entry.need(OFFCUT_KEYS["paper"], one_of(papers))
    size = entry.need(OFFCUT_KEYS["size"], sizes_in(unit, least=2, names=("width", "height")))
    count = entry.read("count", whole(least=0, most=MOST_SHEETS))
    margins = read_margins(entry, unit)
    if len(entry.notes.mistakes) > before or paper is None or size is None:
        return None
    if margins.left + margins.right >= size[0] or margins.bottom + margins.top >= size[1]:
        entry.add(Mistake("margins: They leave nothing of this offcut.", do="Make the margins smaller."), "margins")
        return None
    return OffcutOnHand(paper, Fraction(size[0]), size[1], 1 if count is None else count, margins)
