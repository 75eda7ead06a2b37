"""`kitwright strip` from outside: the page, what readings come to, and readings that cannot be meant."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from kitwright.kit import build, prove, read_kit
from tests.cli.running import Run, example, files_in


def test_without_readings_the_page_is_written_and_never_over_another_file(run: Run, tmp_path: Path) -> None:
    call = run("strip", "--units", "mm")
    assert call.code == 0
    assert files_in(tmp_path)["test-strip.pdf"].startswith(b"%PDF")
    again = run("strip")
    assert again.code == 2
    assert "There is such a file already." in again.err
    assert run("strip", "--page", "a4", "--into", "other.pdf").code == 0


READINGS = ("--stack", "0.11", "--inside", "3.989", "--inside", "3.990", "--bar", "5.97",
            *(word for piece in ("1", "1.01", "0.99", "1.005", "1") for word in ("--piece", piece)))  # fmt: skip


def test_readings_come_to_lines_that_can_be_typed_into_a_kit(run: Run, tmp_path: Path) -> None:
    call = run("strip", *READINGS)
    assert call.code == 0
    assert files_in(tmp_path) == {}
    assert "Printer: 100.5 %. Choose this scale" in call.out
    lines = [line.strip() for line in call.out.splitlines() if line.startswith("  ")]
    said = tomllib.loads("\n".join(lines))
    # 0.11 in / 10; k = 1 - (4 - 3.9895) / 0.022; the farthest piece is 0.01 in off (sums)
    assert said == {"caliper": "0.0110", "hinge": 0.52, "cut": "0.0100"}
    text = example("recipe-box").replace('caliper = "0.011"', "\n".join(lines[:2]), 1)
    text = text.replace("[paper.kraft]", f"[kit.accuracy]\n{lines[2]}\n[paper.kraft]", 1)
    kit = read_kit(text)
    assert kit.papers["berries"].hinge_depth == 0.52
    assert kit.accuracy.cut == pytest.approx(0.254)
    assert prove(build(kit), with_fixes=False).is_proved


def test_a_hinge_that_was_measured_too_coarsely_is_not_offered(run: Run) -> None:
    call = run("strip", "--units", "mm", "--stack", "3", "--inside", "99.7", "--with", "ruler")
    assert "measured too coarsely" in call.out
    assert tomllib.loads("\n".join(line for line in call.out.splitlines() if line.startswith("  "))) == {
        "caliper": "0.300"
    }


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--inside", "3.99"], "says nothing without the thickness"),
        (["--stack", "0.11", "--inside", "4.2"], "do not go with paper"),
        (["--stack", "0.11", "--inside", "3.5"], "do not go with paper"),
        (["--stack", "11"], "in thick each"),
        (["--stack", "-1"], "below zero"),
        (["--stack", "thick"], "is not a length"),
        (["--bar", "60"], "not printed at 100 %"),
        (["--piece", "1"], "tells too little"),
        (["--stack", "0.11", "--sheets", "0"], "--sheets"),
    ],
)
def test_readings_that_cannot_be_meant_are_refused(run: Run, tmp_path: Path, words: list[str], says: str) -> None:
    call = run("strip", *words)
    assert call.code == 2
    assert says in call.err
    assert files_in(tmp_path) == {}
