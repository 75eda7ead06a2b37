"""From a kit as it was said to a built kit: sizes follow from relations, are rounded to the ruler on the safe side, and are measured
back on the folded part. Lengths in millimetres, exact where they are settled."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from types import MappingProxyType

from kitwright.catalogue import CATALOGUE, Following, Form, Parameter, followed, parameters
from kitwright.errors import Mistake, Mistakes, Place
from kitwright.findings import Severity
from kitwright.folding import Folded, LayerModel, MeasuredExtent, fold, layers, measure_extent
from kitwright.kit.built import BuiltKit, BuiltPart
from kitwright.kit.model import Extra, Face, Kit, Part, SizingKind
from kitwright.kit.sums import is_box, lids_of, lined, room_for_band, things_held
from kitwright.kit.wanted import Wanted, wanted_sizes
from kitwright.paper import Paper
from kitwright.pattern import Axis, Pattern
from kitwright.proof import GRIP

__all__ = ["build"]


def build(kit: Kit, *, like: BuiltKit | None = None) -> BuiltKit:
    """Settle every size, draw, fold and measure every part. Raises `Mistakes` with all the parts that cannot be built.

    `like`: another build of about the same kit, whose parts are taken over where nothing that they depend on is another.
    """
    built: dict[str, BuiltPart] = {}
    mistakes: list[Mistake] = []
    same: set[str] = set()
    known = like.by_name if like is not None and is_alike(kit, like.kit) else {}
    for part in in_order(kit):
        needed = needs(kit, part)
        if not all(name in built or kit.find_extra(name) for name in needed):
            continue  # what it depends on has a mistake of its own, which is told
        old = known.get(part.name)
        if old is not None and is_same(kit, part, old) and all(name in same or kit.find_extra(name) for name in needed):
            built[part.name] = old if part == old.part else replace(old, part=part)
            same.add(part.name)
            continue
        try:
            built[part.name] = build_part(kit, part, built)
        except Mistake as mistake:
            mistakes.append(mistake.at(part.place))
    if mistakes:
        raise Mistakes(mistakes)
    return BuiltKit(kit, tuple(built[part.name] for part in kit.parts))


def is_alike(kit: Kit, other: Kit) -> bool:
    """Whether parts of one kit can stand for those of the other: all that may touch every part is the same, and what belongs to what."""
    whole, others = ((each.unit, each.ruler, each.fit, bought(each), relations(each)) for each in (kit, other))
    return whole == others


def bought(kit: Kit) -> tuple[Extra, ...]:
    """What is bought, wherever it stands in the document."""
    return tuple(replace(extra, place=Place()) for extra in kit.extras)


def relations(kit: Kit) -> tuple[tuple[object, ...], ...]:
    """What every part is to others, how many there are, and what it is made as; which way a band goes is its own affair."""
    return tuple(
        (each.name, each.form, each.quantity, each.on, each.face, each.holds, each.covers, each.wraps)
        for each in kit.parts
    )


def is_same(kit: Kit, part: Part, old: BuiltPart) -> bool:
    """Whether a part says what it said of its shape, of the same paper, wherever it stands in the document and however it lies on its
    sheet."""
    shape, its = (replace(each, turn=0, fibres=None, place=Place()) for each in (part, old.part))
    return shape == its and kit.papers[part.paper] == old.paper


def needs(kit: Kit, part: Part) -> tuple[str, ...]:
    """The names of all that a part's size can depend on; also what is glued on, or lies in, what it holds, covers or goes round.

    What is glued inside a box or its lid counts for the box, unless its own size follows from where it is glued.
    """
    said = {each.name: each for each in kit.parts}
    host = part.on if part.on and (follows_its_host(part) or part.on not in said) else None
    lids = [lid.name for lid in lids_of(kit, part.wraps)] if part.wraps else []
    named = [name for name in (host, *part.holds, part.covers, part.wraps, *lids) if name]
    inside = [term.name for terms in lined(kit, {}, part.name).values() for term in terms]
    carriers = [*named[host is not None :], *(name for name in inside if not follows_its_host(said[name]))]
    for name in carriers:  # grows while it is gone through
        if name in said:
            glued = (each.name for each in kit.parts if each.on == name and each.face is Face.OUTSIDE)
            held = () if is_box(said[name]) else said[name].holds
            carriers += [each for each in (*glued, *held) if each not in carriers and each != part.name]
    return tuple(dict.fromkeys((*named, *carriers)))


def follows_its_host(part: Part) -> bool:
    """Whether the size of a part follows from what it is glued on."""
    return part.on is not None and part.sizing.kind is SizingKind.DERIVED and not part.holds


def in_order(kit: Kit) -> Iterable[Part]:
    """The parts, each after everything it depends on. Raises `Mistakes` for names that are unknown or go in a circle."""
    waiting = list(kit.parts)
    names = {part.name for part in kit.parts}
    done: set[str] = {extra.name for extra in kit.extras}
    while waiting:
        ready = [part for part in waiting if all(name in done for name in needs(kit, part))]
        if not ready:
            raise Mistakes(lost(kit, part, names | done) for part in waiting)
        yield from ready
        done |= {part.name for part in ready}
        waiting = [part for part in waiting if part not in ready]


def lost(kit: Kit, part: Part, known: set[str]) -> Mistake:
    """Why a part can never be built: something it needs is unknown, or needs the part in turn."""
    for name in needs(kit, part):
        if name not in known:
            return Mistake(
                f"{part.name!r} needs {name!r}, which is not in the kit.",
                do="Add it or change the name.",
                place=part.place,
            )
    return Mistake(
        f"{part.name!r} needs {', '.join(map(repr, needs(kit, part)))}, which in turn needs {part.name!r}.",
        do="Give one of them a size of its own.",
        place=part.place,
    )


def build_part(kit: Kit, part: Part, built: Mapping[str, BuiltPart]) -> BuiltPart:
    """Build one part whose relations are built. Raises `Mistake`."""
    form = CATALOGUE[part.form]
    paper = kit.papers[part.paper]
    things = things_held(kit, built, part)
    wanted = wanted_sizes(kit, part, form, built, things)
    room = room_to_hang(kit, part, form, built)
    settled = settle_settings(kit, part, form, room)
    for each in wanted:
        settled[each.parameter] = max(each.least, Fraction(1))
    check_all_settled(form, settled)
    fill_shares(kit, form, settled)
    trial = None
    if part.sizing.kind is not SizingKind.SIZE:
        settled, trial = solve(kit, part, form, paper=paper, settled=settled, wanted=wanted)
    check_limits(kit, form, settled)
    made = trial if trial is not None and trial.settled == settled else trial_of(form, settled, paper)
    check_roles(part, form, made.inside)
    return BuiltPart(
        part=part,
        form=made.form,
        paper=paper,
        lengths=MappingProxyType({name: value for name, value in settled.items() if isinstance(value, Fraction)}),
        pattern=made.folded.pattern,
        folded=made.folded,
        model=made.model,
        inside=made.inside,
        outside=made.outside,
        how=(
            *(reason(kit, form, settled, each) for each in wanted if each.because),
            *shortened(kit, part, form, settled),
        ),
        notes=tuple(replace(finding, about=f"{part.name}: {finding.about}") for finding in made.form.rules()),
    )


def reason(kit: Kit, form: type[Form], settled: Mapping[str, Fraction | str], wanted: Wanted) -> str:
    """Why a size is as it is, in words."""
    is_least = wanted.may_grow and settled[wanted.parameter] == least_of(kit, form, wanted.parameter)
    return f"{wanted.because}; a {form.key} cannot be smaller" if is_least else wanted.because


def least_of(kit: Kit, form: type[Form], name: str) -> Fraction:
    """The least mark of the ruler that a parameter of a form can have."""
    return next(kit.ruler.up(parameter.at_least) for parameter in parameters(form) if parameter.name == name)


def check_roles(part: Part, form: type[Form], inside: Mapping[Axis, MeasuredExtent]) -> None:
    """Raise `Mistake` for a part that should hold, cover or wrap something and has no room inside for it."""
    if part.holds and not set(form.size.values()) <= inside.keys():
        raise Mistake(
            f"A {form.key} cannot hold anything.",
            do="Take holds out (a lid covers and a band wraps), or choose another form.",
        )
    if (part.covers or part.wraps) and not {Axis.WIDTH, Axis.DEPTH} & inside.keys():
        verb = "cover" if part.covers else "wrap"
        raise Mistake(f"A {form.key} cannot {verb} anything.", do=f"Take {verb}s out, or choose another form.")


def room_to_hang(kit: Kit, part: Part, form: type[Form], built: Mapping[str, BuiltPart]) -> float | None:
    """How far a lid may usually hang down, or how broad a band may be; None for what covers and wraps nothing.

    A lid all round leaves fingers something to hold.
    """
    host = part.covers or part.wraps
    if host is None or host not in built or Axis.HEIGHT not in built[host].outside:
        return None
    if part.wraps:
        return room_for_band(kit, built, part)
    room = built[host].outside[Axis.HEIGHT].net
    return room - (GRIP if form.is_all_round() else 0.0)


def shortened(kit: Kit, part: Part, form: type[Form], settled: Mapping[str, Fraction | str]) -> Iterator[str]:
    """That a lid or band is not as long as is usual, because what it goes over or round is not."""
    for parameter in parameters(form):
        usual, length = parameter.default, settled[parameter.name]
        if parameter.name not in form.hangs or parameter.name in part.settings or not isinstance(usual, float | int):
            continue
        if (
            isinstance(length, Fraction)
            and len(part.sizing.lengths) < len(form.size)
            and length < kit.ruler.nearest(usual)
        ):
            yield (
                f"{parameter.word}: {kit.ruler.with_unit(kit.ruler.nearest(usual))} is usual; shorter here, "
                f"because {part.covers or part.wraps} leaves no more room"
            )


def settle_settings(kit: Kit, part: Part, form: type[Form], below: float | None) -> dict[str, Fraction | str]:
    """The parameters that were said, and the plain defaults of the others, snapped to the ruler."""
    settled: dict[str, Fraction | str] = dict(part.settings)
    for parameter in parameters(form):
        default = parameter.default
        if parameter.name in settled or default is None or isinstance(default, Following):
            continue
        if isinstance(default, str):
            settled[parameter.name] = default
            continue
        value = kit.ruler.nearest(default)
        if below is not None and parameter.name in form.hangs:
            value = max(min(value, kit.ruler.down(below)), kit.ruler.up(parameter.at_least))
        settled[parameter.name] = value
    return settled


def fill_shares(kit: Kit, form: type[Form], settled: dict[str, Fraction | str]) -> None:
    """Fill in the defaults that follow other parameters, snapped to the ruler and kept inside their limits."""
    for parameter in parameters(form):
        default = parameter.default
        if parameter.name in settled or not isinstance(default, Following):
            continue
        value = kit.ruler.nearest(followed(default, settled))
        low, high = kit.ruler.up(parameter.at_least), kit.ruler.down(parameter.at_most)
        settled[parameter.name] = min(max(value, low), high)


def solve(
    kit: Kit,
    part: Part,
    form: type[Form],
    *,
    paper: Paper,
    settled: dict[str, Fraction | str],
    wanted: tuple[Wanted, ...],
) -> tuple[dict[str, Fraction | str], Trial]:
    """Sizes such that the folded part measures what is wanted, on the ruler's marks, rounded to the safe side; and the last trial.

    What thickness and layers take from a size does not depend on the size, so one measurement of a trial drawing settles it; it is
    measured again afterwards, and a second round is made in the rare case that layers changed.
    """
    shares = {p.name for p in parameters(form) if isinstance(p.default, Following) and p.name not in part.settings}
    sizes = dict(settled)
    for _ in range(3):
        drawn = within_limits(form, sizes)
        trial = trial_of(form, drawn, paper)
        again = {name: value for name, value in sizes.items() if name not in shares}
        for each in wanted:
            measured = measured_along(form, trial.outside if each.is_outside else trial.inside, each)
            taken = Fraction(drawn[each.parameter]) - Fraction(measured.net)  # by thickness, layers, a notch
            exact = each.least + taken.limit_denominator(10**7)
            length = kit.ruler.down(exact) if each.rounds_down else kit.ruler.up(exact)
            again[each.parameter] = max(length, least_of(kit, form, each.parameter)) if each.may_grow else length
        fill_shares(kit, form, again)
        if again == sizes:
            break
        sizes = again
    return sizes, trial


def check_all_settled(form: type[Form], settled: Mapping[str, Fraction | str]) -> None:
    """Raise `Mistake` if a parameter was neither said nor follows from what the part lies on, holds, covers or wraps."""
    for parameter in parameters(form):
        if parameter.default is None and parameter.name not in settled:
            word = parameter.word.replace(" ", "-")
            raise Mistake(
                f"Its {parameter.word} does not follow from anything.",
                do=f"Add {word} and a length, or give the whole size.",
            )


def measured_along(form: type[Form], measured: Mapping[Axis, MeasuredExtent], wanted: Wanted) -> MeasuredExtent:
    """What was measured along the axis of a wanted size. Raises `Mistake` for a form that has no such size."""
    if wanted.axis not in measured:
        where = "outside" if wanted.is_outside else "inside"
        raise Mistake(
            f"A {form.key} has no {wanted.parameter} {where} that could be measured.",
            do="Give its size, or choose another form.",
        )
    return measured[wanted.axis]


def within_limits(form: type[Form], settled: Mapping[str, Fraction | str]) -> dict[str, Fraction | str]:
    """The same values, moved inside the limits, good enough for a trial drawing."""
    moved = dict(settled)
    for parameter in parameters(form):
        value = moved[parameter.name]
        if isinstance(value, Fraction):
            moved[parameter.name] = Fraction(min(max(value, Fraction(parameter.at_least)), Fraction(parameter.at_most)))
    return moved


def check_limits(kit: Kit, form: type[Form], settled: Mapping[str, Fraction | str]) -> None:
    """Raise `Mistake` if a settled length is outside what the form can be."""
    for parameter in parameters(form):
        value = settled[parameter.name]
        if isinstance(value, Fraction) and not is_within(parameter, value):
            limits = f"{kit.ruler.with_unit(parameter.at_least)} to {kit.ruler.with_unit(parameter.at_most)}"
            raise Mistake(
                f"{parameter.label} comes out at {kit.ruler.with_unit(value)}, but a {form.key} can only have {limits}.",
                do="Change what the size follows from, or give a size.",
            )


def is_within(parameter: Parameter, value: Fraction) -> bool:
    """Whether a length is inside its parameter's limits, to the width of a mark."""
    slack = Fraction(1, 100)
    return Fraction(parameter.at_least) - slack <= value <= Fraction(parameter.at_most) + slack


