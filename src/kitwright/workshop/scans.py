"""Pictures of papers in the workshop folder: brought by the maker, made anew by us, kept as `papers/WORD.jpg`.

What comes in is never trusted: its size in bytes and pixels is bounded before it is unpacked, only three kinds of picture are read,
and what is kept is a new picture without anything that was hidden in the old one. Words of pictures are checked before they touch a
path; names that people or files bring never do.
"""

from __future__ import annotations

import io
import struct
import threading
import warnings
import zlib
from pathlib import Path
from typing import TYPE_CHECKING, Final

from kitwright.errors import Mistake
from kitwright.workshop.files import write_whole
from kitwright.workshop.trouble import disk_trouble
from kitwright.workshop.words import WORD, path_word

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["LARGEST_PICTURE", "MOST_PIXELS", "Scans"]

LARGEST_PICTURE: Final = 32_000_000
"""Bytes of a file that is brought: a sheet of 12 in at 600 dots an inch as PNG has about as many."""

MOST_PIXELS: Final = 52_000_000
"""Dots of a plain JPEG that is brought: a sheet of 12 in at 600 dots an inch has a little less. It is read already made smaller."""

MOST_UNPACKED: Final = 30_000_000
"""Dots of a PNG, which is unpacked whole, 4 bytes each: a sheet of 12 in at 450 dots an inch."""

MOST_AT_ONCE: Final = 8_000_000
"""Dots of a picture whose reader holds it several times over: a WebP, a progressive JPEG. Measured: up to 20 bytes each."""

LONGEST_SIDE: Final = 2400
"""Dots of a kept picture: 200 to an inch on a sheet of 12 in, more than any screen shows."""

KINDS: Final = ("JPEG", "PNG", "WEBP")
QUALITY: Final = 85
STRIP: Final = 64
"""Rows of an unpacked picture that are worked on at once."""

UPRIGHT: Final = {2: 0, 3: 3, 4: 1, 5: 5, 6: 4, 7: 6, 8: 2}
"""What makes a picture upright (Pillow's `Transpose`), by the orientation that its camera wrote into it (Exif 2.3, tag 0x0112)."""

UNREADABLE: Final = (OSError, SyntaxError, ValueError, IndexError, EOFError, struct.error, zlib.error, MemoryError)
"""What a broken or hostile picture makes its reader say."""


