"""`kitwright prove`: check that everything fits."""

from __future__ import annotations

from pathlib import Path

import click

from kitwright.cli.files import load_kit
from kitwright.cli.show import console, print_json, show_proof
from kitwright.kit import build, prove
from kitwright.printouts.make.as_data import proof_as_data

__all__ = ["command"]


@click.command("prove")
@click.argument("kit", type=click.Path(path_type=Path))
@click.option("--all", "everything", is_flag=True, help="Show the checks that fit as well.")
@click.option("--json", "as_json", is_flag=True, help="Print every number for other programs.")
def command(kit: Path, everything: bool, as_json: bool) -> int:
    """Check that everything in KIT fits, stands upright and can be cut.

    Nothing is written. Exit code 1 if something does not work.
    """
    proof = prove(build(load_kit(kit)))
    if as_json:
        print_json(proof_as_data(proof))
    else:
        show_proof(console(), proof, everything=everything)
    return 0 if proof.is_proved else 1
