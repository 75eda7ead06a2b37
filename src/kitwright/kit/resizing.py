"""Changes of a part's size that are worth trying, those that leave most of it as it was said first. Lengths in exact millimetres."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from typing import Final

from kitwright.catalogue import parameters
from kitwright.errors import Mistake, Mistakes
from kitwright.findings import Change, Finding, Fix
from kitwright.kit.build import build
from kitwright.kit.built import BuiltKit
from kitwright.kit.model import Part, Sizing, SizingKind
from kitwright.measure import exact_length

__all__ = ["ONLY_LARGER", "a_mark_larger", "hung", "in_size", "made_anew", "resized", "with_its_covers", "with_sides"]

Sides = Mapping[str, Fraction]
"""Parameters of a form and lengths for them."""

ONLY_LARGER: Final = ("contents-fit", "envelope-fit", "pocket-fit")
"""What is mended by a holder that grows: a side that has room to spare stays as it is."""

ONLY_SMALLER: Final = ("mat-on-card",)
"""What is mended by less of what sticks out: a side that does not stick out stays as it is."""


def resized(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """A part with one side as it would follow from its relations, then with two, then all; then with a side just long enough.

    Of what must grow no side becomes shorter, and of what must shrink none longer.
    """
    made = built.part(part.name)
    told = False
    for follows in (derived_sides(built, part), *sides_on_a_face(built, part, finding)):
        if follows is None:
            continue
        other = {name: length for name, length in follows.items() if length != made.lengths[name]}
        may = [name for name in other if may_become(finding, made.lengths[name], other[name])]
        for names in some_of(may, {name: abs(other[name] - made.lengths[name]) for name in may}):
            if is_concerned(built, part, finding, names):
                yield with_sides(built, part, {name: other[name] for name in names})
                told = True
    if told or part.sizing.kind is SizingKind.DERIVED:
        yield from just_enough(built, part, finding)


def made_anew(built: BuiltKit, part: Part) -> Iterator[Fix]:
    """A part whose size was said, with every side as it would follow from its relations, whatever was said."""
    follows, now = derived_sides(built, part), built.part(part.name).lengths
    other = {name: length for name, length in (follows or {}).items() if length != now[name]}
    if other and part.sizing.kind is not SizingKind.DERIVED:
        yield with_sides(built, part, other)


def may_become(finding: Finding, now: Fraction, then: Fraction) -> bool:
    """Whether a side that becomes longer or shorter can help."""
    if finding.code in ONLY_LARGER:
        return then > now
    return then < now if finding.code in ONLY_SMALLER else True


def is_concerned(built: BuiltKit, part: Part, finding: Finding, names: tuple[str, ...]) -> bool:
    """Whether a change of these sides touches what the finding is about: along the axis of a fit along one."""
    stem, _, axis = finding.code.rpartition("-fit-")
    size = built.part(part.name).form.size
    return not stem or any(name in size and size[name].value == axis for name in names)


def some_of(names: list[str], costs: Mapping[str, Fraction]) -> Iterator[tuple[str, ...]]:
    """Every choice of some of the names, the fewest first, and of as many those that cost least."""
    for count in range(1, len(names) + 1):
        yield from sorted(combinations(names, count), key=lambda chosen: sum(costs[name] for name in chosen))


def derived_sides(built: BuiltKit, part: Part) -> Sides | None:
    """The sides of a part as they would follow from its relations; None where none follow. What follows from nothing is left out."""
    form = type(built.part(part.name).form)
    open_sides = {each.name for each in parameters(form) if each.name in form.size and each.default is None}
    stays = {name: built.part(part.name).lengths[name] for name in in_size(built, part) if name not in open_sides}
    said = {name: value for name, value in part.settings.items() if name not in open_sides}
    free = replace(part, sizing=Sizing(SizingKind.DERIVED), settings={**said, **stays})
    again = with_part(built, free)
    return (
        None
        if again is None
        else {name: again.part(part.name).lengths[name] for name in form.size if name in open_sides}
    )


def sides_on_a_face(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Sides]:
    """The sides of a pocket that sticks out of what it lies on, as they would be if it were a mat there."""
    if finding.code not in ONLY_SMALLER or not part.holds:
        return
    kit = built.kit
    alone = replace(part, holds=())
    bare = replace(kit, parts=tuple(alone if each.name == part.name else each for each in kit.parts))
    try:
        follows = derived_sides(build(bare), alone)
    except (Mistake, Mistakes):
        return
    if follows is not None:
        yield follows


def with_part(built: BuiltKit, part: Part) -> BuiltKit | None:
    """The kit built with a part in place of the one of its name; None where it cannot be built so."""
    kit = built.kit
    try:
        return build(replace(kit, parts=tuple(part if each.name == part.name else each for each in kit.parts)))
    except (Mistake, Mistakes):
        return None


def just_enough(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """One side longer, or shorter, by what is missing, to the next mark."""
    if finding.margin is None or finding.margin >= 0 or finding.unit != "mm":
        return
    made, ruler = built.part(part.name), built.kit.ruler
    by = ruler.up(exact_length(-finding.margin))
    for name in made.form.size:
        if not is_concerned(built, part, finding, (name,)):
            continue
        for length in (made.lengths[name] + by, made.lengths[name] - by, made.lengths[name] - 2 * by):
            if length > 0 and may_become(finding, made.lengths[name], length):
                yield with_sides(built, part, {name: length})


def with_sides(built: BuiltKit, part: Part, sides: Sides) -> Fix:
    """A part with other lengths of some sides: where its size says them in the size, else each by a key of its own."""
    made = built.part(part.name)
    own = {name: length for name, length in sides.items() if name not in in_size(built, part)}
    sentences: list[str] = []
    changes: list[Change] = []
    if len(own) < len(sides):
        whole = sized(built, part, {**made.lengths, **sides})
        sentences.append(whole.sentence)
        changes.extend(whole.changes)
    if own:
        said = {name: built.kit.ruler.format(length) for name, length in own.items()}
        words = " and ".join(f"the {name.replace('_', ' ')} of {part.name} {length}" for name, length in said.items())
        sentences.append(f"Make {words}.")
        changes.extend(Change(part.name, name.replace("_", "-"), length) for name, length in said.items())
    return Fix(" ".join(sentences), tuple(changes))


def sized(built: BuiltKit, part: Part, lengths: Sides) -> Fix:
    """Say these lengths as the part's size: as many of them as are not said by keys of their own or left to what is usual."""
    form = built.part(part.name).form
    names = list(form.size)
    usual = {each.name for each in parameters(type(form)) if each.default is not None} - set(in_size(built, part))
    while names and (names[-1] in part.settings or names[-1] in usual):
        names.pop()
    size = " x ".join(built.kit.ruler.format(lengths[name]) for name in names)
    return Fix(f"Make {part.name} {size}, score to score.", (*unsaid(part), Change(part.name, "size", size)))


