"""Set up the project and run its main jobs, with nothing but Python: what run.py does.

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
LOCKS = ROOT / "locks"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")

NEWEST = (3, 14)  # the last Python for which the locked libraries are there ready-made; the first is in run.py

JOBS = {
    "setup": "make the virtual environment and install everything that is needed",
    "demo": "make the demo kit: proof, sheet layouts, drawings and the bench pack, in demo-output/",
    "open": "open the workbench page in the browser",
    "test": "check style, types and layers, then run the whole test suite",
    "check": "check style, types and layers only",
    "benchmark": "measure the numbers named in benchmarks/README.md",
    "build": "build the wheel, the source archive and the bills of materials into dist/",
    "clean": "remove what the other jobs made",
}


def call(*command: str | Path) -> None:
    """Run a command in the project's folder; leave with its exit code if it fails."""
    done = subprocess.run([str(word) for word in command], cwd=ROOT, check=False)
    if done.returncode:
        sys.exit(done.returncode)


def install(*what: str | Path) -> None:
    """Install into .venv; leave with plain words if it fails."""
    pip = [PYTHON, "-m", "pip", "--disable-pip-version-check", "install", "--quiet", *what]
    if subprocess.run([str(word) for word in pip], cwd=ROOT, check=False).returncode:
        sys.exit(
            "The libraries could not be installed; the lines above say why. Look whether the internet can be reached, and in "
            "docs/platforms.md whether they are there for this computer, then run this again."
        )


def fingerprint(*locks: Path) -> str:
    """What was installed from: the locks, the project file and this Python."""
    content = b"".join(lock.read_bytes() for lock in locks) + (ROOT / "pyproject.toml").read_bytes()
    return hashlib.sha256(content + sys.version.encode()).hexdigest()


def refuse_other_pythons() -> None:
    """Leave with plain words on a Python for which there are no libraries."""
    found = ".".join(str(number) for number in sys.version_info[:3])
    if sys.version_info[:2] > NEWEST:
        newest = ".".join(str(number) for number in NEWEST)
        sys.exit(
            f"Kitwright's libraries are not there for Python {found} yet. Install Python {newest} beside it and run this "
            f"again with that (docs/platforms.md says more)."
        )


def set_up() -> None:
    """Make .venv and install the locked dependencies, unless that was done from the same files."""
    lock, stamp = LOCKS / "dev.txt", VENV / "installed-from"
    if stamp.exists() and stamp.read_text(encoding="utf-8") == fingerprint(lock):
        return
    refuse_other_pythons()
    print(
        "Setting up: a virtual environment in .venv and the locked dependencies (once; a minute or two).",
        flush=True,
    )
    if not PYTHON.exists():
        venv.EnvBuilder(with_pip=True, clear=True).create(VENV)
    install("--require-hashes", "--only-binary", ":all:", "-r", lock)
    install("--no-deps", "--no-build-isolation", "--editable", ROOT)
    stamp.write_text(fingerprint(lock), encoding="utf-8")


def set_up_peer() -> None:
    """Build the packing library that one benchmark packs against: there is no wheel, so what builds it is locked as well."""
    builder, peer, stamp = LOCKS / "benchmark-build.txt", LOCKS / "benchmark.txt", VENV / "benchmark-installed-from"
    if stamp.exists() and stamp.read_text(encoding="utf-8") == fingerprint(builder, peer):
        return
    install("--require-hashes", "--only-binary", ":all:", "-r", builder)
    install("--require-hashes", "--no-deps", "--no-build-isolation", "--use-pep517", "-r", peer)
    stamp.write_text(fingerprint(builder, peer), encoding="utf-8")


def check() -> None:
    """Style, types and layers."""
    call(PYTHON, "-m", "ruff", "check", ".")
    call(PYTHON, "-m", "ruff", "format", "--check", ".")
    call(PYTHON, "-m", "mypy")
    call(BIN / "lint-imports", "--no-cache")


def main() -> None:
    """Read the wanted job and do it."""
    parser = argparse.ArgumentParser(
        prog="run.py", description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
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
        set_up_peer()
        call(PYTHON, "-m", "benchmarks", *rest)
    elif job == "build":
        call(PYTHON, "-m", "build", "--no-isolation", *rest)
        call(PYTHON, "-m", "locks", "bills")


if __name__ == "__main__":
    main()
