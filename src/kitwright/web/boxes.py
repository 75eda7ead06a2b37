"""Boxes that hold what goes in: the least of every form, what paper and sheets it takes, and a button to take one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from kitwright.errors import Mistake
from kitwright.findings import Change, Severity
from kitwright.kit import (
    BoxChoice,
    BuiltKit,
    BuiltPart,
    NoBox,
    SizingKind,
    apply_changes,
    box_choices,
    boxes_of,
    lids_of,
)
from kitwright.measure import square_of
from kitwright.plan import ProvedKit, lay_out_kit
from kitwright.web import pictures
from kitwright.web.desk import Desk, desk_of, fields, kits_of, stored
from kitwright.web.kit_changes import kept
from kitwright.workshop import StoredKit

__all__ = ["boxes_page", "take_box"]


def boxes_page(_: Desk, request: Request, __: StoredKit, proved: ProvedKit) -> dict[str, Any]:
    """Every form of box for what one box of the kit holds, those with least paper first."""
    asked, every = request.query_params, boxes_of(proved.built)
    box = next((each for each in every if each.name == asked.get("part", "")), every[0] if every else None)
    kits = kits_of(request, 1)
    choices = () if box is None else box_choices(proved.built, box)
    found = [values(proved, box, each, kits) for each in choices if isinstance(each, BoxChoice) and box is not None]
    most = max((each["both"] for each in found), default=1.0)
    return {
        "box": box,
        "boxes": [each.name for each in every],
        "kits": kits,
        "choices": found,
        "most": most,
        "squares": square_of(proved.kit.unit)[1],
        "others": [(each.title, each.why) for each in choices if isinstance(each, NoBox)],
    }


def values(proved: ProvedKit, box: BuiltPart, choice: BoxChoice, kits: int) -> dict[str, Any]:
    """One form of box, as the page tells it."""
    mm2, _ = square_of(proved.kit.unit)
    papers = lay_out_kit(choice.kit, kits)
    grave = choice.proof.of(Severity.FAIL, Severity.UNKNOWN)
    return {
        "form": choice.form,
        "title": choice.title,
        "inside": proved.ruler.size(*choice.inside),
        "own": choice.paper_mm2 / mm2,
        "both": (choice.paper_mm2 + choice.cover_mm2) / mm2,
        "has_lid": choice.cover_mm2 > 0,
        "sheets": sum(paper.sheets for paper in papers),
        "all_placed": all(paper.cut_plan.is_complete for paper in papers),
        "is_proved": choice.proof.is_proved,
        "why_not": f"{grave[0].about}: {grave[0].message}" if grave else "",
        "is_least": choice.is_least,
        "picture": pictures.folded(choice.kit.part(box.name)),
    }


async def take_box(request: Request) -> Response:
    """Make a box of the kit another one, its lids following it."""
    desk, kit, form = desk_of(request), stored(request), await fields(request)

    def change() -> tuple[str, str]:
        built = desk.making.built(kit.document)
        box = next((each for each in boxes_of(built) if each.name == form.get("part")), None)
        if box is None:
            raise Mistake("This box is no longer in the kit.", do="Look at the kit as it is now.")
        choices = [each for each in box_choices(built, box) if isinstance(each, BoxChoice)]
        choice = next((each for each in choices if each.form == form.get("form")), None)
        if choice is None:
            raise Mistake("There is no such box for what goes in.", do="Choose one of those that are shown.")
        words = f"{box.name}: {choice.title}, {built.kit.ruler.size(*choice.inside)} inside"
        return apply_changes(kit.document, tuple(taking(built, choice, box))), words

    return await kept(desk, kit, form, change, back=f"/kit/{kit.word}")


def taking(built: BuiltKit, choice: BoxChoice, box: BuiltPart) -> Iterator[Change]:
    """What the document says differently of a box and its lids once a choice is taken."""
    for name in (box.name, *(lid.name for lid in lids_of(built.kit, box.name))):
        old, new = built.kit.part(name), choice.kit.kit.part(name)
        if new.form != old.form:
            yield Change(name, "form", new.form)
        yield from (Change(name, key.replace("_", "-"), "") for key in old.settings if key not in new.settings)
        if new.sizing != old.sizing:
            if old.sizing.kind is not SizingKind.DERIVED:
                yield Change(name, old.sizing.kind.value, "")
            if new.sizing.kind is not SizingKind.DERIVED:
                size = built.kit.ruler.size(*new.sizing.lengths).replace("×", "x")
                yield Change(name, new.sizing.kind.value, size)
        if new.turn != old.turn:
            yield Change(name, "turn", str(90 * new.turn) if new.turn else "")
