"""Whether a pattern is sound: whole outlines, no overlap in the flat, a tree of scores, and references that exist. Lengths in mm."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations, pairwise

from shapely import Polygon
from shapely.validation import explain_validity

from kitwright.findings import Finding, Severity
from kitwright.measure import NUMERIC_TOLERANCE
from kitwright.pattern import Blank, EdgeRef, End, Panel, PanelRef, Pattern, Point
from kitwright.pattern.blank import join_shapes
from kitwright.pattern.geometry import bounds, same_point, signed_area

__all__ = ["check_blank", "check_panel", "check_pattern"]

SNAP = 1e-6
"""Corners are taken on a grid of a nanometre (mm) when shapes are laid on each other, so that rounding makes no false overlap."""


def check_pattern(pattern: Pattern) -> tuple[Finding, ...]:
    """What is wrong with a pattern, blank by blank; nothing if it is sound."""
    return (
        *(finding for blank in pattern.blanks for finding in check_blank(blank)),
        *check_names(pattern),
        *check_references(pattern),
    )


def check_blank(blank: Blank) -> tuple[Finding, ...]:
    """What is wrong with one blank: its panels, how they lie, and how they hang together."""
    names = tuple(check_panel_names(blank))
    if names:
        return names
    outlines = tuple(finding for panel in blank.panels for finding in check_panel(panel))
    return (*outlines, *check_tree(blank), *check_scores(blank), *(() if outlines else check_flat(blank)))


def check_panel(panel: Panel) -> tuple[Finding, ...]:
    """What is wrong with one panel's outline, the names of its edges, and its holes."""
    return tuple(panel_findings(panel))


def panel_findings(panel: Panel) -> Iterator[Finding]:
    """The findings of `check_panel`, one by one."""
    name, ring = panel.name, panel.outline
    if len(panel.edge_names) != len(ring):
        yield wrong(
            "panel-edges-unnamed", name, f"It has {len(ring)} edges, but {len(panel.edge_names)} names for them."
        )
    if len(ring) < 3 or any(same_point(a, b) for a, b in pairwise([*ring, *ring[:1]])):
        yield wrong("panel-outline-repeats", name, "Two neighbouring corners of its outline are one point.")
        return
    whole = Polygon(ring)
    if not whole.is_valid:
        yield wrong("panel-outline-crosses", name, f"Its outline is not simple: {explain_validity(whole)}.")
        return
    if signed_area(ring) <= 0:
        yield wrong("panel-outline-clockwise", name, "Its outline runs clockwise.")
    holes = [Polygon(hole) for hole in panel.holes]
    if not all(hole.is_valid and whole.contains_properly(hole) for hole in holes):
        yield wrong("panel-hole-outside", name, "A hole crosses itself or the panel's outline.")
    elif any(one.intersects(other) for one, other in combinations(holes, 2)):
        yield wrong("panel-holes-meet", name, "Two holes run into each other.")


def check_panel_names(blank: Blank) -> Iterator[Finding]:
    """A blank has panels, each with a name of its own."""
    names = [panel.name for panel in blank.panels]
    if not names:
        yield wrong("blank-empty", blank.name, "The blank has no panel.")
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield wrong("blank-name-twice", blank.name, f"Two panels are named {name!r}.")


def check_tree(blank: Blank) -> Iterator[Finding]:
    """Every panel but the first hangs on exactly one score, and on the first in the end."""
    names = [panel.name for panel in blank.panels]
    for score in blank.scores:
        for end in (score.parent, score.child):
            if end not in names:
                yield wrong("score-panel-unknown", blank.name, f"A score names a panel {end!r} that is not there.")
    children = [score.child for score in blank.scores]
    for name in names:
        hangs = children.count(name)
        if name != names[0] and hangs != 1:
            yield wrong("blank-not-a-tree", blank.name, f"{name!r} hangs on {hangs} scores, not on one.")
    if names[0] in children:
        yield wrong("blank-not-a-tree", blank.name, f"The first panel, {names[0]!r}, hangs on another.")
    reached = {names[0]}
    for _ in blank.scores:
        reached |= {score.child for score in blank.scores if score.parent in reached}
    for name in names:
        if name not in reached and name in children:
            yield wrong("blank-not-a-tree", blank.name, f"{name!r} does not hang on the first panel.")


