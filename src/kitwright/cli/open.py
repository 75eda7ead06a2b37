"""`kitwright open`: the workbench page in the browser."""

from __future__ import annotations

import contextlib
import socket
import threading
import webbrowser
from pathlib import Path

import click

from kitwright.errors import Mistake

__all__ = ["command"]


@click.command("open")
@click.argument("folder", type=click.Path(path_type=Path), required=False)
@click.option("--port", type=click.IntRange(0, 65535), default=0, help="Port to listen on; any free one if not said.")
@click.option("--stay", is_flag=True, help="Do not open the browser, only say where the page is.")
def command(folder: Path | None, port: int, stay: bool) -> int:
    """Open the workbench page for a workshop FOLDER (kitwright-workshop in your home folder if not said).

    Only this computer can see the page. Stop it with Ctrl+C; every change is kept at once.
    """
    import uvicorn  # noqa: PLC0415  (only when the page is wanted)

    from kitwright.web import make_app  # noqa: PLC0415
    from kitwright.workshop import Workshop  # noqa: PLC0415

    where = folder or Path.home() / "kitwright-workshop"
    app = make_app(Workshop(where))
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as listening:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind(("127.0.0.1", port))
            listening.listen()  # whoever comes before the server is up waits
        except OSError as error:
            raise Mistake(f"Port {port} cannot be used ({error.strerror}).", do="Choose another with --port.") from None
        address = f"http://127.0.0.1:{listening.getsockname()[1]}/"
        click.echo(f"The workbench for {where} is at {address}  (stop it with Ctrl+C)")
        if not stay:
            timer = threading.Timer(0.5, webbrowser.open, [address])
            timer.daemon = True
            timer.start()
        server = uvicorn.Server(uvicorn.Config(app, log_level="warning", access_log=False))
        with contextlib.suppress(KeyboardInterrupt):
            server.run(sockets=[listening])
    return 0
