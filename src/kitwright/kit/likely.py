"""Changes that are worth trying for each kind of finding, the most natural first. None is offered before it was built and proved."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Final

from kitwright.catalogue import CATALOGUE, parameters
from kitwright.findings import Change, Finding, Fix, Severity
from kitwright.kit.built import BuiltKit
from kitwright.kit.model import Goes, Part
from kitwright.kit.prints import print_findings
from kitwright.kit.resizing import ONLY_LARGER, a_mark_larger, hung, in_size, made_anew, resized, with_sides
from kitwright.kit.sums import hanging, is_box, lids_of
from kitwright.measure import exact_length
from kitwright.paper import Fibres, inner_loss
from kitwright.pattern import Axis
from kitwright.proof import GRIP, LIES_FLAT, check_grain

__all__ = ["last_resorts", "likely_fixes"]

AS_DRAWN: Final = ("tabs-land", "seams-meet", "nothing-passes-through", "layers-woven", "face-shows")
"""What is amiss with a part as it is drawn, by itself."""


def likely_fixes(built: BuiltKit, finding: Finding) -> Iterator[Fix]:
    """Changes that are worth trying for a finding, the most natural first."""
    if not finding.parts:
        return
    said = built.kit.part(finding.parts[0])
    match finding.code:
        case code if code.startswith("print-up"):
            yield from upright_turns(built, said, finding)
            yield from in_halves(built, said)
            if finding.severity is Severity.FAIL:  # for less, nobody gives up the print
                yield from other_papers(built, said)
        case "prints-agree":
            yield from turns(said)
        case "blank-on-sheet":
            yield from smaller_blanks(built, said, finding)
        case "blank-in-reach":
            yield from lying_otherwise(built, said)
        case "scores-and-grain" | "grain-as-asked":
            yield from other_grain(built, said, finding)
        case "lid-height":
            yield from shorter_lid(built, said)
            yield from higher_box(built, said)
        case "band-place":
            yield from band_in_place(built, said, finding)
        case code if code in AS_DRAWN:
            yield from as_usual(said)
        case "thickness":
            yield from more_of_it(built, said, finding)
        case "side-by-side":
            pockets = [built.kit.part(name) for name in finding.parts[:-1]]
            for pocket in pockets:
                yield from resized(built, pocket, finding)
            yield from larger_face(built, finding)
            if finding.severity is Severity.FAIL:  # for less, nobody gives up a pocket
                for pocket in pockets:
                    yield from fewer_of_it(built, pocket, finding)
        case "too-rough":
            return
        case _:
            yield from other_sizes(built, said, finding)


def last_resorts(built: BuiltKit, finding: Finding) -> Iterator[Fix]:
    """Changes that throw away more of what was said than they would have to: tried where no other helps."""
    if finding.code in ONLY_LARGER and finding.parts:
        yield from made_anew(built, built.kit.part(finding.parts[0]))


def smaller_blanks(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """For a blank that is too large for its sheet: laid another way, with less to glue, of another paper, in two halves."""
    if not built.part(part.name).paper.can_turn and could_lie(built, part, part.paper):
        yield from turns(part)
    yield from less_to_glue(built, part, finding)
    yield from grain_as_it_comes(part)
    for fix in other_papers(built, part):
        if could_lie(built, part, fix.changes[0].value):
            yield fix
    yield from other_ways_round(part)
    yield from contents_otherwise(built, part)
    yield from in_halves(built, part)


def lying_otherwise(built: BuiltKit, part: Part) -> Iterator[Fix]:
    """For a blank that the trimmer cannot free from its sheet: laid another way, or of another paper."""
    if not built.part(part.name).paper.can_turn:
        yield from turns(part)
    yield from grain_as_it_comes(part)
    yield from (fix for fix in other_papers(built, part) if could_lie(built, part, fix.changes[0].value))


def could_lie(built: BuiltKit, part: Part, paper: str) -> bool:
    """Whether the blanks of a part as it is would lie on a sheet of a paper one way or the other, whatever its print and grain ask."""
    of = built.kit.papers[paper]
    usable = sorted((float(of.usable_width_mm), float(of.usable_height_mm)))
    return all(
        side <= most + float(built.kit.ruler.step)  # another thickness may make a blank a little smaller
        for blank in built.part(part.name).pattern.blanks
        for side, most in zip(sorted(blank.size), usable, strict=True)
    )


def band_in_place(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """For a band that is too broad where it lies: narrower, below a shorter lid, round the lid, or another way round."""
    if finding.required is not None:
        yield from hung(built, part, finding.required)
    for lid in lids_of(built.kit, part.wraps or ""):
        if part.goes is Goes.WALLS:
            yield from shorter_lid(built, lid)
    yield from round_the_lid(built, part)
    yield from other_ways_round(part)


def other_sizes(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """For what does not go into or over another: another size of what was made for it, or of what it lies on."""
    if finding.severity is Severity.WARNING and not is_too_loose(finding):
        yield from a_mark_larger(built, part, finding)
    yield from resized(built, part, finding)
    if finding.severity is Severity.FAIL:
        yield from a_mark_larger(built, part, finding)
    if finding.code == "contents-fit":
        yield from contents_otherwise(built, part)
    if part.on:
        yield from resized(built, built.kit.part(part.on), finding)


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


def fewer_of_it(built: BuiltKit, pocket: Part, finding: Finding) -> Iterator[Fix]:
    """Fewer pockets where there is no room for them side by side: as many as have room, or one less."""
    host = built.kit.part(finding.parts[-1])
    most = math.ceil(pocket.quantity / host.quantity) - 1
    fewer = min(most, int(finding.required or most)) * host.quantity
    if fewer > 0:
        yield more_of(pocket, fewer, f"which have room on {host.name}")


def larger_face(built: BuiltKit, finding: Finding) -> Iterator[Fix]:
    """What the pockets of one kind lie on so large that they have room in rows and columns, the least paper first."""
    *pockets, host = (built.part(name) for name in finding.parts)
    if len(pockets) != 1 or finding.measured is None:
        return
    (pocket,), count, ruler = pockets, int(finding.measured), built.kit.ruler
    sides = {axis: name for name, axis in host.form.size.items()}
    across, up = sides.get(Axis.WIDTH), sides.get(host.up_the_face)
    if across is None or up is None:
        return
    slip = 2 * Fraction(built.kit.accuracy.glue)
    wide, high = (exact_length(pocket.outside[axis].net) + slip for axis in (Axis.WIDTH, Axis.HEIGHT))
    now = host.lengths[across], host.lengths[up]
    most = min(count, math.ceil(MOST_LARGER * now[0] / wide))
    sizes = {
        (max(now[0], ruler.up(columns * wide)), max(now[1], ruler.up(math.ceil(count / columns) * high)))
        for columns in range(1, most + 1)
    }
    few = [size for size in sizes if math.prod(size) <= MOST_LARGER * math.prod(now)]
    for width, height in sorted(few, key=lambda size: (math.prod(size), size)):
        yield with_sides(built, host.part, {across: width, up: height})


def more_of(part: Part, quantity: int, why: str) -> Fix:
    """A part made so many times."""
    return Fix(f"Make {quantity} of {part.name}, {why}.", (Change(part.name, "quantity", str(quantity)),))


def is_too_loose(finding: Finding) -> bool:
    """Whether a finding is about more free play than there should be."""
    if finding.measured is None or finding.required is None or finding.margin is None:
        return False
    return "-fit-" in finding.code and finding.margin < 0 and finding.measured > finding.required


def as_usual(part: Part) -> Iterator[Fix]:
    """What was said of a part beside its size left out, so that it is as is usual."""
    for name in part.settings:
        if name not in CATALOGUE[part.form].size:
            words = name.replace("_", " ")
            yield Fix(f"Make the {words} of {part.name} as is usual.", (Change(part.name, name.replace("_", "-"), ""),))


def contents_otherwise(built: BuiltKit, part: Part) -> Iterator[Fix]:
    """What a box holds laid, where it stood, or stood upright, where it lay."""
    made = built.part(part.name)
    if not part.holds or not is_box(part) or not any(thing.is_flat for thing in built.things_in(made)):
        return
    stands = made.form.stands_contents if part.standing is None else part.standing
    words = "Lay what is in" if stands else "Stand what is in"
    yield Fix(
        f"{words} {part.name}{'' if stands else ' upright'}.",
        (Change(part.name, "contents", "lying" if stands else "standing"),),
    )


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


MOST_LARGER: Final = 2
"""So many times as large as it is, at most, what pockets lie on is made for them."""

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
    """The form of the same size that is made of two halves, whose prints stand upright all round; what only the old form had is left
    out."""
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
    because = "" if built.part(part.name).paper.can_turn else ": its print then stands upright all round"
    yield Fix(f"Make {part.name} as a {form.halves}{because}.", tuple(changes))


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
        yield grain_fix(part, fibres)


def grain_as_it_comes(part: Part) -> Iterator[Fix]:
    """What was asked of the grain left out, so that the blank may lie either way."""
    if part.fibres is not None:
        yield grain_fix(part, None)


def grain_fix(part: Part, fibres: Fibres | None) -> Fix:
    """The grain asked to run so, or no more asked for."""
    way = "as it comes" if fibres is None else f"along the {fibres.value} of its blank"
    return Fix(f"Let the grain of {part.name} run {way}.", (Change(part.name, "grain", fibres or ""),))


CLOSING_LENGTHS: Final = ("flap", "back")
"""Parameters of forms that say how far one panel reaches over another that it closes: what a blank can spare next."""


def less_to_glue(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """For a blank a little too large for its sheet: a shorter overlap, or tabs or hems at both ends, as far as the form allows; then a
    shorter flap, then what hangs down and was not said.
    """
    made, ruler = built.part(part.name), built.kit.ruler
    lack = exact_length(-(finding.margin or 0.0))
    unsaid = [name for name in made.form.hangs if name not in part.settings and name not in in_size(built, part)]
    limits = {each.name: each for each in parameters(type(made.form))}
    for name in (*made.form.glued, *CLOSING_LENGTHS, *unsaid):
        if name not in limits or (name in CLOSING_LENGTHS and made.form.hangs and name not in unsaid):
            continue
        for ends in (2, 1):
            length = ruler.down(made.lengths[name] - lack / ends)
            if length >= Fraction(limits[name].at_least):
                yield with_sides(built, part, {name: length})


def other_papers(built: BuiltKit, part: Part) -> Iterator[Fix]:
    """Another paper of the kit, those with the same kind of print first."""
    own = built.kit.papers[part.paper]
    others = [paper for key, paper in built.kit.papers.items() if key != part.paper]
    for paper in sorted(others, key=lambda each: each.print_ is not own.print_):
        yield Fix(f"Cut {part.name} from {paper.label}.", (Change(part.name, "paper", paper.key),))


def shorter_lid(built: BuiltKit, lid: Part) -> Iterator[Fix]:
    """A lid that hangs down less far: so that a band below it has room, or fingers have; or else as far as the box."""
    made, host = built.part(lid.name), built.part(lid.covers or lid.name)
    if Axis.HEIGHT not in host.outside:
        return
    high = host.outside[Axis.HEIGHT].net
    bands = [each for each in built.parts if each.part.wraps == host.name and each.part.goes is Goes.WALLS]
    taken = [each.outside[Axis.HEIGHT].net for each in bands] + ([GRIP] if made.form.is_all_round() else [])
    for less in sorted({0.0, max(taken, default=0.0)}, reverse=True):
        yield from hung(built, lid, high - less + inner_loss(made.paper))


def higher_box(built: BuiltKit, lid: Part) -> Iterator[Fix]:
    """A box as high as the longest of what hangs down along it, where that can be no shorter."""
    made, host = built.part(lid.name), built.part(lid.covers or lid.name)
    if Axis.HEIGHT not in host.outside:
        return
    lack = max(hanging(made, name) for name in made.form.hangs) - host.outside[Axis.HEIGHT].net
    more = built.kit.ruler.up(exact_length(lack))
    for name, axis in host.form.size.items():
        if axis is Axis.HEIGHT and more > 0:
            yield with_sides(built, host.part, {name: host.lengths[name] + more})
