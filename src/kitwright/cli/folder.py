"""A folder of results, written whole or not at all; of what is there already, only files that the program wrote itself are replaced.

A new folder is filled beside its place and then moved there. In a folder that is there, a hidden one is filled, named anew once it is
whole, and only then emptied into its places, the list of the files last. Whoever stops the program then stops nothing half done: what was
whole is carried through, after a kill by the next run; what was not is removed.
"""

from __future__ import annotations

import errno
import os
import shutil
import stat
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path, PurePosixPath
from typing import Final

from kitwright.cli.files import cannot_be_written, make_folder
from kitwright.cli.own_files import digests_in, left_behind, not_ours
from kitwright.errors import Mistake
from kitwright.measure import counted
from kitwright.workshop.files import LEFTOVER, is_alone, sync_folder

__all__ = ["write_folder"]

WHOLE: Final = ".whole"


def write_folder(folder: Path, files: Mapping[str, bytes], *, listed_in: str) -> None:
    """Write all files (names may hold a folder) into a folder, or none of them, and remove what a former run wrote there beside them.

    The list of the files, `listed_in`, is one of them. Raises `Mistake`, also for files in the way that are not the program's own.
    """
    if folder.exists() and not folder.is_dir():
        raise Mistake(f"{str(folder)!r} is a file.", do="Choose a folder with --into.")
    if not folder.exists() and write_new(folder, files):
        return
    with kept_alone(folder):
        clear(folder, listed_in)
        check_places(folder, files, listed_in)
        ready = fill(folder, folder, files)
        try:
            carried = ready.rename(ready.with_suffix(WHOLE))
        except BaseException as error:
            shutil.rmtree(ready, ignore_errors=True)
            if isinstance(error, OSError):
                raise cannot_be_written(folder, error, "Nothing was changed.") from None
            raise
        carry_through(folder, carried, listed_in)


def write_new(folder: Path, files: Mapping[str, bytes]) -> bool:
    """Make a folder that is not there; False if it has come to be there meanwhile. Raises `Mistake`."""
    made: list[Path] = []
    try:
        make_folder(folder.parent, made)
        clear_beside(folder)
        ready = fill(folder.parent, folder, files)
        try:
            ready.rename(folder)
            sync_folder(folder.parent)
        except BaseException:
            shutil.rmtree(ready, ignore_errors=True)
            raise
    except BaseException as error:
        for each in reversed(made):
            with suppress(OSError):  # not empty, so it is not ours alone
                each.rmdir()
        if isinstance(error, OSError):
            if folder.is_dir():
                return False
            raise cannot_be_written(folder, error, "Nothing was changed.") from None
        raise
    return True


def fill(beside: Path, folder: Path, files: Mapping[str, bytes]) -> Path:
    """A hidden folder with all files for a folder, on the disk, with the rights that those there have. Raises `Mistake`."""
    name = ""
    try:
        ready = Path(tempfile.mkdtemp(dir=beside, prefix=f".{folder.name[:100]}.", suffix=".part"))
    except OSError as error:
        raise cannot_be_written(folder, error, "Nothing was changed.") from None
    try:
        with held(ready):
            ready.chmod(0o755)
            for name, content in files.items():
                path, there = folder / name, ready / name
                there.parent.mkdir(parents=True, exist_ok=True)
                with there.open("wb") as file:
                    file.write(content)
                    file.flush()
                    os.fsync(file.fileno())
                if path.exists():
                    there.chmod(stat.S_IMODE(path.stat().st_mode))
    except BaseException as error:
        shutil.rmtree(ready, ignore_errors=True)
        if isinstance(error, OSError):
            raise cannot_be_written(folder / name, error, "Nothing was changed.") from None
        raise
    return ready


