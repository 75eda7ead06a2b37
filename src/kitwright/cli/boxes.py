"""`kitwright boxes`: the least box of every form for what a kit's box holds."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from kitwright.cli.files import PATH, load_kit
from kitwright.errors import Mistake, Place

if TYPE_CHECKING:
    from kitwright.kit import BoxChoice, NoBox
    from kitwright.measure import Ruler

__all__ = ["command"]


@click.command("boxes")
@click.argument("kit", type=PATH)
@click.option("--part", "name", help="The box, by its name; the first that holds something if not said.")
@click.option("--kits", "batch", type=int, default=1, show_default=True, help="How many kits to count sheets for.")
@click.option("--json", "as_json", is_flag=True, help="Print every number for other programs.")
def command(kit: Path, name: str | None, batch: int, as_json: bool) -> int:
    """Find the smallest box of every form that holds what the box of KIT holds, and the one that takes the least paper.

    Each is built with the whole kit, its lid fitted to it, and proved. Nothing is written. Exit code 1 if no form does.
    """
    from kitwright.cli.show import console, print_json  # noqa: PLC0415
    from kitwright.kit import BoxChoice, box_choices, boxes_of, build  # noqa: PLC0415
    from kitwright.plan import check_batch  # noqa: PLC0415

    check_batch(batch)
    built = build(load_kit(kit))
    boxes = [part for part in boxes_of(built) if name in (None, part.name)]
    if not boxes:
        known = ", ".join(part.name for part in boxes_of(built))
        raise Mistake(
            f"{name!r} is no box that holds something." if name else "No box of this kit holds anything.",
            do=f"Name one of these: {known}." if known else "Give a part with holds.",
            place=Place(document=str(kit)),
        )
    choices = box_choices(built, boxes[0])
    rows = [row_of(choice, batch) for choice in choices]
    if as_json:
        print_json({"box": boxes[0].name, "kits": batch, "forms": rows})
    else:
        show_choices(console(), choices, rows, boxes[0].name, built.kit.ruler)
    return 0 if any(isinstance(choice, BoxChoice) and choice.proof.is_proved for choice in choices) else 1


def row_of(choice: BoxChoice | NoBox, batch: int) -> dict[str, Any]:
    """The numbers of one form."""
    from kitwright.kit import NoBox  # noqa: PLC0415
    from kitwright.plan import lay_out_kit  # noqa: PLC0415

    if isinstance(choice, NoBox):
        return {"form": choice.form, "why_not": choice.why}
    papers = lay_out_kit(choice.kit, batch)
    return {
        "form": choice.form,
        "size_mm": [float(side) for side in choice.size],
        "inside_mm": [float(side) for side in choice.inside],
        "turns": {part.name: 90 * part.part.turn for part in choice.kit.parts if part.part.turn},
        "proved_least": choice.is_least,
        "proved": choice.proof.is_proved,
        "verdict": choice.proof.verdict.value,
        "paper_mm2": choice.paper_mm2,
        "lid_mm2": choice.cover_mm2,
        "sheets_of_the_kit": sum(paper.sheets for paper in papers),
        "all_placed": all(paper.cut_plan.is_complete for paper in papers),
    }


def show_choices(
    screen: Any, choices: tuple[BoxChoice | NoBox, ...], rows: list[dict[str, Any]], name: str, ruler: Ruler
) -> None:
    """A table of the forms, the least paper first, and under it what does not go."""
    from rich.table import Table  # noqa: PLC0415

    from kitwright.findings import Severity  # noqa: PLC0415
    from kitwright.kit import BoxChoice, NoBox  # noqa: PLC0415
    from kitwright.measure import square_of  # noqa: PLC0415

    unit = ruler.unit.value
    mm2, squares = square_of(ruler.unit)
    table = Table(box=None, pad_edge=False, header_style="bold")
    for word in ("box", f"inside, {unit}", f"paper, {squares}", "with lid", "sheets of the kit", "proof"):
        table.add_column(word, justify="left" if word in ("box", f"inside, {unit}", "proof") else "right")
    for choice, row in zip(choices, rows, strict=True):
        if isinstance(choice, NoBox):
            continue
        sheets = f"{row['sheets_of_the_kit']}{'' if row['all_placed'] else ', not all placed'}"
        told = "proved" if row["proved"] else "does not work"
        least = "" if row["proved_least"] else "; perhaps not the least"
        own, both = row["paper_mm2"] / mm2, (row["paper_mm2"] + row["lid_mm2"]) / mm2
        table.add_row(choice.title, ruler.size(*choice.inside), f"{own:.1f}", f"{both:.1f}", sheets, told + least)
    screen.print(table)
    for choice in choices:
        if isinstance(choice, NoBox):
            screen.print(f"{choice.title}: none. {choice.why}", soft_wrap=True)
        elif not choice.proof.is_proved:
            (first, *_) = choice.proof.of(Severity.FAIL, Severity.UNKNOWN)
            screen.print(f"{choice.title}: {first.about}: {first.message}", soft_wrap=True)
    best = next((each for each in choices if isinstance(each, BoxChoice) and each.proof.is_proved), None)
    if best is not None:
        screen.print(f"\nThe {best.form} takes the least paper with its lid. To take it, write:")
        for line in said_lines(best, name, ruler):
            screen.print(f"    {line}", soft_wrap=True)


def said_lines(choice: BoxChoice, name: str, ruler: Ruler) -> tuple[str, ...]:
    """What the document says of the box and its lids when a choice is taken: what changes, part by part."""
    box = f'{name}: form = "{choice.form}", size = "{ruler.size(*choice.size)}"'
    lids = [part.part for part in choice.kit.parts if part.part.covers == name]
    turned = {part.name: f"turn = {90 * part.turn}" for part in (choice.kit.part(name).part, *lids)}
    is_one_way = not choice.kit.part(name).paper.can_turn
    return (
        f"{box}, {turned[name]}" if is_one_way else box,
        *(f"{lid.name}: no size of its own" + (f", {turned[lid.name]}" if is_one_way else "") for lid in lids),
    )
