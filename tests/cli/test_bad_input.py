"""Everything that can be said wrongly on the command line gets one clear sentence with its place and exit code 2, and nothing is
written."""

from __future__ import annotations

from pathlib import Path

import pytest

from kitwright.kit.read import MOST_TOLD
from tests.cli.running import Run, example, files_in

KIT = """\
[kit]
name = "a"
units = "in"

[paper.kraft]
sheet = "12 x 12"
weight = "80 lb cover"

[[part]]
name = "card"
form = "flat card"
size = "6 x 4"
paper = "kraft"

[[part]]
name = "tray"
form = "tray"
holds = "card"
paper = "kraft"
"""


def told(err: str) -> list[str]:
    """The sentences after the heading; nothing else may have been printed."""
    heading, *lines = err.splitlines()
    assert heading == ("A mistake:" if len(lines) == 1 else f"{len(lines)} mistakes:")
    assert "Traceback" not in err
    return [line.removeprefix("  ") for line in lines]


CASES = [
    # what is there, what is put in its place, the sentence
    (
        'size = "6 x 4"',
        'size = "6 x four"',
        'kit.toml, line 12, part "card": size: \'four\' is not a length that can be read. Write it like "5 x 4".',
    ),
    (
        'size = "6 x 4"',
        'size = "6 yd x 4"',
        'kit.toml, line 12, part "card": size: \'yd\' in \'6 yd\' is not a unit known here. Use in, mm or cm.',
    ),
    ('units = "in"', 'units = "inn"', "kit.toml, line 3, kit: units: 'inn' is not known here. Did you mean 'in'?"),
    ('form = "flat card"', 'form = "flat crad"',
     'kit.toml, line 11, part "card": form: there is no form \'flat crad\'. Did you mean \'flat card\'?'),
    ("holds =", "hodls =", 'kit.toml, line 18, part "tray": There is no key \'hodls\' here. Did you mean \'holds\'?'),
    ('holds = "card"', 'holds = "cart"',
     'kit.toml, line 18, part "tray": holds: there is nothing called \'cart\' in this kit. Did you mean \'card\'?'),
    ('holds = "card"', 'holds = "tray"', 'kit.toml, line 18, part "tray": holds: \'tray\' is the part itself. Name another part.'),
    ('size = "6 x 4"', 'on = "tray"',
     "kit.toml, line 9, part \"card\": These go in a circle: 'card', which needs 'tray', which needs 'card'. Take one of these"),
    ('size = "6 x 4"', 'size = "0 x 4"', 'kit.toml, line 12, part "card": size: '),
    ('size = "6 x 4"', 'size = "-6 x 4"', 'kit.toml, line 12, part "card": size: '),
    ('size = "6 x 4"', 'size = "1e9 x 4"', 'kit.toml, line 12, part "card": size: '),
    ('size = "6 x 4"', 'size = "1000000000 x 4"', 'kit.toml, line 12, part "card": size: '),
    ('name = "card"', 'name = "card"\nquantity = 1000000000', 'kit.toml, line 11, part "card": quantity: '),
    ('name = "card"', 'name = "card"\nquantity = 0', 'kit.toml, line 11, part "card": quantity: '),
    ('name = "card"', 'name = "card"\nquantity = -3', 'kit.toml, line 11, part "card": quantity: '),
    ('sheet = "12 x 12"\n', "", 'kit.toml, line 5, paper "kraft": '),
    ('sheet = "12 x 12"', 'sheet = "0 x 12"', 'kit.toml, line 6, paper "kraft": sheet: '),
    ('weight = "80 lb cover"', 'weight = "80 lb"', 'kit.toml, line 7, paper "kraft": weight: '),
    ("[[part]]", "[[prat]]", "kit.toml, line 9: There is no table or key 'prat' at this level. Did you mean 'part'?"),
    ('units = "in"', 'units = in"', "kit.toml, line 3: The value cannot be read."),
    ('name = "a"', 'name = "a', "kit.toml, line 2: The quote is not closed on this line. Add the closing quote."),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "says"), CASES)
def test_a_mistake_in_a_document_is_one_sentence_with_its_line_for_every_command(
    run: Run, tmp_path: Path, old: str, new: str, says: str
) -> None:
    assert old in KIT
    (tmp_path / "kit.toml").write_text(KIT.replace(old, new, 1))
    before = files_in(tmp_path)
    calls = [run(command, "kit.toml") for command in ("prove", "sheets", "pack", "mend", "post")]
    for call in calls:
        assert (call.code, call.out) == (2, "")
        assert any(line.startswith(says) for line in told(call.err)), call.err
        assert all(line.endswith((".", "?")) for line in told(call.err))
    assert len(set(calls)) == 1
    assert files_in(tmp_path) == before


