"""`kitwright demo`: the whole way for a ready-made kit."""

from __future__ import annotations

from importlib import resources
from pathlib import Path

import click

from kitwright.cli.files import PATH, cannot_be_written, document_bytes, free_name, write_file
from kitwright.cli.pack import write_pack

__all__ = ["command"]


@click.command("demo")
@click.option("--into", type=PATH, default=Path("kitwright-demo"), help="Folder to write into.")
@click.option("--page", type=click.Choice(["us-letter", "a4"]), default=None, help="Page size.")
@click.option("--kits", "batch", type=int, default=6, show_default=True, help="How many kits to make.")
def command(into: Path, page: str | None, batch: int) -> int:
    """Make the whole pack for the recipe box, a ready-made kit: document, proof, patterns and bench pack."""
    text = resources.files("kitwright").joinpath("examples", "recipe-box.toml").read_bytes()
    document = into / "recipe-box.toml"
    if document.is_file() and document_bytes(document) != text:
        kept = free_name(document)
        try:
            document.rename(kept)
        except OSError as error:
            raise cannot_be_written(kept, error, "Nothing was changed.") from None
        click.echo(f"You changed {document.name}: yours is now {kept}. For its own pack: kitwright pack {kept}")
    if not document.exists():
        write_file(document, text)
    return write_pack(document, batch=batch, page=page, into=into, even_if_not_proved=False, as_json=False)