def make(form: type[Form], settled: Mapping[str, Fraction | str]) -> Form:
    """The form with its parameters as plain numbers."""
    return form(**{name: float(value) if isinstance(value, Fraction) else value for name, value in settled.items()})


def checked_drawing(made: Form) -> Pattern:
    """The form's pattern. Raises `Mistake` with the form's own reason if its rules refuse the numbers."""
    for finding in made.rules():
        if finding.severity is Severity.FAIL:
            raise Mistake(f"{finding.message[:-1]} ({finding.about}).", do=f"Change {finding.about!r} or the size.")
    return made.draw()


@dataclass(frozen=True, eq=False, slots=True)
class Trial:
    """A form with these parameters drawn, folded, its layers found, and all that it promises inside and outside measured."""

    settled: Mapping[str, Fraction | str]
    form: Form
    folded: Folded
    model: LayerModel
    inside: Mapping[Axis, MeasuredExtent]
    outside: Mapping[Axis, MeasuredExtent]


def trial_of(form: type[Form], settled: Mapping[str, Fraction | str], paper: Paper) -> Trial:
    """A trial of a form. Raises `Mistake` with the form's own reason if its rules refuse the numbers."""
    made = make(form, settled)
    folded = fold(checked_drawing(made))
    model, claims = layers(folded), folded.pattern.claims
    inside, outside = (
        MappingProxyType(
            {each.axis: measure_extent(folded, each, paper, outside=is_outside, model=model) for each in claimed}
        )
        for claimed, is_outside in ((claims.inside, False), (claims.outside, True))
    )
    return Trial(settled, made, folded, model, inside, outside)