def test_several_mistakes_are_told_together_in_the_order_of_their_lines(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(
        KIT.replace("6 x 4", "6 x").replace("80 lb cover", "heavy").replace('holds = "card"', 'holds = "crad"')
    )
    call = run("prove", "kit.toml")
    assert call.code == 2
    assert [line.partition(":")[0] for line in told(call.err)] == [
        'kit.toml, line 7, paper "kraft"',
        'kit.toml, line 12, part "card"',
        'kit.toml, line 18, part "tray"',
    ]


def test_parts_that_cannot_be_built_are_told_together_and_what_hangs_on_them_is_not(run: Run, tmp_path: Path) -> None:
    more = '[[part]]\nname = "{}"\nform = "{}"\n{}\npaper = "kraft"\n'
    text = (
        KIT
        + more.format("mat", "mat", 'on = "card"\nborder = "2"')
        + more.format("sleeve", "mat", 'covers = "scrap"\nsize = "3 x 3"')
        + more.format("scrap", "mat", 'size = "3 x 3"')
    )
    text += more.format("second mat", "mat", 'on = "mat"')
    (tmp_path / "kit.toml").write_text(text)
    call = run("prove", "kit.toml")
    assert call.code == 2
    assert told(call.err) == [
        "kit.toml, line 20, part \"mat\": A border of 2 in leaves nothing of a part on 'card'. Make the border smaller.",
        'kit.toml, line 26, part "sleeve": A mat cannot cover anything. Take covers out, or choose another form.',
    ]


def test_hundreds_of_mistakes_are_counted(run: Run, tmp_path: Path) -> None:
    bad = "".join(f'[[part]]\nname = "p{number}"\nform = "crad"\npaper = "kraft"\n' for number in range(300))
    (tmp_path / "kit.toml").write_text(KIT + bad)
    call = run("prove", "kit.toml")
    lines = told(call.err)
    assert len(lines) == MOST_TOLD + 1
    assert lines[-1].endswith("There are 200 more mistakes after this. Mend these first.")


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "kit.toml: This document is empty. Begin with [kit], a name and the units, or start one with"),
        (b" \n\n", "kit.toml: This document is empty."),
        (b"# only a remark\n", "kit.toml: There is no table [kit]."),
        (KIT.encode("utf-16"), "kit.toml: This file is saved as UTF-16, not as UTF-8."),
        ("[kit]\nname = 'Grüße'\n".encode("latin-1"), "kit.toml, line 2: This file is not saved as UTF-8."),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "kit.toml: This file is not a text."),
        (b"a = 1\n" * 9_000_000, "kit.toml: This file is larger than 1 MB, and a kit document is a short text."),
        (b"a = " + b"[" * 4_000, "kit.toml: Lists and tables are nested too deeply."),
    ],
    ids=["empty", "blank", "remark", "utf-16", "latin-1", "picture", "50 MB", "nested"],
)  # fmt: skip
@pytest.mark.parametrize("command", ["prove", "mend"])
def test_a_file_that_is_no_kit_document_is_told_as_such(
    run: Run, tmp_path: Path, command: str, content: bytes, says: str
) -> None:
    (tmp_path / "kit.toml").write_bytes(content)
    call = run(command, "kit.toml")
    assert (call.code, call.out) == (2, "")
    assert any(line.startswith(says) for line in told(call.err)), call.err
    assert (tmp_path / "kit.toml").read_bytes() == content


@pytest.mark.parametrize("command", ["prove", "sheets", "pack", "mend", "post"])
def test_a_folder_and_a_missing_file_are_told(run: Run, tmp_path: Path, command: str) -> None:
    (tmp_path / "folder").mkdir()
    folder, missing = run(command, "folder"), run(command, "box.toml")
    assert (folder.code, missing.code) == (2, 2)
    assert told(folder.err) == ["folder: This is a folder. Name the kit document in it (a .toml file)."]
    assert told(missing.err) == ['box.toml: There is no such file. Check the name, or start one with "kitwright new".']
    assert files_in(tmp_path) == {}


