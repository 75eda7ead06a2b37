"""ARCHITECTURE.md says what is so; the command line starts light; nothing of a person's machine is in the project."""

import ast
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "src" / "kitwright"
CONTRACTS = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]


def page_layers() -> list[str]:
    """The layers in the order of the table in ARCHITECTURE.md."""
    return re.findall(r"^\| `([a-z]+)` \|", (ROOT / "ARCHITECTURE.md").read_text(), flags=re.MULTILINE)


def contract_layers() -> list[set[str]]:
    """The layers of the contract, strangers together."""
    (layers,) = (each["layers"] for each in CONTRACTS if each["type"] == "layers")
    return [set(row.split(" | ")) for row in layers]


def test_the_page_names_every_module_and_folder_of_the_package() -> None:
    there = {path.stem for path in PACKAGE.iterdir() if path.suffix == ".py" or (path / "__init__.py").exists()}
    assert set(page_layers()) == there - {"__init__", "__main__"}


def test_the_page_has_the_layers_in_the_order_of_the_contract() -> None:
    rest = page_layers()
    for row in contract_layers():
        assert set(rest[: len(row)]) == row
        rest = rest[len(row) :]
    assert rest == []


def test_the_page_names_only_files_that_are_there() -> None:
    named = re.findall(r"`([a-z_/]+\.py)`", (ROOT / "ARCHITECTURE.md").read_text())
    assert named
    for name in named:
        found = list(PACKAGE.rglob(name)) if "/" not in name else [PACKAGE / name]
        assert any(path.exists() for path in found), name


def test_every_public_name_that_a_module_lists_is_in_it() -> None:
    for path in PACKAGE.rglob("*.py"):
        tree = ast.parse(path.read_text())
        listed = [
            ast.literal_eval(node.value)
            for node in tree.body
            if isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "") == "__all__"
        ]
        names = {
            node.name
            for node in ast.walk(tree)
            if isinstance(node, ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef)
        }
        names |= {
            alias.asname or alias.name
            for node in ast.walk(tree)
            if isinstance(node, ast.ImportFrom)
            for alias in node.names
        }
        for node in tree.body:
            if isinstance(node, ast.Assign):
                names |= {getattr(target, "id", "") for target in node.targets}
            if isinstance(node, ast.AnnAssign):
                names.add(getattr(node.target, "id", ""))
        for public in listed:
            assert set(public) <= names, path


@pytest.mark.parametrize("words", [["--help"], ["--version"]])
def test_help_imports_no_heavy_library(words: list[str]) -> None:
    heavy = {"numpy", "shapely", "typst", "pysat", "highspy", "manifold3d", "rich"}
    code = (
        "import sys\n"
        "from kitwright.cli import main\n"
        f"sys.argv = ['kitwright', *{words!r}]\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        f"print('HEAVY', sorted({heavy!r} & set(sys.modules)))"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT).stdout
    assert "HEAVY []" in out


def tracked_files() -> list[Path]:
    """All files that git tracks, or all files of a source archive without git."""
    if (ROOT / ".git").exists():
        names = subprocess.run(["git", "ls-files"], capture_output=True, text=True, check=True, cwd=ROOT).stdout.split(
            "\n"
        )
        return [ROOT / name for name in names if name and (ROOT / name).is_file()]
    return [path for path in ROOT.rglob("*") if path.is_file() and ".venv" not in path.parts]


def test_no_path_of_a_machine_and_no_registry_host_is_in_the_project() -> None:
    forbidden = re.compile(
        "|".join(["/" + "work/", "/" + "home/[a-z]", "py" + r"pi\.org", "registry" + r"\.npm", "deb" + r"\.debian"])
    )
    for path in tracked_files():
        try:
            text = path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue
        assert not forbidden.search(text), path
