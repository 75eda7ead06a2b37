"""The mats of a cutting machine, told on the screen and written as files."""

from __future__ import annotations

from pathlib import Path

from rich.console import Console

from kitwright.cli.files import write_folder
from kitwright.plan import MachinePaper, Plan, lay_on_mats
from kitwright.printouts.make.mat_pages import mat_drawing, mat_lines, mat_sentences
from kitwright.printouts.make.signs import signs_of
from kitwright.printouts.make.whole_pack import file_name
from kitwright.printouts.write.dxf import to_dxf
from kitwright.printouts.write.svg import to_svg

__all__ = ["on_mats", "show_mats"]

PICTURE = 240.0
"""Width and height of the picture of a mat, mm."""


def on_mats(plan: Plan) -> tuple[MachinePaper, ...]:
    """All papers on mats; on a terminal a line tells how far it is."""
    screen = Console(stderr=True)
    if not screen.is_terminal:
        return lay_on_mats(plan)
    with screen.status("Laying blanks on mats") as status:

        def tell(mats: int, left: int) -> bool:
            status.update(f"Laying blanks on mats: {mats} so far, {left} blanks left")
            return True

        return lay_on_mats(plan, tell=tell)


def show_mats(screen: Console, plan: Plan, papers: tuple[MachinePaper, ...], into: Path | None) -> None:
    """What the mats come to, paper by paper, and the files of every mat in a folder if one is named."""
    for paper in papers:
        for sentence in mat_sentences(paper, plan.ruler):
            screen.print(f"{paper.paper.label}: {sentence}", markup=False, soft_wrap=True)
    if into is not None:
        files = {name: content for paper in papers for name, content in files_of(plan, paper).items()}
        write_folder(into, files)
        screen.print(f"{len(files)} files are in {into}.", markup=False, soft_wrap=True)


def files_of(plan: Plan, paper: MachinePaper) -> dict[str, bytes]:
    """A picture and the lines of every mat of a paper, by name."""
    signs, found = signs_of(plan), {}
    for number, layout in enumerate(paper.nested.layouts):
        name = file_name(f"{paper.paper.label} mat {number + 1}")
        drawing = mat_drawing(paper, number, plan.ruler, signs, width=PICTURE, height=PICTURE)
        times = "once" if layout.times == 1 else f"{layout.times} times"
        title = f"{paper.paper.label}, mat {number + 1}, {times}"
        found[f"{name}.svg"] = to_svg(drawing, title=title, description=f"Blanks on a mat. {title}").encode()
        found[f"{name}.dxf"] = to_dxf(mat_lines(paper, number))
    return found
