"""The wheel and the source archive build, and the installed wheel makes the demo outside the checkout, all without the network."""

import os
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="module")
def dist(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the wheel and the source archive, built from this checkout."""
    folder = tmp_path_factory.mktemp("dist")
    command = [sys.executable, "-m", "build", "--no-isolation", "--outdir", str(folder), str(ROOT)]
    subprocess.run(command, check=True, capture_output=True, text=True)
    return folder


def only(folder: Path, ending: str) -> Path:
    """The one file with this ending."""
    (found,) = folder.glob(f"*{ending}")
    return found


def test_the_wheel_holds_the_package_with_its_data_and_nothing_else(dist: Path) -> None:
    names = zipfile.ZipFile(only(dist, ".whl")).namelist()
    for wanted in (
        "kitwright/py.typed",
        "kitwright/examples/recipe-box.toml",
        "kitwright/proof/mailing/rules/us.toml",
        "kitwright/cli/demo.py",
    ):
        assert wanted in names
    assert {name.split("/")[0] for name in names if ".dist-info" not in name} == {"kitwright"}


def test_the_source_archive_holds_the_tests_and_the_docs(dist: Path) -> None:
    with tarfile.open(only(dist, ".tar.gz")) as archive:
        names = {name.split("/", 1)[1] for name in archive.getnames() if "/" in name}
    for wanted in ("README.md", "LICENSE", "docs/glossary.md", "tests/test_wheel.py", "src/kitwright/plan/pipeline.py"):
        assert wanted in names


def test_the_installed_wheel_makes_the_demo_outside_the_checkout(dist: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    pip = [sys.executable, "-m", "pip", "install", "--quiet", "--no-deps", "--no-index", "--target", str(site)]
    subprocess.run([*pip, str(only(dist, ".whl"))], check=True, capture_output=True)
    place = tmp_path / "elsewhere"
    place.mkdir()
    # the wheel comes before the editable install of the same name, which is found through a path file of the environment
    env = {**os.environ, "PYTHONPATH": str(site)}
    told = subprocess.run(
        [sys.executable, "-c", "import kitwright; print(kitwright.__file__)"],
        check=True,
        capture_output=True,
        text=True,
        env=env,
        cwd=place,
    )
    assert told.stdout.strip().startswith(str(site))
    made = subprocess.run(
        [sys.executable, "-m", "kitwright", "demo"], check=False, capture_output=True, text=True, env=env, cwd=place
    )
    assert made.returncode == 0, made.stderr
    assert (place / "kitwright-demo" / "bench-pack.pdf").read_bytes().startswith(b"%PDF")
