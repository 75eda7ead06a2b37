"""The height of a stack of flat things, with what it springs back."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from kitwright.errors import Mistake

__all__ = ["SPRINGBACK", "stack_height"]

SPRINGBACK: Final = 0.1
"""How much a loose stack stands up beyond its pressed thickness, as a share of it. Common practice, no source."""


def stack_height(layers: Iterable[tuple[int, float]], *, springback: float) -> float:
    """The height in mm of a stack of `(count, thickness)` layers, the springback (a share of the thickness) reckoned in.

    Use `SPRINGBACK` where nothing was measured. Raises `Mistake` for a count, thickness or springback below zero.

    >>> stack_height([(24, 0.3), (4, 0.5)], springback=0.0)
    9.2
    """
    height = 0.0
    for count, thickness in layers:
        if count < 0 or thickness < 0:
            raise Mistake("A layer of a stack is below zero.", do="Give how many there are and how thick one is.")
        height += count * thickness
    if springback < 0:
        raise Mistake("The springback of a stack is below zero.", do="Give it as a share, such as 0.1.")
    return height * (1 + springback)
