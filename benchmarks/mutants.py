"""Whether the tests would notice: one thing in a core file is changed, and the tests that concern it are run on a copy of the tree.

`python -m benchmarks mutants --count 200 --seed 1` draws two hundred such changes, the same every time for the same source. A change is
*killed* by a test that fails, or *survives*. Those of which it was seen that they change nothing anybody could notice stand with the
reason in `data/mutants.toml` and are not drawn. Needs a system on which a process can be limited in the CPU it uses.
"""

from __future__ import annotations

import argparse
import ast
import compileall
import copy
import json
import os
import shutil
import subprocess
import sys
import tempfile
import tomllib
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from queue import SimpleQueue
from random import Random
from typing import Final

__all__ = ["Mutant", "main", "mutants_in"]

ROOT: Final = Path(__file__).parents[1]
SOURCE: Final = "src/kitwright"
EQUIVALENT: Final = Path(__file__).parent / "data" / "mutants.toml"
LEFT_OUT: Final = ("__pycache__", ".*", "demo-output")
MOST_CPU: Final = {"tests/cutting": 240}
USUAL_CPU: Final = 60
"""Seconds of CPU for one stage of tests; a change that takes longer is noticed by whoever waits."""

WIDE_KIT: Final = (
    "tests/kit/test_prove.py tests/kit/test_spans.py tests/kit/test_defaults.py tests/kit/test_carried.py tests/kit/test_by_hand.py "
    "tests/kit/test_build.py tests/kit/findings"
)
CORE: Final[tuple[tuple[str, tuple[str, ...]], ...]] = (
    (
        "forms/*.py",
        (
            "tests/kit/test_reference.py tests/forms/test_goldens.py tests/forms/test_rules.py",
            "tests/forms",
            "tests/kit/test_filling.py tests/kit/test_post.py",
        ),
    ),
    ("folding/*.py", ("tests/folding", "tests/forms tests/proof", "tests/kit/test_together.py tests/kit/findings")),
    ("proof/fit.py", ("tests/proof/test_fit.py", "tests/kit/findings tests/kit/test_prove.py tests/kit/test_mending.py")),
    ("proof/tolerance/*.py", ("tests/proof/tolerance", "tests/kit/test_fits.py tests/kit/test_accuracy.py tests/kit/test_prove.py")),
    ("proof/mailing/*.py", ("tests/proof/mailing", "tests/kit/test_post.py tests/kit/findings/test_posted.py")),
    ("cutting/verify.py", ("tests/cutting/test_verify.py tests/cutting/test_check.py", "tests/cutting")),
    ("cutting/certificate.py", ("tests/cutting/test_verify.py", "tests/cutting")),
    ("cutting/check.py", ("tests/cutting/test_check.py tests/cutting/test_lay_out.py", "tests/cutting")),
    ("cutting/job.py", ("tests/cutting/test_search.py", "tests/cutting")),
    ("cutting/unplaced_check.py", ("tests/cutting/test_unplaced_check.py tests/cutting/test_margins.py",)),
    ("cutting/margin_*.py", ("tests/cutting/test_margins.py", "tests/cutting/test_verify.py tests/cutting/test_order.py")),
    ("cutting/coarse.py", ("tests/cutting/test_coarse.py",)),
    ("cutting/rounding.py", ("tests/cutting/test_search.py", "tests/cutting")),
    ("measure/*.py", ("tests/measure", "tests/kit/test_read.py tests/kit/test_read_mistakes.py tests/kit/test_write.py")),
    ("kit/build.py", ("tests/kit/test_build.py tests/kit/test_build_mistakes.py tests/kit/test_relations.py", WIDE_KIT)),
    ("kit/sums.py", ("tests/kit/test_carried.py tests/kit/test_build.py tests/kit/test_around.py", WIDE_KIT)),
    ("kit/wanted.py", ("tests/kit/test_build.py tests/kit/test_around.py tests/kit/test_boxes.py", WIDE_KIT)),
    ("kit/fits.py", ("tests/kit/test_fits.py tests/kit/test_accuracy.py", WIDE_KIT)),
)  # fmt: skip
"""Core files, and the tests that concern them: the nearest first, the next only if those noticed nothing. Before all of them comes the
test file that is called as the source is, where there is one."""


