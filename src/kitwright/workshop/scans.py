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
from kitwright.workshop.words import WORD, path_word

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["LARGEST_PICTURE", "MOST_PIXELS", "Scans"]

LARGEST_PICTURE: Final = 32_000_000
"""Bytes of a file that is brought: a sheet of 12 in at 600 dots an inch as PNG has about as many."""

MOST_PIXELS: Final = 60_000_000
"""Dots of a picture that is brought: a sheet of 12 in at 600 dots an inch has 52 million."""

LONGEST_SIDE: Final = 2400
"""Dots of a kept picture: 200 to an inch on a sheet of 12 in, more than any screen shows."""

KINDS: Final = ("JPEG", "PNG", "WEBP")
QUALITY: Final = 85
AT_ONCE: Final = 2
"""Pictures that are unpacked at the same time; each may take some hundred megabytes meanwhile."""

UNREADABLE: Final = (OSError, SyntaxError, ValueError, IndexError, EOFError, struct.error, zlib.error, MemoryError)
"""What a broken or hostile picture makes its reader say."""


class Scans:
    """The pictures of a workshop."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "papers"
        self.taken_off = self.folder / "removed"
        self.turnstile = threading.Semaphore(AT_ONCE)

    def path(self, word: str) -> Path:
        """Where a picture is, or would be. Raises `KeyError` for what is no word."""
        if not WORD.fullmatch(word):
            raise KeyError(word)
        return self.folder / f"{word}.jpg"

    def add(self, data: bytes, wish: str) -> str:
        """Keep a picture, turned as its camera says; gives its word, made from `wish` so that it is not taken. Raises `Mistake`."""
        with self.turnstile:
            made = made_anew(data)
        self.taken_off.mkdir(parents=True, exist_ok=True)
        base, number = path_word(wish) or "paper", 1
        while True:
            word = base if number == 1 else f"{base}-{number}"
            if not (self.path(word).exists() or (self.taken_off / f"{word}.jpg").exists()):
                write_whole(self.path(word), made)
                return word
            number += 1

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
        """Delete a picture that was taken off, for good. Raises `KeyError`."""
        try:
            (self.taken_off / self.path(word).name).unlink()
        except OSError:
            raise KeyError(word) from None


def words_in(folder: Path) -> tuple[str, ...]:
    """The words of the pictures in a folder."""
    if not folder.is_dir():
        return ()
    found = (path.stem for path in folder.glob("*.jpg") if path.is_file() and not path.is_symlink())
    return tuple(sorted(word for word in found if WORD.fullmatch(word)))


def move(old: Path, new: Path) -> None:
    """Move a file to where none is. Raises `KeyError` if there is none, or one in its new place."""
    if new.exists() or not old.is_file():
        raise KeyError(old.stem)
    new.parent.mkdir(parents=True, exist_ok=True)
    old.replace(new)


def made_anew(data: bytes) -> bytes:
    """The picture as a plain JPEG, upright, not larger than is needed. Raises `Mistake` for whatever is no picture or too large."""
    from PIL import Image as images  # noqa: N813, PLC0415  (heavy)
    from PIL import ImageOps  # noqa: PLC0415

    if len(data) > LARGEST_PICTURE:
        raise too_large()
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", images.DecompressionBombWarning)
            with images.open(io.BytesIO(data), formats=KINDS) as picture:
                if picture.width * picture.height > MOST_PIXELS:
                    raise too_large()
                picture.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
                upright = on_white(ImageOps.exif_transpose(picture))
    except Mistake:
        raise  # which is a ValueError too
    except (images.DecompressionBombError, images.DecompressionBombWarning):
        raise too_large() from None
    except UNREADABLE:
        raise Mistake(
            "This file is no picture that can be read here.", do="Save the scan as JPEG, PNG or WebP."
        ) from None
    upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE), images.Resampling.LANCZOS, reducing_gap=3.0)
    made = io.BytesIO()
    upright.save(made, "JPEG", quality=QUALITY)
    return made.getvalue()


def on_white(picture: Image) -> Image:
    """The picture without transparency, in plain colours."""
    from PIL import Image as images  # noqa: N813, PLC0415  (heavy)

    if picture.mode in ("RGB", "L", "CMYK"):
        return picture.convert("RGB")
    clear = picture.convert("RGBA")
    white = images.new("RGBA", clear.size, "white")
    return images.alpha_composite(white, clear).convert("RGB")


def too_large() -> Mistake:
    """What is said of a picture that is too large."""
    return Mistake(
        f"This picture is larger than {LARGEST_PICTURE // 1_000_000} megabytes or {MOST_PIXELS // 1_000_000} million dots.",
        do="Scan with 300 dots an inch or fewer.",
    )
