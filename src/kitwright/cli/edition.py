"""`kitwright edition`: the same kit designed again for the other ruler."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from kitwright.cli.files import PATH, load_kit, write_file
from kitwright.cli.show import console, print_json, show_proof
from kitwright.errors import Mistake, Place

if TYPE_CHECKING:
    from rich.console import Console

    from kitwright.kit import Adjustment

__all__ = ["command"]

LEAST_TOLD = 0.05
"""Millimetres. What changes by less is only measured with another ruler."""

OPENING = """\
# {name}, for a ruler in {unit}
#
# Made from the edition in {other}: sheets and standard sizes are the neighbours that shops have, what was said stands on
# the marks of this ruler, what follows is solved anew. Prices and sheets on hand are still those of the other edition.

"""


@click.command("edition")
@click.argument("kit", type=PATH)
@click.option("--units", type=click.Choice(["in", "mm", "cm"]), required=True, help="The other system of units.")
@click.option("--ruler", help="The finest marks to work to, such as 0.5 or 1/32; about as fine as before if not said.")
@click.option("--into", type=PATH, help="The new document; beside KIT if not said.")
@click.option("--show", "only_show", is_flag=True, help="Only show what would change; write nothing.")
@click.option("--json", "as_json", is_flag=True, help="Print every number for other programs; write nothing.")
def command(kit: Path, units: str, ruler: str | None, into: Path | None, only_show: bool, as_json: bool) -> int:
    """Design KIT again for inches or millimetres: other sheets, other standard sizes, solved and proved again.

    It is not a conversion: the parts of one edition do not fit those of the other. KIT stays as it is. Exit code 1 if something does
    not fit.
    """
    from dataclasses import asdict  # noqa: PLC0415

    from kitwright.kit import edition, write_kit  # noqa: PLC0415
    from kitwright.kit.edition import WORDS  # noqa: PLC0415
    from kitwright.measure import Unit, parse_ruler  # noqa: PLC0415
    from kitwright.printouts.make.as_data import proof_as_data  # noqa: PLC0415

    unit = Unit(units)
    here = load_kit(kit)
    made = edition(here, unit, ruler=parse_ruler(ruler, unit) if ruler else None)
    if as_json:
        changes = [asdict(change) for change in made.changes]
        print_json(
            {"unit": units, "changes": changes, "proof": proof_as_data(made.proof), "document": write_kit(made.kit)}
        )
        return 0 if made.proof.is_proved else 1
    screen = console()
    show_changes(screen, made.changes)
    show_proof(screen, made.proof, everything=False)
    if not only_show:
        path = into or kit.with_suffix(f".{units}.toml")
        if path.exists():
            raise Mistake(
                "There is such a file already.", do="Name another with --into.", place=Place(document=str(path))
            )
        opening = OPENING.format(name=here.name, unit=WORDS[unit], other=WORDS[here.unit])
        write_file(path, (opening + write_kit(made.kit)).encode())
        screen.print(f"\n{path} is there; {kit} is as it was.", soft_wrap=True)
    return 0 if made.proof.is_proved else 1


def show_changes(screen: Console, changes: tuple[Adjustment, ...]) -> None:
    """What is another now, part by part."""
    from rich.table import Table  # noqa: PLC0415

    table = Table(box=None, pad_edge=False, header_style="bold")
    for word, side in (
        ("of", "left"),
        ("what", "left"),
        ("was", "left"),
        ("is", "left"),
        ("mm more", "right"),
        ("because", "left"),
    ):
        table.add_column(word, justify=side)  # type: ignore[arg-type]
    about = ""
    for change in changes:
        if max(map(abs, change.by)) < LEAST_TOLD:
            continue
        by = ", ".join(f"{length:+.1f}" for length in change.by)
        same = change.about == about
        table.add_row("" if same else change.about, change.what, change.before, change.after, by, change.because)
        about = change.about
    screen.print(table)
    screen.print()
