"""The commands from outside: what they write, what they answer, how they say that something was said wrongly."""

import json
from collections.abc import Callable
from importlib import resources
from pathlib import Path

import pytest

from kitwright.cli import COMMANDS, main
from kitwright.cli.files import write_file
from kitwright.errors import Mistake

Run = Callable[..., tuple[int, str, str]]

EXAMPLE = resources.files("kitwright").joinpath("examples", "thank-you-cards.toml").read_text(encoding="utf-8")


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    """Runs the command line; gives exit code, output and error output."""

    def call(*words: object) -> tuple[int, str, str]:
        monkeypatch.setattr("sys.argv", ["kitwright", *map(str, words)])
        with pytest.raises(SystemExit) as left:
            main()
        seen = capsys.readouterr()
        return int(left.value.code or 0), seen.out, seen.err

    return call


@pytest.fixture
def kit(tmp_path: Path) -> Path:
    """The thank-you cards as a file."""
    path = tmp_path / "cards.toml"
    path.write_text(EXAMPLE, encoding="utf-8")
    return path


def changed(kit: Path, old: str, new: str) -> Path:
    """The document with one thing changed."""
    text = kit.read_text(encoding="utf-8")
    assert old in text
    kit.write_text(text.replace(old, new, 1), encoding="utf-8")
    return kit


def files_in(folder: Path) -> set[str]:
    """All files below a folder."""
    return {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}


def test_help_lists_every_command(run: Run) -> None:
    code, out, _ = run("--help")
    assert code == 0
    for name in COMMANDS:
        assert f"  {name} " in out


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_itself(run: Run, name: str) -> None:
    code, out, _ = run(name, "--help")
    assert code == 0
    assert out.startswith(f"Usage: kitwright {name}")


def test_a_kit_that_fits_is_proved_with_code_0(run: Run, kit: Path) -> None:
    code, out, _ = run("prove", kit)
    assert code == 0
    assert "nothing fails" in out


def test_a_kit_that_does_not_fit_has_code_1_and_says_what_to_do(run: Run, kit: Path) -> None:
    changed(kit, 'covers = "tray"', 'covers = "tray"\nsize = "5 1/2 x 4 x 3/4"')
    code, out, _ = run("prove", kit)
    assert code == 1
    assert "does not go on" in out
    assert "do this  Make lid" in out


