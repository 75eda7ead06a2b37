"""The reference page of the kit document, made of the same descriptions that the reader checks against."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

import kitwright.forms  # noqa: F401  (fills the catalogue)
from kitwright.catalogue import CATALOGUE, Form, Parameter, default_words, parameters
from kitwright.kit.bench import Keeping
from kitwright.kit.cautions import EXTRA_KINDS
from kitwright.kit.keys import (
    ACCURACY_KEYS,
    EXTRA_KEYS,
    FIT_KEYS,
    KEEP_KEYS,
    KIT_KEYS,
    MACHINE_KEYS,
    OFFCUT_KEYS,
    PAPER_KEYS,
    PART_KEYS,
    PURPOSE_KEYS,
    SCAN_KEYS,
    TABLES,
    TRIMMER_KEYS,
    Key,
)
from kitwright.kit.model import FitRules
from kitwright.kit.read_part import ODDITIES, key_of
from kitwright.kit.sheet_names import SHEET_NAMES
from kitwright.measure import Ruler, Unit
from kitwright.proof.cautions import LONGEST_FREE_CORD
from kitwright.proof.tolerance import CUTTERS, SCORERS, USUAL_ACCURACY

__all__ = ["reference_text"]

INCHES: Final = Ruler(Unit.INCH, Unit.INCH.mm / 16)
MILLIMETRES: Final = Ruler(Unit.MILLIMETRE, Fraction(1, 2))

OPENING: Final = """\
# The kit document

<!-- Made by `python -m docs` from the program's own descriptions; a test keeps it current. Do not edit it by hand. -->

