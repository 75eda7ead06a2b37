"""Looking for a change that turns a failing finding to good. A fix is only offered after it was built and proved."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from kitwright.catalogue import parameters
from kitwright.errors import Mistake, Mistakes
from kitwright.findings import Change, Finding, Fix, Severity
from kitwright.kit.build import build
from kitwright.kit.built import BuiltKit
from kitwright.kit.change import changed
from kitwright.kit.model import Part, Sizing, SizingKind

__all__ = ["find_fix"]

Prover = Callable[[BuiltKit], tuple[Finding, ...]]


def find_fix(built: BuiltKit, finding: Finding, before: tuple[Finding, ...], prove: Prover) -> Fix | None:
    """The first of the likely changes after which the finding is gone and nothing new fails; None if none of them does it."""
    for fix in likely_fixes(built, finding):
        try:
            after = prove(build(changed(built.kit, fix.changes)))
        except (Mistake, Mistakes):
            continue
        if is_mended(finding, before, after):
            return fix
    return None


def is_mended(finding: Finding, before: tuple[Finding, ...], after: tuple[Finding, ...]) -> bool:
    """Whether the finding fails no more, and whatever fails now failed before."""
    failed_before = {key_of(each) for each in before if each.severity in (Severity.FAIL, Severity.UNKNOWN)}
    failing = {key_of(each) for each in after if each.severity in (Severity.FAIL, Severity.UNKNOWN)}
    return key_of(finding) not in failing and failing <= failed_before


def key_of(finding: Finding) -> tuple[str, str]:
    """What makes a finding the same one in two proofs."""
    return finding.code, finding.about


def likely_fixes(built: BuiltKit, finding: Finding) -> Iterator[Fix]:
    """Changes that are worth trying for a finding, the most natural first."""
    part = next(
        (each for each in sorted(built.parts, key=lambda p: -len(p.name)) if concerns(finding, each.name)), None
    )
    if part is None:
        return
    said = part.part
    if finding.code.startswith("print-up"):
        yield from turns(said)
        return
    if finding.code == "blank-on-sheet":
        yield from turns(said)
        yield from other_papers(built, said)
        return
    if finding.code == "lid-height":
        yield from shorter(built, said, finding)
        return
    yield from resized(built, said)
    if said.on:
        yield from resized(built, built.kit.part(said.on))


def concerns(finding: Finding, name: str) -> bool:
    """Whether a finding is first of all about the part with this name: the one that would be changed."""
    about = finding.about
    return (
        about == name
        or about.startswith((f"{name} over ", f"{name} round ", f"{name} on "))
        or about.endswith((f" in {name}", f"contents of {name}"))
    )


def turns(part: Part) -> Iterator[Fix]:
    """The print turned another way on the blank."""
    for turn in range(4):
        if turn != part.turn:
            degrees = turn * 90
            yield Fix(
                f"Turn the print on {part.name} to {degrees} degrees.", (Change(part.name, "turn", str(degrees)),)
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
    derived = next((each for each in (derived_size(built, part),) if each), None)
    if derived:
        yield Fix(f"Make {part.name} {derived}, score to score.", (*unsaid(part), Change(part.name, "size", derived)))


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


def derived_size(built: BuiltKit, part: Part) -> str | None:
    """The size of a part as it follows from its relations, as it would be written; None where none follows."""
    free = replace(part, sizing=Sizing(SizingKind.DERIVED))
    kit = built.kit
    try:
        again = build(replace(kit, parts=tuple(free if each.name == part.name else each for each in kit.parts)))
    except (Mistake, Mistakes, KeyError):
        return None
    made = again.part(part.name)
    ruler = kit.ruler
    return " x ".join(ruler.format(made.lengths[name]) for name in made.form.size)


def shorter(built: BuiltKit, part: Part, finding: Finding) -> Iterator[Fix]:
    """What hangs down, cut shorter than the box is high."""
    if finding.required is None:
        return
    form = built.part(part.name).form
    length = built.kit.ruler.format(built.kit.ruler.down(finding.required))
    for name in form.hangs:
        key = name.replace("_", "-")
        if name in form.size:
            made = built.part(part.name)
            sizes = [length if each == name else built.kit.ruler.format(made.lengths[each]) for each in form.size]
            yield Fix(
                f"Make {part.name} {' x '.join(sizes)}.", (*unsaid(part), Change(part.name, "size", " x ".join(sizes)))
            )
        yield Fix(f"Make the {name.replace('_', ' ')} of {part.name} {length}.", (Change(part.name, key, length),))
