"""What a part is found to be by itself. Every check is made once, when it is first asked for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from kitwright.errors import Place
from kitwright.findings import Finding
from kitwright.kit.built import BuiltKit, BuiltPart
from kitwright.kit.prints import print_findings
from kitwright.kit.reach import Reach, check_reach, reach_for
from kitwright.measure import Ruler
from kitwright.pattern import score_passes
from kitwright.proof import (
    check_accuracy,
    check_backs,
    check_core,
    check_grain,
    check_layers,
    check_motion,
    check_pass_through,
    check_ruler,
    check_seams,
    check_sheet,
    check_tabs,
)
from kitwright.proof.tolerance import Accuracy

__all__ = ["PartProof", "part_proofs"]


@dataclass(frozen=True, eq=False)
class PartProof:
    """A part by itself: makeable, foldable, the right way up, not larger than its sheet."""

    part: BuiltPart
    ruler: Ruler
    accuracy: Accuracy
    reach: Reach | None = None
    """What the trimmer frees its blanks from; None where nothing is said of it."""
    like: PartProof | None = None
    """One of the same part, drawn alike of the same paper: only its print or grain lies another way."""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All findings but for folding on the way, in the order in which they are told."""
        return (*self.made, *self.printed, *self.blanks)

    @property
    def quickest_first(self) -> Iterator[Finding]:
        """The same findings in the order in which they cost least time."""
        yield from self.blanks
        yield from self.printed
        yield from self.made

    @cached_property
    def made(self) -> tuple[Finding, ...]:
        """Whether it can be made and folded as drawn, after what was noted while it was built."""
        if self.like is not None:
            return self.like.made
        part = self.part
        found = (
            check_seams(part.name, part.folded, self.ruler),
            check_tabs(part.name, part.folded),
            check_pass_through(part.name, part.folded),
            check_layers(part.name, part.folded, model=part.model),
            check_accuracy(part.name, part.pattern, self.accuracy, self.ruler),
            check_core(part.name, part.folded, part.paper),
        )
        return self.about_it((*part.notes, *(finding for finding in found if finding is not None)))

    @cached_property
    def motion(self) -> Finding | None:
        """Folding on the way, which takes longest to look at."""
        if self.like is not None:
            return self.like.motion
        bump = check_motion(self.part.name, self.part.folded)
        return None if bump is None else replace(bump, parts=(self.part.name,))

    @cached_property
    def printed(self) -> tuple[Finding, ...]:
        """How its print and the backs that show stand."""
        part = self.part
        turn, found = part.part.turn, list(print_findings(part, turn=part.part.turn))
        if not part.is_flat and not part.part.wraps:  # flat parts lie shut, a band lies close
            found += check_backs(part.name, part.folded, part.paper, turn=turn, model=part.model)
        return self.about_it(found)

    @cached_property
    def blanks(self) -> tuple[Finding, ...]:
        """Whether its blanks lie on the sheet, can be cut from it, and lie on the marks of the ruler and along the grain."""
        return self.about_it(self.blank_findings())

    def blank_findings(self) -> Iterator[Finding]:
        """Every blank on the ruler, on its sheet and in reach of the trimmer, then the grain."""
        part = self.part
        for blank in part.pattern.blanks:
            width, height = blank.size
            numbers = {"width of the blank": width, "height of the blank": height}
            for each in score_passes(blank):
                for place, mark in enumerate(each.marks, 1):
                    numbers[f"score {place} along the {each.side.value}"] = mark.at
            yield check_ruler(part.name, numbers, self.ruler)
            yield check_sheet(part.name, blank, part.paper, self.ruler, turns=part.turns_on_sheet)
            in_reach = None if self.reach is None else check_reach(part, blank, self.reach, self.ruler)
            if in_reach is not None:
                yield in_reach
        yield from check_grain(part.name, part.pattern, part.paper, turns=part.turns_on_sheet, asked=part.part.fibres)

    def about_it(self, found: Iterable[Finding]) -> tuple[Finding, ...]:
        """Findings with the name of the part."""
        return tuple(replace(finding, parts=(self.part.name,)) for finding in found)

    def is_drawn_as(self, other: PartProof) -> bool:
        """Whether the other is of a part with the same name, drawn alike of the same paper, for the same maker."""
        mine, its = self.part, other.part
        is_alike = (mine.name, mine.pattern, mine.paper, mine.notes) == (its.name, its.pattern, its.paper, its.notes)
        return is_alike and (self.ruler, self.accuracy) == (other.ruler, other.accuracy)


def part_proofs(built: BuiltKit, *, like: Mapping[str, PartProof] | None = None) -> Mapping[str, PartProof]:
    """Every part of a kit by itself, by name; taken over from those of another build where they hold for this one too."""
    return {part.name: proof_of(built, part, like.get(part.name) if like else None) for part in built.parts}


def proof_of(built: BuiltKit, part: BuiltPart, known: PartProof | None) -> PartProof:
    """One part by itself: what is known of it where that is so still, or as much of it as is."""
    mine = PartProof(part, built.kit.ruler, built.kit.accuracy, reach_for(built, part))
    if known is None or not mine.is_drawn_as(known):
        return mine
    if mine.reach == known.reach and replace(part.part, place=Place()) == replace(known.part.part, place=Place()):
        return known
    return replace(mine, like=known.like or known)
