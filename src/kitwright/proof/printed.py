"""Whether a one-way print stands upright on every face that shows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from types import MappingProxyType
from typing import Final

from kitwright.findings import Finding, Severity
from kitwright.folding import Folded, LayerModel, PrintUp, layers, print_ups
from kitwright.paper import Paper, Print
from kitwright.pattern import Up

__all__ = ["Printed", "check_print", "check_prints_agree"]

NO_WORDS: Final[Mapping[str, str]] = MappingProxyType({})
WAYS = {0: "upright", 90: "on its left side", 180: "upside down", 270: "on its right side"}
"""How a print stands, by the angle anticlockwise from upright in quarter turns."""


SAME_WAY: Final = 0.99
"""Faces whose normals agree to this (cosine; 8 degrees) look the same way."""

AS_ONE: Final = 0.5
"""Degrees by which two prints may be turned against each other and still stand the same way."""


@dataclass(frozen=True, slots=True)
class Printed:
    """A folded part with its name, its paper, the quarter turns of the print on the blank and, if it is at hand, its layer model."""

    name: str
    folded: Folded
    paper: Paper
    turn: int
    model: LayerModel | None = None

    def main_faces(self) -> list[PrintUp]:
        """How a one-way print lies on the main faces that it is asked for; none for other papers."""
        if self.paper.print_ is not Print.ONE_WAY:
            return []
        found = print_ups(self.folded, turns=self.turn, model=self.model)
        return [each for each in found if each.shows.main and each.shows.up is Up.UPRIGHT and not each.shows.back]


def check_print(
    about: str,
    folded: Folded,
    paper: Paper,
    *,
    turn: int,
    only_main: bool = False,
    words: Mapping[str, str] = NO_WORDS,
    model: LayerModel | None = None,
) -> Iterator[Finding]:
    """One finding a face for a one-way print, one for all others together. `turn`: quarter turns of the print on the blank.

    `only_main`: of the faces that show, only the main ones are asked for their print. `words`: what panels are called where the part
    is used, if not by their names. Give the layer `model` if it is at hand.

    A main face (the front, the top) that is not upright fails. Another that shows is a warning where the print could be turned so that
    more stands upright; where it could not, because one blank has only one way up, all such faces are told in one note. A face where no
    way up is wrong, or whose unprinted side shows, is not asked. Faces that are claimed to show but are hidden fail whatever the print.
    """
    known = model or layers(folded)
    found = print_ups(folded, turns=turn, model=known)
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
    asked = [each for each in found if is_asked(each) and (each.shows.main or not only_main)]
    wrong = [each for each in asked if not each.is_upright]
    if wrong and no_turn_is_better(folded, wrong, known):
        yield unavoidable(about, [each for each in wrong if not each.shows.main])
        wrong = [each for each in wrong if each.shows.main]
    for each in wrong:
        yield Finding(
            f"print-up-{each.shows.panel.panel.replace(' ', '-')}",
            Severity.FAIL if each.shows.main else Severity.WARNING,
            about,
            f"The one-way print is {way(each)} on the {face_words(each, words)}.",
            measured=each.angle,
            required=0.0,
            margin=-abs(each.angle),
            unit="degrees",
            because="geometry",
        )
    if asked and all(each.is_upright for each in asked):
        names = ", ".join(dict.fromkeys(face_words(each, words) for each in asked))
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


def check_prints_agree(outer: Printed, inner: Printed) -> Finding | None:
    """A lid or band against what it goes over or round: on main faces that look the same way the two prints stand the same way.

    None where no such faces bear one-way prints.
    """
    pairs = [
        (mine, its)
        for mine, its in product(outer.main_faces(), inner.main_faces())
        if outer.folded.normal(mine.shows.panel) @ inner.folded.normal(its.shows.panel) > SAME_WAY
    ]
    if not pairs:
        return None
    about = f"{outer.name} on {inner.name}"
    mine, its = max(pairs, key=lambda pair: abs(apart(*pair)))
    if abs(apart(mine, its)) <= AS_ONE:
        words = f"The prints of {outer.name} and {inner.name} stand the same way on the {face_words(mine)}."
        return Finding("prints-agree", Severity.OK, about, words, because="geometry")
    words = (
        f"The print is {way(mine)} on the {face_words(mine)} of {outer.name}, but {way(its)} on the {face_words(its)} of "
        f"{inner.name} below it."
    )
    return Finding(
        "prints-agree",
        Severity.WARNING,
        about,
        words,
        measured=apart(mine, its),
        required=0.0,
        margin=-abs(apart(mine, its)),
        unit="degrees",
        because="geometry",
    )


def apart(one: PrintUp, other: PrintUp) -> float:
    """By how many degrees two prints stand differently, −180 to 180."""
    return (one.angle - other.angle + 180) % 360 - 180


def is_asked(each: PrintUp) -> bool:
    """Whether a face shows its printed side and has a way up."""
    return each.shows.up is Up.UPRIGHT and not each.shows.back


def no_turn_is_better(folded: Folded, wrong: Sequence[PrintUp], model: LayerModel) -> bool:
    """Whether only lesser faces are wrong, and however the print were turned on the blank, as many would be or a main face."""

    def badness(faces: Iterable[PrintUp]) -> tuple[int, int]:
        told = list(faces)
        return sum(each.shows.main for each in told), len(told)

    if any(each.shows.main for each in wrong):
        return False
    turned = (print_ups(folded, turns=turns, model=model) for turns in range(4))
    return badness(wrong) <= min(
        badness(each for each in faces if is_asked(each) and not each.is_upright) for faces in turned
    )


def unavoidable(about: str, wrong: Sequence[PrintUp]) -> Finding:
    """One note for all faces on which the print of one blank cannot stand upright."""
    by_way: dict[str, list[str]] = {}
    for each in wrong:
        by_way.setdefault(way(each), []).append(f"the {face_words(each)}")
    told = ", ".join(f"{how} on {' and '.join(faces)}" for how, faces in by_way.items())
    return Finding(
        "print-up-elsewhere",
        Severity.NOTE,
        about,
        f"The faces of one blank cannot all be upright in a one-way print: the main ones are, and it is {told}.",
        because="geometry; tried in all four ways",
    )


def face_words(each: PrintUp, words: Mapping[str, str] = NO_WORDS) -> str:
    """The face for people, with the copy's number where there are several."""
    ref = each.shows.panel
    number = ref.blank.rsplit(" ", 1)[-1]
    panel = words.get(ref.panel, ref.panel)
    return f"{panel} of {ref.blank}" if number.isdigit() else panel


def way(each: PrintUp) -> str:
    """How the print stands, in words."""
    quarter = round(each.angle / 90) * 90 % 360
    return (
        WAYS[quarter] if abs((each.angle - quarter + 180) % 360 - 180) < 0.5 else f"turned by {each.angle:.0f} degrees"
    )
