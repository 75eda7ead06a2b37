"""A folder that is packed again holds what the new pack wrote, and whatever was never ours."""

from __future__ import annotations

import json
from hashlib import sha256
from pathlib import Path

from kitwright.cli.former_pack import left_behind
from tests.cli.running import Run, files_in

KIT = """\
[kit]
name = "One card"
units = "in"
ruler = "1/16"
[paper.card]
sheet = "Letter"
weight = "80 lb cover"
[[part]]
name = "{}"
form = "flat card"
paper = "card"
size = "2 x 3"
"""


def packed(run: Run, tmp_path: Path, name: str) -> dict[str, bytes]:
    """The files of the folder after a pack of the kit whose card has this name."""
    (tmp_path / "one.toml").write_text(KIT.format(name))
    assert run("pack", "one.toml", "--into", "out").code == 0
    return files_in(tmp_path / "out")


def test_a_renamed_part_leaves_no_drawing_of_its_old_name_and_what_is_not_ours_stays(run: Run, tmp_path: Path) -> None:
    assert "patterns/old.svg" in packed(run, tmp_path, "old")
    (tmp_path / "out" / "patterns" / "mine.svg").write_bytes(b"mine")
    (tmp_path / "out" / "folded" / "old.svg").write_bytes(b"drawn on by hand")
    files = packed(run, tmp_path, "new")
    assert {name for name in files if "/" in name and "sheets" not in name} == {
        "patterns/mine.svg",
        "patterns/new.svg",
        "patterns/new.dxf",
        "folded/old.svg",
        "folded/new.svg",
    }


def test_no_list_in_a_plan_can_name_a_file_outside_the_folder(tmp_path: Path) -> None:
    outside, folder = tmp_path / "mine.txt", tmp_path / "out"
    folder.mkdir()
    outside.write_bytes(b"mine")
    (folder / "ours.txt").write_bytes(b"mine")
    (folder / "link.txt").symlink_to(outside)
    names = ("../mine.txt", str(outside), "link.txt", "ours.txt", "absent.txt", "..", "")
    digest = sha256(b"mine").hexdigest()
    (folder / "plan.json").write_text(json.dumps({"digests": dict.fromkeys(names, digest)}))
    assert left_behind(folder, ()) == (folder.resolve() / "ours.txt",)


def test_a_plan_that_is_not_ours_names_nothing(tmp_path: Path) -> None:
    for text in ("", "[]", "{}", '{"digests": []}', '{"digests": {"plan.json": 1}}', "[" * 100_000):
        (tmp_path / "plan.json").write_text(text)
        assert left_behind(tmp_path, ()) == ()
