"""Whether a part can be made as drawn: its seams meet, its tabs land on what they are glued to, nothing passes through anything."""

from __future__ import annotations

from kitwright.findings import Finding, Reading, Severity, judged
from kitwright.folding import Folded, LayerModel, bumps, crossings, landings, layers, seam_residual
from kitwright.measure import CRAFT_TOLERANCE, Ruler
from kitwright.pattern import EdgeRef

__all__ = ["check_layers", "check_motion", "check_pass_through", "check_seams", "check_tabs"]

STRAY_AREA = 1.0
"""Tab outside its target that nobody sees: one square millimetre. Common practice, no source."""

STRAY_ANGLE = 0.5
"""Degrees by which a seam may be turned before it gapes visibly. Common practice, no source."""


def check_seams(about: str, folded: Folded, ruler: Ruler) -> Finding | None:
    """Every edge that should meet another does; None for a part without seams."""
    seams = folded.pattern.claims.seams
    if not seams:
        return None
    residuals = [(seam, seam_residual(folded, seam)) for seam in seams]
    seam, worst = max(residuals, key=lambda pair: max(pair[1].gap, pair[1].slide, pair[1].angle))
    miss = max(worst.gap, worst.slide)
    reading = Reading(
        miss,
        CRAFT_TOLERANCE,
        "a tenth of a millimetre cannot be told from zero at a trimmer; common practice, no source",
        is_upper_limit=True,
    )
    if miss > CRAFT_TOLERANCE or worst.angle > STRAY_ANGLE:
        words = f"Folded, the {edge_words(folded, seam.one)} and the {edge_words(folded, seam.other)} miss each other by {ruler.near(miss)}"
        turned = f" and are turned by {worst.angle:.1f} degrees" if worst.angle > STRAY_ANGLE else ""
        return judged("seams-meet", Severity.FAIL, about, f"{words}{turned}.", reading)
    count = "Its seam meets" if len(seams) == 1 else f"All {len(seams)} seams meet"
    return judged("seams-meet", Severity.OK, about, f"{count} when it is folded.", reading)


def edge_words(folded: Folded, edge: EdgeRef) -> str:
    """An edge for people; its blank is named where there are several."""
    words = f"{edge.edge} edge of the {edge.panel.panel}"
    return words if len({ref.blank for ref in folded.refs}) == 1 else f"{words} of {edge.panel.blank}"


def check_tabs(about: str, folded: Folded) -> Finding | None:
    """Every glued panel lies flat on its target and inside it; None for a part without joints."""
    found = landings(folded)
    if not found:
        return None
    worst = max(found, key=lambda landing: (landing.off_plane > CRAFT_TOLERANCE, landing.off_panel))
    joint = worst.joint
    because = "geometry; stray areas up to 1 mm² are common practice, no source"
    if worst.off_plane > CRAFT_TOLERANCE or worst.turned > STRAY_ANGLE:
        words = f"Folded, the {joint.tab.panel} does not lie flat on the {joint.target.panel}."
        reading = Reading(worst.off_plane, CRAFT_TOLERANCE, because, is_upper_limit=True)
        return judged("tabs-land", Severity.FAIL, about, words, reading)
    reading = Reading(worst.off_panel, STRAY_AREA, because, unit="mm²", is_upper_limit=True)
    if worst.off_panel > STRAY_AREA:
        words = (
            f"The {joint.tab.panel} sticks out beyond the {joint.target.panel} with {worst.off_panel:.0f} mm² of it."
        )
        return judged("tabs-land", Severity.FAIL, about, words, reading)
    words = "Its tab lands flat on what it is glued to."
    if len(found) > 1:
        words = f"All {len(found)} glued panels land flat on what they are glued to."
    return judged("tabs-land", Severity.OK, about, words, reading)


def check_pass_through(about: str, folded: Folded) -> Finding:
    """No panel of the finished part passes through another."""
    found = crossings(folded)
    if found:
        worst = max(found, key=lambda crossing: crossing.depth)
        return Finding(
            "nothing-passes-through",
            Severity.FAIL,
            about,
            f"Folded, the {worst.one.panel} passes through the {worst.other.panel}.",
            measured=worst.depth,
            required=0.0,
            margin=-worst.depth,
            because="geometry",
        )
    return Finding(
        "nothing-passes-through",
        Severity.OK,
        about,
        "Folded, no panel passes through another.",
        measured=0.0,
        required=0.0,
        margin=0.0,
        because="geometry",
    )


def check_motion(about: str, folded: Folded) -> Finding | None:
    """On the way of each folding step nothing passes through anything; None for a part that is not folded.

    Card gives way, so a bump is a warning. Folding is looked at every few degrees, in the order in which the fewest panels bump.
    """
    pattern = folded.pattern
    if not any(blank.scores for blank in pattern.blanks):
        return None
    found = bumps(pattern)
    if found:
        first = found[0]
        step, crossing = first.stage + 1, first.crossing
        words = f"While step {step} is folded, the {crossing.one.panel} bumps into the {crossing.other.panel}: bend one of them aside."
        reading = Reading(crossing.depth, 0.0, "geometry, looked at every few degrees", is_upper_limit=True)
        return judged("folding-motion", Severity.WARNING, about, words, reading)
    reading = Reading(0.0, 0.0, "geometry, looked at every few degrees", is_upper_limit=True)
    return judged(
        "folding-motion", Severity.OK, about, "Each step of folding goes without bumping into anything.", reading
    )


def check_layers(about: str, folded: Folded, *, model: LayerModel | None = None) -> Finding | None:
    """The order in which layers lie on each other is one that can be made; None where it is. Give the layer `model` if it is at hand."""
    known = model or layers(folded)
    if known.woven:
        joint = known.woven[0]
        words = f"Glued as drawn, the {joint.tab.panel} would have to lie both over and under the {joint.target.panel}."
        return Finding("layers-woven", Severity.FAIL, about, words, because="geometry")
    return None
