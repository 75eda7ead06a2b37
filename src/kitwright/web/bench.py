"""Bench mode: the whole batch as a row of steps, one to a screen, each with what it says and its picture."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from kitwright.plan import Plan
from kitwright.printouts.make.bench_words import (
    guide_words,
    mixed_sentences,
    pass_sentences,
    shape_sentences,
    step_words,
)
from kitwright.printouts.make.sheet_pages import FREE_WORDS, layout_letter
from kitwright.web import pictures
from kitwright.workshop import Scans

__all__ = ["BenchCard", "bench_steps"]


@dataclass(frozen=True, slots=True)
class BenchCard:
    """One screen: what it belongs to, what to do, and a picture; for cuts and scores also the guide or the rule with its stops."""

    about: str
    words: tuple[str, ...]
    picture: Markup
    rule: Markup | None = None


def bench_steps(plan: Plan, scans: Scans) -> tuple[BenchCard, ...]:
    """Cut every sheet, score and shape every blank, then make every part."""
    return (*cutting(plan, scans), *scoring(plan), *making(plan))


def cutting(plan: Plan, scans: Scans) -> Iterator[BenchCard]:
    """A screen for every setting of the guide, and one for every sheet that is cut with scissors or a knife."""
    for paper in plan.papers:
        for number, layout in enumerate(paper.cut_plan.layouts):
            picture = pictures.layout(plan, paper, layout, number + 1, scans)
            for step in paper.steps:
                if step.layout == number:
                    takes, lies, _, gives = step_words(step, plan.ruler)
                    guide = guide_words(step, plan.ruler, unit=plan.ruler.unit.value)
                    yield BenchCard(
                        f"Cut {paper.paper.label}, layout {layout_letter(number)}",
                        (f"Take {takes}, {lies}.", f"Guide at {guide}.", f"Gives: {gives}."),
                        picture,
                        rule=pictures.cut(step, plan.ruler),
                    )
        for number, free in enumerate(paper.free, len(paper.cut_plan.layouts)):
            lying = Counter(one.piece for one in free.lying)
            gives = "; ".join(name if count == 1 else f"{count} × {name}" for name, count in lying.items())
            many = f"Do this with {free.times} sheets." if free.times > 1 else "Do this with one sheet."
            yield BenchCard(
                f"Cut out {paper.paper.label}, layout {layout_letter(number)}",
                (FREE_WORDS, many, f"Gives: {gives}."),
                pictures.laid_freely(plan, paper, free, number + 1, scans),
            )


def scoring(plan: Plan) -> Iterator[BenchCard]:
    """A screen for every pass over the scoring board, with the rule as it lies there, and one for what is cut away."""
    for line in plan.lines:
        picture = pictures.flat(plan.ruler, line.part, line.blank, line.label)
        straining = plan.straining(line)
        passes, mixed = line.chart.passes, tuple(mixed_sentences(line, straining))
        for number, words in enumerate(pass_sentences(line, plan.ruler, fibres=straining)):
            of_many = f", {number + 1} of {len(passes)}" if len(passes) > 1 else ""
            about = f"Score {line.in_batch} × {line.label}{of_many}"
            yield BenchCard(about, (words, *mixed), picture, rule=pictures.rule(plan.ruler, passes[number], about))
        shape = tuple(shape_sentences(line, plan.ruler))
        if shape:
            yield BenchCard(f"Shape {line.in_batch} × {line.label}", shape, picture)


def making(plan: Plan) -> Iterator[BenchCard]:
    """A screen for every step of making."""
    for part in plan.built.parts:
        for number, stage in enumerate(part.pattern.stages):
            yield BenchCard(
                f"Make {part.part.quantity * plan.batch} × {part.name}", (stage.words,), pictures.stage(part, number)
            )
