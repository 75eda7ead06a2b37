"""`kitwright post`: what the filled envelopes and boxes are to the post."""

from __future__ import annotations

from pathlib import Path

import click

from kitwright.cli.files import PATH, document_text, load_kit
from kitwright.cli.show import console, print_json

__all__ = ["command"]


@click.command("post")
@click.argument("kit", type=PATH)
@click.option(
    "--prices",
    type=PATH,
    help="A table of your own with what each class costs; see the reference.",
)
@click.option("--json", "as_json", is_flag=True, help="Print every number for other programs.")
def command(kit: Path, prices: Path | None, as_json: bool) -> int:
    """Tell what each filled envelope and each box of KIT is to the post: letter, large letter, parcel, or not mailable.

    By dated rules that come with the program; the post office decides. Prices are only told from a table of your
    own. Exit code 1 if something cannot be mailed at all.
    """
    from kitwright.findings import Severity  # noqa: PLC0415
    from kitwright.kit import build, posted_pieces  # noqa: PLC0415
    from kitwright.printouts.make.as_data import finding_as_data  # noqa: PLC0415
    from kitwright.proof.mailing import (  # noqa: PLC0415
        DISCLAIMER,
        judge_all,
        load_services,
        mailing_finding,
        parse_prices,
    )

    built = build(load_kit(kit))
    services, ruler, screen = load_services(), built.kit.ruler, console()
    table = None if prices is None else parse_prices(document_text(prices), document=prices.name)
    found, rows = [], []
    for posted in posted_pieces(built):
        piece = posted.piece
        verdicts = judge_all(piece, services)
        costs = [
            table.find_price(verdict, piece.weight) if table and piece.weight is not None else None
            for verdict in verdicts
        ]
        findings = [mailing_finding(verdict, about=posted.name) for verdict in verdicts]
        found += findings
        rows += [
            {**finding_as_data(finding), **({"price": str(cost)} if cost else {})}
            for finding, cost in zip(findings, costs, strict=True)
        ]
        if as_json:
            continue
        sides = (piece.along_address, piece.across_address, piece.thickness)
        size = " × ".join(ruler.near(side).removesuffix(f" {ruler.unit.value}") for side in sides)
        weight = "weight not known" if piece.weight is None else f"about {float(piece.weight):.0f} g"
        screen.print(posted.name, style="bold", end="", soft_wrap=True)
        screen.print(f": {size} {ruler.unit.value}, {weight}", soft_wrap=True)
        for finding, cost in zip(findings, costs, strict=True):
            screen.print(f"  {finding.message.removesuffix(DISCLAIMER).strip()}")
            if cost is not None and table is not None:
                screen.print(f"    {cost} each, by your prices of {table.date}")
            screen.print(f"    {finding.because}", style="dim")
    if as_json:
        print_json(rows)
    elif found:
        screen.print(DISCLAIMER)
    else:
        screen.print("Nothing in this kit is an envelope or a box that holds something.")
    return 1 if any(finding.severity is Severity.FAIL for finding in found) else 0
