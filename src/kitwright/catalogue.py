"""The catalogue of forms: how a form says what it is, which numbers it takes, and how it is found by name.

A form is a frozen dataclass made by the `form` decorator. Its fields are parameters made with `length` or `choice`; one description
of a parameter feeds the document reader, the command line, the page, the docs and the tests.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, ClassVar, Final, TypeVar, dataclass_transform

from kitwright.errors import Mistake
from kitwright.findings import Finding
from kitwright.measure import Ruler, suggestion
from kitwright.pattern import Axis, Pattern, Stance

__all__ = [
    "CATALOGUE",
    "Following",
    "Form",
    "Greatest",
    "Least",
    "Parameter",
    "Share",
    "choice",
    "default_words",
    "followed",
    "form",
    "get",
    "length",
    "parameters",
]


@dataclass(frozen=True, slots=True)
class Share:
    """A default that follows another parameter: this share of it, and `more` mm."""

    of: str
    share: float
    more: float = 0.0


@dataclass(frozen=True, slots=True)
class Least:
    """A default that is the least of several: lengths in mm and shares of other parameters."""

    of: tuple[float | Share, ...]


@dataclass(frozen=True, slots=True)
class Greatest:
    """A default that is the greatest of several: lengths in mm and shares of other parameters."""

    of: tuple[float | Share, ...]


Following = Share | Least | Greatest
"""A default that is only known once the parameters that it follows are."""


def followed(default: float | Following, values: Mapping[str, Any]) -> float:
    """What a default comes to, mm; `values` are the lengths of the parameters that it follows."""
    match default:
        case Share(of=of, share=share, more=more):
            return float(values[of]) * share + more
        case Least(of=several):
            return min(followed(each, values) for each in several)
        case Greatest(of=several):
            return max(followed(each, values) for each in several)
        case length_in_mm:
            return length_in_mm


def default_words(default: float | Following, rulers: Sequence[Ruler]) -> str:
    """A default for people, its lengths as read off each of the rulers: `1/2 in / 12.5 mm or 40 % of the depth, whichever is less`."""

    def both(mm: float) -> str:
        return " / ".join(ruler.with_unit(ruler.nearest(mm)) for ruler in rulers)

    match default:
        case Share(of=of, share=share, more=more):
            words = f"{100 * share:.3g} % of the {of.replace('_', ' ')}"
            return f"{words} and {both(more)} more" if more else words
        case Least(of=several):
            return f"{' or '.join(default_words(each, rulers) for each in several)}, whichever is less"
        case Greatest(of=several):
            return f"{' or '.join(default_words(each, rulers) for each in several)}, whichever is more"
        case length_in_mm:
            return both(length_in_mm)


@dataclass(frozen=True, slots=True)
class Parameter:
    """One number or choice of a form: everything that anybody needs to ask for it, check it and explain it.

    Lengths have `at_least` and `at_most` in mm and a default in mm, one that follows others, or none (then it must be given or derived).
    Choices have `choices`, of which the first is the default.
    """

    name: str
    label: str
    help: str
    default: float | str | Following | None
    at_least: float = 0.0
    at_most: float = 0.0
    choices: tuple[str, ...] = ()

    @property
    def word(self) -> str:
        """The parameter as it is written in a kit document: `front flap`."""
        return self.name.replace("_", " ")


class Form:
    """What all forms share. A form has parameters, `rules` (findings about their values) and `draw`."""

    key: ClassVar[str]
    title: ClassVar[str]
    summary: ClassVar[str]
    size: ClassVar[Mapping[str, Axis]]
    """The parameters that make up the size, in the order in which a maker says them, with the axis that each runs along."""
    stance: ClassVar[Stance] = Stance.STANDING
    """How the finished part stands or lies where it is used, and so how its patterns do."""
    hangs: ClassVar[tuple[str, ...]] = ()
    """Lengths that hang down along what the part covers or wraps: their defaults are not more than its height."""
    glued: ClassVar[tuple[str, ...]] = ()
    """Lengths that say how far one panel is glued on another: what a blank can spare first where it is too large for its sheet."""
    spans: ClassVar[frozenset[Axis]] = frozenset()
    """The axes along which the part reaches over or round what it covers or wraps, and so needs free play."""
    lies_across: ClassVar[bool] = False
    """Whether its longer side is usually its width, whichever way what it holds is looked at (an envelope)."""
    is_open: ClassVar[bool] = False
    """Whether it stays open at the top, so that what it holds may stick out (a pocket)."""
    stands_contents: ClassVar[bool] = False
    """Whether what the part holds usually stands upright in it (a box as high as its cards) or lies (a tray)."""
    has_inside: ClassVar[bool] = False
    """Whether something can be glued inside it, where it takes room (in a box, or in the lid of one)."""
    halves: ClassVar[str] = ""
    """The form of the same size that is made of two halves, so that a one-way print stands upright all round; empty if there is none."""

    @classmethod
    def is_all_round(cls) -> bool:
        """Whether it goes over all four walls of what it covers, as a lid that lifts off does."""
        return {Axis.WIDTH, Axis.DEPTH} <= cls.spans

    def rules(self) -> Iterator[Finding]:
        """Findings about parameter values that cannot be drawn or made."""
        yield from ()

    def draw(self) -> Pattern:
        """The pattern with its claims and stages. Only called when `rules` found nothing that fails."""
        raise NotImplementedError


F = TypeVar("F", bound=type[Form])

_FORMS: dict[str, type[Form]] = {}
CATALOGUE: Final[Mapping[str, type[Form]]] = MappingProxyType(_FORMS)
"""All forms by key, filled once, when `kitwright.forms` is imported."""


def length(
    label: str,
    *,
    at_least: float,
    at_most: float,
    default: float | Following | None = None,
    help: str = "",
) -> Any:
    """A length parameter, in mm. Without a default it must be given or derived."""
    return dataclasses.field(metadata={"label": label, "help": help, "at": (at_least, at_most), "default": default})


def choice(label: str, *choices: str, help: str = "") -> Any:
    """A parameter with a few words to choose from; the first is the default."""
    return dataclasses.field(
        default=choices[0], metadata={"label": label, "help": help, "choices": choices, "default": choices[0]}
    )


@dataclass_transform(kw_only_default=True, frozen_default=True, field_specifiers=(length, choice))
def form(key: str, *, title: str, summary: str, size: Mapping[str, Axis]) -> Callable[[F], F]:
    """Make a class a form and put it into the catalogue. Raises `ValueError` for a key that is taken."""

    def register(cls: F) -> F:
        if key in _FORMS:
            raise ValueError(f"there is a form {key!r} already: {_FORMS[key].__module__}")
        made = dataclass(frozen=True, kw_only=True)(cls)
        made.key, made.title, made.summary = key, title, summary
        made.size = MappingProxyType(dict(size))
        _FORMS[key] = made
        return made  # type: ignore[return-value]  # dataclass() gives the class it was given

    return register


def parameters(cls: type[Form]) -> tuple[Parameter, ...]:
    """The parameters of a form, in the order in which it declares them."""
    found = []
    for field in dataclasses.fields(cls):  # type: ignore[arg-type]  # every form is a dataclass
        at_least, at_most = field.metadata.get("at", (0.0, 0.0))
        found.append(
            Parameter(
                name=field.name,
                label=field.metadata["label"],
                help=field.metadata["help"],
                default=field.metadata["default"],
                at_least=at_least,
                at_most=at_most,
                choices=field.metadata.get("choices", ()),
            )
        )
    return tuple(found)


def get(key: str) -> type[Form]:
    """The form with this key. Raises `Mistake` that names the nearest known one."""
    if key in CATALOGUE:
        return CATALOGUE[key]
    raise Mistake(f"There is no form {key!r}.", do=suggestion(key, CATALOGUE))
