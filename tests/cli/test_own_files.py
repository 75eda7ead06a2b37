"""A folder that is written into again holds what the new run wrote, and whatever was never ours, as it was; whole or not at all."""

from __future__ import annotations

import json
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path

import pytest

from kitwright.cli import folder as folders
from kitwright.cli.folder import write_folder
from kitwright.cli.own_files import left_behind
from kitwright.errors import Mistake
from kitwright.printouts.make.file_list import file_list
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


LIST = "plan.json"


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
    assert left_behind(folder, (), LIST) == (folder.resolve() / "ours.txt",)


def test_a_plan_that_is_not_ours_names_nothing(tmp_path: Path) -> None:
    for text in ("", "[]", "{}", '{"digests": []}', '{"digests": {"plan.json": 1}}', "[" * 100_000):
        (tmp_path / "plan.json").write_text(text)
        assert left_behind(tmp_path, (), LIST) == ()


def files_of(content: bytes, *more: str) -> dict[str, bytes]:
    """A small folder, as a run writes it."""
    files = dict.fromkeys(("a.txt", "deep/b.txt", *more), content)
    return {**files, LIST: file_list(LIST, files)}


@pytest.mark.parametrize("name", ["a.txt", "deep/b.txt", LIST])
@pytest.mark.parametrize("mine", [b"my own notes", b"one\n", b"", None])
def test_a_file_that_is_not_as_a_run_wrote_it_is_never_replaced(tmp_path: Path, name: str, mine: bytes | None) -> None:
    folder, elsewhere = tmp_path / "out", tmp_path / "elsewhere"
    write_folder(folder, files_of(b"one"), listed_in=LIST)
    (folder / name).unlink()
    if mine is None:
        elsewhere.write_bytes(b"one")
        (folder / name).symlink_to(elsewhere)
    else:
        (folder / name).write_bytes(mine)
    before = files_in(tmp_path)
    with pytest.raises(
        Mistake, match=r"not written by Kitwright, or changed since\. Move .* Nothing was written\."
    ) as told:
        write_folder(folder, files_of(b"two"), listed_in=LIST)
    first = "a.txt" if name == LIST else name  # without its list nothing is shown to be ours
    assert str(folder / first) in str(told.value)
    assert files_in(tmp_path) == before


def test_what_an_earlier_run_wrote_is_replaced_and_what_is_there_already_may_stay(tmp_path: Path) -> None:
    write_folder(tmp_path / "out", files_of(b"one", "gone.txt"), listed_in=LIST)
    (tmp_path / "out" / "mine.txt").write_bytes(b"mine")
    for content in (b"two", b"two"):
        write_folder(tmp_path / "out", files_of(content), listed_in=LIST)
        assert files_in(tmp_path / "out") == {**files_of(content), "mine.txt": b"mine"}
    (tmp_path / "other").mkdir()
    (tmp_path / "other" / "a.txt").write_bytes(b"two")  # the very same
    write_folder(tmp_path / "other", files_of(b"two"), listed_in=LIST)
    assert files_in(tmp_path / "other") == files_of(b"two")


class Killed(BaseException):
    """What a process does not survive."""


CALLS = (
    "os.fsync",
    "tempfile.mkdtemp",
    "pathlib.Path.rename",
    "pathlib.Path.replace",
    "pathlib.Path.unlink",
    "shutil.rmtree",
)


def dying_at(
    monkeypatch: pytest.MonkeyPatch, name: str, place: int, error: type[BaseException], *, once: bool
) -> list[int]:
    """Let one of the calls by which a folder is written raise: the one at a place, and if it is not for `once` all that follow."""
    calls: list[int] = []
    module, _, word = name.rpartition(".")
    real: Callable[..., object] = getattr(__import__(module) if "." not in module else Path, word)

    def dying(*values: object, **named: object) -> object:
        calls.append(1)
        if len(calls) == place or (len(calls) > place and not once):
            raise error
        return real(*values, **named)

    monkeypatch.setattr(name, dying)
    return calls


def every_place(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    error: type[BaseException],
    *,
    once: bool,
    check: Callable[[Path], None],
) -> int:
    """Write a folder anew, and one over an earlier, broken off at every call by which they are written; how often that was."""
    broken = 0
    for name in CALLS:
        for is_new in (True, False):
            for place in range(1, 20):
                folder = tmp_path / f"{name}-{is_new}-{place}" / "out"
                folder.parent.mkdir()
                if not is_new:
                    write_folder(folder, files_of(b"one", "gone.txt"), listed_in=LIST)
                with monkeypatch.context() as context:
                    if not once:
                        context.setattr("shutil.rmtree", lambda *_, **__: None)  # a killed process cleans nothing up
                    calls = dying_at(context, name, place, error, once=once)
                    try:
                        write_folder(folder, files_of(b"two"), listed_in=LIST)
                    except error:
                        broken += 1
                if len(calls) < place:
                    break
                check(folder)
    return broken