def test_mend_applies_the_fix_keeps_comments_and_the_document_before(run: Run, kit: Path) -> None:
    changed(kit, 'covers = "tray"', 'covers = "tray"\nsize = "5 1/2 x 4 x 3/4"')
    before = kit.read_bytes()
    comments = [line for line in kit.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    assert run("mend", kit)[0] == 0
    assert kit.with_suffix(".before.toml").read_bytes() == before
    after = kit.read_text(encoding="utf-8").splitlines()
    assert [line for line in after if line.startswith("#")] == comments
    assert run("prove", kit)[0] == 0


def test_prove_as_json_has_every_number(run: Run, kit: Path) -> None:
    code, out, _ = run("prove", kit, "--json")
    data = json.loads(out)
    assert code == 0
    assert data["proved"] is True
    lid = next(each for each in data["findings"] if each["code"] == "lid-fit-width")
    assert lid["margin"] == pytest.approx(lid["measured"] - lid["required"])


def test_sheets_as_json_lists_every_part_of_the_batch(run: Run, kit: Path) -> None:
    code, out, _ = run("sheets", kit, "--kits", 3, "--json")
    data = json.loads(out)
    assert code == 0
    wanted = {line["blank"]: line["in_batch"] for line in data["cut_list"]}
    cut: dict[str, int] = {}
    for paper in data["papers"]:
        for layout in paper["layouts"]:
            for part in layout["parts"]:
                cut[part["blank"]] = cut.get(part["blank"], 0) + layout["times"]
    assert cut == wanted
    assert wanted["card base"] == 18


def test_pack_writes_bench_pack_patterns_folded_parts_sheets_and_proof(run: Run, kit: Path, tmp_path: Path) -> None:
    code, _, _ = run("pack", kit, "--into", tmp_path / "pack")
    assert code == 0
    there = files_in(tmp_path / "pack")
    assert {
        "bench-pack.pdf",
        "proof.txt",
        "plan.json",
        "patterns/envelope.svg",
        "patterns/envelope.dxf",
        "folded/tray.svg",
    } <= there
    assert not [name for name in there if name.endswith(".part")]


def test_pack_writes_nothing_for_a_kit_that_does_not_fit_unless_it_is_asked_to(
    run: Run, kit: Path, tmp_path: Path
) -> None:
    changed(kit, 'covers = "tray"', 'covers = "tray"\nsize = "5 1/2 x 4 x 3/4"')
    assert run("pack", kit, "--into", tmp_path / "pack")[0] == 1
    assert not (tmp_path / "pack").exists()
    assert run("pack", kit, "--into", tmp_path / "pack", "--even-if-not-proved")[0] == 1
    assert (tmp_path / "pack" / "bench-pack.pdf").exists()


def test_a_new_kit_without_a_letter_in_its_name_is_a_file_called_kit(run: Run, tmp_path: Path) -> None:
    assert run("new", "!?*", "--into", tmp_path)[0] == 0
    assert [path.name for path in tmp_path.iterdir()] == ["kit.toml"]


def test_new_starts_a_document_that_is_proved_and_never_writes_over_one(run: Run, tmp_path: Path) -> None:
    for units in ("in", "mm"):
        assert run("new", f"My kit {units}", "--units", units, "--into", tmp_path)[0] == 0
        assert run("prove", tmp_path / f"my-kit-{units}.toml")[0] == 0
    before = (tmp_path / "my-kit-in.toml").read_bytes()
    code, _, err = run("new", "My kit in", "--into", tmp_path)
    assert code == 2
    assert "There is such a file already." in err
    assert (tmp_path / "my-kit-in.toml").read_bytes() == before


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["prove", "nowhere.toml"], "There is no such file."),
        (["prove", "."], "This is a folder."),
        (["provee", "x"], "Did you mean 'prove'?"),
        (["forms", "trray"], "Did you mean 'tray'?"),
        (["sheets", "KIT", "--kits", "0"], "A batch of 0 kits cannot be planned."),
        (["sheets", "KIT", "--kits", "-1"], "A batch of -1 kits cannot be planned."),
        (["sheets", "KIT", "--kits", "1000000000"], "A batch of 1,000,000,000 kits cannot be planned."),
        (["pack", "KIT", "--into", "KIT"], "is a file."),
    ],
)
def test_a_mistake_in_the_words_has_code_2_and_one_clear_sentence(
    run: Run, kit: Path, words: list[str], told: str
) -> None:
    before = kit.read_bytes()
    code, _, err = run(*[kit if word == "KIT" else word for word in words])
    assert code == 2
    assert told in err
    assert "Traceback" not in err
    assert kit.read_bytes() == before


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('"5 1/2 x 4 1/4"', '"five x 4 1/4"', "'five'"),
        ('"5 1/2 x 4 1/4"', '"5 1/2 ft x 4 1/4"', "unit"),
        ('"5 1/2 x 4 1/4"', '"0 x 4 1/4"', "zero"),
        ('"5 1/2 x 4 1/4"', '"-5 x 4 1/4"', "below zero"),
        ('"5 1/2 x 4 1/4"', '"1e9 x 4 1/4"', "1e9"),
        ('"5 1/2 x 4 1/4"', '"1000000000 x 4 1/4"', "far too large"),
        ('form = "half-fold card"', 'form = "half-fold crad"', "Did you mean 'half-fold card'?"),
        ('covers = "tray"', 'covers = "trai"', "Did you mean 'tray'?"),
        ('covers = "tray"', 'covers = "lid"', "lid"),
        ('covers = "tray"', 'coverz = "tray"', "Did you mean 'covers'?"),
    ],
)
def test_a_mistake_in_the_document_names_its_line(run: Run, kit: Path, old: str, new: str, told: str) -> None:
    text = kit.read_text(encoding="utf-8")
    line = text[: text.index(old)].count("\n") + 1
    changed(kit, old, new)
    code, out, err = run("prove", kit)
    assert code == 2
    assert out == ""
    assert told in err
    assert f"cards.toml, line {line}" in err
    assert "Traceback" not in err


def test_several_mistakes_are_told_together(run: Run, kit: Path) -> None:
    changed(kit, '"5 1/2 x 4 1/4"', '"five x 4 1/4"')
    changed(kit, "quantity = 6", "quantity = 0")
    code, _, err = run("prove", kit)
    assert code == 2
    assert err.splitlines()[0] == "2 mistakes:"


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "empty"),
        ("[kit]\nname = 'Gr\u00fc\u00dfe'\n".encode("latin-1"), "UTF-8"),
        (b"x" * 50_000_000, "larger"),
        (b"[kit\nname = 1", "line 1"),
    ],
)
def test_a_file_that_is_no_document_gets_one_sentence(run: Run, tmp_path: Path, content: bytes, told: str) -> None:
    path = tmp_path / "odd.toml"
    path.write_bytes(content)
    code, _, err = run("prove", path)
    assert code == 2
    assert told in err
    assert "Traceback" not in err


def test_a_part_larger_than_every_sheet_fails_with_how_much(run: Run, kit: Path) -> None:
    changed(kit, '"5 1/2 x 4 1/4"', '"11 x 10"')
    code, out, _ = run("prove", kit)
    assert code == 1
    assert "too large for a sheet of White cardstock" in out
    assert run("sheets", kit)[0] == 1


def test_a_write_that_fails_leaves_the_old_file_and_no_rest(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "old.txt"
    target.write_bytes(b"old")

    def refuse(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", refuse)
    with pytest.raises(Mistake, match="No space left"):
        write_file(target, b"new")
    assert target.read_bytes() == b"old"
    assert files_in(tmp_path) == {"old.txt"}
