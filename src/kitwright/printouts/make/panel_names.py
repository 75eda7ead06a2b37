"""Where the names of panels stand on the drawing of a blank: inside their panel, as large as fits, or led out of it. Millimetres."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import Final

from shapely import box, prepare
from shapely.ops import polylabel

from kitwright.pattern import Blank, Panel
from kitwright.printouts.annotate import label_height
from kitwright.printouts.drawing import Callouts, Label, Mark, Point
from kitwright.printouts.lettering import text_width

__all__ = ["panel_name_labels", "panel_names"]

CLEAR: Final = 0.9
"""The share of the free place that a name may take, so that it does not touch the lines round it."""

LEVEL: Final = 0.5
"""A name lies level as long as its letters are not smaller than this share of upright ones."""

WAY_OUT: Final = 2.0
"""How far beyond the blank the names that are led out begin, mm of paper."""

FINE: Final = 16
"""Halvings in the search for the largest letters: to a thousandth of a panel."""


def panel_name_labels(blank: Blank, *, hatched: Collection[str] = ()) -> Iterator[Label]:
    """A label for every panel, in their order, its room wholly inside the panel's outline; the names of `hatched` panels lie on a plate."""
    for panel in blank.panels:
        words = plain_name(panel)
        at, room, angle = best_place(panel, words)
        yield Label(words, at, angle=angle, room=room, plate=panel.name in hatched)


def panel_names(labels: Sequence[Label], size: tuple[float, float]) -> Iterator[Mark]:
    """The names of panels on a blank of this size, those that fit nowhere led out above it or at its right, whichever is nearer.

    At the left and below stand the numbers of the scores. Panels with one name have one way out.
    """
    width, height = size
    above: dict[str, bool] = {}
    for label in labels:
        above.setdefault(label.text, height - label.at[1] <= width - label.at[0])
    up = tuple(label for label in labels if above[label.text])
    right = tuple(label for label in labels if not above[label.text])
    if up:
        yield Callouts(up, (0.0, height), (width, height), offset=WAY_OUT)
    if right:
        yield Callouts(right, (width, 0.0), (width, height), offset=-WAY_OUT)


def plain_name(panel: Panel) -> str:
    """The name of a panel for people: tabs that are all alike are not told apart by their numbers."""
    return panel.name.rstrip(" 0123456789") or panel.name


def best_place(panel: Panel, words: str) -> tuple[Point, tuple[float, float], float]:
    """The middle of the name, its room along and across the words, and their angle (0 or 90)."""
    shape = panel.shape
    prepare(shape)
    left, low, right, high = shape.bounds
    innermost = polylabel(shape, 0.5)
    spots = [((left + right) / 2, (low + high) / 2), (shape.centroid.x, shape.centroid.y), (innermost.x, innermost.y)]
    one = Label(words, (0.0, 0.0), size=1.0)
    along, across = text_width(words, 1.0), label_height(one)

    def letters(spot: Point, wide: float, tall: float) -> float:
        """The largest letters for which the box of the name lies inside the panel."""
        small, large = 0.0, max(right - left, high - low)
        for _ in range(FINE):
            size = (small + large) / 2
            half = (size * wide / 2, size * tall / 2)
            inside = shape.contains(box(spot[0] - half[0], spot[1] - half[1], spot[0] + half[0], spot[1] + half[1]))
            small, large = (size, large) if inside else (small, size)
        return small

    level = max(((letters(spot, along, across), -rank) for rank, spot in enumerate(spots)), key=favoured)
    upright = max(((letters(spot, across, along), -rank) for rank, spot in enumerate(spots)), key=favoured)
    lies = level[0] >= LEVEL * upright[0]
    size, rank = level if lies else upright
    return spots[-rank], (size * along * CLEAR, size * across * CLEAR), 0.0 if lies else 90.0


def favoured(found: tuple[float, int]) -> tuple[float, int]:
    """How good a place is: clearly larger letters count, then the order of the places."""
    size, rank = found
    return (round(size / 1.5), rank)
