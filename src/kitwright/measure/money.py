"""Money: whole minor units (cents, pence) of a named currency; never a float."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import total_ordering

from kitwright.errors import Mistake, Unreadable

__all__ = ["Money", "parse_money"]


@total_ordering
@dataclass(frozen=True, slots=True)
class Money:
    """An amount in minor units, such as 110 for 1.10, and its currency code (ISO 4217)."""

    currency: str
    minor: int

    def __add__(self, other: Money) -> Money:
        self.same_currency(other)
        return Money(self.currency, self.minor + other.minor)

    def __mul__(self, times: int) -> Money:
        return Money(self.currency, self.minor * times)

    def __lt__(self, other: Money) -> bool:
        self.same_currency(other)
        return self.minor < other.minor

    def same_currency(self, other: Money) -> None:
        """Raise `Mistake` unless `other` is in the same currency."""
        if other.currency != self.currency:
            raise Mistake(
                f"{self.currency} and {other.currency} cannot be reckoned together.", do="Use one currency in a kit."
            )

    def __str__(self) -> str:
        return f"{Decimal(self.minor) / 100:.2f} {self.currency}"


def parse_money(text: str, currency: str) -> Money:
    """Read an amount such as `1.10` or `12`, zero or more, at most two decimals. Raises `Mistake`."""
    if not re.fullmatch(r"\d{1,9}(?:\.\d{1,2})?", text.strip()):
        raise Unreadable(
            f"{text.strip()!r} is not an amount of money.", do="Write it like 1.10, without a currency sign."
        )
    return Money(currency, int(Decimal(text.strip()) * 100))
