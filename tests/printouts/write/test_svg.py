import re
from xml.etree import ElementTree

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from kitwright.printouts.drawing import (
    Arrow,
    Circle,
    Curve,
    Dimension,
    Drawing,
    Group,
    Label,
    Line,
    Mark,
    Polygon,
    Role,
)
from kitwright.printouts.style import DARK, LIGHT, STYLES, Tint
from kitwright.printouts.write.svg import number, svg_theme_css, to_svg

SVG = "{http://www.w3.org/2000/svg}"
SQUARE = ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0))
HOLE = ((10.0, 10.0), (20.0, 10.0), (20.0, 20.0))

MARKS: tuple[Mark, ...] = (
    Polygon(SQUARE, Role.PRINT_FACE, holes=(HOLE,)),
    Polygon(SQUARE, Role.CUT),
    Line((10, 0), (10, 30), Role.VALLEY),
    Curve(((0, 0), (0, 5), (5, 5), (5, 0)), Role.MOUNTAIN),
    Circle((30, 20), 4, Role.CUT),
    Group("words", (Label("front", (20, 15)), Dimension((0, 0), (40, 0), "40 mm", 6))),
    Arrow((5, 5), (30, 5), head="hollow"),
)


def parsed(*marks: Mark, **settings_: object) -> ElementTree.Element:
    return ElementTree.fromstring(
        to_svg(Drawing(40, 30, marks), title="Tray", description="A tray in the flat.", **settings_)  # type: ignore[arg-type]
    )


def found(root: ElementTree.Element, name: str) -> list[ElementTree.Element]:
    return list(root.iter(SVG + name))


def test_the_canvas_is_in_millimetres() -> None:
    # SVG 2, 8.2 (viewBox) and CSS units: width and height in mm with a viewBox of the same numbers make one unit one millimetre.
    root = parsed(*MARKS, true_scale=True)
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("40mm", "30mm", "0 0 40 30")
    assert parsed(*MARKS).get("width") is None


def test_the_picture_has_a_title_and_a_description_for_those_who_cannot_see_it() -> None:
    root = parsed(*MARKS)
    assert root.get("role") == "img"
    assert [each.text for each in (*found(root, "title"), *found(root, "desc"))] == ["Tray", "A tray in the flat."]
    assert root[0].tag == SVG + "title"


def test_y_points_up_in_the_drawing_and_down_in_the_file() -> None:
    (line,) = found(parsed(Line((10, 0), (12, 25), Role.CUT)), "line")
    assert [line.get(name) for name in ("x1", "y1", "x2", "y2")] == ["10", "30", "12", "5"]
    (circle,) = found(parsed(Circle((30, 20), 4, Role.CUT)), "circle")
    assert [circle.get(name) for name in ("cx", "cy", "r")] == ["30", "10", "4"]
    (curve,) = found(parsed(MARKS[3]), "path")
    assert curve.get("d") == "M0 30C0 25 5 25 5 30"


def test_holes_stay_open() -> None:
    (face,) = [each for each in found(parsed(MARKS[0]), "g") if each.get("class") == "kw-print-face kw-fill"]
    assert face.get("fill-rule") == "evenodd"
    assert face[0].get("d") == "M0 30L40 30 40 0 0 0ZM10 20L20 20 20 10Z"


def test_without_layers_ink_is_painted_in_order() -> None:
    root = parsed(Line((0, 0), (1, 0), Role.CUT), Line((0, 0), (1, 0), Role.VALLEY), Line((0, 0), (1, 0), Role.CUT))
    assert [each.get("class") for each in found(root, "g")] == ["kw-cut kw-line", "kw-valley kw-line", "kw-cut kw-line"]
    assert all(each.get("id") is None for each in root.iter())


def test_layers_are_named_after_what_is_on_them() -> None:
    root = parsed(*MARKS, Line((0, 0), (9, 9), Role.CUT), layers=True)
    names = [each.get("id") for each in root.findall(SVG + "g")]
    assert names == ["print-face", "cut", "valley", "mountain", "action", "note", "dimension"]
    (cut,) = [each for each in root.findall(SVG + "g") if each.get("id") == "cut"]
    assert (
        len(list(cut.iter(SVG + "path"))) + len(list(cut.iter(SVG + "circle"))) + len(list(cut.iter(SVG + "line"))) == 3
    )


