"""Where a finished part goes on another, in a sentence for the bench."""

from __future__ import annotations

from kitwright.kit import BuiltPart, Face, Goes, face_sides
from kitwright.paper import Print
from kitwright.pattern import Axis
from kitwright.plan import Plan

__all__ = ["placement_sentence"]


def placement_sentence(plan: Plan, part: BuiltPart) -> str:
    """Onto which part one is glued and how far from its edges, or which way a band goes round; empty for all others."""
    if part.part.on is not None:
        return glued_sentence(plan, part, plan.built.part(part.part.on))
    if part.part.wraps is not None:
        sentence = band_sentence(plan.built.part(part.part.wraps), part.part.goes)
        is_one_way = part.paper.print_ is Print.ONE_WAY and part.part.goes is not Goes.WALLS
        return f"{sentence} Its print stands upright on top as you look at the front." if is_one_way else sentence
    return ""


def glued_sentence(plan: Plan, part: BuiltPart, host: BuiltPart) -> str:
    """`Glue it on the card, in the middle: 1/8 in from every edge.`"""
    beside, above = (
        plan.ruler.near((side.net - part.outside[own].net) / 2)
        for (_, side), own in zip(
            face_sides(plan.built.by_name, part.part, host, is_closed=False), (Axis.WIDTH, Axis.HEIGHT), strict=True
        )
    )
    edges = (
        f"{beside} from every edge"
        if beside == above
        else f"{beside} from the left and right edges, {above} from the upper and lower edges"
    )
    return f"Glue it {'inside' if part.part.face is Face.INSIDE else 'on'} the {host.name}, in the middle: {edges}."


def band_sentence(host: BuiltPart, goes: Goes) -> str:
    """`Lay it over the top of the closed lid, down the front and the back and under the bottom; its print outside.`"""
    if goes is Goes.WALLS:
        return f"Round the walls of the {host.name}."
    closed = "box, closed with the " if host.part.covers else ""
    ends = "the front and the back" if goes is Goes.OVER else "both sides"
    return f"Over the top of the {closed}{host.name}, down {ends} and under the bottom."
