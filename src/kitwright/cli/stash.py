"""`kitwright stash`: what can still be made from the papers and offcuts on hand."""

from __future__ import annotations

from pathlib import Path

import click

from kitwright.cli.files import PATH, load_kit
from kitwright.cli.planning import told_progress
from kitwright.cli.show import console, print_json, show_stash
from kitwright.plan import check_batch, from_stash, plan
from kitwright.printouts.make.as_data import stash_as_data

__all__ = ["command"]


@click.command("stash")
@click.argument("kit", type=PATH)
@click.option("--kits", "batch", type=int, help="Tell what to buy for so many kits.")
@click.option("--json", "as_json", is_flag=True, help="Print every number for other programs.")
def command(kit: Path, batch: int | None, as_json: bool) -> int:
    """Tell how many whole kits of KIT can be made from what is on hand, and what one more takes.

    What is on hand stands in the document: on-hand under a paper, and every [[offcut]]. Exit code 1 if not one kit can be made, or not
    as many as are wanted.
    """
    said = load_kit(kit)
    if batch is not None:
        check_batch(batch)
    with told_progress("Looking for as many kits as can be made") as tell:
        found = from_stash(said, progress=tell)
        made = None if batch is None else plan(said, batch=batch, progress=tell)
    if as_json:
        print_json(stash_as_data(found, made))
    else:
        show_stash(console(), found, made)
    return 0 if found.kits >= (batch or 1) else 1
