"""Do the classes of a service hang together? No gap between their ranges, and no class that can never apply."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from kitwright.errors import Mistake, Place
from kitwright.proof.mailing.piece import Shape
from kitwright.proof.mailing.service import Effect, MailClass, Quantity, Range, Service

__all__ = ["coverage_mistakes"]

LADDER: Final = (Quantity.LENGTH, Quantity.HEIGHT, Quantity.THICKNESS, Quantity.WEIGHT)


def coverage_mistakes(service: Service) -> Iterator[Mistake]:
    """What is missing between the classes, and what overlaps; each mistake names its row."""
    named: dict[str, int] = {}
    for number, row in enumerate(service.classes, start=1):
        if row.name in named:
            yield _mistake(number, row, f"Class {named[row.name]} has the same name.", "Give each class its own name.")
        named.setdefault(row.name, number)
    for shape in Shape:
        taking = [(number, row) for number, row in enumerate(service.classes, start=1) if shape in row.shapes]
        if not taking:
            yield Mistake(
                f"No class takes a {shape}.", do="Add it to the shapes of a class.", place=Place(spot=service.name)
            )
    yield from _gaps(service)
    yield from _covered(service)


def _gaps(service: Service) -> Iterator[Mistake]:
    told: set[tuple[int, Quantity]] = set()
    for shape in Shape:
        taking = [(number, row) for number, row in enumerate(service.classes, start=1) if shape in row.shapes]
        for quantity in LADDER:
            ladder = sorted(
                ((_range(row, quantity), number, row) for number, row in taking),
                key=lambda step: (step[0].start, step[0].end, step[1]),
            )
            for place, (step, number, row) in enumerate(ladder[1:], start=1):
                reached = max((lower for lower, _, _ in ladder[:place]), key=lambda lower: lower.end)
                if step.start > reached.end and (number, quantity) not in told:
                    told.add((number, quantity))
                    yield _mistake(
                        number,
                        row,
                        f"The range of {quantity} from {reached.written[1]} to {step.written[0]} is missing for a {shape}.",
                        "Let one class begin where another ends.",
                    )


def _covered(service: Service) -> Iterator[Mistake]:
    for number, row in enumerate(service.classes, start=1):
        for earlier_number, earlier in enumerate(service.classes[: number - 1], start=1):
            if _covers(earlier, row):
                yield _mistake(
                    number,
                    row,
                    f'Its ranges overlap those of class {earlier_number}, "{earlier.name}", so wholly that it never applies.',
                    "Put the narrower class first, or change its ranges.",
                )


def _covers(earlier: MailClass, later: MailClass) -> bool:
    if not later.shapes <= earlier.shapes or later.sides is not earlier.sides:
        return False
    if any(condition.effect is Effect.NEXT_CLASS for condition in earlier.conditions):
        return False
    own = dict(later.ranges)
    return all(quantity in own and span.covers(own[quantity]) for quantity, span in earlier.ranges)


def _range(row: MailClass, quantity: Quantity) -> Range:
    return dict(row.ranges)[quantity]


def _mistake(number: int, row: MailClass, what: str, do: str) -> Mistake:
    return Mistake(what, do=do, place=Place(spot=f'class {number}, "{row.name}"'))
