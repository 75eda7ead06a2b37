"""Looking for a change that turns a failing finding to good. A fix is only offered after it was built and proved."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from kitwright.catalogue import CATALOGUE, parameters
from kitwright.errors import Mistake, Mistakes
from kitwright.findings import Change, Finding, Fix, Severity
from kitwright.kit.build import build
from kitwright.kit.built import BuiltKit
from kitwright.kit.change import changed
from kitwright.kit.model import Goes, Part, Sizing, SizingKind
from kitwright.kit.prints import print_findings
from kitwright.kit.sums import lids_of
from kitwright.paper import Fibres
from kitwright.pattern import Axis
from kitwright.proof import GRIP, LIES_FLAT, check_grain
from kitwright.proof.tolerance import percent

__all__ = ["find_fix"]

GRAVE: Final = frozenset({Severity.FAIL, Severity.UNKNOWN})
"""What is not proved."""

Prover = Callable[[BuiltKit], Iterable[Finding]]
"""What gives the findings of a kit, one by one: it is asked for no more once one of them tells against a change."""


def find_fix(built: BuiltKit, finding: Finding, before: tuple[Finding, ...], prove: Prover) -> Fix | None:
    """The first of the likely changes after which the finding is gone and nothing new fails; None if none of them does it."""
    harms = Harm.of(finding, before)
    for fix in likely_fixes(built, finding):
        after: list[Finding] = []
        try:
            for found in prove(build(changed(built.kit, fix.changes))):
                if harms.is_in(found):
                    break
                after.append(found)
            else:
                return fix if finding.severity in GRAVE else told_with_makes(fix, finding, after)
        except (Mistake, Mistakes):
            continue
    return None


def told_with_makes(fix: Fix, finding: Finding, after: Iterable[Finding]) -> Fix:
    """The fix with the share of makes that fit once it is made."""
    makings = next((each.makings for each in after if key_of(each) == key_of(finding)), None)
    if makings is None or (finding.makings is not None and finding.makings.least >= 0):
        return fix
    share = "every make" if makings.least >= 0 else f"{percent(1 - makings.too_tight)} of all makes"
    return replace(fix, sentence=f"{fix.sentence.removesuffix('.')}: then it fits in {share}.")


@dataclass(frozen=True, slots=True)
class Harm:
    """What tells against a change that is to mend a finding: that it is there still, or that something fails that did not fail before.

    For a warning or a note: that something is a warning that was none. `levels` are the severities that count, `was` says how grave
    what was found before is, by what it is about.
    """

    mends: tuple[str, str]
    gone: frozenset[Severity]
    levels: frozenset[Severity]
    was: Mapping[tuple[str, str], int]

    @classmethod
    def of(cls, finding: Finding, before: Iterable[Finding]) -> Harm:
        """What tells against a change that is to mend this finding of a kit with all these."""
        levels = GRAVE if finding.severity in GRAVE else GRAVE | {Severity.WARNING}
        return cls(key_of(finding), levels | {finding.severity}, levels, gravest(before, levels))

    def is_in(self, found: Finding) -> bool:
        """Whether what was found after a change tells against it."""
        key = key_of(found)
        if key == self.mends and found.severity in self.gone:
            return True
        return found.severity in self.levels and found.severity.rank > self.was.get(key, -1)


def gravest(findings: Iterable[Finding], levels: Collection[Severity]) -> dict[tuple[str, str], int]:
    """How grave the findings of these severities are, by what they are about; of several the gravest."""
    found: dict[tuple[str, str], int] = {}
    for each in findings:
        if each.severity in levels:
            found[key_of(each)] = max(each.severity.rank, found.get(key_of(each), 0))
    return found


def key_of(finding: Finding) -> tuple[str, str]:
    """What makes a finding the same one in two proofs."""
    return finding.code, finding.about


def likely_fixes(built: BuiltKit, finding: Finding) -> Iterator[Fix]:
    """Changes that are worth trying for a finding, the most natural first."""
    if not finding.parts:
        return
    said = built.kit.part(finding.parts[0])
    if finding.code.startswith("print-up"):
        yield from upright_turns(built, said, finding)
        yield from in_halves(built, said)
        return
    if finding.code == "prints-agree":
        yield from turns(said)
        return
    if finding.code == "blank-on-sheet":
        yield from turns(said)
        yield from less_to_glue(built, said, finding)
        yield from other_papers(built, said)
        yield from other_ways_round(said)
        return
    if finding.code in ("scores-and-grain", "grain-as-asked"):
        yield from other_grain(built, said, finding)
        return
    if finding.code == "lid-height":
        yield from shorter_lid(built, said)
        return
    if finding.code == "band-place":
        yield from shorter(built, said, finding)
        for lid in lids_of(built.kit, said.wraps or ""):
            if said.goes is Goes.WALLS:
                yield from shorter_lid(built, lid)
        yield from round_the_lid(built, said)
        return
    if finding.code == "thickness":
        yield from more_of_it(built, said, finding)
        return
    if finding.severity is Severity.WARNING and not is_too_loose(finding):
        yield from a_mark_larger(built, said, finding)
    sizes = list(resized(built, said))
    yield from sizes
    if finding.severity is Severity.FAIL:
        yield from a_mark_larger(built, said, finding)
    if said.on:
        yield from resized(built, built.kit.part(said.on))
    for fix in sizes:
        yield from with_its_covers(built, said, fix)


def more_of_it(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """More envelopes or pockets, so that less lies in each: one for each thing where it holds far too many, or as few as do."""
    kit = built.kit
    quantities = {each.name: each.quantity for each in kit.parts} | {each.name: each.quantity for each in kit.extras}
    most = max(part.holds, key=lambda name: quantities[name])
    few = math.ceil(part.quantity * (finding.measured or 0.0) / LIES_FLAT)
    if finding.severity is Severity.FAIL:
        yield more_of(part, quantities[most], f"one for each {most}")
    yield more_of(part, few, "so that less lies in each")
    yield more_of(part, few + 1, "so that less lies in each")


def more_of(part: Part, quantity: int, why: str) -> Fix:
    """A part made so many times."""
    return Fix(f"Make {quantity} of {part.name}, {why}.", (Change(part.name, "quantity", str(quantity)),))


def with_its_covers(built: BuiltKit, part: Part, fix: Fix) -> Iterator[Fix]:
    """A part made another size, and with it every lid and band whose size was said for the old one."""
    try:
        after = build(changed(built.kit, fix.changes))
    except (Mistake, Mistakes):
        return
    sentences, changes = [fix.sentence], [*fix.changes]
    for other in after.kit.parts:
        if part.name in (other.covers, other.wraps) and other.sizing.kind is not SizingKind.DERIVED:
            for follows in resized(after, other):
                sentences.append(follows.sentence)
                changes.extend(follows.changes)
                break
    if len(sentences) > 1:
        yield Fix(" ".join(sentences), tuple(changes))


def is_too_loose(finding: Finding) -> bool:
    """Whether a finding is about more free play than there should be."""
    if finding.measured is None or finding.required is None or finding.margin is None:
        return False
    return "-fit-" in finding.code and finding.margin < 0 and finding.measured > finding.required


def round_the_lid(built: BuiltKit, part: Part) -> Iterator[Fix]:
    """A band laid round the lid, where it went round the box below."""
    for lid in lids_of(built.kit, part.wraps or ""):
        yield Fix(f"Lay {part.name} round {lid.name}, over the closed box.", (Change(part.name, "wraps", lid.name),))


WAY_WORDS: Final = {
    Goes.WALLS: "round the walls of",
    Goes.OVER: "over the top of",
    Goes.ENDS: "end to end over the top of",
}
"""How a band is laid, before the name of what it goes round."""


def other_ways_round(part: Part) -> Iterator[Fix]:
    """A band laid another way round its box, which may be shorter; where need be with the print turned on it."""
    if not part.wraps:
        return
    for goes in Goes:
        if goes is not part.goes:
            sentence = f"Lay {part.name} {WAY_WORDS[goes]} {part.wraps}."
            change = Change(part.name, "goes", goes.value)
            yield Fix(sentence, (change,))
            for turned in turns(part):
                yield Fix(f"{sentence} {turned.sentence}", (change, *turned.changes))


UP_AT: Final = ("top", "left side", "foot", "right side")
"""Where on the blank the up of the print is after so many quarters to the left."""


def turns(part: Part) -> Iterator[Fix]:
    """The print turned another way on the blank."""
    for turn in range(4):
        if turn != part.turn:
            degrees = turn * 90
            yield Fix(
                f"Turn the print on {part.name} to {degrees} degrees: cut the blank with the print's up at its {UP_AT[turn]}.",
                (Change(part.name, "turn", str(degrees)),),
            )


def upright_turns(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """The print turned so that it stands right on the face in question and on every main face."""
    made = built.part(part.name)
    for fix, turn in zip(turns(part), (turn for turn in range(4) if turn != part.turn), strict=True):
        after = print_findings(made, turn=turn)
        if not any(each.code == finding.code or each.severity is Severity.FAIL for each in after):
            yield fix


def in_halves(built: BuiltKit, part: Part) -> Iterator[Fix]:
    """The form of the same size whose two halves let a print stand upright all round; what only the old form had is left out."""
    form = built.part(part.name).form
    if not form.halves:
        return
    kept = {each.name for each in parameters(CATALOGUE[form.halves])}
    gone = [name.replace("_", "-") for name in part.settings if name not in kept]
    changes = [*(Change(part.name, key, "") for key in gone), Change(part.name, "form", form.halves)]
    if part.holds and part.standing is None:
        changes.append(Change(part.name, "contents", "standing" if form.stands_contents else "lying"))
    if part.turn:
        changes.append(Change(part.name, "turn", "0"))
    yield Fix(f"Make {part.name} as a {form.halves}: its print then stands upright all round.", tuple(changes))


def other_grain(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """The blank turned a quarter on the sheet, where fewer folds then strain across the grain; or what was asked of the grain left out."""
    made = built.part(part.name)
    for fibres in (*Fibres, None):
        if fibres is part.fibres:
            continue
        lying = replace(made, part=replace(part, fibres=fibres)).turns_on_sheet
        after = check_grain(part.name, made.pattern, made.paper, turns=lying, asked=fibres)
        if any(each.severity.rank >= finding.severity.rank for each in after):
            continue
        way = "as it comes" if fibres is None else f"along the {fibres.value} of its blank"
        yield Fix(f"Let the grain of {part.name} run {way}.", (Change(part.name, "grain", fibres or ""),))


GLUED_LENGTHS: Final = ("overlap", "tab", "hem")
"""Parameters of forms that say how far one panel is glued on another: what a blank can spare first."""


def less_to_glue(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """For a blank a little too large for its sheet: a shorter overlap, or tabs or hems at both ends, as far as the form allows."""
    made, ruler = built.part(part.name), built.kit.ruler
    lack = Fraction(-(finding.margin or 0.0)).limit_denominator(10**7)
    for parameter in parameters(type(made.form)):
        if parameter.name not in GLUED_LENGTHS:
            continue
        for ends in (2, 1):
            length = ruler.down(made.lengths[parameter.name] - lack / ends)
            if length >= Fraction(parameter.at_least):
                said = ruler.format(length)
                yield Fix(
                    f"Make the {parameter.word} of {part.name} {said}.", (Change(part.name, parameter.name, said),)
                )


def other_papers(built: BuiltKit, part: Part) -> Iterator[Fix]:
    """Another paper of the kit, those with the same kind of print first."""
    own = built.kit.papers[part.paper]
    others = [paper for key, paper in built.kit.papers.items() if key != part.paper]
    for paper in sorted(others, key=lambda each: each.print_ is not own.print_):
        yield Fix(f"Cut {part.name} from {paper.label}.", (Change(part.name, "paper", paper.key),))


def resized(built: BuiltKit, part: Part) -> Iterator[Fix]:
    """The size that follows from the part's relations, in place of the one that was said; or only the sides that were said."""
    yield from resized_sides(built, part)
    if part.sizing.kind is SizingKind.DERIVED and not part.border:
        return
    derived = derived_size(built, part)
    if derived:
        yield sized(built, part, derived)


