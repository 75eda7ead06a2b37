"""`kitwright open`: the workbench page in the browser."""

from __future__ import annotations

import socket
import threading
import webbrowser
from pathlib import Path
from typing import Final

import click

from kitwright.cli.log import LOG_NAME, log_into
from kitwright.errors import Mistake

__all__ = ["command"]

ANYWHERE: Final = ("192.0.2.1", 9)
"""An address kept for examples (RFC 5737). Nothing is sent there: it is only asked which way a message would leave."""


@click.command("open")
@click.argument("folder", type=click.Path(path_type=Path, readable=False), required=False)
@click.option("--port", type=click.IntRange(0, 65535), default=0, help="Port to listen on; any free one if not said.")
@click.option("--stay", is_flag=True, help="Do not open the browser, only say where the page is.")
@click.option(
    "--workroom", is_flag=True, help="Let the other devices of this network in, with words that are told here."
)
@click.option("--at", "own", help="With --workroom: this computer's address in the network, where it has several.")
def command(folder: Path | None, port: int, stay: bool, workroom: bool, own: str | None) -> int:
    """Open the workbench page for a workshop FOLDER (kitwright-workshop in your home folder if not said).

    Only this computer can see the page, unless you say --workroom. Stop it with Ctrl+C; every change is kept at once.
    """
    from kitwright.web import make_app  # noqa: PLC0415  (only when the page is wanted)
    from kitwright.web.server import serve  # noqa: PLC0415
    from kitwright.web.workroom import Door, is_near, new_phrase  # noqa: PLC0415
    from kitwright.workshop import Workshop  # noqa: PLC0415

    where, host, phrase = folder or Path.home() / "kitwright-workshop", "127.0.0.1", ""
    if own is not None and not workroom:
        raise Mistake("--at is for a workroom.", do="Say --workroom as well.")
    if workroom:
        host = own_address() if own is None else own
        if not is_near(host) or ":" in host:
            raise Mistake(
                f"{host} is no address of a local network.", do="Say this computer's own with --at, like 192.168.1.5."
            )
        phrase = new_phrase()
    shop = Workshop(where)
    log_into(where)
    app = (
        make_app(shop, door=Door(phrase), names=frozenset({host}), noted_in=LOG_NAME)
        if workroom
        else make_app(shop, noted_in=LOG_NAME)
    )
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as listening:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((host, port))
            listening.listen()  # whoever comes before the server is up waits
        except OSError as error:
            what = f"{host} port {port}" if workroom else f"Port {port}"
            raise Mistake(f"{what} cannot be used ({error.strerror}).", do="Choose another with --port.") from None
        address = f"http://{host}:{listening.getsockname()[1]}/"
        click.echo(f"The workbench for {where} is at {address}  (stop it with Ctrl+C)")
        if workroom:
            tell_workroom(phrase)
        if not stay:
            timer = threading.Timer(0.5, webbrowser.open, [address])
            timer.daemon = True
            timer.start()
        serve(app, listening)
    return 0


def own_address() -> str:
    """This computer's address in its network. Raises `Mistake` where it is in none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(ANYWHERE)
        except OSError:
            raise Mistake(
                "This computer is in no network now.", do="Connect it, or say its address with --at."
            ) from None
        return str(asking.getsockname()[0])


def tell_workroom(phrase: str) -> None:
    """What the workroom means, and the words that let people in."""
    click.echo(
        "Every device of this network can open it. Whoever says these words can see and change all kits of this folder:"
    )
    click.echo(f"\n    {phrase}\n")
    click.echo(
        "What is sent is not encrypted: do this only in a network whose people you trust, never in a public one."
    )
    click.echo("The words hold until you stop it; next time there are others.")
