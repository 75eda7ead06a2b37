"""The other way round: for what a box holds, the least box of every form on the maker's ruler, each built and proved with the kit."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from kitwright.catalogue import CATALOGUE, Form, parameters
from kitwright.errors import Mistake, Mistakes
from kitwright.kit.build import build
from kitwright.kit.built import BuiltKit
from kitwright.kit.built_part import BuiltPart
from kitwright.kit.model import Part, Sizing, SizingKind
from kitwright.kit.prints import print_findings
from kitwright.kit.prove import blocks, prove
from kitwright.kit.sums import clear_inside, lids_of
from kitwright.measure import Ruler, exact_length
from kitwright.pattern import Axis
from kitwright.proof import Proof
from kitwright.proof.packing import DoesNotFit, Size, Smallest, Space, smallest_inside

__all__ = ["BoxChoice", "NoBox", "box_choices", "boxes_of"]

STEP: Final = 10.0
"""Millimetres by which a side is made longer to see how the blanks grow with it."""


A_TRIFLE: Final = Fraction(1, 10**6)
"""Square millimetres for each of a box's depth: what decides between a box and the same turned a quarter."""


@dataclass(frozen=True, eq=False)
class BoxChoice:
    """The least box of one form: the kit built with it, its proof, and the paper that is cut for it.

    `size` is score to score, in the order of the form, and `inside` what the things are promised: width, depth, height; both in exact mm on
    the ruler. `paper_mm2` are the rectangles of its blanks, `cover_mm2` those of the lids that were fitted to it. `is_least`: every smaller
    size on the ruler was ruled out.
    """

    form: str
    title: str
    size: Size
    inside: Size
    kit: BuiltKit
    proof: Proof
    paper_mm2: float
    cover_mm2: float
    is_least: bool


@dataclass(frozen=True, slots=True)
class NoBox:
    """No box of this form, and why: it cannot be built so, or whether there is one was not settled."""

    form: str
    title: str
    why: str


def boxes_of(built: BuiltKit) -> tuple[BuiltPart, ...]:
    """The parts of a kit that hold things side by side."""
    return tuple(part for part in built.parts if part.part.holds and Axis.DEPTH in part.inside)


def box_forms() -> tuple[type[Form], ...]:
    """The forms that can be a box: they have three sides, and span nothing as lids and bands do."""
    return tuple(form for form in CATALOGUE.values() if set(form.size.values()) == set(Axis) and not form.spans)


def box_choices(built: BuiltKit, box: BuiltPart) -> tuple[BoxChoice | NoBox, ...]:
    """The least box of every form in place of this one, those that need least paper with their lids first, the others last."""
    found = [least_box(built, box.part, form) for form in box_forms()]
    fitting = [each for each in found if isinstance(each, BoxChoice)]
    fitting.sort(key=lambda each: (not each.proof.is_proved, each.paper_mm2 + each.cover_mm2, each.form))
    return (*fitting, *(each for each in found if isinstance(each, NoBox)))


def least_box(built: BuiltKit, said: Part, form: type[Form]) -> BoxChoice | NoBox:
    """The least box of one form."""
    own = {name for name in (each.name for each in parameters(form)) if name not in form.size}
    settings = {name: value for name, value in said.settings.items() if name in own and form.key == said.form}
    free = replace(said, form=form.key, settings=settings, sizing=Sizing(SizingKind.DERIVED), turn=0)
    first = with_box(built, free)
    if isinstance(first, str):
        return NoBox(form.key, form.title, first)
    found = least_size(first, first.part(said.name))
    if not isinstance(found, Smallest):
        return NoBox(form.key, form.title, found)
    least = choice_of(built, free, of_form(form, found.size), is_least=found.is_proved)
    if isinstance(least, NoBox):
        return least
    if not least.proof.is_proved or paper_of(first.part(said.name)) < least.paper_mm2:
        follows = choice_of(built, free, size_of(first.part(said.name)), is_least=False)
        if isinstance(follows, BoxChoice):
            return min(least, follows, key=lambda each: (not each.proof.is_proved, each.paper_mm2))
    return least


def choice_of(built: BuiltKit, box: Part, size: Size, *, is_least: bool) -> BoxChoice | NoBox:
    """The kit with this box, of a size score to score, its print and its lid's upright; proved."""
    form = CATALOGUE[box.form]
    made = with_box(built, replace(box, sizing=Sizing(SizingKind.SIZE, size)))
    if isinstance(made, str):
        return NoBox(form.key, form.title, f"The least would be {built.kit.ruler.size(*size)}, score to score. {made}")
    made = standing_upright(made, (box.name, *(lid.name for lid in lids_of(made.kit, box.name))))
    covers = [part for part in made.parts if part.part.covers == box.name]
    return BoxChoice(
        form=form.key,
        title=form.title,
        size=size,
        inside=inside_of(made.part(box.name), made.kit.ruler),
        kit=made,
        proof=prove(made, with_fixes=False),
        paper_mm2=paper_of(made.part(box.name)),
        cover_mm2=math.fsum(paper_of(part) for part in covers),
        is_least=is_least,
    )


def with_box(built: BuiltKit, box: Part) -> BuiltKit | str:
    """The kit built with another box, its lid following it; in words why it cannot be built."""
    parts = tuple(
        box if part.name == box.name else following(part) if part.covers == box.name else part
        for part in built.kit.parts
    )
    try:
        return build(replace(built.kit, parts=parts))
    except Mistake as mistake:
        return mistake.what
    except Mistakes as mistakes:
        return " ".join(each.what for each in mistakes.mistakes)