def resized_sides(built: BuiltKit, part: Part) -> Iterator[Fix]:
    """Sides that were said by keys of their own, each as it would follow from the part's relations."""
    form = built.part(part.name).form
    open_sides = {each.name for each in parameters(type(form)) if each.name in form.size and each.default is None}
    said = [name for name in part.settings if name in open_sides]
    if not said:
        return
    free = replace(part, settings={name: value for name, value in part.settings.items() if name not in said})
    kit = built.kit
    try:
        again = build(replace(kit, parts=tuple(free if each.name == part.name else each for each in kit.parts)))
    except (Mistake, Mistakes):
        return
    lengths = {name: kit.ruler.format(again.part(part.name).lengths[name]) for name in said}
    words = " and ".join(f"the {name} of {part.name} {length}" for name, length in lengths.items())
    yield Fix(f"Make {words}.", tuple(Change(part.name, name, length) for name, length in lengths.items()))


def unsaid(part: Part) -> tuple[Change, ...]:
    """Take back a size that was said as inside or outside, so that there is only one."""
    if part.sizing.kind in (SizingKind.INSIDE, SizingKind.OUTSIDE):
        return (Change(part.name, part.sizing.kind.value, ""),)
    return ()


def sized(built: BuiltKit, part: Part, lengths: Mapping[str, Fraction]) -> Fix:
    """Say these lengths as the part's size: as many of them as are not said by keys of their own or left to what is usual."""
    form = built.part(part.name).form
    names = list(form.size)
    usual = {each.name for each in parameters(type(form)) if each.default is not None} - set(in_size(built, part))
    while names and (names[-1] in part.settings or names[-1] in usual):
        names.pop()
    size = " x ".join(built.kit.ruler.format(lengths[name]) for name in names)
    return Fix(f"Make {part.name} {size}, score to score.", (*unsaid(part), Change(part.name, "size", size)))


