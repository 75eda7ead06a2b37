"""What a verifier may find wrong with a plan."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Fault", "FaultCode"]


class FaultCode(StrEnum):
    """The kinds of fault."""

    OVERHANG = "overhang"
    OVERLAP = "overlap"
    NO_THROUGH_CUT = "no-through-cut"
    CUT_OUTSIDE = "cut-outside"
    CUT_TOO_LONG = "cut-too-long"
    STRIP_TOO_NARROW = "strip-too-narrow"
    UNKNOWN_PIECE = "unknown-piece"
    WRONG_SIZE = "wrong-size"
    WRONG_TURN = "wrong-turn"
    FORBIDDEN_STOCK = "forbidden-stock"
    NOT_TOO_LARGE = "not-too-large"
    MISSING_PIECE = "missing-piece"
    SURPLUS_PIECE = "surplus-piece"
    CAN_BE_PLACED = "can-be-placed"
    UNKNOWN_STOCK = "unknown-stock"
    TOO_MANY_SHEETS = "too-many-sheets"
    WRONG_TIMES = "wrong-times"
    WRONG_OBJECTIVE = "wrong-objective"
    WRONG_VALUE = "wrong-value"
    WRONG_BOUND = "wrong-bound"
    BOUND_NOT_PROVED = "bound-not-proved"


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong with a plan: its kind, the piece or stock it is about, and a sentence."""

    code: FaultCode
    about: str
    message: str
