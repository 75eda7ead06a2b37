"""Whether a one-way print stands upright on every face that shows."""

from __future__ import annotations

from collections.abc import Iterator

from kitwright.findings import Finding, Severity
from kitwright.folding import Folded, PrintUp, print_ups
from kitwright.paper import Paper, Print
from kitwright.pattern import Up

__all__ = ["check_print"]

WAYS = {0: "upright", 90: "on its left side", 180: "upside down", 270: "on its right side"}
"""How a print stands, by the angle anticlockwise from upright in quarter turns."""


def check_print(about: str, folded: Folded, paper: Paper, *, turn: int, only_main: bool = False) -> Iterator[Finding]:
    """One finding a face for a one-way print, one for all others together. `turn`: quarter turns of the print on the blank.

    `only_main`: of the faces that show, only the main ones are asked for their print.

    A main face (the front, the top) that is not upright fails; another that shows is a warning; a face where no way up is wrong, or
    whose unprinted side shows, is not asked. Faces that are claimed to show but are hidden fail whatever the print.
    """
    found = print_ups(folded, turns=turn)
    for each in found:
        if not each.is_open:
            yield Finding(
                "face-shows",
                Severity.FAIL,
                about,
                f"The {each.shows.panel.panel} should show but is covered.",
                because="geometry",
            )
    if paper.print_ is not Print.ONE_WAY:
        return
    asked = [
        each
        for each in found
        if each.shows.up is Up.UPRIGHT and not each.shows.back and (each.shows.main or not only_main)
    ]
    wrong = [each for each in asked if not each.is_upright]
    for each in wrong:
        yield Finding(
            f"print-up-{each.shows.panel.panel.replace(' ', '-')}",
            Severity.FAIL if each.shows.main else Severity.WARNING,
            about,
            f"The one-way print is {way(each)} on the {face_words(each)}.",
            measured=each.angle,
            required=0.0,
            margin=-abs(each.angle),
            unit="degrees",
            because="geometry",
        )
    if asked and not wrong:
        names = ", ".join(dict.fromkeys(face_words(each) for each in asked))
        yield Finding(
            "print-up",
            Severity.OK,
            about,
            f"The one-way print stands upright on every face that shows: {names}.",
            measured=0.0,
            required=0.0,
            margin=0.0,
            unit="degrees",
            because="geometry",
        )


def face_words(each: PrintUp) -> str:
    """The face for people, with the copy's number where there are several."""
    ref = each.shows.panel
    number = ref.blank.rsplit(" ", 1)[-1]
    return f"{ref.panel} of {ref.blank}" if number.isdigit() else ref.panel


def way(each: PrintUp) -> str:
    """How the print stands, in words."""
    quarter = round(each.angle / 90) * 90 % 360
    return (
        WAYS[quarter] if abs((each.angle - quarter + 180) % 360 - 180) < 0.5 else f"turned by {each.angle:.0f} degrees"
    )