def unsaid(part: Part) -> tuple[Change, ...]:
    """Take back a size that was said as inside or outside, so that there is only one."""
    if part.sizing.kind in (SizingKind.INSIDE, SizingKind.OUTSIDE):
        return (Change(part.name, part.sizing.kind.value, ""),)
    return ()


def in_size(built: BuiltKit, part: Part) -> tuple[str, ...]:
    """The parameters that the size of a part says, in order."""
    return tuple(built.part(part.name).form.size)[: len(part.sizing.lengths)]


def with_its_covers(built: BuiltKit, fix: Fix, after: BuiltKit) -> Iterator[Fix]:
    """A change, and with it every lid and band whose size was said, along the sides along which what it goes over or round is another
    in the kit built `after` it."""
    names = {change.name for change in fix.changes}
    sentences, changes = [fix.sentence], [*fix.changes]
    for other in after.kit.parts:
        if other.name in names or not names & {other.covers, other.wraps}:
            continue
        was, follows = derived_sides(built, other), derived_sides(after, other)
        if was is None or follows is None:
            continue
        made = after.part(other.name).lengths
        moved = {name: length for name, length in follows.items() if length not in (was[name], made[name])}
        if moved:
            lid = with_sides(after, other, moved)
            sentences.append(lid.sentence)
            changes.extend(lid.changes)
    if len(sentences) > 1:
        yield Fix(" ".join(sentences), tuple(changes))


TRIED: Final = 4
"""Lengths tried between one that is too tight in too many makes and one that always fits."""


def a_mark_larger(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """For what is too tight in too many makes: a mark or some larger that way, up to where it always fits."""
    if finding.makings is None or finding.code == "mat-on-card":
        return
    made, ruler = built.part(part.name), built.kit.ruler
    named = [name for name, axis in made.form.size.items() if finding.code.endswith(f"-fit-{axis.value}")]
    names = named or list(made.form.size)
    short = exact_length(-finding.makings.least)
    marks = int(ruler.up(short) / ruler.step)
    for more in sorted({math.ceil(marks * tried / TRIED) for tried in range(1, TRIED + 1)} if marks > 0 else ()):
        larger = {name: made.lengths[name] + more * ruler.step for name in names}
        if len(names) == 1 and names[0] in part.settings:
            yield with_sides(built, part, larger)
        else:
            yield sized(built, part, {**made.lengths, **larger})


def hung(built: BuiltKit, part: Part, most: float) -> Iterator[Fix]:
    """All that hangs down on a part longer than so much, cut to it."""
    made = built.part(part.name)
    length = built.kit.ruler.down(most)
    names = [name for name in made.form.hangs if made.lengths[name] > length]
    if set(names) & set(in_size(built, part)):
        yield with_sides(built, part, dict.fromkeys(names, length))
    elif names:
        said = built.kit.ruler.format(length)
        words = " and ".join(f"the {name.replace('_', ' ')}" for name in names)
        changes = tuple(Change(part.name, name.replace("_", "-"), said) for name in names)
        yield Fix(f"Make {words} of {part.name} {said}.", changes)