class Scans:
    """The pictures of a workshop."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "papers"
        self.taken_off = self.folder / "removed"
        self.turnstile = threading.Lock()

    def path(self, word: str) -> Path:
        """Where a picture is, or would be. Raises `KeyError` for what is no word."""
        if not WORD.fullmatch(word):
            raise KeyError(word)
        return self.folder / f"{word}.jpg"

    def add(self, data: bytes, wish: str) -> str:
        """Keep a picture, turned as its camera says; gives its word, made from `wish` so that it is not taken.

        Raises `Mistake` and `Trouble`.
        """
        with self.turnstile:  # one takes some 200 megabytes; and no two are to take the same word
            made = made_anew(data)
            base, number = path_word(wish) or "paper", 1
            word = base
            while self.path(word).exists() or (self.taken_off / f"{word}.jpg").exists():
                number += 1
                word = f"{base}-{number}"
            try:
                self.taken_off.mkdir(parents=True, exist_ok=True)
                write_whole(self.path(word), made)
            except OSError as error:
                raise disk_trouble(error) from None
            return word

    def read(self, word: str) -> bytes:
        """A picture as JPEG. Raises `KeyError`."""
        path = self.path(word)
        try:
            if path.is_symlink():
                raise KeyError(word)
            return path.read_bytes()
        except OSError:
            raise KeyError(word) from None

    def has(self, word: str) -> bool:
        """Whether there is such a picture."""
        return bool(WORD.fullmatch(word)) and self.path(word).is_file()

    def version(self, word: str) -> int:
        """A number that changes with the picture. Raises `KeyError`."""
        try:
            return self.path(word).stat().st_mtime_ns
        except OSError:
            raise KeyError(word) from None

    def size(self, word: str) -> tuple[int, int]:
        """Width and height of a picture in dots. Raises `KeyError`, also for a file that is no picture any more."""
        from PIL import Image as images  # noqa: N813, PLC0415  (heavy)

        try:
            with images.open(self.path(word), formats=("JPEG",)) as picture:
                return picture.size
        except UNREADABLE:
            raise KeyError(word) from None

    def words(self) -> tuple[str, ...]:
        """All pictures that can be used."""
        return words_in(self.folder)

    def removed(self) -> tuple[str, ...]:
        """The pictures that were taken off and can be put back."""
        return words_in(self.taken_off)

    def remove(self, word: str) -> None:
        """Take a picture off; it can be put back. Raises `KeyError`."""
        move(self.path(word), self.taken_off / f"{word}.jpg")

    def put_back(self, word: str) -> None:
        """Put a picture back that was taken off. Raises `KeyError`."""
        move(self.taken_off / self.path(word).name, self.path(word))

    def throw_away(self, word: str) -> None:
        """Delete a picture that was taken off, for good. Raises `KeyError` and `Trouble`."""
        try:
            (self.taken_off / self.path(word).name).unlink()
        except FileNotFoundError:
            raise KeyError(word) from None
        except OSError as error:
            raise disk_trouble(error) from None


def words_in(folder: Path) -> tuple[str, ...]:
    """The words of the pictures in a folder."""
    if not folder.is_dir():
        return ()
    found = (path.stem for path in folder.glob("*.jpg") if path.is_file() and not path.is_symlink())
    return tuple(sorted(word for word in found if WORD.fullmatch(word)))


def move(old: Path, new: Path) -> None:
    """Move a file to where none is. Raises `KeyError` if there is none, or one in its new place, and `Trouble`."""
    if new.exists() or not old.is_file():
        raise KeyError(old.stem)
    try:
        new.parent.mkdir(parents=True, exist_ok=True)
        old.replace(new)
    except OSError as error:
        raise disk_trouble(error) from None


def made_anew(data: bytes) -> bytes:
    """The picture as a plain JPEG, upright, not larger than is needed. Raises `Mistake` for whatever is no picture or too large."""
    from PIL import Image as images  # noqa: N813, PLC0415  (heavy)

    if len(data) > LARGEST_PICTURE:
        raise too_large()
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", images.DecompressionBombWarning)
            with images.open(io.BytesIO(data), formats=KINDS) as picture:
                most = most_dots(picture)
                if picture.width * picture.height > most:
                    raise too_large(most)
                picture.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
                turn = UPRIGHT.get(picture.getexif().get(0x0112, 1))
                less = made_less(picture)
    except Mistake:
        raise  # which is a ValueError too
    except (images.DecompressionBombError, images.DecompressionBombWarning):
        raise too_large() from None
    except UNREADABLE:
        raise Mistake(
            "This file is no picture that can be read here.", do="Save the scan as JPEG, PNG or WebP."
        ) from None
    upright = less if turn is None else less.transpose(images.Transpose(turn))
    upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE), images.Resampling.LANCZOS)
    made = io.BytesIO()
    upright.save(made, "JPEG", quality=QUALITY)
    return made.getvalue()


def made_less(picture: Image) -> Image:
    """The picture on white, in whole dots as much smaller as leaves it at least as large as it is kept.

    Only a strip of it is held in other colours at a time, so that it takes hardly more memory than the picture unpacked.
    """
    from PIL import Image as images  # noqa: N813, PLC0415  (heavy)

    times = max(1, max(picture.size) // LONGEST_SIDE)
    width, height = (-(-side // times) for side in picture.size)
    less, rows = images.new("RGB", (width, height)), STRIP * times
    for top in range(0, picture.height, rows):
        strip = on_white(picture.crop((0, top, picture.width, min(top + rows, picture.height))))
        less.paste(strip.reduce(times), (0, top // times))
    return less


def on_white(picture: Image) -> Image:
    """The picture without transparency, in plain colours."""
    from PIL import Image as images  # noqa: N813, PLC0415  (heavy)

    if picture.mode in ("RGB", "L", "CMYK"):
        return picture.convert("RGB")
    clear = picture.convert("RGBA")
    white = images.new("RGBA", clear.size, "white")
    return images.alpha_composite(white, clear).convert("RGB")


def most_dots(picture: Image) -> int:
    """How many dots a picture may have, so that reading it takes no more than some 200 megabytes."""
    if picture.format == "WEBP" or "progressive" in picture.info:
        return MOST_AT_ONCE
    return MOST_PIXELS if picture.format == "JPEG" else MOST_UNPACKED


def too_large(most: int = MOST_PIXELS) -> Mistake:
    """What is said of a picture that is too large."""
    return Mistake(
        f"This picture is larger than {LARGEST_PICTURE // 1_000_000} megabytes or {most // 1_000_000} million dots.",
        do="Scan with 300 dots an inch or fewer, and save it as JPEG or PNG.",
    )
