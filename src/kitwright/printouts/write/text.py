"""A drawing as plain text, one mark to a line: for people who want to see what changed, and for tests that remember drawings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields

from kitwright.printouts.drawing import Callouts, Drawing, Group, Mark
from kitwright.printouts.write.svg import number

__all__ = ["drawing_to_text"]


def drawing_to_text(drawing: Drawing) -> str:
    """The canvas, then every mark in the order of painting: its kind, its role, its values; groups are indented.

    Numbers have at most four decimals, so that the text is the same on every machine. Values that are as usual are left out.
    """
    clipped = " clipped" if drawing.clipped else ""
    head = f"canvas {number(drawing.width)} × {number(drawing.height)}{clipped}"
    return "\n".join([head, *mark_lines(drawing.marks, "")]) + "\n"


def mark_lines(marks: tuple[Mark, ...], indent: str) -> Iterator[str]:
    """The lines of marks."""
    for mark in marks:
        if isinstance(mark, Group):
            yield f"{indent}group {mark.name}".rstrip()
            yield from mark_lines(mark.marks, indent + "  ")
        elif isinstance(mark, Callouts):
            yield f"{indent}callouts start={plain(mark.start)} end={plain(mark.end)} offset={number(mark.offset)}"
            yield from mark_lines(mark.labels, indent + "  ")
        else:
            values = [
                f"{field.name}={plain(getattr(mark, field.name))}"
                for field in fields(mark)
                if field.name != "role" and getattr(mark, field.name) != field.default
            ]
            yield f"{indent}{type(mark).__name__.lower()} {mark.role.value} {' '.join(values)}"


def plain(value: object) -> str:
    """A value of a mark in one word."""
    if isinstance(value, tuple):
        inside = ",".join(plain(each) for each in value)
        return f"({inside})"
    if isinstance(value, float | int) and not isinstance(value, bool):
        return number(value)
    return repr(value)
