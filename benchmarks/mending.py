"""What becomes of kits with one thing wrong: how much of what fails has a fix, how much advice; and how long a proof with fixes takes."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Iterator
from random import Random

from tests.kit.documents import head, part
from tests.kit.spoilt import WRONG, faults_of, spoilt_kit

from kitwright.errors import Mistake, Mistakes
from kitwright.findings import Severity
from kitwright.kit import build, prove, read_kit
from kitwright.kit.mending import MOST_TRIES, MOST_TRIES_IN_KIT

__all__ = ["BENCHMARKS"]

OF_EACH = 50
"""Kits of each kind that are made."""

GRAVE = (Severity.FAIL, Severity.UNKNOWN)


def fixes() -> Iterator[str]:
    """Six hundred kits spoilt at random: every finding that fails has a fix, which is written into the document and proved, or advice."""
    counts: Counter[tuple[str, str]] = Counter()
    kits: Counter[str] = Counter()
    faults: list[str] = []
    for number in range(OF_EACH * len(WRONG)):
        text = spoilt_kit(Random(number), WRONG[number % len(WRONG)])
        try:
            proof = prove(build(read_kit(text)))
        except (Mistake, Mistakes):
            kits["cannot be built"] += 1
            continue
        amiss = [each for each in proof.findings if each.severity in GRAVE]
        kits["fail in nothing" if not amiss else "fail in one thing" if len(amiss) == 1 else "fail in more"] += 1
        faults += [f"kit {number}: {fault}" for fault in faults_of(text, proof)]
        for each in amiss:
            how = "fix" if each.fix else "advice" if each.advice else "neither"
            counts[each.code if len(amiss) == 1 else "in kits that fail in more than one thing", how] += 1
    yield ", ".join(f"{count} {word}" for word, count in sorted(kits.items()))
    for code in sorted({code for code, _ in counts}):
        yield f"{code:<42}" + ", ".join(f"{counts[code, how]:>4} {how}" for how in ("fix", "advice", "neither"))
    yield f"{len(faults)} faults in fixes and advice"
    yield from faults


def fixes_of_many_parts() -> Iterator[str]:
    """Kits of five and of forty parts with more and more that fails, proved without fixes and with them; seconds of processor time."""
    yield f"at most {MOST_TRIES} tries for a finding, about {MOST_TRIES_IN_KIT} for a kit"
    for sheet, is_spoilt in (("24 x 24", False), ("24 x 24", True), ("6 x 6", True)):
        for groups in (1, 8):
            built = build(read_kit(groups_of_five(groups, sheet=sheet, is_spoilt=is_spoilt)))
            started = time.process_time()
            prove(built, with_fixes=False)
            bare = time.process_time()
            proof = prove(built)
            amiss = [each for each in proof.findings if each.severity in GRAVE]
            yield (
                f"{5 * groups:>3} parts, {len(amiss):>2} findings fail, {sum(each.fix is not None for each in amiss):>2} with a fix: "
                f"{bare - started:5.2f} s without, {time.process_time() - bare:5.2f} s with fixes"
            )


def groups_of_five(groups: int, *, sheet: str, is_spoilt: bool) -> str:
    """A kit of groups of a card, its envelope, the tray that both lie in, its lid and its band, all with a one-way print on one side."""
    text = head(sheet=sheet, more='print = "one-way"')
    for group in range(groups):
        card, envelope, tray = f"card {group}", f"envelope {group}", f"tray {group}"
        low, small = ({"height": "3/8"}, {"size": "6 x 4"}) if is_spoilt else ({}, {})
        text += part(card, "half-fold card", size="5 1/2 x 4 1/4", fold="top", quantity=4)
        text += part(envelope, "side-seam envelope", paper="thin", holds=card, quantity=4)
        text += part(tray, "tray", paper="card", holds=[card, envelope], **low)
        text += part(f"lid {group}", "lift-off lid", paper="card", covers=tray, **small)
        text += part(f"band {group}", "belly band", paper="thin", wraps=tray, height="1/2")
    return text


BENCHMARKS = {"fixes": fixes, "fixes-of-many-parts": fixes_of_many_parts}
