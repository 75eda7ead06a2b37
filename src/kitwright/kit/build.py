"""From a kit as it was said to a built kit: sizes follow from relations, are rounded to the ruler on the safe side, and are measured
back on the folded part. Lengths in millimetres, exact where they are settled."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

from kitwright.catalogue import CATALOGUE, Following, Form, Parameter, followed, parameters
from kitwright.errors import Mistake, Mistakes
from kitwright.folding import MeasuredExtent
from kitwright.kit.built import BuiltKit, BuiltPart
from kitwright.kit.closed import things_held
from kitwright.kit.limits import limits_on, mark_within
from kitwright.kit.model import Kit, Part, SizingKind
from kitwright.kit.relations import check_together
from kitwright.kit.sums import room_for_band
from kitwright.kit.trial import Settled, Trial, trial_of
from kitwright.kit.wanted import Wanted, wanted_sizes
from kitwright.measure import exact_length, with_article
from kitwright.paper import Paper, inner_loss
from kitwright.pattern import Axis
from kitwright.proof import GRIP

__all__ = ["build"]


class NotYetBuilt(Exception):
    """A part's size was asked for before there is one."""

    def __init__(self, name: str) -> None:
        self.name = name
        super().__init__(name)


class PartsSoFar(Mapping[str, BuiltPart]):
    """The parts of a kit by name, as far as they are built. What a part depends on is what is asked of these while it is built, so it
    is written down nowhere else. Raises `NotYetBuilt` for a part that must be built first, `KeyError` for what is no part.
    """

    def __init__(self, kit: Kit) -> None:
        self.built: dict[str, BuiltPart] = {}
        self.names = {part.name for part in kit.parts}

    def __getitem__(self, name: str) -> BuiltPart:
        if name in self.names and name not in self.built:
            raise NotYetBuilt(name)
        return self.built[name]

    def __contains__(self, name: object) -> bool:
        return name in self.names

    def __iter__(self) -> Iterator[str]:
        return iter(self.names)

    def __len__(self) -> int:
        return len(self.names)


def build(kit: Kit) -> BuiltKit:
    """Settle every size, draw, fold and measure every part. Raises `Mistakes` with all the parts that cannot be built."""
    check_together(kit)
    parts, mistakes = PartsSoFar(kit), list[Mistake]()
    waiting, waits_for, is_going_on = list(kit.parts), dict[str, str](), True
    while is_going_on:  # each round builds at least one part or is the last
        is_going_on, others = False, list[Part]()
        for part in waiting:
            needed = waits_for.get(part.name)
            if needed is None or needed in parts.built:
                try:
                    parts.built[part.name], is_going_on = build_part(kit, part, parts), True
                    continue
                except NotYetBuilt as missing:
                    waits_for[part.name] = missing.name
                except Mistake as mistake:
                    mistakes.append(mistake.at(part.place))
                    continue
            others.append(part)
        waiting = others
    mistakes += circles(waiting, waits_for)
    if mistakes:
        raise Mistakes(mistakes)
    return BuiltKit(kit, tuple(parts[part.name] for part in kit.parts))


