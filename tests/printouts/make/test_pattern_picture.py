"""Pictures of blanks: glue is hatched wherever it goes, and names stay inside their panels."""

from itertools import combinations

import pytest
from shapely import Polygon, box
from shapely.affinity import rotate
from tests.strategies import everyday_form

from kitwright.catalogue import CATALOGUE, Form
from kitwright.pattern import Blank
from kitwright.printouts.compose import fitted
from kitwright.printouts.drawing import Callouts, Drawing, Label, Move, Polyline, Role, placed
from kitwright.printouts.ink import Path, Text, ink_of
from kitwright.printouts.make.panel_names import panel_name_labels
from kitwright.printouts.make.pattern_picture import blank_marks, glue_on
from kitwright.printouts.style import STYLES

FORMS = pytest.mark.parametrize("form", CATALOGUE.values(), ids=CATALOGUE)


def hatched(form: str) -> dict[str, Role]:
    """The hatched panels of a form's only blank."""
    pattern = everyday_form(CATALOGUE[form]).draw()
    (blank,) = pattern.blanks
    return glue_on(pattern, blank)


def test_every_place_that_gets_glue_is_hatched() -> None:
    on, behind = Role.GLUE, Role.GLUE_BEHIND
    assert hatched("tray") == {f"tab {number}": on for number in (1, 2, 3, 4)}
    assert hatched("pocket") == {"left tab": on, "right tab": on, "bottom tab": on}
    assert hatched("side-seam envelope") == {"left tab": on, "right tab": on}
    assert hatched("belly band") == {"overlap": on}
    assert hatched("mat") == {"front": behind}
    # sides and bottoms go over the other half's; hems are glued back to back
    hems = {"face hem", "left hem", "right hem"}
    assert hatched("two-half wrap box") == dict.fromkeys({"left side", "bottom", *hems}, behind)
    # the back hem is glued back to back, and then to the box with its print side
    assert hatched("flap lid") == {"front hem": behind, "back hem": on}


def test_glue_on_the_back_is_hatched_in_broken_lines() -> None:
    assert STYLES[Role.GLUE].dash == ()
    assert STYLES[Role.GLUE_BEHIND].dash != ()
    assert STYLES[Role.GLUE].hatch == STYLES[Role.GLUE_BEHIND].hatch
    pattern = everyday_form(CATALOGUE["mat"]).draw()
    (blank,) = pattern.blanks
    lines = [
        each
        for each in ink_of(Drawing(300, 300, tuple(blank_marks(blank, glue=glue_on(pattern, blank)))))
        if isinstance(each, Path) and each.role is Role.GLUE_BEHIND
    ]
    assert lines
    assert all(each.dash == STYLES[Role.GLUE_BEHIND].dash for each in lines)


def texts(drawing: Drawing) -> list[Text]:
    return [each for each in ink_of(drawing) if isinstance(each, Text)]


def bounds_of(text: Text) -> tuple[float, float, float, float]:
    xs, ys = zip(*text.corners(), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def room_of(label: Label) -> Polygon:
    """The place that a label's words may take."""
    assert label.room is not None
    (x, y), (wide, high) = label.at, label.room
    return rotate(box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2), label.angle, origin=(x, y))


def labelled(blank: Blank) -> list[tuple[Polygon, Label]]:
    """Every panel's shape with its label."""
    labels = panel_name_labels(blank)
    return [(Polygon(p.outline, p.holes), label) for p, label in zip(blank.panels, labels, strict=True)]


@FORMS
def test_the_room_of_a_name_lies_inside_its_panel(form: type[Form]) -> None:
    for blank in everyday_form(form).draw().blanks:
        for shape, label in labelled(blank):
            assert shape.contains(room_of(label)), label.text


def test_the_name_of_a_flap_stands_in_its_middle() -> None:
    (blank,) = everyday_form(CATALOGUE["side-seam envelope"]).draw().blanks
    (flap,) = [label for _, label in labelled(blank) if label.text == "closing flap"]
    assert flap.at[0] == pytest.approx(blank.size[0] / 2)


def test_names_of_hatched_panels_lie_on_a_plate() -> None:
    (blank,) = everyday_form(CATALOGUE["pocket"]).draw().blanks
    labels = {label.text: label.plate for label in panel_name_labels(blank, hatched={"left tab"})}
    assert labels == {"front": False, "bottom tab": False, "right tab": False, "left tab": True}


def test_a_name_that_fits_nowhere_is_led_out_of_its_panel() -> None:
    label = Label("left hem", (10.0, 10.0), room=(20.0, 5.0))
    drawing = Drawing(40, 40, (Callouts((label,), (0.0, 14.0), (40.0, 14.0)),))
    assert [each.at[0] for each in texts(drawing)] == [10.0]
    small = placed(drawing, Move(a=0.2), width=8, height=8)
    (words,) = texts(small)
    assert words.size >= 2.5
    assert words.angle == 90
    assert abs(words.at[0] - 2.0) < words.size / 2
    assert words.at[1] > 14.0 * 0.2
    assert any(isinstance(each, Path) and each.paint == "line" for each in ink_of(small))
    assert not any(isinstance(mark, Polyline) for mark in small.marks)


def test_names_that_are_led_out_do_not_touch_and_like_ones_are_led_out_once() -> None:
    names = ("back hem", "back", "overlap", "tab", "tab")
    labels = tuple(Label(name, (20.0 + place / 5, 5.0), room=(1.0, 1.0)) for place, name in enumerate(names))
    for side in (2.0, -2.0):
        led = texts(Drawing(40, 40, (Callouts(labels, (0.0, 14.0), (40.0, 14.0), offset=side),)))
        assert sorted(each.text for each in led) == sorted(set(names))
        boxes = [box(*bounds_of(each)) for each in led]
        assert not any(one.intersects(other) for one, other in combinations(boxes, 2))
        assert all((each.at[1] - 14.0) * side > 0 for each in led)


def test_a_name_that_one_of_its_panels_has_room_for_is_led_out_of_none() -> None:
    labels = (Label("tab", (10.0, 5.0), room=(1.0, 1.0)), Label("tab", (30.0, 5.0), room=(9.0, 9.0)))
    (only,) = texts(Drawing(40, 40, (Callouts(labels, (0.0, 14.0), (40.0, 14.0)),)))
    assert only.at[0] == 30.0


@FORMS
def test_every_name_is_on_the_smallest_picture_of_a_blank(form: type[Form]) -> None:
    for blank in everyday_form(form).draw().blanks:
        drawing = fitted(blank_marks(blank, glue={}), width=40, height=30).drawing
        assert {each.text for each in texts(drawing)} == {label.text for label in panel_name_labels(blank)}