def standing_upright(built: BuiltKit, names: Collection[str]) -> BuiltKit:
    """The kit with the prints of these parts turned on their blanks so that they stand upright, as far as a turn can do it."""
    turns = {name: best_turn(built.part(name)) for name in names}
    if all(built.part(name).part.turn == turn for name, turn in turns.items()):
        return built
    parts = tuple(replace(each, turn=turns.get(each.name, each.turn)) for each in built.kit.parts)
    return build(replace(built.kit, parts=parts))


def best_turn(part: BuiltPart) -> int:
    """The turn with which the print of a part stands best, the one it has if no other is better."""

    def amiss(turn: int) -> tuple[int, int]:
        found = print_findings(part, turn=turn)
        return sum(each.severity.rank for each in found), (turn - part.part.turn) % 4

    return min(range(4), key=amiss)


def following(lid: Part) -> Part:
    """A lid whose size follows its box again, whatever was said."""
    sides = set(CATALOGUE[lid.form].size)
    settings = {name: value for name, value in lid.settings.items() if name not in sides}
    return replace(lid, sizing=Sizing(SizingKind.DERIVED), settings=settings)


def paper_of(part: BuiltPart) -> float:
    """The rectangles of all blanks of one piece, mm²."""
    return math.fsum(blank.size[0] * blank.size[1] * blank.copies for blank in part.pattern.blanks)


def of_form(form: type[Form], sides: Size) -> Size:
    """Width, depth and height in the order in which a form says them."""
    along = dict(zip(Axis, sides, strict=True))
    first, second, third = (along[axis] for axis in form.size.values())
    return first, second, third


def size_of(box: BuiltPart) -> Size:
    """The size of a box score to score, in the order in which its form says it."""
    first, second, third = (box.lengths[name] for name in box.form.size)
    return first, second, third


def inside_of(box: BuiltPart, ruler: Ruler) -> Size:
    """Width, depth and height inside, on the marks of the ruler below."""
    width, depth, height = (ruler.down(box.inside[axis].net) for axis in Axis)
    return width, depth, height


def least_size(built: BuiltKit, box: BuiltPart) -> Smallest | str:
    """The size score to score (width, depth, height), on the ruler, with which the box needs least paper; in words why there is none."""
    stands = box.form.stands_contents if box.part.standing is None else box.part.standing
    things = blocks(built.things_in(box), standing=stands)
    clear = clear_inside(built.kit, built.by_name, box)
    play = built.kit.fit.contents
    axes = tuple(Axis)
    names = {axis: name for name, axis in box.form.size.items()}
    now = {axis: box.lengths[names[axis]] for axis in axes}
    taken = {axis: now[axis] - exact_length(clear[axis]) for axis in axes}  # by card and what is glued inside
    limits = {each.name: each for each in parameters(type(box.form))}
    least = {axis: Fraction(limits[names[axis]].at_least) for axis in axes}
    ruler = built.kit.ruler
    most = Space(*(ruler.down(limits[names[axis]].at_most) for axis in axes))
    grows = growth(box, names)

    def paper(size: Size) -> Fraction:
        """The rectangles of the blanks for a size; no side counts less than the form can have. Of two alike the broader counts less."""
        more = {axis: max(side, least[axis]) - now[axis] for axis, side in zip(axes, size, strict=True)}
        return sum((area(each, more) for each in grows), size[1] * A_TRIFLE)

    found = smallest_inside(
        things,
        step=ruler.step,
        most=most,
        clearance=tuple(play + taken[axis] for axis in axes),  # type: ignore[arg-type]  # three axes, three plays
        measure=paper,
    )
    if isinstance(found, Smallest):
        width, depth, height = (max(side, ruler.up(least[axis])) for axis, side in zip(axes, found.size, strict=True))
        return replace(found, size=(width, depth, height))
    return found.reason if isinstance(found, DoesNotFit) else " ".join(found.established)


@dataclass(frozen=True, slots=True)
class Growth:
    """How a blank grows: its width and height, and how much each gains per mm of each side; `copies` of it are cut."""

    size: tuple[Fraction, Fraction]
    gains: Mapping[Axis, tuple[Fraction, Fraction]]
    copies: int


def growth(box: BuiltPart, names: Mapping[Axis, str]) -> tuple[Growth, ...]:
    """How every blank of a box grows with its sides, read off the drawings of boxes that are a little longer each way."""
    drawn = {axis: tuple(longer(box, names[axis])) for axis in Axis}
    found = []
    for place, blank in enumerate(box.pattern.blanks):
        gains = {
            axis: (per_mm(drawn[axis][place][0] - blank.size[0]), per_mm(drawn[axis][place][1] - blank.size[1]))
            for axis in Axis
        }
        found.append(Growth((exact(blank.size[0]), exact(blank.size[1])), gains, blank.copies))
    return tuple(found)


def longer(box: BuiltPart, name: str) -> Iterator[tuple[float, float]]:
    """The blanks of the same box with one side longer."""
    form = type(box.form)
    values = {each.name: getattr(box.form, each.name) for each in parameters(form)}
    yield from (blank.size for blank in form(**{**values, name: values[name] + STEP}).draw().blanks)


def per_mm(gain: float) -> Fraction:
    """What a blank gains for each mm, of what it gains for `STEP`; never below zero."""
    return max(exact(gain / STEP), Fraction(0))


def exact(mm: float) -> Fraction:
    """A drawn length as a fraction."""
    return Fraction(mm).limit_denominator(10**6)


def area(blank: Growth, more: Mapping[Axis, Fraction]) -> Fraction:
    """The rectangle of a blank, all copies, for sides that are so much longer, mm²."""
    width, height = (blank.size[way] + sum(blank.gains[axis][way] * by for axis, by in more.items()) for way in (0, 1))
    return max(width, Fraction(0)) * max(height, Fraction(0)) * blank.copies
