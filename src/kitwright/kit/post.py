"""What of a kit goes into the post, as the post office sees it: every filled envelope, and every box with its lid and contents."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from kitwright.findings import Finding
from kitwright.kit.built import BuiltKit, BuiltPart
from kitwright.kit.closed import closed
from kitwright.kit.sums import carried, lids_of, total
from kitwright.kit.things import Thing
from kitwright.paper import weight_g
from kitwright.pattern import Axis
from kitwright.proof.mailing import Feature, MailPiece, Shape, judge_all, load_services, mailing_finding

__all__ = ["PostedPiece", "kit_weight", "post_findings", "posted_pieces"]


@dataclass(frozen=True, slots=True)
class PostedPiece:
    """A piece ready for the post, and what it is called."""

    name: str
    piece: MailPiece


def post_findings(built: BuiltKit) -> tuple[Finding, ...]:
    """What every piece is to every postal service whose rules come with the program."""
    services = load_services()
    return tuple(
        mailing_finding(verdict, about=posted.name)
        for posted in posted_pieces(built)
        for verdict in judge_all(posted.piece, services)
    )


def posted_pieces(built: BuiltKit) -> tuple[PostedPiece, ...]:
    """All pieces of the kit that can be posted, in the order of its parts; the address runs along the longer side."""
    return tuple(piece for part in built.parts for piece in pieces_of(built, part))


def pieces_of(built: BuiltKit, part: BuiltPart) -> Iterator[PostedPiece]:
    """A part that holds something, ready for the post: a filled envelope, or a closed box."""
    if not part.part.holds or part.form.is_open:
        return
    weight = piece_weight(built, part)
    if part.is_flat:
        things = built.things_in(part)
        inside = math.fsum(thing.count * thing.thickness for thing in things)
        lumps = [thing.thickness for thing in things if is_lump(built, thing)]
        odd = part.part.oddities | ({Feature.LOOSE_ITEM} if lumps else frozenset())
        sides = sorted((part.outside[Axis.WIDTH].net, part.outside[Axis.HEIGHT].net))
        yield PostedPiece(
            f"{part.name}, filled",
            MailPiece(
                sides[1],
                sides[0],
                part.thickness + inside,
                weight,
                Shape.ENVELOPE,
                odd,
                unevenness=max(lumps, default=None),
            ),
        )
        return
    lid = next(iter(lids_of(built.kit, part.name)), None)
    short, middle, long = sorted(
        total(built.kit, built.by_name, closed(built.kit, built.by_name, part.name, axis)) for axis in Axis
    )
    words = f"{part.name} with {lid.name}, filled" if lid else f"{part.name}, filled"
    yield PostedPiece(words, MailPiece(long, middle, short, weight, Shape.BOX, part.part.oddities | {Feature.RIGID}))


def is_lump(built: BuiltKit, thing: Thing) -> bool:
    """Whether a thing in an envelope lies beside the cards and is neither paper nor cloth: then the envelope is thicker where it lies."""
    extra = built.kit.find_extra(thing.name)
    return extra is not None and not thing.is_flat and extra.kind not in ("paper", "fabric", "bag")


def piece_weight(built: BuiltKit, part: BuiltPart) -> float | None:
    """Grams of a part with all that it holds, covers it or goes round it; None if something in it has no known weight."""
    kit, made = built.kit, built.by_name
    over = {part.name, *(lid.name for lid in lids_of(kit, part.name))}
    weights = [(part.name, 1)]
    weights += [(each.name, 1) for each in kit.parts if {each.covers, each.wraps} & over]
    weights += [(each.name, 1) for each in kit.parts if each.on in over and each.name not in part.part.holds]
    weights += [(term.name, term.times) for name, _ in weights[1:] for term in carried(kit, name)]
    for thing in built.things_in(part):
        inner = carried(kit, thing.name, apart=part.part.holds)
        weights += [(thing.name, thing.count), *((term.name, term.times * thing.count) for term in inner)]
    total = 0.0
    for name, times in weights:
        extra = kit.find_extra(name)
        if extra is not None and extra.weight_g is None:
            return None
        total += times * (paper_weight(made[name]) if extra is None else extra.weight_g or 0.0)
    return total


def paper_weight(part: BuiltPart) -> float:
    """Grams of one piece of a part."""
    return weight_g(part.pattern.area, part.paper.gsm)


def kit_weight(built: BuiltKit) -> tuple[float, tuple[str, ...]]:
    """Grams of one whole kit, glue apart, and the names of extras that are not in it because nobody said what they weigh."""
    paper = math.fsum(paper_weight(part) * part.part.quantity for part in built.parts)
    extras = math.fsum(extra.weight_g * extra.quantity for extra in built.kit.extras if extra.weight_g is not None)
    return paper + extras, tuple(extra.name for extra in built.kit.extras if extra.weight_g is None)
