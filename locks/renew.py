"""Renew the locks from pyproject.toml: what is pinned stays, unless it no longer meets what is asked for or is named."""

from __future__ import annotations

import shutil
import subprocess
import sys

from locks.pins import ROOT

__all__ = ["EVERYWHERE", "LOCKS", "compile_with_uv", "renew"]

# what each lock is made from; dev holds all of runtime, in the same versions
LOCKS = {
    "runtime": ("pyproject.toml",),
    "dev": ("pyproject.toml", "--group", "dev", "--constraint", "locks/runtime.txt"),
    "benchmark": ("--group", "benchmark"),
    "benchmark-build": ("--group", "benchmark-build"),
}

# for all computers and Pythons, with one version of a package for all of them wherever there is one: the same numbers for everybody
EVERYWHERE = ("--universal", "--python-version", "3.11", "--fork-strategy", "fewest")


def renew(*newer: str) -> None:
    """Write all locks anew; the packages named are taken in their newest version. It needs uv and the network."""
    upgrades = [word for name in newer for word in ("--upgrade-package", name)]
    form = (*EVERYWHERE, "--generate-hashes", "--no-emit-index-url", "--no-header")
    for name, sources in LOCKS.items():
        compile_with_uv(*sources, *form, *upgrades, "--output-file", f"locks/{name}.txt")


def compile_with_uv(*words: str) -> None:
    """Let uv work out a lock, in the project's folder; leave with plain words if it is not there or fails."""
    if shutil.which("uv") is None:
        sys.exit(
            "This needs uv, which is in no lock: install it into an environment of its own and put that on the path."
        )
    if subprocess.run(["uv", "pip", "compile", "--quiet", *words], cwd=ROOT, check=False).returncode:
        sys.exit("uv could not work out the lock; its lines above say why.")
