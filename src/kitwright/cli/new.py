"""`kitwright new`: a kit document to start from."""

from __future__ import annotations

from pathlib import Path

import click

from kitwright.cli.files import PATH, write_file
from kitwright.errors import Mistake, Place

__all__ = ["command"]


@click.command("new")
@click.argument("name")
@click.option(
    "--units", type=click.Choice(["in", "mm"]), default="in", show_default=True, help="Inches or millimetres."
)
@click.option("--into", type=PATH, default=Path(), help="Folder for the document; this one.")
def command(name: str, units: str, into: Path) -> int:
    """Start a kit document called NAME, a small card kit with every line explained, to be changed into your own."""
    from kitwright.kit import new_kit_document  # noqa: PLC0415
    from kitwright.measure import Unit  # noqa: PLC0415
    from kitwright.printouts.make.whole_pack import file_name  # noqa: PLC0415

    if not name.strip():
        raise Mistake("A kit needs a name.", do='Write it in quotes: kitwright new "Nine tulips".')
    path = into / f"{file_name(name, otherwise='kit')}.toml"
    if path.exists():
        raise Mistake("There is such a file already.", do="Choose another name.", place=Place(document=str(path)))
    write_file(path, new_kit_document(name, Unit(units)).encode())
    click.echo(f"{path} is there. Open it in any text editor, then: kitwright prove {path}")
    return 0