@dataclass(frozen=True)
class Mutant:
    """One change: a file under the source, where in it (signs), what stands there and what is put in its place."""

    file: str
    start: int
    end: int
    text: str
    kind: str

    def changed(self, source: str) -> str:
        """The source with the change."""
        return source[: self.start] + self.text + source[self.end :]

    def lines(self, source: str) -> tuple[int, str, str]:
        """The number of the first line that is changed, and the lines before and after, without blanks at their ends."""
        first, last = source.rfind("\n", 0, self.start) + 1, source.find("\n", self.end)
        before = source[first : last if last >= 0 else None]
        after = source[first : self.start] + self.text + source[self.end : last if last >= 0 else None]
        return source.count("\n", 0, self.start) + 1, " ".join(before.split()), " ".join(after.split())


SWAPPED: Final[dict[type[ast.AST], tuple[type[ast.AST], ...]]] = {
    ast.Lt: (ast.LtE, ast.Gt),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.Lt),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.Add: (ast.Sub,),
    ast.Sub: (ast.Add,),
    ast.Mult: (ast.Div,),
    ast.Div: (ast.Mult,),
    ast.FloorDiv: (ast.Mult,),
    ast.Mod: (ast.FloorDiv,),
    ast.And: (ast.Or,),
    ast.Or: (ast.And,),
}
NAMES: Final = {"min": "max", "max": "min", "any": "all", "all": "any", "nm_up": "nm_down", "nm_down": "nm_up"}
MEMBERS: Final = {
    "math": {"floor": "ceil", "ceil": "floor"},
    "ruler": {"up": "down", "down": "up"},
    "Axis": {"WIDTH": "HEIGHT", "HEIGHT": "DEPTH", "DEPTH": "WIDTH"},
}
"""Functions and words of which each has its contrary."""
DROPPED: Final = ("reversed", "abs", "round")
"""Functions whose argument may stand for the whole."""


def mutants_in(file: str, source: str) -> Iterator[Mutant]:
    """Every change of one thing in a source: operators, comparisons, numbers, words with a contrary, conditions, branches."""
    starts = [0]
    for line in source.splitlines(keepends=True):
        starts.append(starts[-1] + len(line.encode()))
    data = source.encode()

    def spot(line: int | None, column: int | None) -> int:
        assert line is not None and column is not None
        return len(data[: starts[line - 1] + column].decode())

    for node in code_in(ast.parse(source)):
        for kind, other in changes_of(node):
            text = ast.unparse(other)
            start, end = spot(node.lineno, node.col_offset), spot(node.end_lineno, node.end_col_offset)
            yield Mutant(
                file, start, end, f"({text})" if isinstance(node, ast.BinOp | ast.BoolOp | ast.IfExp) else text, kind
            )


def code_in(node: ast.AST) -> Iterator[ast.expr]:
    """The expressions of a module that decide something: not annotations, decorators, docstrings, words, raised mistakes, `__all__`."""
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns", "decorator_list", "type_params"):
            continue
        for child in value if isinstance(value, list) else [value]:
            if not isinstance(child, ast.AST) or isinstance(
                child, ast.Raise | ast.JoinedStr | ast.Import | ast.ImportFrom
            ):
                continue
            if isinstance(child, ast.keyword) and child.arg in ("strict", "slots", "frozen", "kw_only"):
                continue
            if (
                isinstance(child, ast.Assign)
                and isinstance(child.targets[0], ast.Name)
                and child.targets[0].id == "__all__"
            ):
                continue
            if isinstance(child, ast.expr):
                yield child
            yield from code_in(child)


