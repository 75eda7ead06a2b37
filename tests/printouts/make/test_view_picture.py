"""Pictures of steps show what the step is about."""

import pytest
from tests.kit.documents import built, head

from kitwright.folding import fold_after, look, plates
from kitwright.kit import BuiltPart
from kitwright.printouts.make.view_picture import AJAR, panels_that_matter, stage_picture, stage_viewpoint

PARTS = """
[[part]]
name = "card"
form = "half-fold card"
size = "5 1/2 x 4 1/4"
fold = "{fold}"
paper = "card"

[[part]]
name = "envelope"
form = "side-seam envelope"
holds = "card"
paper = "card"

[[part]]
name = "pocket"
form = "pocket"
size = "4 x 3"
paper = "card"

[[part]]
name = "box"
form = "two-half wrap box"
size = "6 x 2 x 5"
paper = "card"

[[part]]
name = "lid"
form = "flap lid"
covers = "box"
paper = "card"

[[part]]
name = "tray"
form = "tray"
size = "6 x 4 x 1"
paper = "card"

[[part]]
name = "top"
form = "lift-off lid"
covers = "tray"
paper = "card"
"""
NAMES = ("card", "envelope", "pocket", "box", "lid", "tray", "top")


def part(name: str, fold: str = "side") -> BuiltPart:
    """A part of a kit that has one of each."""
    return built(head() + PARTS.format(fold=fold)).part(name)


def visible_share(made: BuiltPart, stage: int) -> float:
    """How much of the panels that matter is seen, as a share of all the paper in them."""
    matter = panels_that_matter(made.pattern, stage)
    scene = plates(fold_after(made.pattern, stage, moving=matter, ajar=AJAR))
    viewpoint, _ = stage_viewpoint(made.pattern, stage, scene)
    faces = look(scene, viewpoint).faces
    seen = sum(face.area for face in faces if face.panel.panel in matter)
    return seen / sum(panel.area for ref, panel in made.pattern.panels() if ref.panel in matter)


@pytest.mark.parametrize("name", NAMES)
def test_what_a_step_folds_or_glues_is_seen_in_its_picture(name: str) -> None:
    made = part(name)
    for stage in range(len(made.pattern.stages)):
        if panels_that_matter(made.pattern, stage):
            assert visible_share(made, stage) > 0.1, made.pattern.stages[stage].words


@pytest.mark.parametrize("fold", ["side", "top"])
def test_a_card_is_not_drawn_closed(fold: str) -> None:
    made = part("card", fold)
    assert all(visible_share(made, stage) > 0.3 for stage in (0, 1))


def test_the_picture_says_from_where_it_is_seen() -> None:
    pocket = part("pocket")
    assert [stage_picture(pocket, stage, width=50, height=50).seen for stage in (0, 1, 2)] == [
        "",
        "Seen from behind.",
        "Seen from behind.",
    ]
