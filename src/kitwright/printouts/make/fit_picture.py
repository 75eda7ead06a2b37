"""The picture of a finding about a fit: what goes into or over what, drawn to scale, made only when it is looked at."""

from __future__ import annotations

from dataclasses import dataclass

from kitwright.findings import Finding, Severity
from kitwright.kit import BuiltKit, BuiltPart
from kitwright.pattern import Axis
from kitwright.printouts.drawing import Drawing
from kitwright.printouts.make.contents_picture import contents_drawing
from kitwright.printouts.make.fit_shapes import band_shapes, card_shapes, foot_shapes, lid_shapes, mat_shapes
from kitwright.printouts.make.glass import shapes_drawing
from kitwright.printouts.make.shapes import Shapes

__all__ = ["FitPicture", "fit_picture"]


@dataclass(frozen=True, slots=True)
class FitPicture:
    """A drawing, what it shows in words for those who cannot see it, and how it is to be read."""

    drawing: Drawing
    alt: str
    caption: str


def fit_picture(built: BuiltKit, finding: Finding, *, width: float, height: float) -> FitPicture | None:
    """The picture of a finding, `width` mm wide and about `height` mm high; None where it is about no fit that could be drawn."""
    if finding.code == "contents-fit":
        drawing = contents_drawing(built, finding, width=width, height=height)
        return FitPicture(drawing, f"{finding.about}: {finding.message}", contents_caption(finding))
    shapes = fit_shapes(built, finding)
    if shapes is None:
        return None
    return FitPicture(
        shapes_drawing(shapes, width=width, height=height),
        f"{finding.about}: {finding.message}",
        "Dotted: as far as it may be off." if shapes.hints else "",
    )


def contents_caption(finding: Finding) -> str:
    """How the picture of contents is to be read."""
    if finding.placed:
        return "One way in which everything lies in it."
    words = {Severity.UNKNOWN: "Not decided: this is neither a fit nor a misfit."}
    return words.get(finding.severity, "")


def fit_shapes(built: BuiltKit, finding: Finding) -> Shapes | None:
    """The things of a fit that are not contents of a box."""
    parts = {part.name: part for part in built.parts}
    if len(finding.parts) != 2 or finding.parts[0] not in parts:
        return None
    part, other = parts[finding.parts[0]], finding.parts[1]
    if finding.code in ("envelope-fit", "pocket-fit"):
        thing = next((each for each in built.things_in(part) if each.name == other), None)
        return None if thing is None else card_shapes(built, part, thing)
    host = parts.get(other)
    if host is None:
        return None
    if finding.code == "mat-on-card":
        return mat_shapes(built, finding, part, host)
    if finding.code == "lid-height":
        return hanging_shapes(built, finding, part, host)
    what, _, axis = finding.code.partition("-fit-")
    if what == "lid":
        return lid_shapes(built, finding, part, host, Axis(axis))
    return band_shapes(built, finding, part, host, Axis(axis)) if what == "band" else None


def hanging_shapes(built: BuiltKit, finding: Finding, part: BuiltPart, host: BuiltPart) -> Shapes | None:
    """A rim or flap that hangs down along a box; a band hangs down nowhere."""
    axis = next((each for each in (Axis.WIDTH, Axis.DEPTH) if each in part.form.spans and each in part.inside), None)
    return None if part.part.wraps or axis is None else foot_shapes(built, finding, part, host, axis)