def changes_of(node: ast.expr) -> Iterator[tuple[str, ast.expr]]:
    """What an expression may be changed to."""
    match node:
        case ast.Compare(ops=[*ops]):
            for place, op in enumerate(ops):
                for other in SWAPPED[type(op)]:
                    yield "comparison", replaced(node, ops=[*ops[:place], other(), *ops[place + 1 :]])
        case ast.BinOp(op=op, left=left) if type(op) in SWAPPED and not isinstance(left, ast.Tuple | ast.List):
            yield from (("operator", replaced(node, op=other())) for other in SWAPPED[type(op)])
        case ast.BoolOp(op=op):
            yield from (("and, or", replaced(node, op=other())) for other in SWAPPED[type(op)])
        case ast.UnaryOp(op=ast.Not() | ast.USub(), operand=operand):
            yield "dropped", operand
        case ast.IfExp(body=body, orelse=orelse):
            yield "branches", replaced(node, body=orelse, orelse=body)
        case ast.Constant(value=bool() as value):
            yield "constant", ast.Constant(not value)
        case ast.Constant(value=int() as value):
            yield "constant", ast.Constant(value + 1)
        case ast.Constant(value=float() as value):
            yield "constant", ast.Constant(value * 1.5 if value else 1.0)
        case ast.Name(id=name) if name in NAMES:
            yield "name", ast.Name(NAMES[name])
        case ast.Attribute(value=ast.Name(id=of), attr=name) if name in MEMBERS.get(of, {}):
            yield "name", replaced(node, attr=MEMBERS[of][name])
        case ast.Call(func=ast.Name(id=name), args=[argument, *_]) if name in DROPPED:
            yield "dropped", argument


def replaced(node: ast.expr, **fields: object) -> ast.expr:
    """The same expression with some of its fields changed."""
    other = copy.copy(node)
    for name, value in fields.items():
        setattr(other, name, value)
    return other


def all_mutants(root: Path, only: str = "") -> list[tuple[Mutant, str, tuple[str, ...]]]:
    """Every change of the core files with its source and its tests, but for those that nobody could notice."""
    known = {
        (each["file"], each["before"], each["after"]) for each in tomllib.loads(EQUIVALENT.read_text())["equivalent"]
    }
    found = []
    for pattern, tests in CORE:
        for path in sorted((root / SOURCE).glob(pattern)):
            file, source = path.relative_to(root / SOURCE).as_posix(), path.read_text(encoding="utf-8")
            if only in file:
                own = root / "tests" / path.parent.relative_to(root / SOURCE) / f"test_{path.stem}.py"
                stages = (own.relative_to(root).as_posix(), *tests) if own.exists() else tests
                found += [
                    (each, source, stages)
                    for each in mutants_in(file, source)
                    if (file, *each.lines(source)[1:]) not in known
                ]
    return found


