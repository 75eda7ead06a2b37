"""The kit document that a maker starts from: a small card kit that is proved as it stands, with every line explained."""

from __future__ import annotations

from typing import Final

from kitwright.errors import Mistake
from kitwright.kit.edit import quoted
from kitwright.kit.values import text
from kitwright.measure import Unit

__all__ = ["new_kit_document"]

INCHES: Final = {
    "ruler": "1/16",
    "marks": "1/8, 1/16 or 1/32",
    "plain_sheet": "8 1/2 x 11",
    "print_sheet": "12 x 12",
    "heavy": "100 lb cover",
    "light": "80 lb text",
    "card": "5 1/2 x 4 1/4",
    "border": "1/8",
    "rim": "1/2",
}
MILLIMETRES: Final = {
    "ruler": "1",
    "marks": "1 or 0.5",
    "plain_sheet": "210 x 297",
    "print_sheet": "305 x 305",
    "heavy": "250 gsm",
    "light": "120 gsm",
    "card": "148 x 105",
    "border": "4",
    "rim": "12",
}

REMARKS_BEGIN: Final = 28

TEMPLATE: Final = """\
# A kit document: what goes in, how many, which papers. Lines that begin with # are for you; the program passes over them.
# Change any of it, then see whether everything fits:  kitwright prove (and the name of this file)

[kit]
name = {name}
units = "{units}"               # the unit of every number below that has none of its own
ruler = "{ruler}"             # the finest marks you work to, such as {marks}; derived sizes are rounded to it

# Papers. Each has a word of its own ("kraft"), by which the parts below name it.

[paper.kraft]
label = "Kraft cardstock"
sheet = "{plain_sheet}"      # width x height, as the sheet lies before you
weight = "{heavy}"  # as the wrapper says
# caliper = "…"  # the thickness of one sheet, if you can measure it; otherwise it is estimated from the weight
two-sided = true          # coloured through, so that the back may show

[paper.plain]
label = "Plain paper for envelopes"
sheet = "{plain_sheet}"
weight = "{light}"
two-sided = true

[paper.meadow]
label = "Meadow print"
sheet = "{print_sheet}"
weight = "{heavy}"
print = "one-way"         # none, all-over, or one-way if it has a right way up

# Parts. Each has a form; "kitwright forms" lists them all. A size that you leave out follows from what the part
# lies on, holds, covers or wraps.

[[part]]
name = "card"
form = "half-fold card"
size = "{card}"    # closed: width x height
fold = "top"             # top opens like a tent, side like a book
paper = "kraft"
quantity = 4              # in one kit

[[part]]
name = "mat"
form = "mat"
on = "card"               # so its size is that of the card,
border = "{border}"            # less this edge on every side
paper = "meadow"
quantity = 4

[[part]]
name = "envelope"
form = "side-seam envelope"
holds = "card"            # so it is as much larger than the card as an envelope should be
paper = "plain"
quantity = 4

[[part]]
name = "tray"
form = "tray"
holds = ["card", "mat", "envelope"]
paper = "kraft"

[[part]]
name = "lid"
form = "lift-off lid"
covers = "tray"
height = "{rim}"         # how far its rim comes down
paper = "kraft"

# Things that are bought, not made, and go into the kit. Take the signs # away to use it, and name it in the tray's holds.

# [[extra]]
# name = "twine"
# size = "{twine}"
# packed = "beside"       # flat: in the stack; beside: next to it
# kind = "ribbon"         # helps to give the right cautions
"""


def new_kit_document(name: str, unit: Unit) -> str:
    """A small card kit called `name`, in inches or millimetres, as the text of its document. Raises `Mistake` for a useless name."""
    title = text(name)
    if unit is Unit.CENTIMETRE:
        raise Mistake("A kit is started in inches or millimetres.", do="Choose in or mm; units can be changed later.")
    is_inch = unit is Unit.INCH
    numbers = INCHES if is_inch else MILLIMETRES
    twine = "2 x 2 x 1/4" if is_inch else "50 x 50 x 6"
    filled = TEMPLATE.format(name=quoted(title), units=unit.value, twine=twine, **numbers)
    return "".join(lined_up(line) + "\n" for line in filled.splitlines())


def lined_up(line: str) -> str:
    """A line with the remark at its end moved to the column where all remarks begin."""
    setting, sign, remark = line.partition("  # ")
    return f"{setting.rstrip():<{REMARKS_BEGIN}}# {remark.strip()}" if sign else line
