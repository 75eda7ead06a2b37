"""Assembly: every part step by step, with a picture of how it looks after each fold."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.kit import BuiltPart
from kitwright.plan import Plan
from kitwright.printouts.make.view_picture import stage_drawing
from kitwright.printouts.write.house import heading, paragraph, picture, pictures, steps
from kitwright.printouts.write.typst import Markup

__all__ = ["assembly_blocks"]

WIDTH, HEIGHT = 56.0, 50.0


def assembly_blocks(plan: Plan) -> Iterator[Markup]:
    """All parts in the order of the document; parts without a fold in one line each."""
    yield heading("Assembly")
    yield paragraph(
        "In the pictures the print side is tinted and the back is white. Let glue dry under a weight where you can."
    )
    for part in plan.built.parts:
        yield heading(f"{part.name} ({part.part.quantity} in every kit)", level=2)
        if any(stage.folds for stage in part.pattern.stages):
            yield pictures(list(stage_pictures(part)), across=3)
        else:
            yield steps(stage.words for stage in part.pattern.stages)


def stage_pictures(part: BuiltPart) -> Iterator[Markup]:
    """A picture for every state that differs from the one before, with the words of all steps that lead to it below."""
    waiting: list[str] = []
    stages = part.pattern.stages
    for number, stage in enumerate(stages):
        waiting.append(f"{number + 1}. {stage.words}")
        follows = stages[number + 1] if number + 1 < len(stages) else None
        if follows is None or stage.folds or follows.folds:
            drawing = stage_drawing(part, number, width=WIDTH, height=HEIGHT)
            yield picture(drawing, alt=f"{part.name} after step {number + 1}", caption="\n".join(waiting))
            waiting = []
