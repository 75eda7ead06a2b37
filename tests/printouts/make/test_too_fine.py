"""Sizes with too many different sums: what is said of plans that were looked for with rounded ones."""

from dataclasses import replace
from importlib import resources

from kitwright.cutting import CutPlan
from kitwright.kit import build, read_kit
from kitwright.plan import lay_out_kit
from kitwright.printouts.make.sheet_pages import bound_sentence


def test_the_maker_is_told_to_what_sizes_were_rounded_where_a_plan_is_not_proved() -> None:
    text = resources.files("kitwright").joinpath("examples", "recipe-box.toml").read_text(encoding="utf-8")
    paper = lay_out_kit(build(read_kit(text)), 1)[0]
    unsettled = replace(paper.cut_plan, bound=replace(paper.cut_plan.bound, value=0))

    def told(plan: CutPlan) -> str:
        return bound_sentence(replace(paper, gathered=replace(paper.gathered, plan=plan)))

    assert told(replace(unsettled, step=500_000)).endswith(
        "is not settled. The sizes have so many different sums that they were rounded to 0.5 mm (0.02 in) while plans were looked for; "
        "they are cut in their true sizes. Sizes on the marks of one ruler would help."
    )
    assert told(unsettled).endswith("is not settled.")
