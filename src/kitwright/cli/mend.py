"""`kitwright mend`: apply the proved fixes to a kit document."""

from __future__ import annotations

from pathlib import Path

import click

from kitwright.cli.files import document_text, load_kit, write_file
from kitwright.cli.show import console, show_proof
from kitwright.kit import apply_changes, build, prove, read_kit

__all__ = ["command"]


@click.command("mend")
@click.argument("kit", type=click.Path(path_type=Path))
@click.option("--show", "only_show", is_flag=True, help="Only show what would be changed.")
def command(kit: Path, only_show: bool) -> int:
    """Apply the changes that the proof of KIT offers. Comments and order of the document stay; the old one is kept beside it."""
    screen = console()
    proof = prove(build(load_kit(kit)))
    fixes = [finding.fix for finding in proof.findings if finding.fix]
    if not fixes:
        show_proof(screen, proof, everything=False)
        screen.print("There is nothing to mend." if proof.is_proved else "The proof has no fix to offer for this.")
        return 0 if proof.is_proved else 1
    for fix in fixes:
        screen.print(f"- {fix.sentence}", markup=False)
    if only_show:
        return 1
    before = document_text(kit)
    after = apply_changes(before, [change for fix in fixes for change in fix.changes])
    again = prove(build(read_kit(after, document=kit.name)))
    write_file(kit.with_suffix(".before.toml"), before.encode())
    write_file(kit, after.encode())
    show_proof(screen, again, everything=False)
    screen.print(f"The document before the change is kept as {kit.with_suffix('.before.toml')}.")
    return 0 if again.is_proved else 1
