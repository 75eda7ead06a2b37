"""Assembly: every part step by step, with a picture of how it looks after each fold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from kitwright.findings import Severity
from kitwright.kit import BuiltPart
from kitwright.pattern import Stage
from kitwright.plan import Plan
from kitwright.printouts.make.placement import placement_sentence
from kitwright.printouts.make.view_picture import stage_picture
from kitwright.printouts.write.house import bold, heading, paragraph, picture, pictures, steps, together
from kitwright.printouts.write.typst import Markup

__all__ = ["assembly_blocks"]

WIDTH, NARROW, HEIGHT = 56.0, 42.0, 50.0
"""Pictures of steps, three in a row; narrower where a part has four of them."""


GRAIN_WORDS = (
    "heavy card may crack where it is folded across the grain. Fold slowly, and burnish through a scrap of paper. Where it resists, "
    "score it once more."
)
"""For parts whose folds the proof warns of. Common practice, no source."""


def assembly_blocks(plan: Plan) -> Iterator[Markup]:
    """All parts in the order of the document; parts without a fold in one line each."""
    yield heading("Assembly")
    yield paragraph(
        "In the pictures the print side is tinted and the back is white. Let glue dry under a weight where you can."
    )
    cracking = {each.about for each in plan.proof.of(Severity.WARNING) if each.code == "scores-and-grain"}
    for part in plan.built.parts:
        title = heading(f"{part.name} ({part.part.quantity} in every kit)", level=2)
        where = placement_sentence(plan, part)
        if any(stage.folds for stage in part.pattern.stages):
            yield title
            yield pictures(list(stage_pictures(part)), across=4 if picture_count(part) == 4 else 3)
            if part.name in cracking:
                yield paragraph(bold("Grain: "), GRAIN_WORDS)
            if where:
                yield paragraph(bold("Where it goes: "), where)
        else:
            yield together(title, steps([*(stage.words for stage in part.pattern.stages), *([where] if where else [])]))


def stage_pictures(part: BuiltPart) -> Iterator[Markup]:
    """A picture for every state that differs from the one before, with the words of all steps that lead to it below."""
    waiting: list[str] = []
    stages = part.pattern.stages
    width = NARROW if picture_count(part) == 4 else WIDTH
    for number, stage in enumerate(stages):
        waiting.append(f"{number + 1}. {stage.words}")
        if is_pictured(stages, number):
            shown = stage_picture(part, number, width=width, height=HEIGHT)
            waiting += [shown.seen] if shown.seen else []
            yield picture(shown.drawing, alt=f"{part.name} after step {number + 1}", caption="\n".join(waiting))
            waiting = []


def is_pictured(stages: Sequence[Stage], number: int) -> bool:
    """Whether a stage has a picture: it folds something, or the next one does, or it is the last."""
    return bool(number + 1 == len(stages) or stages[number].folds or stages[number + 1].folds)


def picture_count(part: BuiltPart) -> int:
    """How many pictures a part has."""
    stages = part.pattern.stages
    return sum(is_pictured(stages, number) for number in range(len(stages)))
