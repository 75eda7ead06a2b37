"""The print of a paper under the lines of a drawing: its own picture as it lies, or light signs that say which way up it goes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from markupsafe import Markup, escape

from kitwright.cutting import Stock, to_mm
from kitwright.paper import Affine, Paper, Print
from kitwright.printouts.compose import Fitted
from kitwright.printouts.drawing import Move, Point
from kitwright.printouts.write.svg import number
from kitwright.web.printed import picture_of
from kitwright.workshop import Scans

__all__ = ["has_print", "sheet_print", "under"]

SIGNS: Final = {Print.ONE_WAY: "one-way", Print.ALL_OVER: "all-over"}
"""The patterns that stand for a print of which there is no picture; each page that shows prints has them."""


def has_print(paper: Paper) -> bool:
    """Whether there is anything to show of a paper."""
    return paper.scan is not None or paper.print_ in SIGNS


def under(
    name: str, paper: Paper, fitted: Fitted, outline: Sequence[Point], *, turn: int, picture: tuple[str, Affine] | None
) -> Markup:
    """What lies under a drawing, inside an outline of the thing drawn.

    `picture` is the address and its matrix onto the thing; without one, signs whose up is turned so many quarters to the left. `name`
    is used once in a page.
    """
    high = fitted.drawing.height
    points = " ".join(",".join(down(fitted.move.point(each), high)) for each in outline)
    ground = f'<polygon class="ground" points="{points}"/>'
    if picture is not None:
        address, matrix = picture
        numbers = " ".join(number_long(each) for each in on_picture(matrix, fitted.move, high))
        shown = (
            f'<clipPath id="{escape(name)}"><polygon points="{points}"/></clipPath><g clip-path="url(#{escape(name)})">'
            f'<image href="{escape(address)}" width="1" height="1" preserveAspectRatio="none" transform="matrix({numbers})"/></g>'
        )
    elif paper.print_ in SIGNS:
        way = f"{SIGNS[paper.print_]}-{turn % 4}" if paper.print_ is Print.ONE_WAY else SIGNS[paper.print_]
        shown = f'<polygon fill="url(#print-{way})" points="{points}"/>'
    else:
        return Markup()
    return Markup(f'<g class="under">{ground}{shown}</g>')


def sheet_print(name: str, paper: Paper, stock: Stock, fitted: Fitted, scans: Scans, *, is_whole: bool) -> Markup:
    """The print under a whole sheet; of an offcut nobody knows what is printed on it, but which way up."""
    width, height = float(to_mm(stock.width)), float(to_mm(stock.height))
    corners = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    found = picture_of(paper, scans) if is_whole else None
    picture = None if found is None else (str(found["address"]), tuple(found["matrix"]))
    return under(name, paper, fitted, corners, turn=0, picture=picture)


def on_picture(matrix: Affine, move: Move, high: float) -> Affine:
    """A matrix onto the thing drawn (y up) as one onto its drawing (y down)."""
    a, b, c, d, e, f = matrix
    factor = move.factor
    x, y = move.point((e, f))
    return (factor * a, -factor * b, factor * c, -factor * d, x, high - y)


def down(at: Point, high: float) -> tuple[str, str]:
    """A point with y down, in figures."""
    return number(at[0]), number(high - at[1])


def number_long(value: float) -> str:
    """A figure of a matrix: a picture's whole width is multiplied by it."""
    return f"{value:.6f}".rstrip("0").rstrip(".")