def check_scores(blank: Blank) -> Iterator[Finding]:
    """Every score is an edge of both panels that it joins, in opposite directions, and folds by at most half a turn."""
    for score in blank.scores:
        about = f"{score.child} of {blank.name}"
        parent, child = blank.by_name.get(score.parent), blank.by_name.get(score.child)
        if parent and not has_edge(parent, score.start, score.end):
            yield wrong("score-off-edge", about, f"Its score is no edge of {score.parent!r}.")
        if child and not has_edge(child, score.end, score.start):
            yield wrong("score-off-edge", about, "Its score is no edge of its own.")
        if abs(score.angle) > 180:
            yield wrong("score-angle", about, f"Its fold of {score.angle:g} degrees is more than flat on itself.")


def has_edge(panel: Panel, start: Point, end: Point) -> bool:
    """Whether one straight piece of the panel's outline runs from `start` to `end`."""
    ring = panel.outline
    return any(same_point(a, start) and same_point(b, end) for a, b in pairwise([*ring, ring[0]]))


def check_flat(blank: Blank) -> Iterator[Finding]:
    """In the flat the panels lie side by side, make one piece, and its area is the sum of theirs; it begins at (0, 0)."""
    left, low, right, high = bounds(point for panel in blank.panels for point in panel.outline)
    speck = NUMERIC_TOLERANCE * (right - left + high - low)
    shapes = {panel.name: panel.shape for panel in blank.panels}
    overlaps = False
    for one, other in combinations(shapes, 2):
        shared = shapes[one].intersection(shapes[other], grid_size=SNAP).area
        if shared > speck:
            overlaps = True
            yield wrong("panels-overlap", blank.name, f"{one!r} and {other!r} overlap in the flat by {shared:g} mm².")
    joined = join_shapes(list(shapes.values()))
    if not isinstance(joined, Polygon):
        yield wrong("blank-in-pieces", blank.name, "The panels do not hang together as one piece.")
    elif not overlaps and abs(joined.area - blank.area) > speck:
        yield wrong(
            "blank-area", blank.name, f"Its area is {joined.area:g} mm², its panels' areas are {blank.area:g} mm²."
        )
    if not same_point((left, low), (0.0, 0.0)):
        yield wrong("blank-off-corner", blank.name, "Its lower left corner is not at (0, 0).")


def check_names(pattern: Pattern) -> Iterator[Finding]:
    """Every copy of every blank has a name of its own."""
    copies = [name for name, _ in pattern.copies()]
    for name in sorted({name for name in copies if copies.count(name) > 1}):
        yield wrong("blank-copy-twice", name, "Two pieces of the pattern bear this name.")
    for blank in pattern.blanks:
        if blank.copies < 1:
            yield wrong("blank-never-cut", blank.name, f"It is to be cut {blank.copies} times.")
    if not pattern.blanks:
        yield wrong("pattern-empty", "pattern", "It has no blank.")


def check_references(pattern: Pattern) -> Iterator[Finding]:
    """Joints, claims, stages and pictured angles name panels and edges that are there."""
    panels = dict(pattern.panels())
    for what, end in references(pattern):
        ref = end.panel if isinstance(end, EdgeRef) else end
        if ref not in panels:
            yield wrong("reference-unknown", what, f"There is no {ref}.")
        elif isinstance(end, EdgeRef) and end.edge not in panels[ref].edge_names:
            yield wrong("reference-unknown", what, f"There is no {end}.")
    names = {ref.panel for ref in panels}
    for number, stage in enumerate(pattern.stages, start=1):
        for name in (*stage.folds, *stage.glues):
            if name not in names:
                yield wrong("reference-unknown", f"stage {number}", f"There is no panel {name!r}.")
    for name, _ in pattern.pictured:
        if name not in names:
            yield wrong("reference-unknown", "picture", f"There is no panel {name!r}.")
    for joint in pattern.joints:
        if joint.tab == joint.target:
            yield wrong("joint-on-itself", str(joint.tab), "It is glued to itself.")


def references(pattern: Pattern) -> Iterator[tuple[str, End]]:
    """Every panel and every edge that joints and claims name, with the word for where it is named."""
    for joint in pattern.joints:
        yield from (("joint", joint.tab), ("joint", joint.target))
        if joint.mate:
            yield "joint", EdgeRef(joint.tab, joint.mate.tab_edge)
            yield "joint", EdgeRef(joint.target, joint.mate.target_edge)
    claims = pattern.claims
    for word, extents in (("inside claim", claims.inside), ("outside claim", claims.outside)):
        for extent in extents:
            yield from ((word, extent.low), (word, extent.high))
    for seam in claims.seams:
        yield from (("seam", seam.one), ("seam", seam.other))
    shown: Iterable[PanelRef] = (shows.panel for shows in claims.shows)
    yield from (("face that shows", ref) for ref in shown)


def wrong(code: str, about: str, message: str) -> Finding:
    """A finding that fails."""
    return Finding(code, Severity.FAIL, about, message, because="geometry")
