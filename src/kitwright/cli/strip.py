"""`kitwright strip`: measure a paper, a printer and a hand with a test strip."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from kitwright.cli.files import PATH, write_file
from kitwright.errors import Mistake, Place

if TYPE_CHECKING:
    from kitwright.measure import Unit

__all__ = ["command"]

LENGTH = "A length in the units, such as 100.2 or 3 15/16."


@click.command("strip")
@click.option(
    "--units", type=click.Choice(["in", "mm"]), default="in", show_default=True, help="Inches or millimetres."
)
@click.option("--page", type=click.Choice(["us-letter", "a4"]), help="The page; by the units if not said.")
@click.option("--into", type=PATH, default=Path("test-strip.pdf"), help="The file for the page.")
@click.option("--bar", help="Reading: the length of the printed bar.")
@click.option("--stack", help="Reading: how high ten sheets are.")
@click.option(
    "--sheets", type=click.IntRange(1, 500), default=10, show_default=True, help="How many sheets the stack has."
)
@click.option("--apart", help="Reading: how far apart the scores are (as they should be, if not said).")
@click.option(
    "--inside", "insides", multiple=True, help="Reading: the room inside a folded strip; once for each strip."
)
@click.option(
    "--piece", "pieces", multiple=True, help="Reading: the length of a piece that was cut; once for each piece."
)
@click.option("--aim", help="The length that the pieces should have (a quarter of the strip's, if not said).")
@click.option("--with", "tool", type=click.Choice(["ruler", "sliding caliper"]), default="sliding caliper", show_default=True,
              help="What was measured with.")  # fmt: skip
def command(
    units: str,
    page: str | None,
    into: Path,
    bar: str | None,
    stack: str | None,
    sheets: int,
    apart: str | None,
    insides: tuple[str, ...],
    pieces: tuple[str, ...],
    aim: str | None,
    tool: str,
) -> int:
    """Write a test strip to print and fold; or, with readings, tell what to type into a kit document.

    With it you measure how thick a card is, where its folds turn, how large the printer prints, and how far your cuts are off.
    """
    from kitwright.measure import Unit  # noqa: PLC0415
    from kitwright.printouts.page import page_named  # noqa: PLC0415

    unit = Unit(units)
    if not (bar or stack or insides or pieces):
        from kitwright.printouts.make.test_strip import strip_page  # noqa: PLC0415

        if into.exists():
            raise Mistake(
                "There is such a file already.", do="Name another with --into.", place=Place(document=str(into))
            )
        write_file(into, strip_page(page_named(page or ("us-letter" if unit is Unit.INCH else "a4")), unit=unit))
        click.echo(
            f"{into} is there. Print it at 100 %, measure, then: kitwright strip --units {units} --stack … --inside …"
        )
        return 0
    if insides and not stack:
        raise Mistake(
            "The room inside says nothing without the thickness.", do="Add --stack, the height of ten sheets."
        )
    for line in answers(
        unit, bar=bar, stack=stack, sheets=sheets, apart=apart, insides=insides, pieces=pieces, aim=aim, tool=tool
    ):
        click.echo(line)
    return 0


def answers(
    unit: Unit,
    *,
    bar: str | None,
    stack: str | None,
    sheets: int,
    apart: str | None,
    insides: tuple[str, ...],
    pieces: tuple[str, ...],
    aim: str | None,
    tool: str,
) -> Iterator[str]:
    """What the readings come to, as lines of a kit document and what to know of them."""
    from kitwright.measure import counted, parse_length  # noqa: PLC0415
    from kitwright.printouts.make.test_strip import APART, BAR  # noqa: PLC0415
    from kitwright.proof.tolerance import READING, cut_limit, hinge_depth, print_percent, sheet_thickness  # noqa: PLC0415

    def mm(text: str | None, usual: float) -> float:
        return usual if text is None else float(parse_length(text, unit).mm)

    def said(length: float) -> str:
        return f"{length / float(unit.mm):.{4 if unit.value == 'in' else 3}f}"

    reading = READING[tool]
    if bar:
        percent = print_percent(bar=mm(bar, 0), true=BAR[unit], unit=unit)
        told = "The printer prints true." if abs(percent - 100) < TRUE else "Choose this scale when you print patterns."
        yield f"Printer: {percent:.1f} %. {told}"
    if stack:
        caliper = sheet_thickness(stack=mm(stack, 0), sheets=sheets, reading=reading, unit=unit)
        yield "In the kit document, under the heading of this paper:"
        yield f'  caliper = "{said(caliper.value)}"    # ± {said(caliper.off)} {unit.value}'
        if insides:
            hinge = hinge_depth(
                apart=mm(apart, APART[unit]),
                insides=[mm(each, 0) for each in insides],
                caliper=caliper,
                reading=reading,
                unit=unit,
            )
            if hinge.is_too_coarse:
                yield f"  # hinge: {hinge.value:.2f}, but ± {hinge.off:.2f}: measured too coarsely to be of use; leave it at 0.5"
            else:
                yield f"  hinge = {hinge.value:.2f}    # ± {hinge.off:.2f}"
    if pieces:
        limit = cut_limit(
            aim=mm(aim, APART[unit] / 4), pieces=[mm(each, 0) for each in pieces], reading=reading, unit=unit
        )
        yield "Under the heading [kit.accuracy]:"
        yield f'  cut = "{said(limit.value)}"    # the farthest of {counted(len(pieces), "piece")}, ± {said(limit.off)} {unit.value}'


TRUE = 0.3
"""Percent. A page that is off by less is as true as a bar can show."""
