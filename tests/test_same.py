"""The same kit gives the same bytes under any hash seed, and no float is summed in a way that differs between Pythons."""

from __future__ import annotations

import os
import subprocess
import sys

MAKE = """
import builtins, hashlib, json, sys
from collections.abc import Iterable
from importlib import resources

plain = builtins.sum

def exact(items, /, start=0):
    items = list(items)
    if sys._getframe(1).f_globals.get("__name__", "").startswith("kitwright") and len(items) > 2:
        assert not any(type(each) is float for each in items), "floats are summed by math.fsum: sum differs between Pythons"
    return plain(items, start)

builtins.sum = exact

from kitwright.kit import read_kit
from kitwright.plan import plan
from kitwright.printouts.make.as_data import plan_as_data
from kitwright.printouts.make.whole_pack import Kind, whole_pack

made = plan(read_kit(resources.files("kitwright").joinpath("examples", "postcard-set.toml").read_text(encoding="utf-8")))
files = whole_pack(made, kinds=[kind for kind in Kind if kind is not Kind.PAGES])
files["plan"] = json.dumps(plan_as_data(made)).encode()
print({name: hashlib.sha256(content).hexdigest() for name, content in files.items()})
"""


def made_under(seed: int) -> str:
    """The digests of all that is made of a kit, but for the pages, in a process of its own."""
    environment = {**os.environ, "PYTHONHASHSEED": str(seed)}
    done = subprocess.run([sys.executable, "-c", MAKE], env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_a_kit_gives_the_same_bytes_under_two_hash_seeds() -> None:
    first, other = made_under(0), made_under(5)
    assert "proof.txt" in first
    assert ".dxf" in first
    assert first == other
