"""`kitwright mend`: apply the proved fixes to a kit document."""

from __future__ import annotations

from pathlib import Path

import click

from kitwright.cli.files import PATH, document_bytes, document_text, free_name, write_file
from kitwright.cli.show import console, show_proof
from kitwright.findings import Severity
from kitwright.kit import mend_document
from kitwright.proof import Proof

__all__ = ["command"]


@click.command("mend")
@click.argument("kit", type=PATH)
@click.option("--show", "only_show", is_flag=True, help="Only show what would be changed.")
@click.option(
    "--warnings", is_flag=True, help="Also change what is only a warning: tight in some makes, folds that may crack."
)
def command(kit: Path, only_show: bool, warnings: bool) -> int:
    """Apply the changes that the proof of KIT offers. Comments and order of the document stay; the old one is kept beside it.

    Exit code 1 if something does not fit afterwards (or, with --show, if there is something to change).
    """
    screen = console()
    mended = mend_document(document_text(kit), document=kit.name, warnings=warnings)
    if not mended.fixes:
        show_proof(screen, mended.proof, everything=False)
        screen.print(nothing_words(mended.proof, warnings=warnings))
        return 0 if mended.proof.is_proved else 1
    for fix in mended.fixes:
        screen.print(f"- {fix.sentence}")
    if only_show:
        return 1
    kept = free_name(kit)
    write_file(kept, document_bytes(kit))
    write_file(kit, mended.text.encode())
    show_proof(screen, mended.proof, everything=False)
    screen.print(f"The document before the change is kept as {kept}.")
    return 0 if mended.proof.is_proved else 1


def nothing_words(proof: Proof, *, warnings: bool) -> str:
    """Why nothing is changed."""
    if not proof.is_proved:
        return "The proof has no fix to offer for this."
    if not warnings and any(finding.fix for finding in proof.of(Severity.WARNING)):
        return "Nothing fails. Use --warnings to change what is warned of, too."
    return "There is nothing to mend."
