"""Mending a kit: the fixes that its proof offers are made one by one, and each time it is proved again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from kitwright.errors import Mistake, Mistakes
from kitwright.findings import Finding, Fix, Severity
from kitwright.kit.build import build
from kitwright.kit.built import BuiltKit
from kitwright.kit.change import changed
from kitwright.kit.part_proof import PartProof, part_proofs
from kitwright.kit.prove import prove, tried_findings
from kitwright.proof import Proof
from kitwright.proof.tolerance import Makes

__all__ = ["MendedKit", "mend_kit"]

MOST_FIXES: Final = 50
"""A kit that needs more changes than this is better looked at by its maker."""

MENDED: Final = frozenset({Severity.FAIL, Severity.UNKNOWN})
"""What is always mended."""


@dataclass(frozen=True, eq=False)
class MendedKit:
    """A kit after mending, what was changed in it, in order, its proof now, and its parts by themselves."""

    built: BuiltKit
    fixes: tuple[Fix, ...]
    proof: Proof
    own: Mapping[str, PartProof]


def mend_kit(
    built: BuiltKit,
    *,
    proof: Proof | None = None,
    warnings: bool = False,
    may: Callable[[Fix], bool] = lambda _: True,
) -> MendedKit:
    """Make the proved fixes of a kit until none is left. `proof` is the kit's, where it is known.

    `warnings`: not only of what fails, also of what is a warning. Of several fixes the one is made after which the least fails, and
    then the least is warned of; none makes a part of another form. Only fixes are made that `may` be.
    """
    levels, makes = MENDED | ({Severity.WARNING} if warnings else set()), Makes()
    own = part_proofs(built)
    now = MendedKit(built, (), prove(built, known=own) if proof is None else proof, own)
    while len(now.fixes) < MOST_FIXES:
        offered = dict.fromkeys(each.fix for each in now.proof.findings if each.fix and each.severity in levels)
        tried = [
            (amiss(tried_findings(made, known=now.own, makes=makes), warnings=warnings), made, fix)
            for fix in offered
            if not is_another_design(fix) and may(fix) and (made := built_with(now.built, fix)) is not None
        ]
        if not tried:
            return now
        least, made, fix = min(tried, key=lambda each: each[0])
        if least >= amiss(tried_findings(now.built, known=now.own, makes=makes), warnings=warnings):
            return now
        own = part_proofs(made, like=now.own)
        now = MendedKit(made, (*now.fixes, fix), prove(made, known=own), own)
    return now


def built_with(built: BuiltKit, fix: Fix) -> BuiltKit | None:
    """The kit with a fix made; None where it cannot be built so."""
    try:
        return build(changed(built.kit, fix.changes))
    except (Mistake, Mistakes):
        return None


def is_another_design(fix: Fix) -> bool:
    """Whether a fix makes something of another form: that is for the maker to choose."""
    return any(change.key == "form" for change in fix.changes)


def amiss(findings: Iterable[Finding], *, warnings: bool) -> tuple[int, int]:
    """How many findings fail or were not decided and, where they count, how many warn."""
    found = Counter(each.severity for each in findings)
    return sum(found[each] for each in MENDED), found[Severity.WARNING] if warnings else 0