def check_places(folder: Path, files: Mapping[str, bytes], listed_in: str) -> None:
    """Raises `Mistake` where a file cannot go to its place, or something is there that the program must not replace."""
    for name in files:
        path = folder.joinpath(*PurePosixPath(name).parts)
        if path.is_dir():
            raise cannot_be_written(
                path, OSError(errno.EISDIR, "There is a folder of this name"), "Nothing was changed."
            )
        for above in path.relative_to(folder).parents:
            if (folder / above).exists() and not (folder / above).is_dir():
                raise cannot_be_written(path, OSError(errno.ENOTDIR, "Its folder is a file"), "Nothing was changed.")
    first, *others = [*not_ours(folder, files, listed_in), None]
    if first is not None:
        more = f" and {counted(len(others) - 1, 'more file', 'more files')}" if others[1:] else ""
        raise Mistake(
            f"{str(folder / first.relative_to(folder.resolve()))!r}{more}: not written by Kitwright, or changed since.",
            do="Move that elsewhere, or choose another folder with --into. Nothing was written.",
        )


def carry_through(folder: Path, ready: Path, listed_in: str) -> None:
    """Move what is whole into its places, even if somebody stops the program meanwhile. Raises `Mistake`."""
    try:
        move_in(folder, ready, listed_in)
    except OSError as error:
        raise cannot_be_written(folder, error, "The next run into this folder goes on with it.") from None
    except BaseException:
        move_in(folder, ready, listed_in)
        raise


def move_in(folder: Path, ready: Path, listed_in: str) -> None:
    """Empty a hidden folder into the one around it, the list last; what only the former list names goes. Raises `OSError`."""
    written = digests_in(ready / listed_in) or digests_in(folder / listed_in)
    for name in names_in(ready):
        if name != listed_in:
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (ready / name).replace(folder / name)
    if written:
        for path in left_behind(folder, {*written, listed_in}, listed_in):
            path.unlink(missing_ok=True)
    if (ready / listed_in).exists():
        (ready / listed_in).replace(folder / listed_in)
    if ready.exists():
        shutil.rmtree(ready)
    sync_folder(folder)


def names_in(folder: Path) -> list[str]:
    """The names of the files in a folder and in those below it."""
    return [path.relative_to(folder).as_posix() for path in sorted(folder.rglob("*")) if path.is_file()]


def clear(folder: Path, listed_in: str) -> None:
    """Carry through what a killed run had ready in a folder, and remove what it had not. Nobody else writes there now."""
    for ready in sorted(folder.glob(f".*{WHOLE}")):
        if LEFTOVER.fullmatch(ready.with_suffix(".part").name) and ready.is_dir() and not ready.is_symlink():
            files = {name: (ready / name).read_bytes() for name in names_in(ready)}
            if any(not_ours(folder, files, listed_in)):
                shutil.rmtree(ready, ignore_errors=True)  # somebody went on working here
            else:
                carry_through(folder, ready, listed_in)
    for ready in folder.glob(".*.part"):
        if LEFTOVER.fullmatch(ready.name) and ready.is_dir() and not ready.is_symlink():
            shutil.rmtree(ready, ignore_errors=True)


def clear_beside(folder: Path) -> None:
    """Remove what a killed run left that was to become this folder."""
    for ready in folder.parent.glob(".*.part"):
        meant = LEFTOVER.fullmatch(ready.name)
        if meant and meant[1] == folder.name[:100] and ready.is_dir() and not ready.is_symlink():
            with suppress(BlockingIOError), held(ready):
                shutil.rmtree(ready, ignore_errors=True)


@contextmanager
def kept_alone(folder: Path) -> Iterator[None]:
    """No other run writes into a folder meanwhile. Raises `Mistake`."""
    try:
        with held(folder):
            yield
    except BlockingIOError:
        raise Mistake(
            f"Another program is writing into {str(folder)!r} just now.", do="Wait until it is done, then try again."
        ) from None


@contextmanager
def held(folder: Path) -> Iterator[None]:
    """A folder locked for this process; not on Windows, where folders cannot be. Raises `BlockingIOError` where another one has it."""
    if os.name == "nt":
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        if not is_alone(handle):
            raise BlockingIOError
        yield
    finally:
        os.close(handle)