def circles(waiting: list[Part], waits_for: Mapping[str, str]) -> Iterator[Mistake]:
    """Parts whose sizes wait for each other, each circle told once. What only waits for one of them, or for a part that has a mistake of
    its own, is not told.
    """
    told: set[str] = set()
    left = {part.name for part in waiting}
    for part in waiting:
        way = [part.name]
        while waits_for[way[-1]] in left and waits_for[way[-1]] not in way:
            way.append(waits_for[way[-1]])
        if waits_for[way[-1]] == part.name and not told & set(way):
            told |= set(way)
            needed = ", which needs ".join(repr(name) for name in (*way, part.name))
            yield Mistake(
                f"These sizes go in a circle: {needed}.", do="Give one of them a size of its own.", place=part.place
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
    if part.sizing.kind is not SizingKind.SIZE:
        settled = solve(kit, part, form, paper=paper, settled=settled, wanted=wanted)
    check_limits(kit, form, settled)
    made = trial_of(form, settled, paper)
    check_roles(part, form, made)
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
    return f"{wanted.because}; {with_article(form.key)} cannot be smaller" if is_least else wanted.because


def least_of(kit: Kit, form: type[Form], name: str) -> Fraction:
    """The least mark of the ruler that a parameter of a form can have."""
    return next(kit.ruler.up(parameter.at_least) for parameter in parameters(form) if parameter.name == name)


def check_roles(part: Part, form: type[Form], made: Trial) -> None:
    """Raise `Mistake` for a part that should hold, cover or wrap something and has no room inside for it."""
    if part.holds and not set(form.size.values()) <= made.inside.keys():
        raise Mistake(
            f"A {form.key} cannot hold anything.",
            do="Take holds out (a lid covers and a band wraps), or choose another form.",
        )
    goes_over = {*form.spans, *((Axis.WIDTH, Axis.DEPTH) if Axis.DEPTH in made.outside else ())}
    if (part.covers or part.wraps) and not goes_over & made.inside.keys():
        verb = "cover" if part.covers else "wrap"
        raise Mistake(f"A {form.key} cannot {verb} anything.", do=f"Take {verb}s out, or choose another form.")


def room_to_hang(kit: Kit, part: Part, form: type[Form], built: Mapping[str, BuiltPart]) -> float | None:
    """How far a lid may usually hang down, or how broad a band may be; None for what covers and wraps nothing.

    A lid all round leaves fingers something to hold.
    """
    host = part.covers or part.wraps
    if host is None or Axis.HEIGHT not in built[host].outside:
        return None
    if part.wraps:
        return room_for_band(kit, built, part)
    room = built[host].outside[Axis.HEIGHT].net
    return room - (GRIP if form.is_all_round() else 0.0) + inner_loss(kit.papers[part.paper])


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
        value = mark_within(parameter, kit.ruler, default)
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
        settled[parameter.name] = mark_within(parameter, kit.ruler, followed(default, settled))


def solve(
    kit: Kit,
    part: Part,
    form: type[Form],
    *,
    paper: Paper,
    settled: dict[str, Fraction | str],
    wanted: tuple[Wanted, ...],
) -> dict[str, Fraction | str]:
    """Sizes such that the folded part measures what is wanted, on the ruler's marks, rounded to the safe side.

    What thickness and layers take from a size seldom depends on the size, so what a trial drawing gives is mostly confirmed by the
    next. Where layers change with the size it goes on until it is. Raises `Mistake` where two sizes ask for each other in turn.
    """
    shares = {p.name for p in parameters(form) if isinstance(p.default, Following) and p.name not in part.settings}
    sizes, tried = dict(settled), list[Settled]()
    while sizes not in tried:
        tried.append(sizes)
        drawn = within_limits(form, sizes)
        trial = trial_of(form, drawn, paper)
        again = {name: value for name, value in sizes.items() if name not in shares}
        for each in wanted:
            measured = measured_along(form, trial.outside if each.is_outside else trial.inside, each)
            taken = Fraction(drawn[each.parameter]) - Fraction(measured.net)  # by thickness, layers, a notch
            exact = each.least + exact_length(taken)
            length = kit.ruler.down(exact) if each.rounds_down else kit.ruler.up(exact)
            again[each.parameter] = max(length, least_of(kit, form, each.parameter)) if each.may_grow else length
        fill_shares(kit, form, again)
        if again == sizes:
            return sizes
        sizes = again
    raise Mistake(
        f"The size of a {form.key} for this does not settle: its layers change with it.", do="Give the part a size."
    )


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
            raise Mistake(
                f"{parameter.label} comes out at {kit.ruler.with_unit(value)}, but {with_article(form.key)} can only have "
                f"{limits_on(parameter, kit.ruler)}.",
                do="Change what the size follows from, or give a size.",
            )


def is_within(parameter: Parameter, value: Fraction) -> bool:
    """Whether a length is inside its parameter's limits, to the width of a mark."""
    slack = Fraction(1, 100)
    return Fraction(parameter.at_least) - slack <= value <= Fraction(parameter.at_most) + slack
