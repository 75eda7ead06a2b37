"""A drawing as Typst code: a box of its exact size in mm, and any words of a user made harmless for the typesetter."""

from __future__ import annotations

import re
import unicodedata
from typing import Final

from kitwright.printouts.drawing import Drawing, Point, Role
from kitwright.printouts.ink import Disc, Ink, Paint, Path, Text, ink_of
from kitwright.printouts.lettering import text_runs
from kitwright.printouts.style import LIGHT, LINE_WIDTHS, STYLES, Tint
from kitwright.printouts.write.svg import number

__all__ = ["Markup", "drawing_to_typst", "typst_string", "words"]


class Markup(str):
    """Typst markup that is meant as such. A plain `str` is always words of a person, and is escaped."""

    __slots__ = ()


ROOM: Final = 1000.0
"""Width in mm of the invisible box that carries a line of text: longer than any page, so that the line never breaks."""

SPACES: Final = re.compile(r"(\s+)")

LONGEST_WORD: Final = 20
"""A word with more signs may break: no column is sure to be wide enough for it."""

CHUNK: Final = 4
"""After so many of its signs it may break."""

BREAK: Final = "#h(0.001mm);"
"""Typst for: here a line may end. Unlike a sign for it, it is not in the words that a reader of the PDF finds."""

UNPRINTABLE: Final = "\N{REPLACEMENT CHARACTER}"


def typst_string(text: str) -> str:
    """A Typst string literal of exactly this text. Control signs and half pairs, which have no shape, become the replacement sign.

    >>> print(typst_string('5" #1'))
    "5\\" #1"
    """
    escapes = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\t": " "}
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    signs = (
        escapes.get(sign, UNPRINTABLE if unicodedata.category(sign) in ("Cc", "Cs") and sign not in escapes else sign)
        for sign in plain
    )
    return f'"{"".join(signs)}"'


def words(text: str) -> Markup:
    """Words of a person as markup: nothing in them is read as a command, new lines are kept. `Markup` is passed through."""
    if isinstance(text, Markup):
        return text
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return Markup("#linebreak();".join(breakable(line) for line in lines if line or len(lines) > 1))


def breakable(line: str) -> str:
    """A line as Typst code in which words that may be too long for a column can break."""
    parts = [""]
    for word in SPACES.split(line):
        if len(word) <= LONGEST_WORD:
            parts[-1] += word
        else:
            first, *more = chunks(word)
            parts[-1] += first
            parts += more
    return BREAK.join(f"#{typst_string(part)};" for part in parts)


def chunks(word: str) -> list[str]:
    """A word in parts of a few signs, none of which begins with an accent or another sign that only changes its neighbour."""
    parts = [""]
    for sign in word:
        is_own = unicodedata.category(sign)[0] not in "MC"
        if len(parts[-1]) >= CHUNK and is_own and not parts[-1].endswith("\N{ZERO WIDTH JOINER}"):
            parts.append("")
        parts[-1] += sign
    return parts


def drawing_to_typst(drawing: Drawing) -> Markup:
    """The drawing as a Typst box of exactly its width and height, to be put anywhere in a document."""
    clip = ", clip: true" if drawing.clipped else ""
    body = "\n".join(element(ink, drawing) for ink in ink_of(drawing))
    return Markup(f"#box(width: {mm(drawing.width)}, height: {mm(drawing.height)}{clip}, {{\n{body}\n}})")


def mm(value: float) -> str:
    """A length in Typst."""
    return f"{number(value)}mm"


def spot(at: Point, drawing: Drawing) -> str:
    """A point with y down, as Typst has it."""
    return f"({mm(at[0])}, {mm(drawing.height - at[1])})"


def colour(tint: Tint) -> str:
    """A colour in Typst."""
    return f'rgb("{LIGHT[tint]}")'


def paint_arguments(role: Role, paint: Paint, dash: tuple[float, ...]) -> str:
    """Stroke or fill of a shape."""
    style = STYLES[role]
    line = style.line or style.letters
    if paint == "line":
        dashes = f", dash: ({', '.join(map(mm, dash))})" if dash else ""
        return (
            f"stroke: (paint: {colour(line)}, thickness: {mm(LINE_WIDTHS[style.width])}"
            f'{dashes}, cap: "butt", join: "round")'
        )
    fill = {"fill": style.fill or Tint.PAPER, "solid": line, "paper": Tint.PAPER}[paint]
    return f"fill: {colour(fill)}, stroke: none"


def element(ink: Ink, drawing: Drawing) -> str:
    """One placed element."""
    match ink:
        case Text():
            return text_element(ink, drawing)
        case Disc():
            (x, y), r = ink.centre, ink.radius
            at = f"dx: {mm(x - r)}, dy: {mm(drawing.height - y - r)}"
            return f"place(top + left, {at}, circle(radius: {mm(r)}, {paint_arguments(ink.role, ink.paint, ink.dash)}))"
        case Path():
            looks = paint_arguments(ink.role, ink.paint, ink.dash)
            if len(ink.rings) == 1 and len(ink.rings[0]) == 2 and not ink.curved:
                start, end = (spot(at, drawing) for at in ink.rings[0])
                return f"place(top + left, line(start: {start}, end: {end}, {looks}))"
            steps = ", ".join(step for ring in ink.rings for step in ring_steps(ring, ink, drawing))
            return f'place(top + left, curve({looks}, fill-rule: "even-odd", {steps}))'


def ring_steps(ring: tuple[Point, ...], path: Path, drawing: Drawing) -> list[str]:
    """The steps that draw one ring."""
    spots = [spot(at, drawing) for at in ring]
    steps = [f"curve.move({spots[0]})"]
    if path.curved:
        steps += [f"curve.cubic({', '.join(spots[i : i + 3])})" for i in range(1, len(spots), 3)]
    else:
        steps += [f"curve.line({at})" for at in spots[1:]]
    return [*steps, 'curve.close(mode: "straight")'] if path.closed else steps


def text_element(ink: Text, drawing: Drawing) -> str:
    """A line of text on its base line; a box of no height carries it, so that it turns about its point and never breaks.

    Its fractions are set here; lining figures tell the house style to leave them alone.
    """
    runs = "".join(
        f'#text(size: 1.14em, tracking: 0.03em, features: ("frac",), {typst_string(run)});'
        if small
        else f"#{typst_string(run)};"
        for run, small in text_runs(ink.text)
    )
    weight = ', weight: "semibold"' if ink.weight == "bold" else ""
    across, back = {"start": ("left", 0.0), "middle": ("center", ROOM / 2), "end": ("right", ROOM)}[ink.anchor]
    set_text = (
        f"text(size: {mm(ink.size)}, fill: {colour(STYLES[ink.role].letters)}{weight},"
        f' top-edge: "baseline", bottom-edge: "baseline", number-type: "lining")[{runs}]'
    )
    line = f"box(width: {mm(ROOM)}, height: 0pt, align(top + {across}, {set_text}))"
    carried = f"box(width: 0pt, height: 0pt, place(top + left, dx: {mm(-back)}, {line}))"
    turned = f"rotate({number(-ink.angle)}deg, origin: top + left, {carried})" if ink.angle else carried
    x, y = ink.at
    return f"place(top + left, dx: {mm(x)}, dy: {mm(drawing.height - y)}, {turned})"
