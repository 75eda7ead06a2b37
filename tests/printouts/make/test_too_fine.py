"""Sizes with too many different sums: what is said of sheets that were only filled by simple rules."""

from dataclasses import replace
from importlib import resources

from kitwright.cutting import QUICK, CutPlan, PieceType, Stock, lay_out, verify_plan
from kitwright.kit import build, read_kit
from kitwright.plan import lay_out_kit
from kitwright.printouts.make.sheet_pages import bound_sentence


def test_a_plan_for_sizes_with_too_many_sums_says_so_and_rounds_nothing() -> None:
    sizes = [(11_003, 11_003), *((1009 + 37 * rank, 1201 + 53 * rank) for rank in range(24))]
    pieces = [PieceType(str(rank), *size, 4, (0, 1)) for rank, size in enumerate(sizes)]
    sheets = [Stock("sheet", 20_011, 19_997)]
    found = lay_out(pieces, sheets, effort=replace(QUICK, steps=100))  # however long it is improved, it stays too fine
    assert (found.is_too_fine, found.is_complete, found.grid) == (True, True, 1)
    assert verify_plan(pieces, sheets, found) == ()
    text = resources.files("kitwright").joinpath("examples", "recipe-box.toml").read_text(encoding="utf-8")
    paper = lay_out_kit(build(read_kit(text)), 1)[0]
    unsettled = replace(paper.cut_plan, bound=replace(found.bound, value=0))

    def told(plan: CutPlan) -> str:
        return bound_sentence(replace(paper, gathered=replace(paper.gathered, plan=plan)))

    assert told(replace(unsettled, is_too_fine=True)).endswith(
        "is not settled. The sizes have too many different sums to look further; sizes on the marks of one ruler would help. "
        "None was rounded."
    )
    assert told(unsettled).endswith("is not settled.")
