"""The numbers of a part as fields of a form, and what was typed into them as changes of the document."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from kitwright.catalogue import CATALOGUE, Following, parameters
from kitwright.findings import Change
from kitwright.kit import COMPANY, BuiltKit, BuiltPart, Face, Goes, SizingKind, faces_of, list_text
from kitwright.measure import Ruler
from kitwright.paper import Fibres
from kitwright.web.fields import Field, held_in

__all__ = ["RELATIONS", "belongs_fields", "changes_of", "fields_of"]

SIZE_WORDS = {
    SizingKind.DERIVED: "follows from the rest",
    SizingKind.SIZE: "score to score",
    SizingKind.INSIDE: "free room inside",
    SizingKind.OUTSIDE: "over all",
}


RELATIONS = ("on", "covers", "wraps")
"""The keys of a part that name one other part."""


def fields_of(built: BuiltKit, part: BuiltPart) -> tuple[Field, ...]:
    """All fields of a part, in the order in which a maker thinks of them."""
    ruler, said = built.kit.ruler, part.part
    made = " x ".join(ruler.format(part.lengths[name]) for name in part.form.size)
    size = " x ".join(ruler.format(each) for each in said.sizing.lengths)
    order = " × ".join(name.replace("_", " ") for name in part.form.size)
    found = [
        Field("quantity", "How many in a kit", str(said.quantity), usual="1"),
        Field(
            "paper", "Paper", said.paper, choices=tuple((key, paper.label) for key, paper in built.kit.papers.items())
        ),
        Field(
            "sizing", "Its size is", said.sizing.kind.value, choices=tuple((k.value, SIZE_WORDS[k]) for k in SizingKind)
        ),
        Field("lengths", f"Size: {order}", size, usual=made),
    ]
    if said.on and said.sizing.kind is SizingKind.DERIVED:
        border = "" if said.border is None else ruler.format(said.border)
        found.append(Field("border", "Edge that shows round it", border, usual=ruler.format(built.kit.fit.border)))
    found.extend(own_fields(part, ruler))
    if not part.paper.can_turn:
        ways_up = tuple((str(n * 90), f"{n * 90}°") for n in range(4))
        found.append(Field("turn", "Print turned to the left on the blank", str(said.turn * 90), choices=ways_up))
    if part.paper.grain_runs_up is not None:
        runs = (("0", "as it comes"), *((way.value, f"along the {way.value} of the blank") for way in Fibres))
        found.append(Field("grain", "Its grain runs", "0" if said.fibres is None else said.fibres.value, choices=runs))
    return tuple(found)


WAYS: Final = (("", "round the walls"), *((way.value, way.value) for way in Goes if way is not Goes.WALLS))
FACES: Final = (("", "outside"), (Face.INSIDE.value, "inside, where it takes room"))
LIES: Final = (("", "as is usual for it"), ("standing", "standing"), ("lying", "lying"))
"""What may be chosen; nothing is said for the usual."""


def belongs_fields(built: BuiltKit, part: BuiltPart) -> tuple[Field, ...]:
    """Its name, what it is, and what it lies on, covers and goes round, and how. What it holds is ticked, and has no field here."""
    said = part.part
    others = (("", "nothing"), *((each.name, each.name) for each in built.parts if each.name != part.name))
    forms = tuple((key, each.title) for key, each in CATALOGUE.items())
    stands = "" if said.standing is None else "standing" if said.standing else "lying"
    return (
        Field("name", "Called", said.name),
        Field("form", "It is a", said.form, choices=forms),
        Field("on", "Lies on", said.on or "", choices=others),
        *(
            [Field("face", "Glued on its", "" if said.face is Face.OUTSIDE else said.face.value, choices=FACES)]
            if said.on and len(faces_of(built.kit.part(said.on))) > 1
            else []
        ),
        Field("covers", "Covers, as a lid", said.covers or "", choices=others),
        Field("wraps", "Goes round, as a band", said.wraps or "", choices=others),
        *(
            [Field("goes", "Goes", "" if said.goes is Goes.WALLS else said.goes.value, choices=WAYS)]
            if said.wraps
            else []
        ),
        *([Field("contents", "What is flat goes in", stands, choices=LIES)] if said.holds else []),
    )


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


def usual_of(default: float | str | Following | None, ruler: Ruler) -> str:
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
    return (*found, *belonging(built, part, form))


def strange_settings(part: BuiltPart, form: str) -> Iterator[Change]:
    """What a part says that another form does not know, taken out."""
    known = {each.name for each in parameters(CATALOGUE[form])} if form in CATALOGUE else set(part.part.settings)
    yield from (Change(part.name, name.replace("_", "-"), "") for name in part.part.settings if name not in known)


def belonging(built: BuiltKit, part: BuiltPart, form: Mapping[str, str]) -> Iterator[Change]:
    """What was chosen of the relations, and the name; what makes no sense without a relation goes with it."""
    said = part.part
    for each in belongs_fields(built, part):
        value = form.get(each.key, each.value).strip()
        if value != each.value:
            yield Change(part.name, each.key, value)
            if each.key == "form":
                yield from strange_settings(part, value)
            if not value:
                yield from (Change(part.name, key, "") for key, other in COMPANY.items() if other == each.key)
            elif each.key == "on" and value in built.by_name and said.face not in faces_of(built.kit.part(value)):
                yield Change(part.name, "face", "")
    if "holds" in form:
        held = held_in(form)
        if set(held) != set(said.holds):
            kept = [name for name in said.holds if name in held]
            yield Change(part.name, "holds", list_text([*kept, *(name for name in held if name not in kept)]))
            if not held:
                yield Change(part.name, "contents", "")
