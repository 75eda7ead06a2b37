"""The mats of a cutting machine, told on the screen and written as files."""

from __future__ import annotations

from pathlib import Path

from rich.console import Console

from kitwright.cli.folder import write_folder
from kitwright.plan import MachinePaper, Plan, lay_on_mats
from kitwright.printouts.make.file_list import file_list
from kitwright.printouts.make.mat_files import mat_files
from kitwright.printouts.make.mat_pages import mat_sentences

__all__ = ["on_mats", "show_mats"]

LIST = "mats.json"
"""What was written into the folder, so that the next run knows its own files."""


def on_mats(plan: Plan) -> tuple[MachinePaper, ...]:
    """All papers on mats; on a terminal a line tells how far it is."""
    screen = Console(stderr=True)
    if not screen.is_terminal:
        return lay_on_mats(plan)
    with screen.status("Laying blanks on mats") as status:

        def tell(mats: int, share: float) -> bool:
            status.update(f"Laying blanks on mats: {mats} for this paper so far, {100 * share:.0f} % looked at")
            return True

        return lay_on_mats(plan, tell=tell)


def show_mats(screen: Console, plan: Plan, papers: tuple[MachinePaper, ...], into: Path | None) -> None:
    """What the mats come to, paper by paper, and the files of every mat in a folder if one is named."""
    for paper in papers:
        for sentence in mat_sentences(paper, plan.ruler):
            screen.print(f"{paper.paper.label}: {sentence}", soft_wrap=True)
    if into is not None:
        files = {name: content for paper in papers for name, content in mat_files(plan, paper).items()}
        write_folder(into, {**files, LIST: file_list(LIST, files)}, listed_in=LIST)
        screen.print(f"{len(files)} files are in {into}.", soft_wrap=True)
