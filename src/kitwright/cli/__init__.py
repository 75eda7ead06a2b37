"""The command line. Each command is a module of its own, imported only when it is called, so that help is there at once."""

from __future__ import annotations

import errno
import importlib
import os
import sys
from pathlib import Path
from types import MappingProxyType
from typing import Final, TextIO

import click

__all__ = ["COMMANDS", "main"]

COMMANDS: Final = MappingProxyType(
    {
        "demo": "Make the whole pack for a ready-made kit, to see what comes out.",
        "open": "Open the workbench page: design, see, prove and print in the browser.",
        "new": "Start a kit document with everything explained in it.",
        "forms": "List the forms that parts can have, and the numbers each takes.",
        "strip": "Print a test strip: measure a card, its folds, the printer and your cuts.",
        "prove": "Check that everything fits, stands upright and can be cut.",
        "boxes": "Find the smallest box of every form for what goes in, and the least paper.",
        "sheets": "Lay the parts out on the fewest sheets, with the order of cuts.",
        "stash": "Tell how many kits the papers and offcuts on hand are enough for.",
        "post": "Tell what filled envelopes and boxes are to the post.",
        "pack": "Write the bench pack, the patterns and the proof into a folder.",
        "mend": "Apply the changes that the proof offers, and prove again.",
        "edition": "Design the same kit again for the other ruler: inches or millimetres.",
    }
)
"""The commands and what they are for, in the order in which a maker meets them."""


class Commands(click.Group):
    """A group that knows the names and purposes of its commands without importing them."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names, in reading order."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command, imported now."""
        if cmd_name not in COMMANDS:
            return None
        module = importlib.import_module(f"kitwright.cli.{cmd_name}")
        command = module.command
        return command if isinstance(command, click.Command) else None

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command; for an unknown word say which one was probably meant."""
        word = args[0]
        if word not in COMMANDS and not word.startswith("-"):
            from kitwright.measure import suggestion  # noqa: PLC0415  (only when a word is wrong)

            ctx.fail(f"There is no command {word!r}. {suggestion(word, COMMANDS)}")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands in the help, without importing any."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.command(cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="kitwright", message="Kitwright %(version)s")
def kitwright() -> None:
    """From an idea for a cardstock kit to parts that are proved to fit, laid out, and ready for the bench.

    A kit is a small text file: what goes in, how many, which papers. Start one with "kitwright new", prove it with
    "kitwright prove", then write everything to take to the bench with "kitwright pack".
    """


OWN_MISTAKE: Final = 70
OF_THE_DISK: Final = frozenset({errno.EACCES, errno.EPERM, errno.EROFS, errno.ENOSPC, errno.EIO})
"""What a system says of a disk or of rights."""


def tell_own_mistake(error: BaseException) -> int:
    """Say that the program went wrong and where that is noted, and give the exit code. Raises the error itself where that is wished."""
    from kitwright.cli.log import SHOWN, note  # noqa: PLC0415

    if os.environ.get(SHOWN):
        raise error
    path = note(error)
    noted = f"It is noted in {path}, with nothing of your kit." if path else "There is no room to note it."
    click.echo(f"The program made a mistake here; it was not you, and nothing of yours was changed. {noted}", err=True)
    return OWN_MISTAKE


def nowhere() -> TextIO:
    """An output that nobody reads."""
    return Path(os.devnull).open("w", encoding="utf-8")


def main() -> None:
    """Run the command line.

    Exit code 0 when all is well, 1 when something does not fit or whoever read the output went away, 2 for a mistake of whoever called
    it, 70 for one of the program (EX_SOFTWARE of BSD's sysexits). With an output that is closed from the start all runs as usual.
    """
    from kitwright.errors import InternalError, KitwrightError, Mistakes  # noqa: PLC0415

    sys.stdout = sys.stdout or nowhere()  # there is none where it was closed
    sys.stderr = sys.stderr or nowhere()
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")
    try:
        code = kitwright(prog_name="kitwright", standalone_mode=False)
        sys.stdout.flush()
    except click.exceptions.Abort:
        click.echo("Stopped.", err=True)
        code = 2
    except click.ClickException as error:
        error.show()
        code = 2
    except Mistakes as error:
        count = len(error.mistakes)
        click.echo(f"{count} mistakes:" if count > 1 else "A mistake:", err=True)
        for mistake in error.mistakes:
            click.echo(f"  {mistake}", err=True)
        code = 2
    except InternalError as error:
        code = tell_own_mistake(error.__cause__ or error)
    except KitwrightError as error:
        click.echo(f"A mistake:\n  {error}", err=True)
        code = 2
    except BrokenPipeError:
        sys.stdout = nowhere()  # what is left for the reader is not tried again at the end
        code = 1
    except OSError as error:
        if error.errno == errno.ENAMETOOLONG:
            click.echo("A file that belongs here would have a name too long for the disk. Use a shorter one.", err=True)
            code = 2
        elif error.errno not in OF_THE_DISK:
            code = tell_own_mistake(error)
        else:
            click.echo(
                f"A file cannot be read or written ({error.strerror}). Look at the disk and the folder.", err=True
            )
            code = 2
    except (KeyboardInterrupt, SystemExit):
        raise
    except BaseException as error:  # also what is no `Exception`: a panic in compiled code
        code = tell_own_mistake(error)
    sys.exit(code if isinstance(code, int) else 0)
