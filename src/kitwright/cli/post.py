"""`kitwright post`: what the filled envelopes and boxes are to the post."""

from __future__ import annotations

from pathlib import Path

import click

from kitwright.cli.files import load_kit
from kitwright.cli.show import console, print_json

__all__ = ["command"]


@click.command("post")
@click.argument("kit", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print every number for other programs.")
def command(kit: Path, as_json: bool) -> int:
    """Tell what each filled envelope and each box of KIT is to the post: letter, large letter, parcel, or not mailable.

    By dated rules that come with the program; the post office decides. Exit code 1 if something cannot be mailed at all.
    """
    from kitwright.findings import Severity  # noqa: PLC0415
    from kitwright.kit import build, posted_pieces  # noqa: PLC0415
    from kitwright.printouts.make.as_data import finding_as_data  # noqa: PLC0415
    from kitwright.proof.mailing import DISCLAIMER, judge_all, load_services, mailing_finding  # noqa: PLC0415

    built = build(load_kit(kit))
    services, ruler, screen = load_services(), built.kit.ruler, console()
    found = []
    for posted in posted_pieces(built):
        piece = posted.piece
        findings = [mailing_finding(verdict, about=posted.name) for verdict in judge_all(piece, services)]
        found += findings
        if as_json:
            continue
        sides = (piece.along_address, piece.across_address, piece.thickness)
        size = " × ".join(ruler.near(side).removesuffix(f" {ruler.unit.value}") for side in sides)
        weight = "weight not known" if piece.weight is None else f"about {float(piece.weight):.0f} g"
        screen.print(f"[bold]{posted.name}[/bold]: {size} {ruler.unit.value}, {weight}")
        for finding in findings:
            screen.print(f"  {finding.message.removesuffix(DISCLAIMER).strip()}", markup=False)
            screen.print(f"    {finding.because}", style="dim", markup=False)
    if as_json:
        print_json([finding_as_data(finding) for finding in found])
    elif found:
        screen.print(DISCLAIMER)
    else:
        screen.print("Nothing in this kit is an envelope or a box that holds something.")
    return 1 if any(finding.severity is Severity.FAIL for finding in found) else 0