@pytest.mark.parametrize("many", ["0", "-1", "1000000000"])
@pytest.mark.parametrize("command", ["sheets", "pack"])
def test_an_absurd_number_of_kits_is_told(run: Run, tmp_path: Path, command: str, many: str) -> None:
    (tmp_path / "kit.toml").write_text(KIT)
    call = run(command, "kit.toml", "--kits", many)
    assert (call.code, call.out) == (2, "")
    assert told(call.err) == [f"A batch of {int(many):,} kits cannot be planned. Ask for 1 to 100,000 kits."]
    assert list(files_in(tmp_path)) == ["kit.toml"]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["prvoe", "kit.toml"], "There is no command 'prvoe'. Did you mean 'prove'?"),
        (["xyzzy"], "There is no command 'xyzzy'."),
        (["prove"], "Missing argument 'KIT'."),
        (["prove", "kit.toml", "--al"], "No such option '--al'."),
        (["sheets", "kit.toml", "--kits", "many"], "'many' is not a valid integer."),
        (["pack", "kit.toml", "--page", "legal"], "'legal' is not one of 'us-letter', 'a4'."),
        (["forms", "trey"], "There is no form 'trey'. Did you mean 'tray'?"),
        (["new", " "], "A kit needs a name."),
    ],
)
def test_a_word_that_is_not_understood_is_told(run: Run, words: list[str], says: str) -> None:
    call = run(*words)
    assert (call.code, call.out) == (2, "")
    assert says in call.err
    assert "Traceback" not in call.err


def test_a_part_larger_than_every_sheet_fails_and_nothing_is_written(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(KIT.replace("6 x 4", "13 x 4"))
    proof, pack = run("prove", "kit.toml"), run("pack", "kit.toml")
    assert (proof.code, pack.code) == (1, 1)
    assert "Its blank of 13 × 4 is 1 in too large for a sheet of kraft (12 × 12 usable)." in proof.out
    assert "Nothing was written." in pack.out
    assert list(files_in(tmp_path)) == ["kit.toml"]


def test_a_new_kit_never_takes_the_place_of_a_file(run: Run, tmp_path: Path) -> None:
    (tmp_path / "tea-box.toml").write_text("mine")
    call = run("new", "Tea box")
    assert call.code == 2
    assert told(call.err) == ["tea-box.toml: There is such a file already. Choose another name."]
    assert files_in(tmp_path) == {"tea-box.toml": b"mine"}


def test_a_folder_to_write_into_that_is_a_file_stays(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(KIT)
    (tmp_path / "out").write_text("mine")
    for call in (run("pack", "kit.toml", "--into", "out"), run("demo", "--into", "out")):
        assert call.code == 2
        assert len(told(call.err)) == 1
    assert (tmp_path / "out").read_text() == "mine"
    assert sorted(files_in(tmp_path)) == ["kit.toml", "out"]


def test_windows_line_ends_and_a_byte_order_mark_are_read(run: Run, tmp_path: Path) -> None:
    text = example("thank-you-cards")
    (tmp_path / "kit.toml").write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    assert run("prove", "kit.toml").code == 0


TOO_LONG = "n" * 256


@pytest.mark.parametrize(
    "words",
    [
        ("prove", TOO_LONG),
        ("prove", f"{TOO_LONG}/kit.toml"),
        ("prove", "/".join(["n"] * 3000)),
        ("prove", "kit.toml", "--report", f"{TOO_LONG}.pdf"),
        ("pack", "kit.toml", "--into", TOO_LONG),
        ("mend", TOO_LONG),
        ("mend", "é" * 128),
        ("edition", "kit.toml", "--units", "mm", "--into", TOO_LONG),
        ("post", "kit.toml", "--prices", TOO_LONG),
        ("sheets", "kit.toml", "--machine", "--into", TOO_LONG),
        ("new", "one", "--into", TOO_LONG),
        ("strip", "--into", TOO_LONG),
    ],
    ids=lambda words: " ".join(words)[:24],
)
def test_a_name_too_long_for_the_disk_is_told_first(run: Run, tmp_path: Path, words: tuple[str, ...]) -> None:
    (tmp_path / "kit.toml").write_text(KIT)
    call = run(*words)
    assert (call.code, call.out) == (2, "")
    (line,) = told(call.err)
    assert line.endswith("…: This name is too long for the disk. Use a shorter one.")
    assert list(files_in(tmp_path)) == ["kit.toml"]


def test_a_name_that_grows_too_long_beside_the_document_is_told(run: Run, tmp_path: Path) -> None:
    name = f"{'n' * 248}.toml"
    (tmp_path / name).write_text(KIT)
    call = run("edition", name, "--units", "mm")
    assert call.code == 2
    assert call.err == "A file that belongs here would have a name too long for the disk. Use a shorter one.\n"
    assert list(files_in(tmp_path)) == [name]
