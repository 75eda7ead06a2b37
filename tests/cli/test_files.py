"""What is written is written whole or not at all, and nothing that was there is lost."""

from __future__ import annotations

import json
import re
import stat
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from kitwright.cli.files import write_file
from kitwright.cli.folder import write_folder
from kitwright.errors import Mistake
from tests.cli.running import EXAMPLES, Run, example, files_in


def break_after(monkeypatch: pytest.MonkeyPatch, good: int, name: str) -> None:
    """Let the disk fail from the call after the first `good` ones on."""
    calls = []

    def fail(*_: object) -> None:
        calls.append(1)
        if len(calls) > good:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(name, fail)


def test_a_pack_whose_last_file_cannot_be_written_leaves_everything_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "pack").mkdir()
    (tmp_path / "pack" / "mine.txt").write_bytes(b"old")
    break_after(monkeypatch, 2, "os.fsync")
    for folder in ("pack", "new"):
        with pytest.raises(Mistake) as caught:
            write_folder(
                tmp_path / folder, {"a.txt": b"new", "deep/er/b.txt": b"new", "c.txt": b"new"}, listed_in="list.json"
            )
        assert str(caught.value).endswith("Nothing was changed.")
        if folder == "pack":
            assert "pack/c.txt' cannot be written (No space left on device)." in str(caught.value)
    assert files_in(tmp_path) == {"pack/mine.txt": b"old"}
    assert [path.name for path in tmp_path.iterdir()] == ["pack"]
    assert [path.name for path in (tmp_path / "pack").iterdir()] == ["mine.txt"]


def test_a_folder_in_the_place_of_a_file_stops_the_whole_pack(tmp_path: Path) -> None:
    (tmp_path / "b.txt").mkdir()
    with pytest.raises(Mistake, match="There is a folder of this name"):
        write_folder(tmp_path, {"a.txt": b"new", "b.txt": b"new"}, listed_in="list.json")
    assert files_in(tmp_path) == {}


def test_a_file_in_the_place_of_a_folder_stops_the_whole_pack(tmp_path: Path) -> None:
    (tmp_path / "b").write_bytes(b"old")
    with pytest.raises(Mistake, match="cannot be written"):
        write_folder(tmp_path, {"a.txt": b"new", "b/c.txt": b"new"}, listed_in="list.json")
    assert files_in(tmp_path) == {"b": b"old"}


def test_a_file_written_anew_keeps_its_rights_and_a_link_stays_a_link(tmp_path: Path) -> None:
    kept, link = tmp_path / "kept.txt", tmp_path / "link.txt"
    kept.write_bytes(b"old")
    kept.chmod(0o600)
    link.symlink_to(kept)
    write_file(link, b"new")
    assert link.is_symlink()
    assert (kept.read_bytes(), stat.S_IMODE(kept.stat().st_mode)) == (b"new", 0o600)
    write_file(tmp_path / "fresh.txt", b"new")
    assert stat.S_IMODE((tmp_path / "fresh.txt").stat().st_mode) == 0o644


def test_a_pack_that_cannot_be_written_is_a_mistake_and_leaves_no_folder(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "kit.toml").write_text(example("thank-you-cards"))
    break_after(monkeypatch, 5, "os.fsync")
    call = run("pack", "kit.toml", "--into", "out")
    assert call.code == 2
    assert "cannot be written (No space left on device)" in call.err
    assert list(files_in(tmp_path)) == ["kit.toml"]
    assert not (tmp_path / "out").exists()


def test_mending_twice_keeps_both_documents_of_before(run: Run, tmp_path: Path) -> None:
    kit = tmp_path / "cards.toml"
    # without its grain the fold of the card base runs across the fibres
    good = re.sub('grain = "width".*\n', "", example("thank-you-cards"))
    spoiled = [
        good.replace('covers = "tray"', 'covers = "tray"\nsize = "6 x 4 5/8 x 3/4"').encode(),
        b"\xef\xbb\xbf" + good.replace('on = "first mat"', 'on = "first mat"\nsize = "5 1/2 x 4"').encode(),
    ]
    for content in spoiled:
        kit.write_bytes(content)
        assert run("mend", "cards.toml").code == 0
    there = files_in(tmp_path)
    assert [there["cards.before.toml"], there["cards.before-2.toml"]] == spoiled
    assert run("prove", "cards.toml").code == 0
    assert run("mend", "cards.toml").out.endswith("Nothing fails. Use --warnings to change what is warned of, too.\n")
    assert (
        run("mend", "cards.toml", "--warnings").code == 0
    )  # the card base is turned, so that its fold runs along the grain
    assert b'grain = "width"' in files_in(tmp_path)["cards.toml"]
    assert run("mend", "cards.toml", "--warnings").out.endswith("There is nothing to mend.\n")


def test_mend_only_shows_what_it_would_change_when_asked(run: Run, tmp_path: Path) -> None:
    (tmp_path / "cards.toml").write_text(
        example("thank-you-cards").replace('covers = "tray"', 'covers = "tray"\nsize = "6 x 4 5/8 x 3/4"')
    )
    before = files_in(tmp_path)
    call = run("mend", "cards.toml", "--show")
    assert (call.code, call.out) == (1, "- Make lid 6 3/16 x 4 3/4 x 3/4, score to score.\n")
    assert files_in(tmp_path) == before


