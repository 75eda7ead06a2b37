"""`kitwright pack`: everything that goes to the bench, written into a folder."""

from __future__ import annotations

from pathlib import Path

import click

from kitwright.cli.files import PATH, load_kit
from kitwright.cli.folder import write_folder
from kitwright.cli.planning import plan_with_progress
from kitwright.cli.show import console, print_json, show_proof
from kitwright.errors import Mistake
from kitwright.measure import counted
from kitwright.printouts.make.as_data import plan_as_data
from kitwright.printouts.make.whole_pack import LIST, file_name, whole_pack

__all__ = ["command", "write_pack"]


@click.command("pack")
@click.argument("kit", type=PATH)
@click.option("--kits", "batch", type=int, default=1, show_default=True, help="How many kits to make.")
@click.option(
    "--page", type=click.Choice(["us-letter", "a4"]), default=None, help="Page size; as the kit's units suggest."
)
@click.option("--into", type=PATH, default=None, help="Folder to write into; named after the kit.")
@click.option("--even-if-not-proved", is_flag=True, help="Write the pack although something does not fit.")
@click.option("--json", "as_json", is_flag=True, help="Print every number for other programs.")
def command(kit: Path, batch: int, page: str | None, into: Path | None, even_if_not_proved: bool, as_json: bool) -> int:
    """Write the bench pack (PDF), the patterns (SVG) and the proof of KIT into a folder.

    Nothing is written if something does not fit, unless you ask for it. Exit code 1 in that case.
    """
    return write_pack(kit, batch=batch, page=page, into=into, even_if_not_proved=even_if_not_proved, as_json=as_json)


def write_pack(
    kit: Path, *, batch: int, page: str | None, into: Path | None, even_if_not_proved: bool, as_json: bool
) -> int:
    """Plan, compose everything in memory, then write."""
    made = plan_with_progress(load_kit(kit), batch=batch)
    screen = console()
    if not made.proof.is_proved and not even_if_not_proved:
        if as_json:
            print_json(plan_as_data(made))
        else:
            show_proof(screen, made.proof, everything=False)
            screen.print("Nothing was written. Change the kit, or add --even-if-not-proved.")
        return 1
    if not all(paper.cut_plan.is_complete and not paper.faults for paper in made.papers) and not even_if_not_proved:
        lacking = next(u for paper in made.papers for u in paper.cut_plan.unplaced)
        raise Mistake(lacking.sentence(made.ruler), do="Nothing was written.")
    folder = into or Path(f"{file_name(made.kit.name, otherwise='kit')}-pack")
    files = whole_pack(made, page=page)
    write_folder(folder, files, listed_in=LIST)
    if as_json:
        print_json({**plan_as_data(made), "folder": str(folder), "files": sorted(files)})
    else:
        show_proof(screen, made.proof, everything=False)
        screen.print(
            f"\n{counted(len(files), 'file is', 'files are')} in {folder}. Begin with bench-pack.pdf.", soft_wrap=True
        )
    return 0 if made.proof.is_proved else 1
