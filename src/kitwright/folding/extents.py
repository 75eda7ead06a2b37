"""Inside and outside sizes measured on the folded part, thickness and layers reckoned in and listed one by one. Lengths in mm."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from kitwright.folding.layers import LayerModel, layers
from kitwright.folding.poses import Folded
from kitwright.paper import Paper, inner_loss, layers_thickness, outer_gain
from kitwright.pattern import Extent, PanelRef

__all__ = ["MeasuredExtent", "Papers", "Term", "measure_extent", "paper_of"]

Papers = Paper | Mapping[str, Paper]
"""The paper of a part: one for all, or one for each blank (or single copy) by its name."""

ALONG: Final = 0.05
"""A panel steeper than this to an axis (cosine; about 87 degrees) cannot bound a size along it."""


@dataclass(frozen=True, slots=True)
class Term:
    """One thing that thickness does to a size: which panel, at which end, how much (mm, below zero where it takes away).

    `is_layer` is false for the end panel's own card beyond its hinge, true for a layer that lies on it.
    """

    panel: PanelRef
    at_low_end: bool
    amount: float
    is_layer: bool


@dataclass(frozen=True, slots=True)
class MeasuredExtent:
    """A size of the folded part: `nominal` from plane to plane without thickness, the terms of thickness, and `net`, their sum.

    `start` is where the plane at the low end lies along the axis in the world.
    """

    extent: Extent
    nominal: float
    terms: tuple[Term, ...]
    start: float

    @property
    def net(self) -> float:
        """The size with everything reckoned in, mm."""
        return self.nominal + math.fsum(term.amount for term in self.terms)

    @property
    def middle(self) -> float:
        """Where the middle of the size lies along its axis, everything reckoned in, mm."""
        return self.start - math.fsum(term.amount for term in self.terms if term.at_low_end) + self.net / 2


def paper_of(papers: Papers, folded: Folded, copy: str) -> Paper:
    """The paper that a copy of a blank is cut from. Raises `KeyError` if the mapping names neither the copy nor its blank."""
    if isinstance(papers, Paper):
        return papers
    return papers[copy] if copy in papers else papers[folded.pattern.blank_of(copy).name]


def measure_extent(
    folded: Folded, extent: Extent, papers: Papers, *, outside: bool, model: LayerModel | None = None
) -> MeasuredExtent:
    """Measure an extent on a folded part: between the inner faces of its two ends, or over their outer faces.

    A panel at an end counts with its own card beyond the hinge (`inner_loss`, `outer_gain`) and with the layers on that side of it
    where they are thickest; an edge counts as it is. The ends count in the order in which they lie in the world, whichever is named
    first. Give the layer `model` if it is at hand. Raises `ValueError` where an end panel runs along the axis.
    """
    axis = extent.axis.place
    model = model or layers(folded)
    by_place = sorted((extent.low, extent.high), key=lambda end: sum(folded.span(end, axis)))
    low, high = (folded.span(end, axis) for end in by_place)
    terms: list[Term] = []
    for end, at_low_end in zip(by_place, (True, False), strict=True):
        if isinstance(end, PanelRef):
            terms.extend(end_terms(folded, model, end, papers, axis=axis, at_low_end=at_low_end, outside=outside))
    start, stop = (low[0], high[1]) if outside else (low[1], high[0])
    return MeasuredExtent(extent, stop - start, tuple(terms), start)


def end_terms(
    folded: Folded, model: LayerModel, panel: PanelRef, papers: Papers, *, axis: int, at_low_end: bool, outside: bool
) -> list[Term]:
    """What the card at one end, and the layers on it, do to a size."""
    slant = float(folded.normal(panel)[axis])
    if abs(slant) < ALONG:
        raise ValueError(f"{panel} runs along the axis and cannot be the end of a size along it")

    def thickness(ref: PanelRef) -> float:
        return layers_thickness(1, paper_of(papers, folded, ref.blank))

    sign = 1.0 if outside else -1.0
    own = (outer_gain if outside else inner_loss)(paper_of(papers, folded, panel.blank))
    towards_high = at_low_end is not outside  # the side of the panel that counts
    found = model.thickest(panel, front=(slant > 0) is towards_high, thickness=thickness)
    return [
        Term(panel, at_low_end, sign * own / abs(slant), is_layer=False),
        *(Term(ref, at_low_end, sign * thickness(ref) / abs(slant), is_layer=True) for ref in found),
    ]
