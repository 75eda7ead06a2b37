"""`kitwright sheets`: the cut list and the fewest sheets."""

from __future__ import annotations

from pathlib import Path

import click

from kitwright.cli.files import PATH, load_kit
from kitwright.cli.mats import on_mats, show_mats
from kitwright.cli.planning import plan_with_progress
from kitwright.cli.show import console, print_json, show_cut_list, show_sheets
from kitwright.errors import Mistake
from kitwright.printouts.make.as_data import mats_as_data, plan_as_data

__all__ = ["command"]


@click.command("sheets")
@click.argument("kit", type=PATH)
@click.option("--kits", "batch", type=int, default=1, show_default=True, help="How many kits to make.")
@click.option("--alike", is_flag=True, help="Cut every kit by the same layouts; tells what that costs in sheets.")
@click.option(
    "--machine", is_flag=True, help="Lay the blanks with their outlines on the mats of a cutting machine as well."
)
@click.option(
    "--into",
    type=PATH,
    help="With --machine: a folder for a picture (SVG) and lines (DXF) of every mat.",
)
@click.option("--cuts", is_flag=True, help="Show every cut in order.")
@click.option("--json", "as_json", is_flag=True, help="Print every number for other programs.")
def command(kit: Path, batch: int, alike: bool, machine: bool, into: Path | None, cuts: bool, as_json: bool) -> int:
    """Lay out a batch of KIT on the fewest sheets.

    Nothing is written unless you name a folder for mats. Exit code 1 if not everything finds room on the sheets.
    """
    if into is not None and not machine:
        raise Mistake("There are mats only for a cutting machine.", do="Add --machine.")
    made = plan_with_progress(load_kit(kit), batch=batch, alike=alike)
    if as_json:
        print_json({**plan_as_data(made), **({"mats": mats_as_data(on_mats(made))} if machine else {})})
    else:
        screen = console()
        show_cut_list(screen, made)
        show_sheets(screen, made, steps=cuts)
        if machine:
            show_mats(screen, made, on_mats(made), into)
    return 0 if all(paper.cut_plan.is_complete and not paper.faults for paper in made.papers) else 1
