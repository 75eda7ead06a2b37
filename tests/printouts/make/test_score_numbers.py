"""Scores numbered as they are set at the bench, and the rings that bear the numbers."""

from importlib import resources

from kitwright.kit import BuiltKit, build, read_kit
from kitwright.printouts.annotate import RING_RADIUS, ring_spots
from kitwright.printouts.drawing import Running
from kitwright.printouts.make.score_numbers import numbered_scores, score_rings


def recipe_box() -> BuiltKit:
    return build(read_kit(resources.files("kitwright").joinpath("examples", "recipe-box.toml").read_text()))


def test_settings_are_numbered_pass_after_pass_and_say_where_they_stand_and_how_they_fold() -> None:
    kit = recipe_box()
    half = next(part for part in kit.parts if part.name == "box").pattern.blanks[0]
    found = numbered_scores(half)
    assert [each.words(kit.kit.ruler) for each in found] == [
        "Score 1, at 1 3/4 in from the left: mountain, away from you",
        "Score 2, at 8 1/16 in from the left: mountain, away from you",
        "Score 3, at 1 3/4 in from below: mountain, away from you",
        "Score 4, at 6 7/8 in from below: mountain, away from you",
    ]
    assert [score.child for score in found[3].scores] == ["face hem", "left hem", "right hem"]


def test_every_score_of_every_blank_has_one_number() -> None:
    for part in recipe_box().parts:
        for blank in part.pattern.blanks:
            numbered = [score for each in numbered_scores(blank) for score in each.scores]
            assert len(numbered) == len(blank.scores)
            assert set(numbered) == set(blank.scores)


def test_rings_of_scores_close_together_do_not_touch_and_keep_their_order() -> None:
    row = Running((0, 0), (100, 0), ((20, "1"), (22, "2"), (60, "3")), offset=3, ringed=True)
    spots = {words: spot for words, _, spot in ring_spots(row)}
    assert spots["2"][0] - spots["1"][0] > 2 * RING_RADIUS
    assert (spots["1"][0] + spots["2"][0]) / 2 == 21
    assert spots["3"] == (60, 3 + RING_RADIUS)


def test_numbers_stand_above_and_to_the_right_of_the_blank() -> None:
    half = next(part for part in recipe_box().parts if part.name == "box").pattern.blanks[0]
    width, height = half.size
    spots = [spot for row in score_rings(half) if isinstance(row, Running) for _, _, spot in ring_spots(row)]
    assert [(x > width, y > height) for x, y in spots] == [(False, True), (False, True), (True, False), (True, False)]
