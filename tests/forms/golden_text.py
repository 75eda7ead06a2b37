"""A pattern as plain text: panels with their corners, scores, joints, claims and stages, one to a line. Lengths in mm."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.pattern import Blank, Pattern, Point

__all__ = ["as_text"]


def as_text(pattern: Pattern) -> str:
    """The whole pattern, every number rounded to a millionth of a millimetre."""
    return "\n".join(lines(pattern)) + "\n"


def lines(pattern: Pattern) -> Iterator[str]:
    """The text line by line."""
    for blank in pattern.blanks:
        yield from blank_lines(blank)
    yield f"stance: {pattern.stance.value}"
    for joint in pattern.joints:
        mate = joint.mate
        by = f", {mate.tab_edge} {'along' if mate.along else 'against'} {mate.target_edge}" if mate else ""
        yield f"joint: {joint.tab} {joint.side.value} {joint.target}{by}{'' if joint.glued else ', not glued'}"
    for word, extents in (("inside", pattern.claims.inside), ("outside", pattern.claims.outside)):
        for extent in extents:
            yield f"{word}: {extent.axis.value} from {extent.low} to {extent.high}"
    for area in pattern.glue_areas:
        yield f"glue: {'behind' if area.behind else 'on'} {area.panel}"
    for seam in pattern.claims.seams:
        yield f"seam: {seam.one} meets {seam.other}"
    for shows in pattern.claims.shows:
        yield f"shows: {shows.panel}, {shows.up.value}{', main' if shows.main else ''}{', back' if shows.back else ''}"
    for number, stage in enumerate(pattern.stages, start=1):
        yield f"stage {number}: {stage.words}"
        if stage.folds:
            yield f"  folds {', '.join(stage.folds)}"
        if stage.glues:
            yield f"  glues {', '.join(stage.glues)}"
    for name, angle in pattern.pictured:
        yield f"pictured: {name} at {number_text(angle)} degrees"


def blank_lines(blank: Blank) -> Iterator[str]:
    """One blank: its size, panels and scores."""
    width, height = blank.size
    yield f"blank: {blank.name}, {number_text(width)} × {number_text(height)}, cut {blank.copies}"
    for panel in blank.panels:
        yield f"  {panel.kind.value}: {panel.name}"
        yield from outline_lines(panel.outline, panel.edge_names)
        for hole in panel.holes:
            yield f"    hole of {len(hole)} corners from {point_text(hole[0])}"
    for score in blank.scores:
        ends = f"{point_text(score.start)} to {point_text(score.end)}"
        yield f"  score: {score.child} on {score.parent}, {ends}, {number_text(score.angle)} degrees"


def outline_lines(outline: tuple[Point, ...], names: tuple[str, ...]) -> Iterator[str]:
    """The edges of an outline; neighbouring edges of one name share a line."""
    chain: list[str] = []
    for i, point in enumerate(outline):
        if chain and names[i] != names[i - 1]:
            yield f"    {names[i - 1]}: {' '.join(chain)}"
            chain = []
        chain.append(point_text(point))
    yield f"    {names[-1]}: {' '.join(chain)}"


def point_text(point: Point) -> str:
    """`(25.4, 0)`."""
    return f"({number_text(point[0])}, {number_text(point[1])})"


def number_text(value: float) -> str:
    """The number to six places, without needless noughts and without a minus before nought."""
    return f"{round(value, 6) + 0.0:.6f}".rstrip("0").rstrip(".")