NEITHER: tuple[dict[str, bytes], ...] = ({}, files_of(b"one", "gone.txt"))
HIDDEN = ".*"


def test_whoever_stops_a_run_at_any_step_finds_the_folder_as_it_was_or_whole_and_nothing_hidden(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def check(folder: Path) -> None:
        assert files_in(folder) in (*NEITHER, files_of(b"two")), folder
        assert not [*folder.parent.rglob(HIDDEN)]

    assert every_place(tmp_path, monkeypatch, KeyboardInterrupt, once=True, check=check) > 15


def test_after_a_kill_at_any_step_the_next_run_finds_its_way_and_leaves_nothing_hidden(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def check(folder: Path) -> None:
        write_folder(folder, files_of(b"three"), listed_in=LIST)
        assert files_in(folder) == files_of(b"three"), folder
        assert not [*folder.parent.rglob(HIDDEN)]

    assert every_place(tmp_path, monkeypatch, Killed, once=False, check=check) > 15


def test_two_runs_do_not_write_into_one_folder_at_once(tmp_path: Path) -> None:
    write_folder(tmp_path / "out", files_of(b"one"), listed_in=LIST)
    with folders.held(tmp_path / "out"), pytest.raises(Mistake, match="Another program is writing into"):
        write_folder(tmp_path / "out", files_of(b"two"), listed_in=LIST)
    assert files_in(tmp_path / "out") == files_of(b"one")


def test_a_pack_leaves_the_makers_own_files_of_its_names_alone(run: Run, tmp_path: Path) -> None:
    (tmp_path / "one.toml").write_text(KIT.format("lid"))
    (tmp_path / "out" / "patterns").mkdir(parents=True)
    for name in ("proof.txt", "patterns/lid.svg"):
        (tmp_path / "out" / name).write_bytes(b"mine")
    before = files_in(tmp_path)
    call = run("pack", "one.toml", "--into", "out")
    assert call.code == 2
    assert "'out/patterns/lid.svg' and 1 more file: not written by Kitwright" in call.err
    assert files_in(tmp_path) == before


def test_the_demo_made_again_keeps_a_document_that_was_changed(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    packed_from: list[bytes] = []

    def pack(document: Path, **_: object) -> int:
        packed_from.append(document.read_bytes())
        return 0

    monkeypatch.setattr("kitwright.cli.demo.write_pack", pack)
    assert run("demo", "--into", "out").code == run("demo", "--into", "out").code == 0
    fresh = files_in(tmp_path / "out")
    assert list(fresh) == ["recipe-box.toml"]
    mine = fresh["recipe-box.toml"] + b"# mine\n"
    for name in ("recipe-box.before.toml", "recipe-box.before-2.toml"):
        (tmp_path / "out" / "recipe-box.toml").write_bytes(mine)
        call = run("demo", "--into", "out")
        assert call.code == 0
        assert f"You changed recipe-box.toml: yours is now out/{name}." in call.out
        assert files_in(tmp_path / "out")[name] == mine
    assert files_in(tmp_path / "out")["recipe-box.toml"] == fresh["recipe-box.toml"]
    assert set(packed_from) == set(fresh.values())


@pytest.mark.parametrize("name", ["report.pdf", "report.SVG"])
def test_a_report_replaces_only_a_report_that_nobody_changed(run: Run, tmp_path: Path, name: str) -> None:
    (tmp_path / "one.toml").write_text(KIT.format("card"))
    report = tmp_path / name
    words = ("prove", "one.toml", "--report", name)
    for theirs in (b"mine", b"", b"%PDF-1.7\n%%EOF\n"):
        report.write_bytes(theirs)
        call = run(*words)
        assert (call.code, call.out, report.read_bytes()) == (2, "", theirs)
        assert call.err == (
            f"A mistake:\n  {name}: This file was not written by Kitwright, or was changed since. "
            "Move it elsewhere, or name another with --report. Nothing was written.\n"
        )
    report.unlink()
    assert run(*words).code == 0
    first = report.read_bytes()
    (tmp_path / "one.toml").write_text(KIT.format("another"))
    assert run(*words).code == 0
    second = report.read_bytes()
    assert second != first
    changed = second.replace(b"0", b"1", 1)
    report.write_bytes(changed)
    assert (run(*words).code, report.read_bytes()) == (2, changed)


def test_where_one_page_of_a_report_is_in_the_way_no_page_is_written(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("kitwright.printouts.write.pdf.to_page_svgs", lambda _: (b"<svg/>", b"<svg/>"))
    (tmp_path / "one.toml").write_text(KIT.format("card"))
    (tmp_path / "report-2.svg").write_bytes(b"mine")
    call = run("prove", "one.toml", "--report", "report.svg")
    assert (call.code, "report-2.svg: This file was not written by Kitwright" in call.err) == (2, True)
    assert sorted(files_in(tmp_path)) == ["one.toml", "report-2.svg"]
