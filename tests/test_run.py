"""The one file that starts everything is understood by every Python, so that an old one can be told that it is too old."""

from __future__ import annotations

import ast
import runpy
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
ANY_PYTHON_KNOWS = {
    "Add", "Assign", "BinOp", "Call", "Compare", "Constant", "Eq", "Expr", "If", "Import", "ImportFrom", "Load", "Lt", "Mod", "Module",
    "Name", "Slice", "Store", "Subscript", "Tuple", "Attribute", "alias",
}  # fmt: skip
"""Kinds of syntax that are in Python 2.7 and in all that came after."""


def test_run_py_is_written_so_that_any_python_can_read_it() -> None:
    text = (ROOT / "run.py").read_text(encoding="ascii")
    tree = ast.parse(text)
    assert {type(node).__name__ for node in ast.walk(tree)} <= ANY_PYTHON_KNOWS
    imports = [node.names[0].name for node in ast.walk(tree) if isinstance(node, (ast.Import, ast.ImportFrom))]
    assert imports == ["sys", "main"]
    constants = {type(node.value) for node in ast.walk(tree) if isinstance(node, ast.Constant)}
    assert constants <= {str, int}


def test_an_older_python_is_refused_in_plain_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.version_info", (3, 10, 4))
    with pytest.raises(SystemExit, match=r"needs Python 3\.11 or newer; this is 3\.10\.4\. Install a newer Python"):
        runpy.run_path(str(ROOT / "run.py"))
