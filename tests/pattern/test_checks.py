"""Each way in which a pattern can be unsound is found and named. Millimetres."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from tests.pattern.checks import check_blank, check_panel, check_pattern

from kitwright.findings import Severity
from kitwright.pattern import (
    Axis,
    Blank,
    Claims,
    Draft,
    EdgeRef,
    Extent,
    Joint,
    Mate,
    Panel,
    PanelRef,
    Pattern,
    Score,
    Seam,
    Shows,
    Side,
    Stage,
)

SQUARE = ("south", "east", "north", "west")
FOLDED = ("hinge", "right", "far", "left")


def sound() -> Pattern:
    """A base with a wall and a tab on it, glued to the base, with claims about all of them."""
    draft = Draft("part")
    base = draft.panel("base", 100, 60)
    wall = base.fold_out("north", "wall", 30)
    tab = wall.tab("far", 10, name="tab")
    return Pattern(
        (draft.finish(),),
        joints=(Joint(tab.ref, base.ref, Side.UNDER, Mate("hinge", "south")),),
        claims=Claims(
            inside=(Extent(Axis.WIDTH, base.ref, wall.edge("far")),),
            outside=(Extent(Axis.WIDTH, base.ref, wall.ref),),
            seams=(Seam(wall.edge("far"), base.edge("south")),),
            shows=(Shows(base.ref),),
        ),
        stages=(Stage("Fold.", folds=("wall", "tab"), glues=("tab",)),),
        pictured=(("wall", -30.0),),
    )


def codes(pattern: Pattern) -> list[str]:
    return [finding.code for finding in check_pattern(pattern)]


def with_blank(**changes: object) -> Pattern:
    """The sound pattern with its blank changed."""
    pattern = sound()
    return replace(pattern, blanks=(replace(pattern.blanks[0], **changes),))  # type: ignore[arg-type]


def with_claims(**changes: object) -> Pattern:
    """The sound pattern with its claims changed."""
    pattern = sound()
    return replace(pattern, claims=replace(pattern.claims, **changes))  # type: ignore[arg-type]


def test_a_sound_pattern_has_no_findings() -> None:
    assert check_pattern(sound()) == ()


def test_what_is_wrong_fails_and_says_why() -> None:
    panel = Panel("base", ((0, 0), (0, 60), (100, 60), (100, 0)), SQUARE)
    (finding,) = check_panel(panel)
    assert (finding.code, finding.severity, finding.about) == ("panel-outline-clockwise", Severity.FAIL, "base")
    assert finding.message == "Its outline runs clockwise."


@pytest.mark.parametrize(
    ("panel", "code"),
    [
        (Panel("x", ((0, 0), (9, 0), (9, 9)), ("a", "b")), "panel-edges-unnamed"),
        (Panel("x", ((0, 0), (9, 0), (9, 0), (0, 9)), SQUARE), "panel-outline-repeats"),
        (Panel("x", ((0, 0), (9, 0), (0, 9), (0, 0)), SQUARE), "panel-outline-repeats"),
        (Panel("x", ((0, 0), (9, 9), (9, 0), (0, 9)), SQUARE), "panel-outline-crosses"),
        (
            Panel("x", ((0, 0), (9, 0), (9, 9), (0, 9)), SQUARE, holes=(((8, 1), (10, 1), (8, 2)),)),
            "panel-hole-outside",
        ),
        (
            Panel(
                "x",
                ((0, 0), (9, 0), (9, 9), (0, 9)),
                SQUARE,
                holes=(((1, 1), (3, 1), (1, 3)), ((1, 2), (3, 2), (1, 4))),
            ),
            "panel-holes-meet",
        ),
    ],
)
def test_a_panel_that_cannot_be_cut_is_named(panel: Panel, code: str) -> None:
    assert [finding.code for finding in check_panel(panel)] == [code]


def test_panels_that_overlap_in_the_flat_are_named() -> None:
    draft = Draft("part")
    base = draft.panel("base", 100, 60)
    base.fold_out("north", "wall", 30).fold_out("right", "ear", 30)
    base.fold_out("east", "side", 30).fold_out("left", "flap", 10)
    (finding,) = check_blank(draft.finish())
    assert finding.code == "panels-overlap"
    assert finding.message == "'ear' and 'flap' overlap in the flat by 300 mm²."


def test_panels_that_only_touch_do_not_overlap() -> None:
    draft = Draft("part")
    base = draft.panel("base", 100, 60)
    base.fold_out("north", "wall", 30).fold_out("right", "ear", 15)
    base.fold_out("east", "side", 30).fold_out("left", "flap", 30, inset=(0, 15))
    assert check_blank(draft.finish()) == ()


def test_a_panel_on_a_slanting_score_does_not_overlap_for_the_last_bit_of_a_corner() -> None:
    draft = Draft("part")
    corners = ((32.71751235759074, 11.38263524544719), (6.501104894225999, 34.025514473028494), (0.0, 0.0))
    draft.shape("base", corners, ("a", "b", "c")).fold_out("a", "flap", 1)
    assert check_blank(draft.finish()) == ()


def apart() -> Blank:
    """Two panels that do not touch, though a score says so."""
    one = Panel("one", ((0, 0), (10, 0), (10, 10), (0, 10)), SQUARE)
    two = Panel("two", ((20, 10), (20, 0), (30, 0), (30, 10)), FOLDED)
    return Blank("part", (one, two), (Score("one", "two", (10, 0), (10, 10), -90),))


def test_a_score_off_the_edge_of_a_panel_and_a_blank_in_pieces_are_named() -> None:
    assert [finding.code for finding in check_blank(apart())] == ["score-off-edge", "blank-in-pieces"]


def test_a_score_that_runs_against_its_parents_outline_is_off_both_edges() -> None:
    score = sound().blanks[0].scores[0]
    turned = replace(score, start=score.end, end=score.start)
    assert codes(with_blank(scores=(turned, sound().blanks[0].scores[1]))) == ["score-off-edge", "score-off-edge"]


BLANK_FAULTS: dict[str, tuple[Callable[[Blank], Blank], list[str]]] = {
    "no panels": (lambda blank: replace(blank, panels=(), scores=()), ["blank-empty"]),
    "a name twice": (
        lambda blank: replace(blank, panels=(*blank.panels[:2], replace(blank.panels[2], name="wall"))),
        ["blank-name-twice"],
    ),
    "a score of a panel that is not there": (
        lambda blank: replace(blank, panels=blank.panels[:2]),
        ["score-panel-unknown"],
    ),
    "a score missing": (lambda blank: replace(blank, scores=blank.scores[:1]), ["blank-not-a-tree"]),
    "a score twice": (lambda blank: replace(blank, scores=(*blank.scores, blank.scores[1])), ["blank-not-a-tree"]),
    "the root hangs": (
        lambda blank: replace(
            blank,
            scores=(*blank.scores, Score("wall", "base", (0, 60), (100, 60), -90)),
        ),
        ["blank-not-a-tree"],
    ),
    "a fold of more than half a turn": (
        lambda blank: replace(blank, scores=(replace(blank.scores[0], angle=-200), blank.scores[1])),
        ["score-angle"],
    ),
    "not at the corner": (
        lambda blank: replace(
            blank,
            panels=tuple(replace(panel, outline=tuple((x + 1, y) for x, y in panel.outline)) for panel in blank.panels),
            scores=tuple(
                replace(s, start=(s.start[0] + 1, s.start[1]), end=(s.end[0] + 1, s.end[1])) for s in blank.scores
            ),
        ),
        ["blank-off-corner"],
    ),
}


@pytest.mark.parametrize(("fault", "found"), BLANK_FAULTS.values(), ids=BLANK_FAULTS)
def test_a_blank_that_does_not_hang_together_is_named(fault: Callable[[Blank], Blank], found: list[str]) -> None:
    assert [finding.code for finding in check_blank(fault(sound().blanks[0]))] == found


def test_panels_that_hang_on_each_other_in_a_ring_hang_on_nothing() -> None:
    base, wall, tab = sound().blanks[0].panels
    scores = (
        Score("tab", "wall", tab.outline[0], tab.outline[1], -90),
        Score("wall", "tab", tab.outline[1], tab.outline[0], -90),
    )
    found = [
        finding.message
        for finding in check_blank(Blank("part", (base, wall, tab), scores))
        if "first" in finding.message
    ]
    assert found == ["'wall' does not hang on the first panel.", "'tab' does not hang on the first panel."]


NOBODY = PanelRef("part", "nobody")


@pytest.mark.parametrize(
    ("pattern", "about", "message"),
    [
        (
            replace(sound(), joints=(Joint(NOBODY, PanelRef("part", "base"), Side.UNDER),)),
            "joint",
            "There is no nobody of part.",
        ),
        (
            replace(sound(), joints=(Joint(PanelRef("part", "tab"), NOBODY, Side.UNDER),)),
            "joint",
            "There is no nobody of part.",
        ),
        (
            replace(sound(), joints=(replace(sound().joints[0], mate=Mate("hinge", "lower")),)),
            "joint",
            "There is no lower edge of base of part.",
        ),
        (
            replace(sound(), joints=(replace(sound().joints[0], mate=Mate("upper", "south")),)),
            "joint",
            "There is no upper edge of tab of part.",
        ),
        (with_claims(inside=(Extent(Axis.WIDTH, NOBODY, NOBODY),)), "inside claim", "There is no nobody of part."),
        (with_claims(outside=(Extent(Axis.WIDTH, NOBODY, NOBODY),)), "outside claim", "There is no nobody of part."),
        (
            with_claims(seams=(Seam(EdgeRef(NOBODY, "far"), EdgeRef(NOBODY, "far")),)),
            "seam",
            "There is no nobody of part.",
        ),
        (with_claims(shows=(Shows(PanelRef("part 2", "base")),)), "face that shows", "There is no base of part 2."),
        (replace(sound(), stages=(Stage("Fold.", folds=("lid",)),)), "stage 1", "There is no panel 'lid'."),
        (
            replace(sound(), stages=(Stage("Cut."), Stage("Glue.", glues=("lid",)))),
            "stage 2",
            "There is no panel 'lid'.",
        ),
        (replace(sound(), pictured=(("lid", -10.0),)), "picture", "There is no panel 'lid'."),
    ],
)
def test_a_reference_to_something_that_is_not_there_is_named(pattern: Pattern, about: str, message: str) -> None:
    found = [(finding.code, finding.about, finding.message) for finding in check_pattern(pattern)]
    assert set(found) == {("reference-unknown", about, message)}


def test_a_panel_is_not_glued_to_itself() -> None:
    tab = PanelRef("part", "tab")
    assert codes(replace(sound(), joints=(Joint(tab, tab, Side.OVER),))) == ["joint-on-itself"]


def test_every_copy_of_every_blank_has_a_name_of_its_own() -> None:
    blank = sound().blanks[0]
    twice = replace(sound(), blanks=(replace(blank, copies=2), replace(blank, name="part 2")))
    assert codes(twice) == ["blank-copy-twice"]


def test_a_pattern_has_a_blank_that_is_cut_at_least_once() -> None:
    assert codes(Pattern(())) == ["pattern-empty"]
    assert "blank-never-cut" in codes(with_blank(copies=0))
