"""The rules that come with the program, one dated file for each service."""

from __future__ import annotations

from importlib.resources import files

from kitwright.proof.mailing.reading import parse_service
from kitwright.proof.mailing.service import Service

__all__ = ["load_services"]


def load_services() -> tuple[Service, ...]:
    """All the services whose rules come with the program, in the order of their codes.

    Raises `Mistakes` if a rule file was damaged.
    """
    folder = files("kitwright.proof.mailing") / "rules"
    names = sorted(entry.name for entry in folder.iterdir() if entry.name.endswith(".toml"))
    return tuple(parse_service((folder / name).read_text(encoding="utf-8"), document=name) for name in names)
