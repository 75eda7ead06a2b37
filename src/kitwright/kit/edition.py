"""The same kit for the other ruler: metric for a kit in inches, inches for a metric one. Designed anew, not converted.

Sheets and standard sizes are swapped for their neighbours, what was said is put on the new ruler on the safe side, what follows is
solved again; the whole is proved again, and what does not fit is mended with proved fixes.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from kitwright.catalogue import CATALOGUE, Parameter, parameters
from kitwright.errors import Mistake
from kitwright.findings import Fix
from kitwright.kit.bench import Keeping, Machine
from kitwright.kit.build import build
from kitwright.kit.built import BuiltKit
from kitwright.kit.mend_kit import mend_kit
from kitwright.kit.model import Extra, FitRules, Kit, Part, Sizing, SizingKind
from kitwright.kit.neighbours import CARDS, ENVELOPES, SHEETS, Neighbours, neighbour
from kitwright.measure import MM_PER_INCH, Ruler, Unit
from kitwright.paper import Margins, Paper, estimate_caliper
from kitwright.proof import Proof

__all__ = ["Adjustment", "Edition", "edition", "usual_ruler_for"]

FINE: Final = {Unit.INCH: MM_PER_INCH / 64, Unit.MILLIMETRE: Fraction(1, 10), Unit.CENTIMETRE: Fraction(1, 10)}
"""What things that are bought and free plays are rounded to, mm."""

KEPT: Final = frozenset({"paper", "grain", "turn", "form", "quantity", "face"})
"""Keys of a part that are the same in every edition."""

WORDS: Final = {Unit.INCH: "inches", Unit.MILLIMETRE: "millimetres", Unit.CENTIMETRE: "centimetres"}

CALIPER_STEP: Final = Fraction(1, 1000)


@dataclass(frozen=True, slots=True)
class Adjustment:
    """One thing that is another in the edition: of what, which length or size, before and after as each ruler reads it.

    `by` is how many millimetres each length of it grew (below zero: shrank); `because` says how it came about in a few words.
    """

    about: str
    what: str
    before: str
    after: str
    by: tuple[float, ...]
    because: str


@dataclass(frozen=True, eq=False)
class Edition:
    """A kit for the other ruler, what changed and by how much, and its proof."""

    kit: Kit
    changes: tuple[Adjustment, ...]
    built: BuiltKit
    proof: Proof


def usual_ruler_for(ruler: Ruler, unit: Unit) -> Ruler:
    """The ruler of about the same fineness in another unit: 1/16 in and 1 mm, 1/32 in and 0.5 mm."""
    if unit is Unit.INCH:
        return Ruler(unit, MM_PER_INCH / (32 if ruler.step < 1 else 16))
    return Ruler(unit, Fraction(1, 2) if ruler.step < MM_PER_INCH / 16 else Fraction(1))


def edition(kit: Kit, unit: Unit, *, ruler: Ruler | None = None) -> Edition:
    """The kit designed again for `unit` (and `ruler`). Raises `Mistake` for a kit that is in that system already, or a
    ruler that is not.

    Raises `Mistakes` for a kit that cannot be built, in either edition.
    """
    if (kit.unit is Unit.INCH) == (unit is Unit.INCH):
        raise Mistake(f"This kit is in {WORDS[kit.unit]} already.", do="Ask for the other system of units.")
    if ruler is not None and (ruler.unit is Unit.INCH) != (unit is Unit.INCH):
        raise Mistake(
            f"A ruler in {WORDS[ruler.unit]} does not go with {WORDS[unit]}.", do="Use one system of units in a kit."
        )
    before = build(kit)
    marks = usual_ruler_for(kit.ruler, unit) if ruler is None else Ruler(unit, ruler.step)
    draft = translated(kit, unit, marks)
    mended = mend_kit(build(draft), warnings=True, may=changes_sizes_only)
    made = mended.built
    changes = (*paper_changes(kit, made.kit), *part_changes(before, made), *extra_changes(kit, made.kit))
    return Edition(made.kit, changes, made, mended.proof)


def changes_sizes_only(fix: Fix) -> bool:
    """Whether a fix leaves how a thing is made and of what: papers, grain, turns and counts are the same in every edition."""
    return not any(change.table != "part" or change.key in KEPT for change in fix.changes)


def translated(kit: Kit, unit: Unit, ruler: Ruler) -> Kit:
    """Everything that was said, in the other system."""
    swaps = swapped_sizes(kit, to_inches=unit is Unit.INCH)
    return replace(
        kit,
        unit=unit,
        ruler=ruler,
        papers=MappingProxyType({key: other_paper(paper, unit, ruler) for key, paper in kit.papers.items()}),
        parts=tuple(other_part(kit, part, ruler, swaps) for part in kit.parts),
        extras=tuple(other_extra(extra, unit) for extra in kit.extras),
        fit=other_fit(kit.fit, kit.unit, unit),
        machine=Machine.usual(unit) if kit.machine == Machine.usual(kit.unit) else kit.machine,
        keeping=Keeping.usual(unit) if kit.keeping == Keeping.usual(kit.unit) else kit.keeping,
        laid=MappingProxyType({}),
    )


def other_paper(paper: Paper, unit: Unit, ruler: Ruler) -> Paper:
    """The paper on the neighbouring sheet, its weight in whole g/m² and its caliper to a micrometre."""
    size = (paper.sheet_width_mm, paper.sheet_height_mm)
    sheet = neighbour(size, SHEETS, to_inches=unit is Unit.INCH) or (ruler.down(size[0]), ruler.down(size[1]))
    edges = paper.margins
    gsm = float(round(paper.gsm))
    caliper = paper.caliper
    if caliper.is_estimate:
        caliper = estimate_caliper(gsm, None)
    else:
        thick = round(Fraction(caliper.mm) / CALIPER_STEP) * CALIPER_STEP
        caliper = replace(caliper, mm=float(thick), sentence=f"Given as {float(thick):.3f} mm: {float(thick):.3f} mm.")
    return replace(
        paper,
        sheet_width_mm=sheet[0],
        sheet_height_mm=sheet[1],
        scan=None,
        gsm=gsm,
        caliper=caliper,
        margins=Margins(
            left=ruler.up(edges.left),
            right=ruler.up(edges.right),
            bottom=ruler.up(edges.bottom),
            top=ruler.up(edges.top),
        ),
    )


def swapped_sizes(kit: Kit, *, to_inches: bool) -> Mapping[frozenset[Fraction], tuple[Neighbours, bool]]:
    """Which sizes of the kit are swapped: standard envelopes that were said, and standard cards that go into envelopes.

    Another part of such a size is swapped with them, so that what was alike stays alike. A card that goes into no envelope keeps its
    size: a recipe card of 6 × 4 in lies beside dividers that are made for it.
    """
    found: dict[frozenset[Fraction], tuple[Neighbours, bool]] = {}
    for part in kit.parts:
        if "envelope" not in part.form:
            continue
        if neighbour(part.sizing.lengths, ENVELOPES, to_inches=to_inches):
            found[frozenset(part.sizing.lengths[:2])] = (ENVELOPES, to_inches)
        for name in part.holds:
            held = next((each for each in kit.parts if each.name == name), None)
            if held is not None and neighbour(held.sizing.lengths, CARDS, to_inches=to_inches):
                found[frozenset(held.sizing.lengths[:2])] = (CARDS, to_inches)
    return MappingProxyType(found)


def other_part(
    kit: Kit, part: Part, ruler: Ruler, swaps: Mapping[frozenset[Fraction], tuple[Neighbours, bool]]
) -> Part:
    """A part with all that was said of it on the new ruler."""
    form = CATALOGUE[part.form]
    by_name = {parameter.name: parameter for parameter in parameters(form)}
    holds = bool(part.holds or part.covers or part.wraps) or part.sizing.kind is SizingKind.INSIDE
    goes_in = part.on is not None or any(part.name in each.holds for each in kit.parts)
    lengths = part.sizing.lengths
    swap = swaps.get(frozenset(lengths[:2])) if len(lengths) >= 2 else None
    names = list(form.size)
    placed = [
        on_ruler(length, by_name[name], ruler, up=holds, down=goes_in and not holds)
        for name, length in zip(names, lengths, strict=False)
    ]
    if swap is not None:
        table, to_inches = swap
        placed[:2] = table.of((lengths[0], lengths[1]), to_inches=to_inches) or placed[:2]
    settings = {
        name: value
        if isinstance(value, str)
        else on_ruler(
            value, by_name[name], ruler, up=name not in form.hangs and name in form.size, down=name in form.hangs
        )
        for name, value in part.settings.items()
    }
    return replace(
        part,
        sizing=Sizing(part.sizing.kind, tuple(placed)),
        settings=MappingProxyType(settings),
        border=None if part.border is None else max(ruler.nearest(part.border), ruler.step),
    )


def on_ruler(length: Fraction, parameter: Parameter, ruler: Ruler, *, up: bool, down: bool) -> Fraction:
    """A length on the new ruler, up, down or to the nearest mark, inside what the form can have."""
    mark = ruler.up(length) if up else ruler.down(length) if down else ruler.nearest(length)
    return min(max(mark, ruler.up(parameter.at_least)), ruler.down(parameter.at_most))


def other_extra(extra: Extra, unit: Unit) -> Extra:
    """The same thing, measured with the other ruler: its sides a little larger rather than smaller."""
    fine = Ruler(unit, FINE[unit])
    first, second, third = (fine.up(side) for side in extra.size)
    length, loop = (None if each is None else fine.up(each) for each in (extra.length, extra.loop))
    return replace(extra, size=(first, second, third), length=length, loop=loop)


def other_fit(fit: FitRules, unit: Unit, other: Unit) -> FitRules:
    """Free plays: the usual ones of the other system where they were usual, otherwise as many tenths of a mm or 64ths of an inch."""
    usual, new, fine = FitRules.usual(unit), FitRules.usual(other), Ruler(other, FINE[other])
    return FitRules(
        **{
            name: getattr(new, name) if getattr(fit, name) == getattr(usual, name) else fine.up(getattr(fit, name))
            for name in ("lid", "envelope", "contents", "band", "border")
        }
    )


def paper_changes(before: Kit, after: Kit) -> Iterator[Adjustment]:
    """Sheets that are others now."""
    for key, paper in before.papers.items():
        sizes = [(each.sheet_width_mm, each.sheet_height_mm) for each in (paper, after.papers[key])]
        names = [SHEETS.name(size) for size in sizes]
        told = [
            f"{ruler.size(*size)} {ruler.unit.value}" + (f" ({name})" if name else "")
            for ruler, size, name in zip((before.ruler, after.ruler), sizes, names, strict=True)
        ]
        because = "its neighbour in the shops" if all(names) else "put on the ruler"
        by = tuple(float(now - was) for was, now in zip(*sizes, strict=True))
        if any(by):
            yield Adjustment(paper.label, "sheet", told[0], told[1], by, because)


def part_changes(before: BuiltKit, after: BuiltKit) -> Iterator[Adjustment]:
    """Lengths of parts, score to score, whether said or derived."""
    for old in before.parts:
        new = after.part(old.name)
        form = type(new.form)
        for parameter in parameters(form):
            name = parameter.name
            if name not in old.lengths or name not in new.lengths:
                continue
            was, now = old.lengths[name], new.lengths[name]
            if was != now:
                yield Adjustment(
                    old.name,
                    parameter.word,
                    before.kit.ruler.with_unit(was),
                    after.kit.ruler.with_unit(now),
                    (float(now - was),),
                    reason(before, after, old.name, name),
                )


def reason(before: BuiltKit, after: BuiltKit, part: str, name: str) -> str:
    """Why a length of a part is what it is in the edition."""
    old, new = before.kit.part(part), after.kit.part(part)
    form = CATALOGUE[new.form]
    place = list(form.size).index(name) if name in form.size else None
    was_said = name in old.settings or (place is not None and place < len(old.sizing.lengths))
    is_said = name in new.settings or (place is not None and place < len(new.sizing.lengths))
    if is_said and not was_said:
        return "made to fit"
    if not was_said:
        return "solved anew" if name in form.size else "usual on this ruler"
    size, lengths = new.sizing.lengths, old.sizing.lengths
    if place is not None and place < 2 and len(size) >= 2 and len(lengths) >= 2:
        for table in (ENVELOPES, CARDS):
            to_inches = after.kit.unit is Unit.INCH
            if table.of((lengths[0], lengths[1]), to_inches=to_inches) == (size[0], size[1]):
                return f"{table.name((size[0], size[1]))} instead of {table.name((lengths[0], lengths[1]))}"
    return "put on the ruler"


def extra_changes(before: Kit, after: Kit) -> Iterator[Adjustment]:
    """Things that are bought, where their size reads a little larger."""
    for old, new in zip(before.extras, after.extras, strict=True):
        by = tuple(float(now - was) for was, now in zip(old.size, new.size, strict=True))
        if any(by):
            yield Adjustment(
                old.name,
                "size",
                f"{before.ruler.size(*old.size)} {before.unit.value}",
                f"{after.ruler.size(*new.size)} {after.unit.value}",
                by,
                "measured anew",
            )
        if old.length is not None and new.length is not None and old.length != new.length:
            yield Adjustment(
                old.name,
                "length",
                f"{before.ruler.format(old.length)} {before.unit.value}",
                f"{after.ruler.format(new.length)} {after.unit.value}",
                (float(new.length - old.length),),
                "measured anew",
            )
