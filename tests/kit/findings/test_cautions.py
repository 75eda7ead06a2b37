"""Each kind of caution has a kit that calls for it and one beside it, with one thing changed, that does not; none is missing."""

from __future__ import annotations

import ast
from importlib import resources

import pytest
from tests.kit.documents import head, part

from kitwright.kit import kit_cautions, read_kit, write_kit

KIT = head(units="mm", ruler="0.5", sheet="600 x 600", caliper="0.3") + part("card", "flat card", size="100 x 70")


def extra(kind: str, size: str, *, more: str = "") -> str:
    return f'{KIT}[[extra]]\nname = "thing"\nsize = "{size}"\nkind = "{kind}"\n{more}\n'


def meant(for_: str) -> str:
    return KIT.replace("[paper.card]", f"[kit.for]\n{for_}\n[paper.card]")


ALWAYS = {"general", "blade", "point", "supply"}
"""A kit is cut with a trimmer and scissors and glued whatever is in it, so these are never missing."""

CALLED_FOR = (
    # code, the kit that calls for it, what is put in whose place so that it does not
    ("bag", extra("bag", "130 x 180 x 1", more='film = "0.02"'), 'film = "0.02"', 'film = "0.03"'),
    ("bag-advised", extra("bag", "130 x 180 x 1", more='film = "0.03"'), '"130 x', '"120 x'),
    ("magnet", extra("magnet", "50 x 50 x 50"), '"magnet"', '"paper"'),
    # the truncated cylinder of 16 CFR 1501.4 is 1.25 in (31.7 mm) wide and 2.25 in (57.1 mm) deep
    ("small-parts", extra("", "30 x 20 x 20").replace('kind = ""', ""), '"30 x 20 x 20"', '"60 x 40 x 40"'),
    ("long-ribbon", extra("ribbon", "40 x 40 x 10", more='length = "221"'), '"221"', '"220"'),
    ("large-loop", extra("ribbon", "40 x 40 x 10", more='length = "100"\nloop = "381"'), '"381"', '"380"'),
    ("sharp-in-kit", extra("sharp thing", "60 x 40 x 40"), '"sharp thing"', '"paper"'),
    ("heat", extra("heat tool", "200 x 40 x 40"), '"heat tool"', '"paper"'),
    ("for-children", meant("children = true"), "children = true", "children = false"),
    ("selling", meant("sale = true"), "sale = true", "sale = false"),
    ("abroad", meant("abroad = true"), "abroad = true", "abroad = false"),
)


def codes(text: str) -> set[str]:
    return {each.code for each in kit_cautions(read_kit(text))}


@pytest.mark.parametrize(("code", "text", "bad", "good"), CALLED_FOR, ids=[code for code, *_ in CALLED_FOR])
def test_a_kit_calls_for_a_caution_and_the_one_beside_it_does_not(code: str, text: str, bad: str, good: str) -> None:
    assert text.count(bad) == 1
    assert code in codes(text)
    assert code not in codes(text.replace(bad, good))
    assert codes(write_kit(read_kit(text))) == codes(text)


def test_some_cautions_are_never_missing() -> None:
    assert codes(KIT) == ALWAYS


def test_a_label_that_is_kept_is_not_asked_for() -> None:
    glue = extra("glue", "100 x 30 x 30", more="label-kept = true")
    (with_label,) = (each for each in kit_cautions(read_kit(glue)) if each.code == "supply")
    (without,) = (
        each for each in kit_cautions(read_kit(glue.replace("kept = true", "kept = false"))) if each.code == "supply"
    )
    assert "No statement of the supplier is on file for: thing." in without.text
    assert "on file" not in with_label.text


def codes_written() -> set[str]:
    """Every code in the source of the cautions: what stands at `code=`, and what a loop over codes begins its rows with."""
    tree = ast.parse((resources.files("kitwright") / "proof" / "cautions" / "derive.py").read_text(encoding="utf-8"))
    said = [node.value for node in ast.walk(tree) if isinstance(node, ast.keyword) and node.arg == "code"]
    for node in ast.walk(tree):
        if isinstance(node, ast.For) and isinstance(node.iter, ast.Tuple) and "code" in ast.unparse(node.target):
            said += [row.elts[0] for row in node.iter.elts if isinstance(row, ast.Tuple)]
    branches = [(node.body, node.orelse) if isinstance(node, ast.IfExp) else (node,) for node in said]
    return {str(each.value) for nodes in branches for each in nodes if isinstance(each, ast.Constant)}


def test_no_kind_of_caution_is_without_its_pair() -> None:
    """Whoever adds a kind of caution adds a pair to this file."""
    assert codes_written() == ALWAYS | {code for code, *_ in CALLED_FOR}
