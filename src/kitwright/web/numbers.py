"""The numbers of a part as fields of a form, and what was typed into them as changes of the document."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from kitwright.catalogue import Share, parameters
from kitwright.findings import Change
from kitwright.kit import BuiltKit, BuiltPart, SizingKind
from kitwright.measure import Ruler

__all__ = ["Field", "changes_of", "fields_of"]

SIZE_WORDS = {
    SizingKind.DERIVED: "follows from the rest",
    SizingKind.SIZE: "score to score",
    SizingKind.INSIDE: "free room inside",
    SizingKind.OUTSIDE: "over all",
}


@dataclass(frozen=True, slots=True)
class Field:
    """One field: its key in the document, label, value as typed (empty: not said), what is used then, and words to choose from."""

    key: str
    label: str
    value: str
    usual: str = ""
    help: str = ""
    choices: tuple[tuple[str, str], ...] = ()

    @property
    def id(self) -> str:
        """The key without signs that a page's id cannot have."""
        return self.key.replace(" ", "-")


def fields_of(built: BuiltKit, part: BuiltPart) -> tuple[Field, ...]:
    """All fields of a part, in the order in which a maker thinks of them."""
    ruler, said = built.kit.ruler, part.part
    made = " x ".join(ruler.format(part.lengths[name]) for name in part.form.size)
    size = " x ".join(ruler.format(each) for each in said.sizing.lengths)
    order = " × ".join(name.replace("_", " ") for name in part.form.size)
    follows = said.on or said.holds or said.covers or said.wraps
    ways = [kind for kind in SizingKind if kind is not SizingKind.DERIVED or follows]
    found = [
        Field("quantity", "How many in a kit", str(said.quantity), usual="1"),
        Field(
            "paper", "Paper", said.paper, choices=tuple((key, paper.label) for key, paper in built.kit.papers.items())
        ),
        Field("sizing", "Its size is", said.sizing.kind.value, choices=tuple((k.value, SIZE_WORDS[k]) for k in ways)),
        Field("lengths", f"Size: {order}", size, usual=made),
    ]
    if said.on and said.sizing.kind is SizingKind.DERIVED:
        border = "" if said.border is None else ruler.format(said.border)
        found.append(Field("border", "Edge that shows round it", border, usual=ruler.format(built.kit.fit.border)))
    found.extend(own_fields(part, ruler))
    if not part.paper.can_turn:
        ways_up = tuple((str(n * 90), f"{n * 90}°") for n in range(4))
        found.append(Field("turn", "Print turned to the left on the blank", str(said.turn * 90), choices=ways_up))
    return tuple(found)


def own_fields(part: BuiltPart, ruler: Ruler) -> list[Field]:
    """The fields of the part's form."""
    said, found = part.part.settings, []
    for parameter in parameters(type(part.form)):
        name, key = parameter.name, parameter.name.replace("_", "-")
        now = said.get(name)
        if parameter.choices:
            words = tuple((each, each) for each in parameter.choices)
            value = str(now) if now is not None else parameter.choices[0]
            found.append(Field(key, parameter.label, value, help=parameter.help, choices=words))
            continue
        if name in part.form.size and (parameter.default is None and now is None):
            continue
        usual = ruler.format(part.lengths[name]) if name in part.lengths else usual_of(parameter.default, ruler)
        value = "" if now is None or isinstance(now, str) else ruler.format(now)
        found.append(Field(key, parameter.label, value, usual=usual, help=parameter.help))
    return found


def usual_of(default: float | str | Share | None, ruler: Ruler) -> str:
    """A default in the maker's units."""
    return ruler.format(ruler.nearest(default)) if isinstance(default, float | int) else ""


def changes_of(built: BuiltKit, part: BuiltPart, form: Mapping[str, str]) -> tuple[Change, ...]:
    """What was typed, as changes of the document; fields that were left as they were change nothing."""
    before = {field.key: field for field in fields_of(built, part)}
    said = {key: form[key].strip() for key in before if key in form}
    found: list[Change] = []
    kind, lengths = said.pop("sizing", None), said.pop("lengths", None)
    if kind is not None and lengths is not None:
        old = before["sizing"].value
        if kind == SizingKind.DERIVED.value:
            if old != kind:
                found.append(Change(part.name, old, ""))
        elif (kind, lengths) != (old, before["lengths"].value):
            if old not in (kind, SizingKind.DERIVED.value):
                found.append(Change(part.name, old, ""))
            found.append(Change(part.name, kind, lengths or before["lengths"].usual))
    for key, value in said.items():
        if value == before[key].value:
            continue
        is_first_choice = before[key].choices and key not in ("paper",) and value == "0"
        found.append(Change(part.name, key, "" if is_first_choice else value))
    return tuple(found)