A kit document is a text in [TOML](https://toml.io): headings in brackets, then one `key = value` to a line. What follows a `#` is
for people. Anything that is not on this page is refused, with its line and the nearest word that is.

Write lengths in quotes, as you say them: `"4 1/4"`, `"4-1/4"`, `"4¼"`, `"4.25"`, with `in`, `mm` or `cm` after it or none: then it
is in the units of the kit. Write sizes as `"6 x 4"`.
"""

SIZES: Final = """\
A size is said in one of three ways, or not at all, and every printout says which:

- `size`: score to score. Nothing is added for thickness, and the proof says what is left inside.
- `inside` and `outside`: the thickness of the paper is reckoned in.
- none of them: it follows from what the part lies `on`, `holds`, `covers` or `wraps`, rounded to the ruler on the safe side. One
  of its sides may still be said by its own name, such as `height = "2"`; it is then score to score.

A size that was said is proved, not trusted.
"""


LAID: Final = """\
### laid

Sheets on which you chose where the blanks lie. Every sheet is a list; every blank in it is named as the cut list names it, with the
place of its lower left corner from that of the sheet (to the right x up) and, if need be, its turn to the left:
`laid = [["lid at 2 1/4 x 3", "tag at 0 x 0, turned 90"]]`. Such a sheet is cut as often as all its blanks are needed; the rest is
laid out for you. A sheet on which blanks overlap, hang over the edge or have changed their size is not used, and you are told.
"""


def reference_text() -> str:
    """The whole page, in Markdown."""
    return "\n".join(
        [
            OPENING,
            "## Tables\n",
            *key_table(TABLES),
            "\n## [kit]\n",
            *key_table(KIT_KEYS),
            "\n### fit\n",
            "Free play, in all, where one thing goes into or over another.\n",
            *key_table(FIT_KEYS),
            *usual_fit(),
            "\n### accuracy\n",
            "How far your work may be off, either way. Every fit is made many times in numbers with it.\n",
            *key_table(ACCURACY_KEYS),
            *usual_accuracy(),
            "\n### trimmer\n",
            "What is not said here limits nothing.\n",
            *key_table(TRIMMER_KEYS),
            "\n### machine\n",
            "For `kitwright sheets --machine`. Edge and gap are 1/4 and 1/16 in, or 6 and 2 mm, if not said.\n",
            *key_table(MACHINE_KEYS),
            "\n### keep\n",
            "What is left over is told with its size, and gathered into a large piece where that costs nothing.\n",
            *key_table(KEEP_KEYS),
            *usual_keeping(),
            "\n### for\n",
            "What you say about the kit. It changes no size; it only decides which cautions are shown.\n",
            *key_table(PURPOSE_KEYS),
            "\n## [paper.WORD]\n",
            *key_table(PAPER_KEYS),
            sheet_names(),
            "\n### scan\n",
            "A picture of a sheet, print side up. The workbench brings it into the workshop and shows it on the kit.\n",
            *key_table(SCAN_KEYS),
            "",
            LAID,
            "\n## [[part]]\n",
            *key_table(PART_KEYS),
            f"\nWhat the post may be told: {', '.join(ODDITIES)}.\n",
            SIZES,
            "Besides, a part takes the keys of its form.",
            *(line for key in sorted(CATALOGUE) for line in form_section(CATALOGUE[key])),
            "\n## [[extra]]\n",
            *key_table(EXTRA_KEYS),
            f"\nThe kinds: {', '.join(EXTRA_KINDS)}.\n",
            *ribbon_words(),
            "## [[offcut]]\n",
            "What lies on the shelf. Write a line here for every offcut that you keep.\n",
            *key_table(OFFCUT_KEYS),
            "",
        ]
    )


def ribbon_words() -> Iterator[str]:
    """When a ribbon calls for a caution."""
    limits = " or ".join(ruler.with_unit(ruler.down(Fraction(LONGEST_FREE_CORD))) for ruler in (MILLIMETRES, INCHES))
    yield f"A ribbon calls for a caution where its `length` is above {limits}, and where its length is not said: its `size` is how"
    yield "it is packed, and says nothing of how long it is.\n"


def usual_accuracy() -> Iterator[str]:
    """The limits of the tools where none are said."""
    cuts = ", ".join(f"{tool} {limit:g}" for tool, limit in CUTTERS.items())
    scores = ", ".join(f"{tool} {limit:g}" for tool, limit in SCORERS.items())
    yield f"\nWhat is not said is, in millimetres: cuts: {cuts}; scores: {scores}; folds {USUAL_ACCURACY.fold:g}; glued edges "
    yield f"{USUAL_ACCURACY.glue:g}. All of it is {USUAL_ACCURACY.because}: measure your own work."


def sheet_names() -> str:
    """The sheets that can be said by their names."""
    return f'\nSheets by name: {", ".join(SHEET_NAMES)}; upright, or with *lying* after it (`"A4 lying"`) turned a quarter.'


def usual_keeping() -> Iterator[str]:
    """Which offcuts are kept where nothing is said."""
    for ruler in (INCHES, MILLIMETRES):
        usual = Keeping.usual(ruler.unit)
        side, area = ruler.with_unit(usual.side), ruler.size(*usual.area)
        yield f"\nUsual, for a kit in {ruler.unit.in_words}: side {side}, area {area} (common practice, no source)."


def key_table(keys: Mapping[str, Key]) -> Iterator[str]:
    """A Markdown table of keys; those that must be there are marked."""
    yield "| key | takes | meaning | example |"
    yield "|---|---|---|---|"
    for key in keys.values():
        needed = " (needed)" if key.is_needed else ""
        yield f"| `{key.name}`{needed} | {key.takes} | {key.help} | `{key.example}` |"


def usual_fit() -> Iterator[str]:
    """What the free play is where nothing is said."""
    for ruler in (INCHES, MILLIMETRES):
        fit = FitRules.usual(ruler.unit)
        said = ", ".join(f"{key} {ruler.format(getattr(fit, key))}" for key in FIT_KEYS)
        yield f"\nUsual, for a kit in {ruler.unit.in_words}: {said}."


def form_section(form: type[Form]) -> Iterator[str]:
    """One form: what it is, its size, and its own keys."""
    yield f"\n### {form.key}\n"
    yield f"{form.summary}\n"
    yield f"Size: {' x '.join(name.replace('_', ' ') for name in form.size)}.\n"
    yield "| key | meaning | from | to | if not said |"
    yield "|---|---|---|---|---|"
    for parameter in parameters(form):
        label = f"{parameter.label} ({parameter.help})" if parameter.help else parameter.label
        if parameter.choices:
            words = ", ".join(parameter.choices)
            yield f"| `{key_of(parameter)}` | {label}: {words} | | | {parameter.default} |"
            continue
        least, most = (
            " / ".join(ruler.with_unit(limit) for ruler, limit in limits)
            for limits in (
                [(ruler, ruler.up(parameter.at_least)) for ruler in (INCHES, MILLIMETRES)],
                [(ruler, ruler.down(parameter.at_most)) for ruler in (INCHES, MILLIMETRES)],
            )
        )
        yield f"| `{key_of(parameter)}` | {label} | {least} | {most} | {unsaid_words(parameter)} |"


def unsaid_words(parameter: Parameter) -> str:
    """What a length is if it is not said."""
    default = parameter.default
    if default is None or isinstance(default, str):
        return default or "said in the size, or follows"
    return default_words(default, (INCHES, MILLIMETRES))
