"""Values to test with: accepted parameters of any form over the whole range of its limits, rulers, papers. Lengths in mm."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import product
from typing import Final

from hypothesis import assume
from hypothesis import strategies as st

import kitwright.forms  # noqa: F401  # fills the catalogue
from kitwright.catalogue import Following, Form, Greatest, Least, Parameter, Share, followed, parameters
from kitwright.findings import Severity, worst
from kitwright.measure import MM_PER_INCH, Ruler, Unit
from kitwright.paper import Caliper, Grain, Paper, Print
from kitwright.pattern import Axis

__all__ = ["accepted_forms", "any_forms", "everyday_form", "is_accepted", "papers", "rulers"]

SIXTEENTH: Final = 25.4 / 16
EVERYDAY_BOX: Final = {"width": (152.4, 101.6, 304.8), "depth": (101.6, 50.8), "height": (50.8, 101.6)}
EVERYDAY_SHEET: Final = {"width": (101.6, 50.8), "height": (152.4, 76.2)}
"""Sizes tried in turn for the parameters that have no default, of things with and without a depth."""


def is_accepted(form: Form) -> bool:
    """Whether the form's own rules let these values be drawn."""
    return worst(form.rules()) is not Severity.FAIL


def follow_shares(form: type[Form], values: Mapping[str, float | str | None]) -> dict[str, float | str]:
    """The values with those left open (None) filled in as shares of the others, inside their limits."""
    filled: dict[str, float | str] = {name: value for name, value in values.items() if value is not None}
    for parameter in parameters(form):
        if parameter.name not in filled and isinstance(parameter.default, Following):
            wanted = followed(parameter.default, filled)
            filled[parameter.name] = min(max(wanted, parameter.at_least), parameter.at_most)
    return filled


@st.composite
def lengths_within(draw: st.DrawFn, least: float, most: float) -> float:
    """A length inside limits: any number, or one on a mark of a ruler, or a limit itself."""
    marks = (int(-(-least // SIXTEENTH)), int(most // SIXTEENTH))
    ways = [st.floats(least, most), st.sampled_from((least, most))]
    if marks[0] <= marks[1]:
        ways.append(st.integers(*marks).map(lambda count: count * SIXTEENTH))
    return draw(st.one_of(ways))


def values_for(parameter: Parameter) -> st.SearchStrategy[float | str | None]:
    """What a maker might give for one parameter: any value inside its limits, or the default (None where that is a share)."""
    if parameter.choices:
        return st.sampled_from(parameter.choices)
    given_: st.SearchStrategy[float | str | None] = lengths_within(parameter.at_least, parameter.at_most)
    match parameter.default:
        case None:
            return given_
        case Share() | Least() | Greatest():
            return st.one_of(st.none(), given_)
        case default:
            return st.one_of(st.just(default), given_)


@st.composite
def any_forms(draw: st.DrawFn, form: type[Form]) -> Form:
    """A form with any values inside its limits, whether its rules accept them or not."""
    return form(**follow_shares(form, {p.name: draw(values_for(p)) for p in parameters(form)}))


@st.composite
def accepted_forms(draw: st.DrawFn, form: type[Form]) -> Form:
    """A form with values that its rules accept, from the whole range of its limits."""
    for _ in range(8):
        made = draw(any_forms(form))
        if is_accepted(made):
            return made
    assume(False)
    raise AssertionError("not reached: assume(False) ends the example")


def everyday_form(form: type[Form]) -> Form:
    """The form with its defaults and an ordinary size. Raises `LookupError` if its rules accept none of those tried."""
    for made in everyday_candidates(form):
        if is_accepted(made):
            return made
    raise LookupError(f"no ordinary size of a {form.key} is accepted: add one to those tried")


def everyday_candidates(form: type[Form]) -> Iterator[Form]:
    """The form with its defaults and each of the ordinary sizes in turn."""
    open_ = [p for p in parameters(form) if p.default is None]
    fixed = {
        p.name: None if isinstance(p.default, Following) else p.default for p in parameters(form) if p not in open_
    }
    usual = EVERYDAY_BOX if Axis.DEPTH in form.size.values() else EVERYDAY_SHEET
    sizes = [usual.get(p.name, (50.8, 25.4, 101.6)) for p in open_]
    for tried in product(*sizes):
        within = (min(max(size, p.at_least), p.at_most) for size, p in zip(tried, open_, strict=True))
        yield form(**follow_shares(form, {**fixed, **dict(zip((p.name for p in open_), within, strict=True))}))


def rulers() -> st.SearchStrategy[Ruler]:
    """The rulers that makers use: 1/8 to 1/64 in, 1 and 0.5 mm."""
    inches = [Ruler(Unit.INCH, MM_PER_INCH / parts) for parts in (8, 16, 32, 64)]
    return st.sampled_from([*inches, Ruler(Unit.MILLIMETRE, Fraction(1)), Ruler(Unit.MILLIMETRE, Fraction(1, 2))])


@st.composite
def papers(draw: st.DrawFn) -> Paper:
    """A paper between a thin text paper and a heavy board, letter, A4 or 12 in square."""
    inch = MM_PER_INCH
    width, height = draw(
        st.sampled_from([(inch * 17 / 2, inch * 11), (Fraction(210), Fraction(297)), (inch * 12, inch * 12)])
    )
    return Paper(
        key="paper",
        label="Paper",
        sheet_width_mm=width,
        sheet_height_mm=height,
        gsm=draw(st.integers(80, 400)),
        caliper=Caliper(draw(st.integers(8, 60)) / 100, is_estimate=draw(st.booleans())),
        grain=draw(st.sampled_from(Grain)),
        print_=draw(st.sampled_from(Print)),
        two_sided=draw(st.booleans()),
        hinge_depth=draw(st.sampled_from((0.0, 0.4, 0.5, 1.0))),
    )
