"""What was typed into a form while the kit was changed elsewhere: told by what the form says, and offered to the kit as it is now."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from kitwright.web.fields import Field, held_in

__all__ = ["Offer", "all_of", "changes_in"]

TOGETHER: Final = ("sizing", "lengths")
"""Fields of which the one says what the other means."""

UNSAID: Final = "nothing"


@dataclass(frozen=True, slots=True)
class Offer:
    """What was typed, in words and as the fields that keep it in the kit as it is now; what was not typed is not among them.

    `about` is the thing it was typed for; empty for the kit, or one that was to be added.
    """

    shown: tuple[tuple[str, str], ...]
    fields: Mapping[str, str]
    about: str = ""


def changes_in(form: Mapping[str, str], fields: Iterable[Field], held: Iterable[str] = ()) -> Offer:
    """What a form says otherwise than the fields that it was made of, and than what was `held` then."""
    asked = [each for each in fields if each.key in form]
    typed = [each for each in asked if form[each.key].strip() != each.value]
    shown = [(each.label, words_of(each, form[each.key].strip())) for each in typed]
    keys = {each.key for each in typed}
    if keys & set(TOGETHER):
        keys |= {each.key for each in asked if each.key in TOGETHER}
    said = {key: value for key, value in form.items() if key in keys}
    if "holds" in form and set(held_in(form)) != set(held):
        shown.append(("Holds", ", ".join(held_in(form)) or UNSAID))
        said |= {key: value for key, value in form.items() if key == "holds" or key.startswith("holds-")}
    return Offer(tuple(shown), said)


def all_of(form: Mapping[str, str], fields: Iterable[Field]) -> Offer:
    """Everything that a form for a new thing says."""
    shown = tuple(
        (each.label, words_of(each, form[each.key].strip())) for each in fields if form.get(each.key, "").strip()
    )
    return Offer(shown, form)


def words_of(field: Field, value: str) -> str:
    """What a field says, in the words from which it was chosen."""
    return dict(field.choices).get(value, value) or UNSAID
