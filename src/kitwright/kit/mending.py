"""Looking for a change that turns a failing finding to good. A fix is only offered after it was built and proved; where none is found,
the finding says what the maker can do."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain, islice
from typing import Final

from kitwright.errors import Mistake, Mistakes
from kitwright.findings import Change, Finding, Fix, Makings, Severity
from kitwright.kit.advice import advice
from kitwright.kit.build import build
from kitwright.kit.built import BuiltKit
from kitwright.kit.change import changed
from kitwright.kit.likely import last_resorts, likely_fixes
from kitwright.kit.resizing import with_its_covers
from kitwright.proof.tolerance import percent

__all__ = ["MOST_TRIES", "MOST_TRIES_IN_KIT", "mended", "tries_for_each"]

GRAVE: Final = frozenset({Severity.FAIL, Severity.UNKNOWN})
"""What is not proved."""

AMISS: Final = GRAVE | {Severity.WARNING}
"""What is at least warned of."""

MOST_TRIES: Final = 40
"""So many changes are built and proved for one finding, and no more."""

MOST_TRIES_IN_KIT: Final = 400
"""So many for all the findings of a kit, shared out evenly; but for each finding at least `FEWEST_TRIES`."""

FEWEST_TRIES: Final = 8

MOST_STEPS: Final = 3
"""So many changes are made together, each for what the one before it spoils."""

Prover = Callable[[BuiltKit], Iterable[Finding]]
"""What gives the findings of a kit, one by one: it is asked for no more once it is known what a change does."""

Key = tuple[str, str]


def tries_for_each(findings: int) -> int:
    """How many changes are tried for each of so many findings of a kit."""
    return max(min(MOST_TRIES, MOST_TRIES_IN_KIT // max(findings, 1)), FEWEST_TRIES)


def mended(
    built: BuiltKit, finding: Finding, before: Sequence[Finding], prove: Prover, *, tries: int = MOST_TRIES
) -> Finding:
    """The finding with a change after which it is gone and nothing new fails. Where none of the likely changes does it, and it fails or
    was not decided, with what the maker can do. At most so many changes are tried.
    """
    found = search(built, finding, before, prove, tries)
    if isinstance(found, Mends):
        return replace(finding, fix=told(found, finding))
    if finding.severity not in GRAVE:
        return finding
    return replace(finding, advice=advice(built, finding, prove, None if found is None else (found.fix, found.harm)))


@dataclass(frozen=True, eq=False, slots=True)
class Mends:
    """A change after which a finding is gone and nothing new fails.

    `left` is what is warned of in the kit built `after` it: of the finding itself, of what else was amiss in the same way with the same
    things, or anew of another fit; None where nothing is. `makings` are those of the fit once it is made.
    """

    fix: Fix
    after: BuiltKit
    left: Finding | None
    makings: Makings | None


@dataclass(frozen=True, eq=False, slots=True)
class NearMiss:
    """A change after which a finding is gone, but something else fails: `harm`, in the kit built so."""

    fix: Fix
    after: BuiltKit
    harm: Finding


def search(
    built: BuiltKit, finding: Finding, before: Sequence[Finding], prove: Prover, tries: int
) -> Mends | NearMiss | None:
    """The first change that mends a finding wholly, or else the first that mends it, made better if one more change does it; with more
    changes made at once only where none does.

    Where nothing mends it, the first change that would if it spoilt nothing else.
    """
    harms, seen, first_miss = Harm.of(finding, before), set[frozenset[Change]](), None
    is_grave = finding.severity in GRAVE
    for begun in (likely_fixes(built, finding), last_resorts(built, finding)):
        waiting = begun
        for _ in range(MOST_STEPS if is_grave else 2):
            misses: list[NearMiss] = []
            second_best: Mends | None = None
            for fix in islice(not_seen(waiting, seen), tries - len(seen)):
                outcome = tried(built, fix, harms, prove)
                if isinstance(outcome, NearMiss):
                    misses.append(outcome)
                elif outcome is not None and outcome.left is None:
                    return outcome
                else:
                    second_best = second_best or outcome
            if second_best is not None:
                more = chain(followed_on(second_best), followed_up(built, misses, whatever=False))
                others = islice(not_seen(more, seen), max(tries - len(seen), 0))
                return bettered(built, second_best, others, harms, prove)
            first_miss = first_miss or next(iter(misses), None)
            waiting = followed_up(built, misses, whatever=is_grave)
    return first_miss


def followed_on(mends: Mends) -> Iterator[Fix]:
    """Changes for what is left to be warned of after a change, made with it or in its place."""
    first = {(change.name, change.key): change for change in mends.fix.changes}
    for then in likely_fixes(mends.after, mends.left) if mends.left is not None else ():
        keys = {(change.name, change.key) for change in then.changes}
        if first.keys() <= keys:
            yield then
        elif not first.keys() & keys:
            yield Fix(f"{mends.fix.sentence} {then.sentence}", (*mends.fix.changes, *then.changes))


def bettered(built: BuiltKit, mends: Mends, others: Iterable[Fix], harms: Harm, prove: Prover) -> Mends:
    """The first of some other changes that mends wholly what a change mends, or else that change."""
    for fix in others:
        outcome = tried(built, fix, harms, prove)
        if isinstance(outcome, Mends) and outcome.left is None:
            return outcome
    return mends


def not_seen(fixes: Iterable[Fix], seen: set[frozenset[Change]]) -> Iterator[Fix]:
    """The fixes that make other changes than those seen before; each is then seen."""
    for fix in fixes:
        said = frozenset(fix.changes)
        if said not in seen:
            seen.add(said)
            yield fix


def tried(built: BuiltKit, fix: Fix, harms: Harm, prove: Prover) -> Mends | NearMiss | None:
    """What comes of a change; None where it cannot be built or the finding is still there."""
    try:
        after = build(changed(built.kit, fix.changes))
    except (Mistake, Mistakes):
        return None
    harm: Finding | None = None
    makings: Makings | None = None
    left: Finding | None = None
    is_gone = False
    for found in prove(after):
        key = key_of(found)
        if key == harms.mends:
            if found.severity in harms.gone:
                return None
            is_gone, makings = True, makings or found.makings
        elif harm is not None and is_gone and found.about != harms.mends[1]:
            break
        elif found.severity in harms.levels and found.severity.rank > harms.was.get(key, -1):
            harm = harm or found
        is_new_of_a_fit = found.makings is not None and found.severity.rank > harms.warned.get(key, -1)
        if found.severity in AMISS and (key in harms.alike or is_new_of_a_fit):
            left = left or found
    return Mends(fix, after, left, makings) if harm is None else NearMiss(fix, after, harm)


def followed_up(built: BuiltKit, misses: Sequence[NearMiss], *, whatever: bool) -> Iterator[Fix]:
    """Changes that mend what each of these spoils, made with it: what goes over or round it made to fit, and then `whatever` it is."""
    yield from chain.from_iterable(with_its_covers(built, miss.fix, miss.after) for miss in misses)
    for miss in misses if whatever else ():
        done = {(change.name, change.key) for change in miss.fix.changes}
        for follows in likely_fixes(miss.after, miss.harm):
            if not done & {(change.name, change.key) for change in follows.changes}:
                yield Fix(f"{miss.fix.sentence} {follows.sentence}", (*miss.fix.changes, *follows.changes))


def told(mends: Mends, finding: Finding) -> Fix:
    """The fix of a finding; of a warning about a fit with the share of makes that fit once it is made."""
    fix, makings = mends.fix, mends.makings
    if finding.severity in GRAVE or makings is None or (finding.makings is not None and finding.makings.least >= 0):
        return fix
    share = "every make" if makings.least >= 0 else f"{percent(1 - makings.too_tight)} of all makes"
    return replace(fix, sentence=f"{fix.sentence.removesuffix('.')}: then it fits in {share}.")


@dataclass(frozen=True, slots=True)
class Harm:
    """What tells against a change that is to mend a finding: that it is there still, or that something fails that did not fail before.

    For a warning or a note: that something is a warning that was none. `gone` are the severities that the finding may not have, `levels`
    those that count of others, `was` says how grave what was found before is, by what it is about, `warned` the same with what was only
    warned of, and `alike` what was amiss in the same way with the same things.
    """

    mends: Key
    gone: frozenset[Severity]
    levels: frozenset[Severity]
    was: Mapping[Key, int]
    warned: Mapping[Key, int]
    alike: frozenset[Key]

    @classmethod
    def of(cls, finding: Finding, before: Sequence[Finding]) -> Harm:
        """What tells against a change that is to mend this finding of a kit with all these."""
        levels = GRAVE if finding.severity in GRAVE else AMISS
        alike = [each for each in before if each.severity in levels and way_of(each) == way_of(finding)]
        return cls(
            key_of(finding),
            levels | {finding.severity},
            levels,
            gravest(before, levels),
            gravest(before, AMISS),
            frozenset({key_of(finding), *map(key_of, alike)}),
        )


def gravest(findings: Iterable[Finding], levels: Collection[Severity]) -> dict[Key, int]:
    """How grave the findings of these severities are, by what they are about; of several the gravest."""
    found: dict[Key, int] = {}
    for each in findings:
        if each.severity in levels:
            found[key_of(each)] = max(each.severity.rank, found.get(key_of(each), 0))
    return found


def key_of(finding: Finding) -> Key:
    """What makes a finding the same one in two proofs."""
    return finding.code, finding.about


def way_of(finding: Finding) -> Key:
    """In which way a finding is amiss, and with what: a fit along the other axis is the same way, and so is a print on another face."""
    way = "print-up" if finding.code.startswith("print-up") else finding.code.partition("-fit-")[0]
    return way, finding.about