def in_size(built: BuiltKit, part: Part) -> tuple[str, ...]:
    """The parameters that the size of a part says, in order."""
    return tuple(built.part(part.name).form.size)[: len(part.sizing.lengths)]


def derived_size(built: BuiltKit, part: Part) -> Mapping[str, Fraction] | None:
    """The size of a part as it follows from its relations, None where none follows. What follows from nothing stays as it was said."""
    kit, now = built.kit, built.part(part.name)
    stays = {each.name for each in parameters(type(now.form)) if each.default is not None} & set(in_size(built, part))
    free = replace(
        part,
        sizing=Sizing(SizingKind.DERIVED),
        settings={**part.settings, **{name: now.lengths[name] for name in stays}},
    )
    try:
        again = build(replace(kit, parts=tuple(free if each.name == part.name else each for each in kit.parts)))
    except (Mistake, Mistakes):
        return None
    return again.part(part.name).lengths


TRIED: Final = 4
"""Lengths tried between one that is too tight in too many makes and one that always fits."""


def a_mark_larger(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """For what is too tight in too many makes: a mark or some larger that way, up to where it always fits."""
    if finding.makings is None or finding.code == "mat-on-card":
        return
    made, ruler = built.part(part.name), built.kit.ruler
    named = [name for name, axis in made.form.size.items() if finding.code.endswith(f"-fit-{axis.value}")]
    names = named or list(made.form.size)
    short = Fraction(-finding.makings.least).limit_denominator(10**7)
    marks = int(ruler.up(short) / ruler.step)
    for more in sorted({math.ceil(marks * tried / TRIED) for tried in range(1, TRIED + 1)} if marks > 0 else ()):
        larger = {name: made.lengths[name] + more * ruler.step for name in names}
        if len(names) == 1 and names[0] in part.settings:
            key, length = names[0].replace("_", "-"), ruler.format(larger[names[0]])
            yield Fix(f"Make the {key} of {part.name} {length}.", (Change(part.name, key, length),))
        else:
            yield sized(built, part, {**made.lengths, **larger})


def shorter(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """A band made so narrow, or what hangs down so short, that it stays where it may be."""
    if finding.required is None:
        return
    yield from hung(built, part, finding.required)


def hung(built: BuiltKit, part: Part, most: float) -> Iterator[Fix]:
    """All that hangs down on a part longer than so much, cut to it."""
    made = built.part(part.name)
    length = built.kit.ruler.down(most)
    names = [name for name in made.form.hangs if made.lengths[name] > length]
    if set(names) & set(in_size(built, part)):
        yield sized(built, part, {**made.lengths, **dict.fromkeys(names, length)})
    elif names:
        said = built.kit.ruler.format(length)
        words = " and ".join(f"the {name.replace('_', ' ')}" for name in names)
        changes = tuple(Change(part.name, name.replace("_", "-"), said) for name in names)
        yield Fix(f"Make {words} of {part.name} {said}.", changes)


def shorter_lid(built: BuiltKit, lid: Part) -> Iterator[Fix]:
    """A lid that hangs down less far: so that a band below it has room, or fingers have; or else as far as the box."""
    made, host = built.part(lid.name), built.part(lid.covers or lid.name)
    if Axis.HEIGHT not in host.outside:
        return
    high = host.outside[Axis.HEIGHT].net
    bands = [each for each in built.parts if each.part.wraps == host.name and each.part.goes is Goes.WALLS]
    taken = [each.outside[Axis.HEIGHT].net for each in bands] + ([GRIP] if made.form.is_all_round() else [])
    for less in sorted({0.0, max(taken, default=0.0)}, reverse=True):
        yield from hung(built, lid, high - less)
