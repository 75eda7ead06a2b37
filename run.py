"""Set up the project and run its main jobs, with nothing but Python: python run.py demo, python run.py test.

The first call makes a virtual environment in .venv and installs the locked dependencies, each checked
against its hash.
"""

from __future__ import annotations

import argparse
import contextlib
import hashlib
import os
import shutil
import subprocess
import sys
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
LOCK = ROOT / "locks" / "dev.txt"
STAMP = VENV / "installed-from"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")

JOBS = {
    "setup": "make the virtual environment and install everything that is needed",
    "demo": "make the demo kit: proof, sheet layouts, drawings and the bench pack, in demo-output/",
    "open": "open the workbench page in the browser",
    "test": "check style, types and layers, then run the whole test suite",
    "check": "check style, types and layers only",
    "benchmark": "measure the numbers named in benchmarks/README.md",
    "build": "build the wheel and the source archive into dist/",
    "clean": "remove what the other jobs made",
}


def call(*command: str | Path) -> None:
    """Run a command in the project's folder; leave with its exit code if it fails."""
    done = subprocess.run([str(word) for word in command], cwd=ROOT, check=False)
    if done.returncode:
        sys.exit(done.returncode)


def fingerprint() -> str:
    """What the environment was made from: the lock, the project file and this Python."""
    content = LOCK.read_bytes() + (ROOT / "pyproject.toml").read_bytes() + sys.version.encode()
    return hashlib.sha256(content).hexdigest()


def set_up() -> None:
    """Make .venv and install the locked dependencies, unless that was done from the same files."""
    if STAMP.exists() and STAMP.read_text(encoding="utf-8") == fingerprint():
        return
    if sys.version_info < (3, 11):  # noqa: UP036  (this file must speak plainly on an older Python)
        found = ".".join(str(number) for number in sys.version_info[:3])
        sys.exit(f"Kitwright needs Python 3.11 or newer; this is {found}. Install a newer Python and run this again.")
    print(
        "Setting up: a virtual environment in .venv and the locked dependencies (once; a minute or two).",
        flush=True,
    )
    if not PYTHON.exists():
        venv.EnvBuilder(with_pip=True, clear=True).create(VENV)
    pip = (PYTHON, "-m", "pip", "--disable-pip-version-check", "install", "--quiet")
    call(*pip, "--require-hashes", "-r", LOCK)
    call(*pip, "--no-deps", "--no-build-isolation", "--editable", ROOT)
    STAMP.write_text(fingerprint(), encoding="utf-8")


def check() -> None:
    """Style, types and layers."""
    call(PYTHON, "-m", "ruff", "check", ".")
    call(PYTHON, "-m", "ruff", "format", "--check", ".")
    call(PYTHON, "-m", "mypy")
    call(BIN / "lint-imports", "--no-cache")


def main() -> None:
    """Read the wanted job and do it."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    jobs = parser.add_subparsers(dest="job", required=True, metavar="JOB")
    for name, meaning in JOBS.items():
        jobs.add_parser(name, help=meaning)
    wanted = parser.parse_known_args()
    job, rest = wanted[0].job, wanted[1]
    if job == "clean":
        for name in (
            ".venv",
            "dist",
            "demo-output",
            ".pytest_cache",
            ".mypy_cache",
            ".ruff_cache",
            ".hypothesis",
        ):
            shutil.rmtree(ROOT / name, ignore_errors=True)
        return
    set_up()
    if job == "demo":
        call(PYTHON, "-m", "kitwright", "demo", "--into", ROOT / "demo-output", *rest)
    elif job == "open":
        with contextlib.suppress(KeyboardInterrupt):
            call(PYTHON, "-m", "kitwright", "open", *rest)
    elif job == "check":
        check()
    elif job == "test":
        check()
        call(PYTHON, "-m", "pytest", "-n", "2", *rest)
    elif job == "benchmark":
        call(PYTHON, "-m", "benchmarks", *rest)
    elif job == "build":
        call(PYTHON, "-m", "build", "--no-isolation", *rest)


if __name__ == "__main__":
    main()
