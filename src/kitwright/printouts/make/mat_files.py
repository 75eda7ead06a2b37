"""The files of mats, in memory: a picture of each, and its lines for the machine."""

from __future__ import annotations

from typing import Final

from kitwright.plan import MachinePaper, Plan
from kitwright.printouts.make.mat_pages import mat_drawing, mat_lines
from kitwright.printouts.make.signs import signs_of
from kitwright.printouts.make.whole_pack import file_name
from kitwright.printouts.write.dxf import to_dxf
from kitwright.printouts.write.svg import to_svg

__all__ = ["mat_file_name", "mat_files", "mat_title"]

PICTURE: Final = 240.0
"""Width and height of the picture of a mat, mm."""


def mat_title(paper: MachinePaper, number: int) -> str:
    """What a mat is called, and how often it is cut: `Kraft cardstock, mat 1, 3 times`. Numbers begin at 0."""
    times = paper.nested.layouts[number].times
    return f"{paper.paper.label}, mat {number + 1}, {'once' if times == 1 else f'{times} times'}"


def mat_file_name(paper: MachinePaper, number: int) -> str:
    """The name of a mat's files, without what tells picture and lines apart."""
    return file_name(f"{paper.paper.label} mat {number + 1}")


def mat_files(plan: Plan, paper: MachinePaper) -> dict[str, bytes]:
    """A picture (SVG) and the lines (DXF) of every mat of a paper, by name."""
    signs, found = signs_of(plan), {}
    for number in range(len(paper.nested.layouts)):
        name, title = mat_file_name(paper, number), mat_title(paper, number)
        drawing = mat_drawing(paper, number, plan.ruler, signs, width=PICTURE, height=PICTURE)
        found[f"{name}.svg"] = to_svg(drawing, title=title, description=f"Blanks on a mat. {title}").encode()
        found[f"{name}.dxf"] = to_dxf(mat_lines(paper, number))
    return found
