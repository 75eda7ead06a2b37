"""The server of the page: answers until it is told to end, and then ends soon, whoever still sends or waits."""

from __future__ import annotations

import contextlib
import os
import socket
import threading
from types import FrameType
from typing import Final

import uvicorn
from starlette.applications import Starlette

__all__ = ["serve"]

FOR_ANSWERS: Final = 1
"""Seconds for the answers that are under way."""

IN_ALL: Final = 1.7
"""Seconds after which nobody is waited for: whatever was acknowledged is on the disk, and what is not is written whole or not at all."""


class Server(uvicorn.Server):
    """A server that does not wait for a request half sent, nor for a search that does not listen."""

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        """Begin to end."""
        if not self.should_exit:
            end = threading.Timer(IN_ALL, os._exit, [0])
            end.daemon = True
            end.start()
        super().handle_exit(sig, frame)


def serve(app: Starlette, listening: socket.socket) -> None:
    """Answer what comes to a socket that listens, until Ctrl+C or a signal to end."""
    settings = uvicorn.Config(
        app,
        log_level="warning",
        log_config=None,
        access_log=False,
        proxy_headers=False,
        ws="none",
        timeout_graceful_shutdown=FOR_ANSWERS,
    )
    with contextlib.suppress(KeyboardInterrupt):
        Server(settings).run(sockets=[listening])
