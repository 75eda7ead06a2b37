"""What the maker can do where no change was found that mends a finding: why not, and the sizes that would go. Millimetres."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Final

from kitwright.catalogue import Following, Parameter, parameters
from kitwright.errors import Mistake, Mistakes
from kitwright.findings import Finding, Fix, Severity
from kitwright.kit.build import build, fill_shares
from kitwright.kit.built import BuiltKit, BuiltPart
from kitwright.kit.contents import arranged
from kitwright.kit.model import Goes, Kit, Part, SizingKind
from kitwright.kit.sums import along, clear_inside, lids_of, room_for_band
from kitwright.kit.trial import Settled
from kitwright.paper import Paper, inner_loss
from kitwright.pattern import Axis
from kitwright.proof import check_sheet

__all__ = ["advice"]

WIDE: Final = {Axis.WIDTH: "wide", Axis.DEPTH: "deep", Axis.HEIGHT: "high"}

Prover = Callable[[BuiltKit], Iterable[Finding]]
"""What gives the findings of a kit."""


def advice(built: BuiltKit, finding: Finding, prove: Prover, near_miss: tuple[Fix, Finding] | None) -> str:
    """Why no change that was tried mends a finding, and what the maker can do, with numbers.

    `near_miss`: a change after which the finding is gone, and what fails then.
    """
    told = list(own_sentences(built, finding, prove)) if finding.parts else []
    if near_miss is not None:
        fix, harm = near_miss
        told.append(f"{fix.sentence.removesuffix('.')}: that would mend it, but then {harm.about}: {harm.message}")
    return " ".join(
        told or ["No change of sizes, papers or turns that was tried mends it: change what it is about by hand."]
    )


def own_sentences(built: BuiltKit, finding: Finding, prove: Prover) -> Iterator[str]:
    """What there is to say of each kind of finding."""
    part = built.part(finding.parts[0])
    match finding.code:
        case "blank-on-sheet":
            yield from larger_sheet_or_smaller_part(built, part)
        case "blank-in-reach":
            yield from by_hand_or_other_sheet(built, part, finding)
        case "contents-fit":
            yield from larger_box_or_fewer_things(built, part, finding, prove)
        case "lid-height":
            yield from higher_box_or_other_lid(built, part)
        case "band-place":
            yield from where_a_band_goes(built, part)
        case "side-by-side":
            yield f"Glue fewer on {finding.parts[-1]}, or some of them on another part, or make them smaller."
        case "too-rough":
            yield from more_accurate_or_larger(built, finding)
        case code if code.startswith("print-up"):
            yield f"Take a paper with an all-over print or none for {part.name}, or another form."
        case code if "-fit" in code or code in ("mat-on-card", "layers-in-the-way"):
            yield from other_size(built, part, finding)


def larger_sheet_or_smaller_part(built: BuiltKit, part: BuiltPart) -> Iterator[str]:
    """The largest sheet there is, and how large the part could be at most on a sheet of its paper."""
    kit = built.kit
    largest = max(kit.papers.values(), key=lambda each: each.usable_width_mm * each.usable_height_mm)
    usable = kit.ruler.size(largest.usable_width_mm, largest.usable_height_mm)
    if not any(goes_on(kit, part, paper, settled_of(part)) for paper in kit.papers.values()):
        yield f"No sheet of this kit is large enough: the largest is {largest.label}, with {usable} to use."
    yield f"Take a larger sheet, or make {part.name} smaller{because(part.part)}."
    yield from most_on_a_sheet(kit, part)
    yield from chosen_otherwise(kit, part)
    if part.part.holds and Axis.DEPTH in part.inside:
        yield "Which boxes hold the same on these sheets, kitwright boxes shows."


def by_hand_or_other_sheet(built: BuiltKit, part: BuiltPart, finding: Finding) -> Iterator[str]:
    """How a blank is cut that the trimmer cannot free, and from which sheets the trimmer could."""
    ruler, longest = built.kit.ruler, built.kit.trimmer.longest_cut
    is_too_long = longest is not None and (finding.measured or 0.0) > (finding.required or 0.0)
    key = "longest-cut" if is_too_long else "narrowest"
    yield f"If you cut {part.name} out with scissors, or with a knife along a ruler, leave {key} out under [kit.trimmer]."
    if longest is None or not is_too_long:
        yield "Or take sheets of another size."
        return
    if max(side for blank in part.pattern.blanks for side in blank.size) <= longest:
        yield f"Or take sheets that are no longer than {ruler.near(longest)} along one side."
    else:
        yield (
            f"Or change {part.name}{because(part.part)} so that no side of its blank is longer than {ruler.near(longest)}, and take sheets "
            f"no longer than that along one side."
        )


def because(part: Part) -> str:
    """What a size follows from, for the middle of a sentence; empty where it was said."""
    names = [*part.holds, *(name for name in (part.covers, part.wraps, part.on) if name)]
    if part.sizing.kind is not SizingKind.DERIVED or not names:
        return ""
    return f" (its size follows from {' and '.join(names)})"


def settled_of(part: BuiltPart) -> dict[str, Fraction | str]:
    """The parameters of a built part."""
    return {
        each.name: part.lengths[each.name] if each.name in part.lengths else getattr(part.form, each.name)
        for each in parameters(type(part.form))
    }


def with_side(kit: Kit, part: BuiltPart, changed: Settled) -> Settled:
    """The parameters of a part with some of them changed, and with those that are usual following them."""
    form = type(part.form)
    follow = {each.name for each in parameters(form) if isinstance(each.default, Following)} - part.part.settings.keys()
    settled = {name: value for name, value in {**settled_of(part), **changed}.items() if name not in follow}
    fill_shares(kit, form, settled)
    return settled


def goes_on(kit: Kit, part: BuiltPart, paper: Paper, settled: Settled) -> bool:
    """Whether every blank of a part with these parameters goes on a sheet of a paper; not where the form cannot be made so."""
    form = type(part.form)
    made = form(**{name: float(value) if isinstance(value, Fraction) else value for name, value in settled.items()})
    if any(each.severity is Severity.FAIL for each in made.rules()):
        return False
    turns = replace(part, paper=paper).turns_on_sheet
    blanks = made.draw().blanks
    return all(check_sheet("", blank, paper, kit.ruler, turns=turns).severity is Severity.OK for blank in blanks)


def most_on_a_sheet(kit: Kit, part: BuiltPart) -> Iterator[str]:
    """How long each side of a part may be at most on its own paper, the others as they are; or all sides, in the same proportions."""
    form = type(part.form)
    limits = {each.name: each for each in parameters(form)}
    found = {name: most_that_goes(kit, part, limits[name]) for name in form.size}
    words = [f"{kit.ruler.format(most)} {WIDE[form.size[name]]}" for name, most in found.items() if most is not None]
    if words:
        listed = " or ".join((", ".join(words[:-1]), words[-1]) if len(words) > 1 else words)
        others = ", its other sides as they are" if len(form.size) > 1 else ""
        yield f"From {part.paper.label} it can be at most {listed}{others}."
        return
    alike = most_alike(kit, part, limits)
    if alike is not None:
        yield f"From {part.paper.label} it can be at most {kit.ruler.size(*alike)} in the same proportions."


def most_that_goes(kit: Kit, part: BuiltPart, side: Parameter) -> Fraction | None:
    """The greatest mark, below what a side is, with which the blanks go on a sheet; None where there is none."""
    step = kit.ruler.step
    low, high = int(kit.ruler.up(side.at_least) / step), int(part.lengths[side.name] / step)
    if high <= low:
        return None

    def goes(marks: int) -> bool:
        return goes_on(kit, part, part.paper, with_side(kit, part, {side.name: marks * step}))

    found = greatest(low, high, goes)
    return None if found is None else found * step


def most_alike(kit: Kit, part: BuiltPart, limits: Mapping[str, Parameter]) -> Sequence[Fraction] | None:
    """The greatest size, in hundredths of what it is and rounded down to marks, with which the blanks go on a sheet."""
    size = tuple(part.form.size)

    def scaled(hundredths: int) -> dict[str, Fraction]:
        return {name: kit.ruler.down(part.lengths[name] * hundredths / 100) for name in size}

    def goes(hundredths: int) -> bool:
        sides = scaled(hundredths)
        if any(sides[name] < Fraction(limits[name].at_least) for name in size):
            return False
        return goes_on(kit, part, part.paper, with_side(kit, part, dict(sides)))

    found = greatest(1, 100, goes)
    return None if found is None else tuple(scaled(found).values())


LOOKS: Final = 10
"""So many numbers are looked at, evenly spread, before it is looked between two of them."""


def greatest(low: int, high: int, goes: Callable[[int], bool]) -> int | None:
    """The greatest number from `low` to below `high` that goes, where with `high` it does not; None where none was found.

    What goes may be too small again further down, so that it is first looked for in steps.
    """
    stride = max((high - low) // LOOKS, 1)
    found = next((number for number in range(high - 1, low - 1, -stride) if goes(number)), None)
    if found is None:
        return None
    bad = min(found + stride, high)
    while bad - found > 1:
        middle = (found + bad) // 2
        found, bad = (middle, bad) if goes(middle) else (found, middle)
    return found


def chosen_otherwise(kit: Kit, part: BuiltPart) -> Iterator[str]:
    """Words of a choice, such as where a card is folded, with which the blanks go on a sheet; those that are chosen are not among them."""
    for parameter in parameters(type(part.form)):
        for choice in parameter.choices:
            if goes_on(kit, part, part.paper, with_side(kit, part, {parameter.name: choice})):
                yield f'With {parameter.name.replace("_", "-")} = "{choice}" it would go on one.'


def larger_box_or_fewer_things(built: BuiltKit, part: BuiltPart, finding: Finding, prove: Prover) -> Iterator[str]:
    """The room that is needed and the room that there is, and how many of the things go in by the proof."""
    kit = built.kit
    things = built.things_in(part)
    stands = part.form.stands_contents if part.part.standing is None else part.part.standing
    need = arranged(things, standing=stands).room
    clear = clear_inside(kit, built.by_name, part)
    has = [clear[axis] for axis in (Axis.WIDTH, Axis.DEPTH, Axis.HEIGHT)]
    needs = kit.ruler.size(*(kit.ruler.up(side) for side in (need.width, need.depth, need.height)))
    has_words = kit.ruler.size(*(kit.ruler.down(max(side, 0.0)) for side in has))
    yield f"As the proof lays them, the contents need {needs} inside, and {part.name} has {has_words}."
    most = max(things, key=lambda thing: thing.count)

    def goes(count: int) -> bool:
        return is_good(with_so_many(built, most.name, count), finding, prove)

    count = greatest(1, most.count, goes)
    beside = f", with the rest of what {part.name} holds" if len(things) > 1 else ""
    if count is not None:
        yield f"{count} of the {most.count} × {most.name} go in{beside}."
    yield "Put in less, or choose another box: kitwright boxes shows which hold it all."


def with_so_many(built: BuiltKit, name: str, count: int) -> Kit:
    """The kit with so many of a part or of a thing that is bought."""
    kit = built.kit
    return replace(
        kit,
        parts=tuple(replace(each, quantity=count) if each.name == name else each for each in kit.parts),
        extras=tuple(replace(each, quantity=count) if each.name == name else each for each in kit.extras),
    )


def is_good(kit: Kit, finding: Finding, prove: Prover) -> bool:
    """Whether a finding neither fails nor is undecided in another kit; not where that cannot be built."""
    try:
        findings = prove(build(kit))
        found = next(each for each in findings if (each.code, each.about) == (finding.code, finding.about))
    except (Mistake, Mistakes, StopIteration):
        return False
    return found.severity not in (Severity.FAIL, Severity.UNKNOWN)


def higher_box_or_other_lid(built: BuiltKit, lid: BuiltPart) -> Iterator[str]:
    """How high a box must be for a lid of this form."""
    box, kit = built.part(lid.part.covers or lid.name), built.kit
    high = box.outside[Axis.HEIGHT].net
    most = high + inner_loss(lid.paper)  # from score to edge
    limits = {each.name: each for each in parameters(type(lid.form))}
    for name in lid.form.hangs:
        least = kit.ruler.up(limits[name].at_least)
        if least > most:
            yield (
                f"The {limits[name].word} of a {lid.form.key} is at least {kit.ruler.with_unit(least)}, and {box.name} is "
                f"{kit.ruler.near(high)} high. Make {box.name} at least so high, or leave the lid out."
            )


LARGER: Final = {Axis.WIDTH: "wider", Axis.DEPTH: "deeper", Axis.HEIGHT: "higher"}


def where_a_band_goes(built: BuiltKit, band: BuiltPart) -> Iterator[str]:
    """How broad a band is at least, how much room there is for it, and what makes more."""
    kit, host = built.kit, built.part(band.part.wraps or band.name)
    lids = [built.part(lid.name) for lid in lids_of(kit, host.name)]
    if lids and band.part.goes is not Goes.WALLS:
        lid = lids[0].name
        yield f"{lid} lies there: lay {band.name} round {lid}, or round the walls of {host.name}, or leave one of the two out."
        return
    room = max(room_for_band(kit, built.by_name, band.part), 0.0)
    form = type(band.form)
    least = [kit.ruler.up(each.at_least) for each in parameters(form) if form.size.get(each.name) is Axis.HEIGHT]
    words = "".join(f", and a {form.key} is at least {kit.ruler.with_unit(each)} broad" for each in least)
    yield f"There are {kit.ruler.near(room)} for it{words}."
    shorter = "".join(f", {lid.name} shorter" for lid in lids if can_be_shorter(kit, lid))
    yield f"Make {host.name} {LARGER[along(band.part, Axis.HEIGHT)]}{shorter}, or leave {band.name} out."


def can_be_shorter(kit: Kit, lid: BuiltPart) -> bool:
    """Whether what hangs down farthest on a lid is longer than its form needs it."""
    limits = {each.name: each for each in parameters(type(lid.form))}
    longest = max(lid.form.hangs, key=lambda name: lid.lengths[name], default=None)
    return longest is not None and lid.lengths[longest] > kit.ruler.up(limits[longest].at_least)


def more_accurate_or_larger(built: BuiltKit, finding: Finding) -> Iterator[str]:
    """How accurately the maker must work for a part, or how large it must be."""
    if finding.measured is None or finding.required is None:
        return
    ruler = built.kit.ruler
    error = ruler.down(finding.measured / 2)
    within = ruler.near(finding.measured / 2) if error <= 0 else ruler.with_unit(error)
    yield (
        f"Work to less than {within}, and write that under [kit.accuracy], or make that side at least "
        f"{ruler.with_unit(ruler.up(finding.required) + ruler.step)}."
    )


def other_size(built: BuiltKit, part: BuiltPart, finding: Finding) -> Iterator[str]:
    """By how much a fit is missed, and what that follows from."""
    if finding.margin is not None and finding.margin < 0:
        yield f"{built.kit.ruler.near(-finding.margin)} are to be gained{because(part.part)}."
    yield "Change one of the two by hand."
