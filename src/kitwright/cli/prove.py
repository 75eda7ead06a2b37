"""`kitwright prove`: check that everything fits."""

from __future__ import annotations

from pathlib import Path

import click

from kitwright.cli.files import PATH, load_kit, write_file
from kitwright.cli.own_files import is_as_signed, signed
from kitwright.cli.show import console, print_json, show_proof
from kitwright.errors import Mistake, Place
from kitwright.kit import BuiltKit, build, mend_kit, prove
from kitwright.printouts.make.as_data import proof_as_data
from kitwright.proof import Proof

__all__ = ["command"]


@click.command("prove")
@click.argument("kit", type=PATH)
@click.option("--all", "everything", is_flag=True, help="Show the checks that fit as well.")
@click.option("--report", type=PATH, help="Write a page with pictures of every fit: a .pdf or .svg file.")
@click.option(
    "--page", type=click.Choice(["us-letter", "a4"]), help="The page of the report; by the kit's units if not said."
)
@click.option("--json", "as_json", is_flag=True, help="Print every number for other programs.")
def command(kit: Path, everything: bool, report: Path | None, page: str | None, as_json: bool) -> int:
    """Check that everything in KIT fits, stands upright and can be cut.

    Nothing is written unless you ask for a report. Exit code 1 if something does not work.
    """
    if report is not None and report.suffix.lower() not in (".pdf", ".svg"):
        raise Mistake(
            "A report is a PDF or an SVG.",
            do="Give it a name that ends in .pdf or .svg.",
            place=Place(document=str(report)),
        )
    built = build(load_kit(kit))
    proof = prove(built)
    written = [] if report is None else write_report(built, proof, report, page)
    if as_json:
        print_json(proof_as_data(proof))
    else:
        screen = console()
        show_proof(screen, proof, everything=everything)
        for path in written:
            screen.print(f"{path} is there.", soft_wrap=True)
    return 0 if proof.is_proved else 1


def write_report(built: BuiltKit, proof: Proof, path: Path, page: str | None) -> list[Path]:
    """The report as a PDF, or as a picture for each of its pages; the paths that were written.

    Raises `Mistake` where a file is in the way that is not such a report as it was written.
    """
    from kitwright.printouts.make.proof_pages import proof_report, usual_page  # noqa: PLC0415
    from kitwright.printouts.page import page_named  # noqa: PLC0415
    from kitwright.printouts.write.pdf import to_page_svgs, to_pdf  # noqa: PLC0415

    mended = mend_kit(built, proof=proof, warnings=True)
    source = proof_report(built, proof, page_named(page) if page else usual_page(built.kit.unit), mended=mended)
    pages = (to_pdf(source),) if path.suffix.lower() == ".pdf" else to_page_svgs(source)
    names = (
        [path] if len(pages) == 1 else [path.with_stem(f"{path.stem}-{number}") for number in range(1, len(pages) + 1)]
    )
    for name in names:
        if name.exists() and not is_as_signed(name):
            raise Mistake(
                "This file was not written by Kitwright, or was changed since.",
                do="Move it elsewhere, or name another with --report. Nothing was written.",
                place=Place(document=str(name)),
            )
    for name, content in zip(names, pages, strict=True):
        write_file(name, signed(content, path.suffix))
    return names
