"""Whether a part can be made as drawn: its seams meet, its tabs land on what they are glued to, nothing passes through anything."""

from __future__ import annotations

from kitwright.findings import Finding, Severity
from kitwright.folding import Folded, landings, seam_residual
from kitwright.measure import CRAFT_TOLERANCE, Ruler

__all__ = ["check_seams", "check_tabs"]

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
    numbers = {"measured": miss, "required": CRAFT_TOLERANCE, "margin": CRAFT_TOLERANCE - miss}
    because = "a tenth of a millimetre cannot be told from zero at a trimmer; common practice, no source"
    if miss > CRAFT_TOLERANCE or worst.angle > STRAY_ANGLE:
        where = f"the {seam.one} and the {seam.other}"
        words = f"Folded, {where} miss each other by {ruler.near(miss)}"
        turned = f" and are turned by {worst.angle:.1f} degrees" if worst.angle > STRAY_ANGLE else ""
        return Finding("seams-meet", Severity.FAIL, about, f"{words}{turned}.", because=because, **numbers)
    count = "Its seam meets" if len(seams) == 1 else f"All {len(seams)} seams meet"
    return Finding("seams-meet", Severity.OK, about, f"{count} when it is folded.", because=because, **numbers)


def check_tabs(about: str, folded: Folded) -> Finding | None:
    """Every glued panel lies flat on its target and inside it; None for a part without joints."""
    found = landings(folded)
    if not found:
        return None
    worst = max(found, key=lambda landing: (landing.off_plane > CRAFT_TOLERANCE, landing.off_panel))
    joint = worst.joint
    because = "geometry; stray areas up to 1 mm² are common practice, no source"
    if worst.off_plane > CRAFT_TOLERANCE or worst.turned > STRAY_ANGLE:
        return Finding(
            "tabs-land",
            Severity.FAIL,
            about,
            f"Folded, the {joint.tab.panel} does not lie flat on the {joint.target.panel}.",
            measured=worst.off_plane,
            required=CRAFT_TOLERANCE,
            margin=CRAFT_TOLERANCE - worst.off_plane,
            because=because,
        )
    numbers = {
        "measured": worst.off_panel,
        "required": STRAY_AREA,
        "margin": STRAY_AREA - worst.off_panel,
        "unit": "mm²",
    }
    if worst.off_panel > STRAY_AREA:
        return Finding(
            "tabs-land",
            Severity.FAIL,
            about,
            f"The {joint.tab.panel} sticks out beyond the {joint.target.panel} with {worst.off_panel:.0f} mm² of it.",
            because=because,
            **numbers,
        )
    count = "Its tab lands" if len(found) == 1 else f"All {len(found)} glued panels land"
    return Finding("tabs-land", Severity.OK, about, f"{count} flat on what it is glued to.", because=because, **numbers)
