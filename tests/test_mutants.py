"""The changes by which the tests are tried: each is one change of what decides something, and the text stays a program."""

from __future__ import annotations

import ast

from benchmarks.mutants import all_mutants, mutants_in
from tests.test_found import FOUND

SOURCE = '''\
"""Words."""
from math import floor

__all__ = ["x"]
SLACK: int = 2

@dataclass(frozen=True)
class Thing:
    """More words, é."""
    def width(self, more: int = 0) -> bool:
        if not self.is_flat and self.much < 3 * more:
            raise Mistake(f"{more + 1} is too much", do="Take 1.")
        return min(self.a, -self.b) if self.c else zip(a, b, strict=True)
'''


def afters(source: str) -> list[str]:
    return [each.lines(source)[2] for each in mutants_in("x.py", source)]


def test_each_change_is_of_one_thing_that_decides_something() -> None:
    found = afters(SOURCE)
    assert "SLACK: int = 3" in found
    assert "def width(self, more: int = 1) -> bool:" in found
    assert "if (not self.is_flat or self.much < 3 * more):" in found
    assert "if self.is_flat and self.much < 3 * more:" in found
    assert "if not self.is_flat and self.much <= 3 * more:" in found
    assert "if not self.is_flat and self.much < (3 / more):" in found
    assert "return max(self.a, -self.b) if self.c else zip(a, b, strict=True)" in found
    assert "return min(self.a, self.b) if self.c else zip(a, b, strict=True)" in found
    assert "return (zip(a, b, strict=True) if self.c else min(self.a, -self.b))" in found
    assert not any("frozen" in each or "raise" in each or "strict=False" in each or "é" in each for each in found)


def test_a_change_in_a_line_with_other_letters_is_put_where_it_belongs() -> None:
    assert afters('x = f("é ü", 1 < 2)\n')[:2] == ['x = f("é ü", 1 <= 2)', 'x = f("é ü", 1 > 2)']


def test_whatever_is_changed_the_core_stays_a_program_and_nothing_is_drawn_that_stands_with_a_reason() -> None:
    root = FOUND[0].parents[2]
    found = all_mutants(root, "rounding")
    assert len(found) > 20
    for mutant, source, tests in found:
        ast.parse(mutant.changed(source))
        assert all((root / each).exists() for stage in tests for each in stage.split())