def test_folds_are_dashed_and_cuts_are_not() -> None:
    (valley,) = found(parsed(Line((10, 0), (10, 30), Role.VALLEY)), "line")
    parts = [float(part) for part in valley.get("stroke-dasharray", "").split()]
    assert len(parts) == 2
    assert ((30 - parts[0]) / sum(parts)) == pytest.approx(8, abs=0.01)
    (cut,) = found(parsed(Line((10, 0), (10, 30), Role.CUT)), "line")
    assert cut.get("stroke-dasharray") is None


def test_words_turn_about_their_point_and_are_escaped() -> None:
    (text,) = found(
        parsed(Label('5 < 6 & "7"', (20, 15), angle=90, anchor="start", level="base", weight="bold")), "text"
    )
    assert text.get("transform") == "rotate(-90 20 15)"
    assert text.get("font-weight") == "600"
    assert "".join(text.itertext()) == '5 < 6 & "7"'


def test_fractions_are_marked_for_small_figures_and_stay_plain_text() -> None:
    (text,) = found(parsed(Label("4 1/4 in", (20, 15))), "text")
    assert "".join(text.itertext()) == "4 1/4 in"
    (small,) = found(parsed(Label("4 1/4 in", (20, 15))), "tspan")
    assert small.text == "1/4"
    assert small.get("style") == "font-variant-numeric:diagonal-fractions"


def test_light_and_dark_need_no_style_sheet() -> None:
    for theme, palette in (("light", LIGHT), ("dark", DARK)):
        root = parsed(Line((0, 0), (1, 0), Role.VALLEY), theme=theme, background=True)
        (group,) = found(root, "g")
        assert group.get("stroke") == palette[Tint.LAKE]
        (paper,) = found(root, "rect")
        assert paper.get("fill") == palette[Tint.PAPER]
        assert found(root, "style") == []


def test_auto_follows_the_readers_setting_for_every_role() -> None:
    (style,) = found(parsed(*MARKS, theme="auto"), "style")
    css = style.text or ""
    assert css.startswith("@media (prefers-color-scheme: dark)")
    for role in Role:
        assert f".kw-{role.value}." in css
    assert css == f"@media (prefers-color-scheme: dark) {{{svg_theme_css(DARK)}}}"


def test_a_page_can_give_all_its_drawings_another_palette() -> None:
    css = svg_theme_css(DARK, '[data-theme="dark"]')
    rules = re.findall(r"([^{}]+)\{([^{}]+)\}", css)
    assert all(selector.startswith('[data-theme="dark"] .kw-') for selector, _ in rules)
    assert ('[data-theme="dark"] .kw-valley.kw-line', f"stroke:{DARK[Tint.LAKE]}") in rules
    assert len(rules) == 5 * len(STYLES)


@pytest.mark.parametrize(
    ("value", "written"),
    [(-0.00001, "0"), (1.0, "1"), (1.5, "1.5"), (2 / 3, "0.6667"), (-12.34567, "-12.3457"), (1e6, "1000000")],
)
def test_numbers_are_short_and_never_minus_zero(value: float, written: str) -> None:
    assert number(value) == written


@settings(max_examples=100, deadline=None)
@given(value=st.floats(-1e5, 1e5))
def test_numbers_are_right_to_a_ten_thousandth(value: float) -> None:
    assert abs(float(number(value)) - value) <= 0.5001e-4
    assert re.fullmatch(r"-?\d+(\.\d{1,4})?", number(value))


@settings(max_examples=60, deadline=None)
@given(text=st.text(max_size=30))
@example("bell\x07 half\ud800pair\uffff")
def test_any_words_make_a_file_that_can_be_read(text: str) -> None:
    root = ElementTree.fromstring(to_svg(Drawing(40, 30, (Label(text, (1, 1)),)), title=text, description=text))
    assert root.find(SVG + "title") is not None


def test_the_same_drawing_gives_the_same_file() -> None:
    drawing = Drawing(40, 30, MARKS)
    assert to_svg(drawing, title="a", description="b") == to_svg(drawing, title="a", description="b")
