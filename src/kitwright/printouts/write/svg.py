"""A drawing as SVG: one user unit is one millimetre, every role is a class (and, on request, a layer with its own id)."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import groupby
from typing import Final, Literal, TypeAlias
from xml.sax.saxutils import escape as escape_markup
from xml.sax.saxutils import quoteattr

from kitwright.printouts.drawing import Drawing, Point, Role
from kitwright.printouts.ink import Disc, Ink, Paint, Path, Text, ink_of
from kitwright.printouts.lettering import text_runs
from kitwright.printouts.style import DARK, LIGHT, LINE_WIDTHS, STYLES, Palette, Tint

__all__ = ["Theme", "number", "svg_theme_css", "to_svg"]

Theme: TypeAlias = Literal["light", "dark", "auto"]

FONTS: Final = "'Source Sans Pro', 'Source Sans 3', 'Segoe UI', 'Helvetica Neue', Arial, sans-serif"


NOT_IN_XML: Final = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Signs that no XML file may hold (XML 1.0, 2.2: Char)."""


def escape(text: str) -> str:
    """Words of a person as they stand in XML; signs that XML has not become the replacement sign."""
    return escape_markup(NOT_IN_XML.sub("\N{REPLACEMENT CHARACTER}", text))


def number(value: float) -> str:
    """A number with at most four decimals, without needless zeros and never `-0`."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def to_svg(
    drawing: Drawing,
    *,
    title: str,
    description: str,
    theme: Theme = "light",
    true_scale: bool = False,
    layers: bool = False,
    background: bool = False,
) -> str:
    """The drawing as a complete SVG document, in UTF-8 and without an XML declaration so that it can stand inside a page.

    `true_scale` gives it its size in mm; otherwise it fills the width it is given. `layers` sorts the ink into one group for each
    role, with the role as id, for programs that read layers; otherwise ink is painted in order. `background` paints the paper.
    With the theme `auto` the reader's light or dark setting decides. Attributes alone are complete for light and dark; only
    `auto` needs a program that understands style sheets.
    """
    palette = DARK if theme == "dark" else LIGHT
    w, h = number(drawing.width), number(drawing.height)
    size = f' width="{w}mm" height="{h}mm"' if true_scale else ""
    over = "" if drawing.clipped else ' overflow="visible"'
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg"{size}{over} viewBox="0 0 {w} {h}" role="img" class="kw-drawing"'
        f" font-family={quoteattr(FONTS)}>",
        f"<title>{escape(title)}</title>",
        f"<desc>{escape(description)}</desc>",
    ]
    if theme == "auto":
        parts.append(f"<style>@media (prefers-color-scheme: dark) {{{svg_theme_css(DARK)}}}</style>")
    if background:
        fill = attributes(Role.BLANK, "fill", palette)
        parts.append(f'<rect width="{w}" height="{h}" {fill}/>')
    ink = ink_of(drawing)
    parts.extend(layer_groups(ink, drawing, palette) if layers else run_groups(ink, drawing, palette))
    parts.append("</svg>")
    return "\n".join(parts) + "\n"


def run_groups(ink: tuple[Ink, ...], drawing: Drawing, palette: Palette) -> Iterable[str]:
    """Ink in the order of painting; neighbours of one kind share a group."""
    for (role, paint), run in groupby(ink, key=lambda each: (each.role, paint_of(each))):
        yield f"<g {attributes(role, paint, palette)}>"
        yield from (element(each, drawing) for each in run)
        yield "</g>"


def layer_groups(ink: tuple[Ink, ...], drawing: Drawing, palette: Palette) -> Iterable[str]:
    """Ink sorted into one group for each role, in the order in which the roles first appear, those with words last."""
    with_words = {each.role for each in ink if isinstance(each, Text)}
    for role in sorted(dict.fromkeys(each.role for each in ink), key=lambda role: role in with_words):
        yield f'<g id="{role.value}">'
        yield from run_groups(tuple(each for each in ink if each.role is role), drawing, palette)
        yield "</g>"


def paint_of(ink: Ink) -> Paint | Literal["text"]:
    """How a piece of ink is painted."""
    return "text" if isinstance(ink, Text) else ink.paint


def attributes(role: Role, paint: Paint | Literal["text"], palette: Palette) -> str:
    """Class and colours of a group."""
    style = STYLES[role]
    line = palette[style.line or style.letters]
    width = LINE_WIDTHS[style.width]
    if paint == "line":
        # Hatching and its rim have no line tint of their own: they are drawn thin in the tint of the letters.
        looks = f'fill="none" stroke="{line}" stroke-width="{number(width)}" stroke-linejoin="round"'
    elif paint == "text":
        looks = f'fill="{palette[style.letters]}"'
    else:
        fill = {"fill": style.fill or Tint.PAPER, "solid": style.line or style.letters, "paper": Tint.PAPER}[paint]
        looks = f'fill="{palette[fill]}" fill-rule="evenodd"'
    return f'class="kw-{role.value} kw-{paint}" {looks}'


def svg_theme_css(palette: Palette, scope: str = "") -> str:
    """Style rules that give every drawing inside `scope` (a selector) the colours of a palette, whatever it was written with."""
    before = f"{scope} " if scope else ""
    rules = []
    for role, style in STYLES.items():
        line = palette[style.line or style.letters]
        name = f"{before}.kw-{role.value}"
        rules.append(f"{name}.kw-line{{stroke:{line}}}{name}.kw-solid{{fill:{line}}}")
        rules.append(f"{name}.kw-text{{fill:{palette[style.letters]}}}")
        rules.append(f"{name}.kw-fill{{fill:{palette[style.fill or Tint.PAPER]}}}")
        rules.append(f"{name}.kw-paper{{fill:{palette[Tint.PAPER]}}}")
    return "".join(rules)


def element(ink: Ink, drawing: Drawing) -> str:
    """One SVG element."""
    match ink:
        case Text():
            return text_element(ink, drawing)
        case Disc():
            cx, cy = flipped(ink.centre, drawing)
            return f'<circle cx="{cx}" cy="{cy}" r="{number(ink.radius)}"{dash_attribute(ink.dash)}/>'
        case Path():
            if len(ink.rings) == 1 and len(ink.rings[0]) == 2:
                (x1, y1), (x2, y2) = (flipped(at, drawing) for at in ink.rings[0])
                return f'<line x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}"{dash_attribute(ink.dash)}/>'
            data = "".join(ring_data(ring, ink, drawing) for ring in ink.rings)
            return f'<path d="{data}"{dash_attribute(ink.dash)}/>'


def ring_data(ring: tuple[Point, ...], path: Path, drawing: Drawing) -> str:
    """The path data of one ring."""
    first, *rest = (" ".join(flipped(at, drawing)) for at in ring)
    return f"M{first}{'C' if path.curved else 'L'}{' '.join(rest)}{'Z' if path.closed else ''}"


def text_element(ink: Text, drawing: Drawing) -> str:
    """A line of text; fractions are set small where the font can."""
    x, y = flipped(ink.at, drawing)
    turn = f' transform="rotate({number(-ink.angle)} {x} {y})"' if ink.angle else ""
    anchor = "" if ink.anchor == "start" else f' text-anchor="{ink.anchor}"'
    weight = ' font-weight="600"' if ink.weight == "bold" else ""
    words = "".join(
        f'<tspan style="font-variant-numeric:diagonal-fractions">{escape(run)}</tspan>' if small else escape(run)
        for run, small in text_runs(ink.text)
    )
    return f'<text x="{x}" y="{y}" font-size="{number(ink.size)}"{anchor}{weight}{turn} xml:space="preserve">{words}</text>'


def flipped(at: Point, drawing: Drawing) -> tuple[str, str]:
    """A point with y down, as SVG has it, in figures."""
    return number(at[0]), number(drawing.height - at[1])


def dash_attribute(dash: tuple[float, ...]) -> str:
    """The dashes of a line."""
    return f' stroke-dasharray="{" ".join(number(part) for part in dash)}"' if dash else ""