@pytest.mark.parametrize("name", EXAMPLES)
@pytest.mark.parametrize("command", [["prove"], ["sheets", "--kits", "2"], ["post"], ["pack", "--into", "out"]])
def test_json_is_one_valid_document_and_nothing_else(run: Run, tmp_path: Path, name: str, command: list[str]) -> None:
    (tmp_path / "kit.toml").write_text(example(name), encoding="utf-8")
    call = run(command[0], "kit.toml", *command[1:], "--json")
    assert (call.code, call.err) == (0, "")
    data = json.loads(call.out, parse_constant=lambda word: pytest.fail(f"{word} is no JSON"))
    assert data


def test_json_of_a_proof_has_every_number_of_every_finding_and_its_fix(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(
        example("thank-you-cards").replace('covers = "tray"', 'covers = "tray"\nsize = "6 x 4 3/4 x 3/4"')
    )
    call = run("prove", "kit.toml", "--json")
    data = json.loads(call.out)
    assert (call.code, data["proved"], data["verdict"]) == (1, False, "fail")
    (lid,) = (each for each in data["findings"] if each["severity"] == "fail")
    assert (lid["code"], lid["about"], lid["unit"], lid["required"]) == ("lid-fit-width", "lid over tray", "mm", 0.0)
    assert lid["margin"] == lid["measured"] < 0
    assert lid["fix"] == {
        "sentence": "Make lid 6 3/16 x 4 3/4 x 3/4, score to score.",
        "changes": [{"table": "part", "name": "lid", "key": "size", "value": "6 3/16 x 4 3/4 x 3/4"}],
    }


def test_a_proof_says_where_no_fix_was_found_and_what_can_be_done(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(example("recipe-box").replace('sheet = "12 x 18"', 'sheet = "9 x 12"'))
    data = json.loads(run("prove", "kit.toml", "--json").out)
    (band,) = (each for each in data["findings"] if each["severity"] == "fail")
    assert band["fix"] is None
    assert band["advice"].startswith("No sheet of this kit is large enough")
    assert all(each["advice"] is None for each in data["findings"] if each is not band)
    assert f"  no fix  {band['advice']}\n" in run("prove", "kit.toml").out


def test_parts_with_like_names_each_get_a_pattern(run: Run, tmp_path: Path) -> None:
    parts = "".join(
        f'[[part]]\nname = "{name}"\nform = "flat card"\nsize = "6 x {size}"\npaper = "kraft"\n'
        for name, size in (("Karte 1", 4), ("karte-1", 3), ("Größe", 2), ("открытка", 5), ("!", 1), ("?", "1 1/2"))
    )
    (tmp_path / "kit.toml").write_text(
        '[kit]\nname = "a"\nunits = "in"\n[paper.kraft]\nsheet = "12 x 12"\nweight = "80 lb cover"\n' + parts,
        encoding="utf-8",
    )
    assert run("pack", "kit.toml", "--into", "out").code == 0
    patterns = {name: data for name, data in files_in(tmp_path / "out").items() if name.startswith("patterns/")}
    titles = {
        name.removeprefix("patterns/"): ET.fromstring(data).findtext("{http://www.w3.org/2000/svg}title")
        for name, data in patterns.items()
        if name.endswith(".svg")
    }
    assert {name for name in patterns if name.endswith(".dxf")} == {
        f"patterns/{name.removesuffix('.svg')}.dxf" for name in titles
    }
    assert titles == {
        "karte-1.svg": "Karte 1",
        "karte-1-2.svg": "karte-1",
        "grosse.svg": "Größe",
        "открытка.svg": "открытка",
        "part.svg": "!",
        "part-2.svg": "?",
    }


def test_json_of_a_proof_has_the_makes_of_a_fit_with_interval_limit_source_and_unit(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(example("thank-you-cards"), encoding="utf-8")
    data = json.loads(run("prove", "kit.toml", "--json").out)
    (lid,) = (each for each in data["findings"] if each["code"] == "lid-fit-width")
    assert (lid["parts"], lid["unit"], lid["required"]) == (["lid", "tray"], "mm", 0.2)
    assert lid["because"] == "common practice, no source"
    made = lid["makes"]
    assert made["nominal_mm"] == pytest.approx(lid["measured"], abs=1e-9)
    assert made["least_mm"] < made["nominal_mm"] < made["greatest_mm"]
    assert made["share_at_least"] < made["share"] < made["share_at_most"]
    assert (made["count"], made["confidence"]) == (100_000, 0.95)
    assert made["share"] + made["too_tight"] + made["too_loose"] == pytest.approx(1.0, abs=1e-9)
    (contents,) = (each for each in data["findings"] if each["code"] == "contents-fit")
    assert [each["name"] for each in contents["placed"]] == [
        "card base",
        "first mat",
        "second mat",
        "envelope",
        "glue dots",
    ]
    assert all(len(each["corner_mm"]) == len(each["size_mm"]) == 3 for each in contents["placed"])


@pytest.mark.parametrize(("name", "start"), [("report.pdf", b"%PDF"), ("report.svg", b"<svg")])
def test_a_report_of_a_proof_is_written_where_it_was_asked_for(
    run: Run, tmp_path: Path, name: str, start: bytes
) -> None:
    (tmp_path / "kit.toml").write_text(example("thank-you-cards"), encoding="utf-8")
    call = run("prove", "kit.toml", "--report", name)
    written = [each for each in files_in(tmp_path) if each != "kit.toml"]
    assert (call.code, len(written) >= 1) == (0, True)
    for each in written:
        assert files_in(tmp_path)[each].startswith(start)
        assert f"{each} is there." in call.out


def test_a_report_that_is_neither_pdf_nor_svg_is_refused_and_nothing_is_written(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(example("thank-you-cards"), encoding="utf-8")
    call = run("prove", "kit.toml", "--report", "report.docx")
    assert call.code == 2
    assert "ends in .pdf or .svg" in call.err
    assert list(files_in(tmp_path)) == ["kit.toml"]


def test_boxes_tells_the_least_box_of_every_form_and_writes_nothing(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(example("thank-you-cards"), encoding="utf-8")
    call = run("boxes", "kit.toml", "--json")
    data = json.loads(call.out)
    assert (call.code, data["box"]) == (0, "tray")
    first = data["forms"][0]
    assert (first["form"], first["proved"], len(first["inside_mm"])) == ("tray", True, 3)
    assert first["paper_mm2"] > 0 < first["sheets_of_the_kit"]
    assert "The tray takes the least paper with its lid." in run("boxes", "kit.toml").out
    assert run("boxes", "kit.toml", "--part", "lid").code == 2
    assert list(files_in(tmp_path)) == ["kit.toml"]


PRICES = """\
date = "1 Jan 2020"
currency = "USD"
[[price]]
service = "USPS"
class = "letter"
over = "0"
up_to = "3.5 oz"
price = "1.25"
"""
"""Made up for this test."""


def test_the_posts_prices_are_told_from_the_makers_own_table_only(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(example("thank-you-cards"), encoding="utf-8")
    (tmp_path / "prices.toml").write_text(PRICES, encoding="utf-8")
    (tmp_path / "gap.toml").write_text(PRICES + PRICES[PRICES.index("[[") :].replace('over = "0"', 'over = "1 oz"'))
    assert "USD" not in run("post", "kit.toml").out
    call = run("post", "kit.toml", "--prices", "prices.toml", "--json")
    assert [row["price"] for row in json.loads(call.out) if "price" in row] == ["1.25 USD"]
    assert "1.25 USD each, by your prices of 1 Jan 2020" in run("post", "kit.toml", "--prices", "prices.toml").out
    refused = run("post", "kit.toml", "--prices", "gap.toml")
    assert (refused.code, "gap.toml, price 2" in refused.err) == (2, True)


def test_mats_of_a_cutting_machine_are_told_and_written_where_asked(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(
        '[kit]\nname = "Tags"\nunits = "mm"\n[paper.card]\nsheet = "A4"\nweight = "220 gsm"\n'
        '[[part]]\nname = "tag"\nform = "tag"\nsize = "50 x 80"\npaper = "card"\n'
    )
    call = run("sheets", "kit.toml", "--machine", "--into", "mats")
    assert call.code == 0
    assert "card: By machine: 1 mat (no layout can do with fewer). With the trimmer: 1 sheet." in call.out
    assert list(files_in(tmp_path / "mats")) == ["card-mat-1.dxf", "card-mat-1.svg", "mats.json"]
    data = json.loads(run("sheets", "kit.toml", "--machine", "--json").out)
    assert data["mats"][0]["layouts"][0]["pieces"] == [{"piece": "tag", "turned_left": 0, "zero_at_mm": [6.0, 6.0]}]
    assert run("sheets", "kit.toml", "--into", "mats").code == 2


def test_mats_are_the_same_while_something_else_keeps_the_computer_busy(run: Run, tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text(
        '[kit]\nname = "Tags"\nunits = "mm"\n[kit.machine]\nmat = "150 x 120"\n[paper.card]\nsheet = "A4"\nweight = "220 gsm"\n'
        '[[part]]\nname = "tag"\nform = "tag"\nsize = "50 x 80"\npaper = "card"\nquantity = 3\n'
        '[[part]]\nname = "pocket"\nform = "pocket"\nsize = "45 x 40"\npaper = "card"\nquantity = 2\n'
    )
    alone = run("sheets", "kit.toml", "--machine", "--json").out
    busy = subprocess.Popen([sys.executable, "-c", "while True: pass"])
    try:
        beside = run("sheets", "kit.toml", "--machine", "--json").out
    finally:
        busy.kill()
        busy.wait()
    assert json.loads(alone)["mats"][0]["mats"] > 1
    assert alone == beside
