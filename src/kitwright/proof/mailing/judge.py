"""What a piece is to a service, why it is no cheaper, and how near the next limit is."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from kitwright.measure import MM_PER_INCH, Ruler, Unit, format_length
from kitwright.proof.mailing.piece import Feature, MailPiece, exact
from kitwright.proof.mailing.service import (
    Clause,
    Condition,
    Effect,
    Kind,
    MailClass,
    Quantity,
    Range,
    Service,
    Sides,
    Smallest,
)
from kitwright.proof.mailing.weight import GRAMS

__all__ = ["Reason", "Verdict", "judge", "judge_all"]

RULERS: Final = {
    Unit.INCH: Ruler(Unit.INCH, MM_PER_INCH / 16),
    Unit.MILLIMETRE: Ruler(Unit.MILLIMETRE, Fraction(1)),
    Unit.CENTIMETRE: Ruler(Unit.CENTIMETRE, Fraction(1)),
}
UNKNOWN_WEIGHT: Final = "The weight is not known, so that the piece was judged by its sizes alone."


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a class was missed, what a non-machinable letter misses, or how near a limit is.

    `measured`, `limit` and `margin` are in mm, grams, or plain numbers for an aspect, and None where a feature is the reason.
    The margin is negative where the limit is missed; `is_over` says then whether it was overshot.
    """

    says: str
    clause: Clause
    quantity: Quantity | None = None
    measured: float | None = None
    limit: float | None = None
    margin: float | None = None
    is_over: bool = False


@dataclass(frozen=True, slots=True)
class Verdict:
    """What one piece is to one service.

    `class_name` is the service's own word for it (empty if it is too small or too big). `reasons` say why it is too small, too big
    or non-machinable; `missed` says for each class tried before, and for all classes if none fits, why the piece is not of it.
    `tightest` is the upper limit of its class that it comes nearest to, in parts of that limit.
    """

    service: str
    place: str
    kind: Kind
    class_name: str
    clause: Clause
    reasons: tuple[Reason, ...]
    missed: tuple[tuple[str, tuple[Reason, ...]], ...]
    doubts: tuple[str, ...]
    tightest: Reason | None


def judge_all(piece: MailPiece, services: Iterable[Service]) -> tuple[Verdict, ...]:
    """What the piece is to each of the services, in their order."""
    return tuple(judge(piece, service) for service in services)


def judge(piece: MailPiece, service: Service) -> Verdict:
    """What the piece is to this service. Both ends of every range pass; all comparisons are exact."""
    doubts = (UNKNOWN_WEIGHT,) if piece.weight is None else ()
    small = tuple(_below_smallest(piece, service)) if service.smallest else ()
    if service.smallest and small:
        return _verdict(service, Kind.TOO_SMALL, "", service.smallest.clause, reasons=small, doubts=doubts)
    missed: list[tuple[str, tuple[Reason, ...]]] = []
    for row in service.classes:
        if piece.shape not in row.shapes:
            continue
        why = tuple(_misses(piece, row, service.unit))
        if why:
            missed.append((row.name, why))
            continue
        marks = tuple(_unmet(piece, row, Effect.NON_MACHINABLE, service.unit))
        return _verdict(
            service,
            Kind.NON_MACHINABLE if marks else row.kind,
            row.name,
            marks[0].clause if marks else row.clause,
            reasons=marks,
            missed=missed,
            doubts=doubts,
            tightest=_tightest(piece, row, service.unit),
        )
    last = next(row for row in reversed(service.classes) if piece.shape in row.shapes)
    why = missed[-1][1]
    kind = Kind.TOO_BIG if any(reason.is_over for reason in why) else Kind.TOO_SMALL
    return _verdict(service, kind, "", last.clause, reasons=why, missed=missed, doubts=doubts)


def _verdict(
    service: Service,
    kind: Kind,
    class_name: str,
    clause: Clause,
    *,
    reasons: tuple[Reason, ...],
    doubts: tuple[str, ...],
    missed: Iterable[tuple[str, tuple[Reason, ...]]] = (),
    tightest: Reason | None = None,
) -> Verdict:
    return Verdict(
        service=service.name,
        place=service.place,
        kind=kind,
        class_name=class_name,
        clause=clause,
        reasons=reasons,
        missed=tuple(missed),
        doubts=doubts,
        tightest=tightest,
    )


def _quantities(piece: MailPiece, sides: Sides) -> dict[Quantity, Fraction]:
    """What can be measured of the piece; an aspect is kept squared, a weight that is not known is left out."""
    length, height, thickness = piece.by_address if sides is Sides.ADDRESS else piece.by_size
    found = {
        Quantity.LENGTH: length,
        Quantity.HEIGHT: height,
        Quantity.THICKNESS: thickness,
        Quantity.ASPECT: (length / height) ** 2,
        Quantity.LENGTH_PLUS_GIRTH: piece.length_plus_girth,
        Quantity.SUM_OF_SIDES: length + height + thickness,
    }
    if piece.weight is not None:
        found[Quantity.WEIGHT] = exact(piece.weight)
    return found


def _below_smallest(piece: MailPiece, service: Service) -> Iterator[Reason]:
    rule = service.smallest
    if rule is None or piece.shape not in rule.shapes or not _smallest_holds(piece, rule):
        return
    sizes = zip(
        (Quantity.LENGTH, Quantity.HEIGHT, Quantity.THICKNESS),
        piece.by_size,
        (rule.length, rule.height, rule.thickness),
        strict=True,
    )
    for quantity, measured, least in sizes:
        if measured < least:
            yield Reason(
                says=f"The {quantity.words} is {_length(measured, service.unit)}; less than "
                f"{_length(least, service.unit)} may not be mailed.",
                clause=rule.clause,
                quantity=quantity,
                measured=float(measured),
                limit=float(least),
                margin=float(measured - least),
            )


