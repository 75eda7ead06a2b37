from itertools import combinations

import pytest

from kitwright.printouts.drawing import Role
from kitwright.printouts.style import DARK, LIGHT, LINE_WIDTHS, STYLES, Palette, Tint


def luminance(colour: str) -> float:
    """Relative luminance of `#rrggbb` (WCAG 2.2, definition of relative luminance, after sRGB, IEC 61966-2-1)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio (WCAG 2.2)."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_every_role_has_its_looks() -> None:
    assert set(STYLES) == set(Role)


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_every_tint_has_a_colour(palette: Palette) -> None:
    assert set(palette) == set(Tint)


def test_line_widths_are_two_to_one_and_from_the_standard_series() -> None:
    # ISO 128-2:2020 (after Manual of Engineering Drawing, table 7.2): 0.25, 0.35, 0.5, 0.7 …, wide to narrow 2 : 1
    assert LINE_WIDTHS == {"wide": 0.5, "narrow": 0.25}


def test_folds_follow_the_published_notation() -> None:
    # Yoshizawa–Randlett system; R. J. Lang, Origami Diagramming Conventions: valley dashes, mountain dash and dot, edge solid.
    assert STYLES[Role.CUT].dash == ()
    assert STYLES[Role.CUT].width == "wide"
    assert len(STYLES[Role.VALLEY].dash) == 2
    dash, gap, dot, gap_after = STYLES[Role.MOUNTAIN].dash
    assert dash > 5 * dot
    assert gap == gap_after
    assert STYLES[Role.CREASE].dash == ()
    assert STYLES[Role.CREASE].width == "narrow"


def test_no_two_kinds_of_line_differ_in_colour_alone() -> None:
    lines = [Role.CUT, Role.VALLEY, Role.MOUNTAIN, Role.CREASE, Role.HIDDEN, Role.BEFORE]
    looks = {role: (STYLES[role].width, STYLES[role].dash) for role in lines}
    assert all(looks[a] != looks[b] for a, b in combinations(lines, 2))


def test_the_print_side_is_told_from_the_back_in_grey() -> None:
    for palette in (LIGHT, DARK):
        sides = [STYLES[role].fill for role in (Role.PRINT_FACE, Role.BACK_FACE)]
        print_side, back = (palette[side] for side in sides if side is not None)
        assert contrast(print_side, back) > 1.2  # two neighbouring tints; the rim is drawn by lines


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_letters_can_be_read_on_every_ground(palette: Palette) -> None:
    # WCAG 2.2, success criterion 1.4.3: at least 4.5 : 1.
    for role, style in STYLES.items():
        for ground in (Tint.PAPER, Tint.SNOW, Tint.SAND):
            assert contrast(palette[style.letters], palette[ground]) >= 4.5, (role, ground)


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_lines_that_carry_meaning_stand_out_from_every_ground(palette: Palette) -> None:
    # WCAG 2.2, success criterion 1.4.11: at least 3 : 1. Guides and the rim of an offcut are meant to stand back.
    for role, style in STYLES.items():
        if style.line is None or role in (Role.GUIDE, Role.OFFCUT):
            continue
        for ground in (Tint.PAPER, Tint.SNOW, Tint.SAND):
            assert contrast(palette[style.line], palette[ground]) >= 3, (role, ground)