class Tree:
    """A copy of the tree in which one thing is changed at a time, and a process that runs its tests."""

    def __init__(self, path: Path) -> None:
        shutil.copytree(ROOT, path, ignore=shutil.ignore_patterns(*LEFT_OUT))
        for folder in ("src", "tests"):
            compileall.compile_dir(path / folder, quiet=2)  # what is changed is newer than this, and read anew
        self.path = path
        here = {**os.environ, "PYTHONPATH": f"{path / 'src'}{os.pathsep}{path}", "PYTHONDONTWRITEBYTECODE": "1"}
        here.pop("CI", None)
        self.tests = subprocess.Popen(
            [sys.executable, "-m", "benchmarks.under_trial"],
            cwd=path,
            env=here,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    def run(self, tests: Sequence[str]) -> str:
        """`survived` where these tests pass, `killed` where they do not, `too long` where they were stopped."""
        assert self.tests.stdin is not None and self.tests.stdout is not None
        there = [each for each in tests if (self.path / each).exists()]
        seconds = max(MOST_CPU.get(each, USUAL_CPU) for each in tests)
        self.tests.stdin.write(json.dumps({"seconds": seconds, "tests": there}) + "\n")
        self.tests.stdin.flush()
        code = int(self.tests.stdout.readline())
        return "survived" if code == 0 else "killed" if code > 0 else "too long"

    def end(self) -> None:
        """End the process."""
        self.tests.kill()
        self.tests.wait()


def outcome(tree: Tree, mutant: Mutant, source: str, tests: Sequence[str], passed: set[str]) -> tuple[str, str]:
    """`killed`, `too long` or `survived`, and by which stage of the tests, on a copy of the tree; the change is taken back.

    `passed` takes in the stages that noticed nothing, and so do not fail by themselves.
    """
    path = tree.path / SOURCE / mutant.file
    path.write_text(mutant.changed(source), encoding="utf-8")
    try:
        for stage in tests:
            said = tree.run(stage.split())
            if said != "survived":
                return said, stage
            passed.add(stage)
        return "survived", ""
    finally:
        path.write_text(source, encoding="utf-8")


def tried(chosen: Sequence[tuple[Mutant, str, tuple[str, ...]]], processes: int) -> Iterator[tuple[Mutant, str, str]]:
    """Each change with its source and what became of it, some at a time, each process with a tree of its own.

    Raises `RuntimeError` at the end if tests that noticed something fail without any change as well.
    """
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(processes) as pool:
        trees: SimpleQueue[Tree] = SimpleQueue()
        passed: set[str] = set()
        noticing: set[str] = set()
        for number in range(processes):
            trees.put(Tree(Path(folder) / str(number)))

        def one(each: tuple[Mutant, str, tuple[str, ...]]) -> tuple[Mutant, str, str]:
            tree = trees.get()
            try:
                said, stage = outcome(tree, *each, passed)
            finally:
                trees.put(tree)
            noticing.update({stage} - {""})
            return each[0], each[1], said

        yield from pool.map(one, chosen)
        tree = trees.get()
        wrong = [stage for stage in sorted(noticing - passed) if tree.run(stage.split()) != "survived"]
        for each in (tree, *(trees.get() for _ in range(processes - 1))):
            each.end()
        if wrong:
            raise RuntimeError(f"Without any change, these tests fail: {wrong[0]}")


def main(arguments: Sequence[str], tell: Callable[[str], object] = print) -> int:
    """The command: draw changes, try them, tell which survived. 1 where fewer than nine in ten are noticed."""
    parser = argparse.ArgumentParser(prog="python -m benchmarks mutants", description=__doc__)
    parser.add_argument("--count", type=int, default=200, help="how many changes")
    parser.add_argument("--seed", type=int, default=1, help="which changes")
    parser.add_argument("--first", type=int, default=0, help="leave out so many of them, to go on where a run ended")
    parser.add_argument("--only", default="", help="only files with this in their path, such as proof/fit")
    parser.add_argument(
        "--near", action="store_true", help="run only the nearest tests, which is quick and lets more survive"
    )
    parser.add_argument("--again", type=Path, help="only those that survived in this file, as --into wrote it")
    parser.add_argument("--processes", type=int, default=1)
    parser.add_argument("--into", type=Path, help="a file to which a line of data is added for each change")
    said = parser.parse_args(arguments)
    known = all_mutants(ROOT, said.only)
    chosen = Random(said.seed).sample(known, min(said.count, len(known)))[said.first :]
    if said.again:
        told = map(json.loads, said.again.read_text(encoding="utf-8").splitlines())
        again = {(each["file"], each["before"], each["after"]) for each in told if each["outcome"] == "survived"}
        chosen = [each for each in known if (each[0].file, *each[0].lines(each[1])[1:]) in again]
    if said.near:
        chosen = [(mutant, source, stages[:1]) for mutant, source, stages in chosen]
    tell(f"{len(chosen)} of {len(known)} changes")
    counts: Counter[str] = Counter()
    for mutant, source, found in tried(chosen, said.processes):
        counts[found] += 1
        line, before, after = mutant.lines(source)
        if found == "survived":
            tell(f"{mutant.file}:{line} ({mutant.kind})\n  - {before}\n  + {after}")
        if said.into:
            row = {
                "outcome": found,
                "file": mutant.file,
                "line": line,
                "kind": mutant.kind,
                "before": before,
                "after": after,
            }
            with said.into.open("a", encoding="utf-8") as kept:
                kept.write(json.dumps(row, ensure_ascii=False) + "\n")
    noticed = counts["killed"] + counts["too long"]
    tell(f"{noticed} of {counts.total()} noticed ({', '.join(f'{n} {what}' for what, n in counts.most_common())})")
    return 0 if noticed >= 0.9 * counts.total() else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