def _smallest_holds(piece: MailPiece, rule: Smallest) -> bool:
    return rule.thickness_to is None or piece.by_size[2] <= rule.thickness_to


def _misses(piece: MailPiece, row: MailClass, unit: Unit) -> Iterator[Reason]:
    found = _quantities(piece, row.sides)
    for quantity, span in row.ranges:
        if quantity in found and not span.has(found[quantity]):
            yield _out_of_range(quantity, found[quantity], span, row.clause, unit)
    yield from _unmet(piece, row, Effect.NEXT_CLASS, unit)


def _unmet(piece: MailPiece, row: MailClass, effect: Effect, unit: Unit) -> Iterator[Reason]:
    for condition in row.conditions:
        if condition.effect is effect:
            yield from _missed_condition(piece, row, condition, unit)


def _missed_condition(piece: MailPiece, row: MailClass, condition: Condition, unit: Unit) -> Iterator[Reason]:
    found = _quantities(piece, row.sides)
    if _is_asked(condition, found):
        for quantity, span in condition.ranges:
            if quantity in found and not span.has(found[quantity]):
                reason = _out_of_range(quantity, found[quantity], span, condition.clause, unit)
                yield replace(reason, says=f"{condition.says} {reason.says}{_way_out(quantity, reason, found, unit)}")
    ticked = sorted(condition.without & piece.features)
    if ticked:
        yield Reason(says=f"{condition.says} Ticked: {', '.join(ticked)}.", clause=condition.clause)
    length, height, _ = piece.by_address
    if condition.address_along_long_side and length < height:
        yield Reason(says=condition.says, clause=condition.clause)
    radius = dict(condition.corner_radius).get(piece.shape)
    if radius is not None and exact(piece.corner_radius) > radius:
        yield Reason(says=condition.says, clause=condition.clause)
    if condition.most_unevenness is not None and _is_too_uneven(piece, condition.most_unevenness):
        yield Reason(says=condition.says, clause=condition.clause)


def _way_out(quantity: Quantity, reason: Reason, found: dict[Quantity, Fraction], unit: Unit) -> str:
    """For an aspect that is missed: the length that this height asks for, rounded to the ruler on the side that passes."""
    if quantity is not Quantity.ASPECT or reason.limit is None:
        return ""
    height = found[Quantity.HEIGHT]
    length = height * exact(reason.limit)
    marks = RULERS[unit]
    wanted = (
        f"at most {marks.with_unit(marks.down(length))}"
        if reason.is_over
        else f"at least {marks.with_unit(marks.up(length))}"
    )
    return f" At a height of {_length(height, unit)} the length must be {wanted}."


def _is_asked(condition: Condition, found: dict[Quantity, Fraction]) -> bool:
    limits = (
        (Quantity.LENGTH, condition.if_length_over),
        (Quantity.HEIGHT, condition.if_height_over),
    )
    given = [(quantity, limit) for quantity, limit in limits if limit is not None]
    return not given or any(found[quantity] > limit for quantity, limit in given)


def _is_too_uneven(piece: MailPiece, most: Fraction) -> bool:
    if piece.unevenness is not None:
        return exact(piece.unevenness) > most
    return Feature.UNEVEN in piece.features and piece.by_size[2] > most


def _out_of_range(quantity: Quantity, measured: Fraction, span: Range, clause: Clause, unit: Unit) -> Reason:
    is_over = measured > span.end
    plain, limit = _plain(quantity, measured), _plain(quantity, span.end if is_over else span.start)
    return Reason(
        says=f"The {quantity.words} is {_shown(quantity, measured, unit, span)}, "
        f"{'more' if is_over else 'less'} than {span.written[1 if is_over else 0]}.",
        clause=clause,
        quantity=quantity,
        measured=plain,
        limit=limit,
        margin=-abs(plain - limit),
        is_over=is_over,
    )


def _tightest(piece: MailPiece, row: MailClass, unit: Unit) -> Reason | None:
    found = _quantities(piece, row.sides)
    bounded = [
        (quantity, found[quantity], span)
        for quantity, span in row.ranges
        if quantity in found and quantity is not Quantity.ASPECT and span.end > 0
    ]
    if not bounded:
        return None
    quantity, measured, span = max(bounded, key=lambda entry: entry[1] / entry[2].end)
    return Reason(
        says=f"The {quantity.words} is {_shown(quantity, measured, unit, span)} of at most {span.written[1]}.",
        clause=row.clause,
        quantity=quantity,
        measured=_plain(quantity, measured),
        limit=_plain(quantity, span.end),
        margin=float(span.end - measured),
    )


def _plain(quantity: Quantity, value: Fraction) -> float:
    return math.sqrt(value) if quantity is Quantity.ASPECT else float(value)


def _length(value: Fraction, unit: Unit) -> str:
    return f"{format_length(value, unit)} {unit.value}"


def _shown(quantity: Quantity, value: Fraction, unit: Unit, span: Range) -> str:
    """A measured value as a person reads it, in the unit of the rule."""
    if quantity is Quantity.ASPECT:
        return f"{math.sqrt(value):.3f}"
    if quantity is not Quantity.WEIGHT:
        return _length(value, unit)
    weight_unit = span.written[1].rsplit(" ", 1)[-1]
    return f"{float(value / GRAMS[weight_unit]):.2f} {weight_unit}".replace(".00 ", " ")
