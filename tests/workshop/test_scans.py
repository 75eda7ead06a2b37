"""Pictures of papers: bounded, read with distrust, made anew, kept under words of our own, taken out and put back."""

import io
import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageOps

from kitwright.errors import Mistake
from kitwright.workshop import LARGEST_PICTURE, Scans
from kitwright.workshop import scans as module
from kitwright.workshop.scans import LONGEST_SIDE, MOST_PIXELS


@pytest.fixture
def scans(tmp_path: Path) -> Scans:
    return Scans(tmp_path)


def picture(width: int = 40, height: int = 20, kind: str = "PNG", **more: object) -> bytes:
    made = io.BytesIO()
    Image.new("RGB", (width, height), "red").save(made, kind, **more)
    return made.getvalue()


def png_header_of(width: int, height: int) -> bytes:
    """A PNG of 60 bytes that says it is as large as this."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    pieces = [(b"IHDR", head), (b"IDAT", zlib.compress(b"\0" * 10)), (b"IEND", b"")]
    chunks = (struct.pack(">I", len(d)) + n + d + struct.pack(">I", zlib.crc32(n + d)) for n, d in pieces)
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks)


def test_a_picture_is_kept_as_a_new_jpeg_without_what_was_hidden_in_it(scans: Scans) -> None:
    exif = Image.Exif()
    exif[0x010E] = "where I live"  # ImageDescription (EXIF 2.3)
    word = scans.add(picture(kind="JPEG", exif=exif), "gingham")
    assert word == "gingham"
    assert b"where I live" not in scans.read(word)
    with Image.open(io.BytesIO(scans.read(word))) as kept:
        assert (kept.format, kept.size, len(kept.getexif())) == ("JPEG", (40, 20), 0)


def test_a_picture_is_turned_as_its_camera_says(scans: Scans) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6  # Orientation 6: the camera was turned a quarter to the left (EXIF 2.3, 4.6.4)
    assert scans.size(scans.add(picture(kind="JPEG", exif=exif), "p")) == (20, 40)


def test_a_large_picture_is_kept_no_larger_than_is_needed(scans: Scans) -> None:
    assert scans.size(scans.add(picture(2 * LONGEST_SIDE, LONGEST_SIDE), "p")) == (LONGEST_SIDE, LONGEST_SIDE // 2)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_the_three_kinds_that_scanners_and_telephones_make_are_read(scans: Scans, kind: str) -> None:
    assert scans.size(scans.add(picture(kind=kind), "p")) == (40, 20)


def test_what_is_clear_becomes_white(scans: Scans) -> None:
    made = io.BytesIO()
    Image.new("RGBA", (8, 8), (255, 0, 0, 0)).save(made, "PNG")
    with Image.open(io.BytesIO(scans.read(scans.add(made.getvalue(), "p")))) as kept:
        assert min(kept.getpixel((4, 4))) >= 250  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"no picture",
        picture(kind="GIF"),
        picture(kind="BMP"),
        picture(kind="TIFF"),
        picture()[:50],
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"%!PS-Adobe-3.0 EPSF-3.0\n",
    ],
)
def test_what_is_no_picture_of_these_kinds_is_refused_in_words(scans: Scans, data: bytes) -> None:
    with pytest.raises(Mistake, match="no picture that can be read"):
        scans.add(data, "p")
    assert scans.words() == ()


@pytest.mark.parametrize(("width", "height"), [(MOST_PIXELS // 1000 + 1, 1000), (20_000, 5_000), (60_000, 60_000)])
def test_a_small_file_that_would_unpack_to_a_huge_picture_is_refused_unpacked(
    scans: Scans, width: int, height: int
) -> None:
    with pytest.raises(Mistake, match="larger than"):
        scans.add(png_header_of(width, height), "p")


def test_a_file_with_too_many_bytes_is_refused_unread(scans: Scans) -> None:
    with pytest.raises(Mistake, match="larger than"):
        scans.add(b"x" * (LARGEST_PICTURE + 1), "p")


def test_two_pictures_of_one_wish_get_two_words_even_if_the_first_was_taken_out(scans: Scans) -> None:
    assert [scans.add(picture(), "../Ging ham!") for _ in range(2)] == ["ging-ham", "ging-ham-2"]
    scans.remove("ging-ham")
    assert scans.add(picture(), "ging ham") == "ging-ham-3"


def test_a_picture_taken_out_can_be_put_back_or_thrown_away_for_good(scans: Scans) -> None:
    word = scans.add(picture(), "p")
    data = scans.read(word)
    scans.remove(word)
    assert (scans.words(), scans.removed(), scans.has(word)) == ((), (word,), False)
    scans.put_back(word)
    assert scans.read(word) == data
    scans.remove(word)
    scans.throw_away(word)
    assert (scans.words(), scans.removed()) == ((), ())
    for verb in (scans.remove, scans.put_back, scans.throw_away, scans.version, scans.size):
        with pytest.raises(KeyError):
            verb(word)


@pytest.mark.parametrize("word", ["../workshop", "..", "", "a/b", "A", "a" * 61, "a\x00", "ä", "/etc/passwd"])
def test_no_other_word_ever_becomes_a_path(scans: Scans, word: str) -> None:
    assert not scans.has(word)
    for verb in (scans.read, scans.remove, scans.put_back, scans.throw_away, scans.version, scans.size):
        with pytest.raises(KeyError):
            verb(word)


def farthest(one: Image.Image, other: Image.Image) -> int:
    """By how much the colours of two pictures differ at most, of 255."""
    return max(ImageChops.difference(one, other).convert("L").tobytes())


@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_way_a_camera_is_held_comes_out_as_pillow_turns_it(scans: Scans, orientation: int) -> None:
    picture = Image.new("RGB", (40, 24), "white")
    picture.paste("black", (0, 0, 16, 8))
    exif = Image.Exif()
    exif[0x0112] = orientation
    out = io.BytesIO()
    picture.save(out, "PNG", exif=exif)
    made = Image.open(io.BytesIO(scans.read(scans.add(out.getvalue(), "x"))))
    with Image.open(io.BytesIO(out.getvalue())) as brought:
        turned = ImageOps.exif_transpose(brought)
    assert made.size == turned.size
    assert farthest(made, turned) < 40  # what JPEG loses


@pytest.mark.parametrize("mode", ["P", "RGBA", "L"])
def test_a_large_picture_is_worked_on_in_strips_and_looks_as_if_it_were_not(
    scans: Scans, monkeypatch: pytest.MonkeyPatch, mode: str
) -> None:
    monkeypatch.setattr(module, "LONGEST_SIDE", 100)
    monkeypatch.setattr(module, "STRIP", 8)
    heights: list[int] = []
    on_white = module.on_white

    def noted(picture: Image.Image) -> Image.Image:
        heights.append(picture.height)
        return on_white(picture)

    monkeypatch.setattr(module, "on_white", noted)
    picture = Image.linear_gradient("L").resize((410, 333)).convert(mode)
    out = io.BytesIO()
    picture.save(out, "PNG")
    made = Image.open(io.BytesIO(scans.read(scans.add(out.getvalue(), "x"))))
    assert (max(heights), sum(heights)) == (8 * 4, 333)
    assert max(made.size) == 100
    whole = on_white(picture).resize(made.size, Image.Resampling.BOX)
    assert farthest(made, whole) < 24


@pytest.mark.parametrize(("kind", "more"), [("WEBP", {}), ("JPEG", {"progressive": True})])
def test_a_kind_that_takes_much_memory_may_have_fewer_dots(
    scans: Scans, monkeypatch: pytest.MonkeyPatch, kind: str, more: dict[str, bool]
) -> None:
    monkeypatch.setattr(module, "MOST_AT_ONCE", 2_000_000)
    out = io.BytesIO()
    Image.new("RGB", (2000, 1001)).save(out, kind, **more)
    with pytest.raises(Mistake, match="or 2 million dots"):
        scans.add(out.getvalue(), "x")
    plain = io.BytesIO()
    Image.new("RGB", (2000, 1001)).save(plain, "JPEG")
    assert scans.add(plain.getvalue(), "x")


def test_a_picture_that_is_unpacked_whole_may_have_fewer_dots_than_one_that_is_read_smaller(scans: Scans) -> None:
    with pytest.raises(Mistake, match="or 30 million dots"):
        scans.add(png_header_of(31_000, 1000), "p")
    plain = io.BytesIO()
    Image.new("L", (31_000, 1000)).save(plain, "JPEG")
    assert scans.add(plain.getvalue(), "p") == "p"
