"""The keys of a kit document: what each takes and means. The reader checks against them, and the reference page is made of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

__all__ = [
    "ACCURACY_KEYS",
    "EXTRA_KEYS",
    "FIT_KEYS",
    "KEEP_KEYS",
    "KIT_KEYS",
    "MACHINE_KEYS",
    "MARGIN_KEYS",
    "OFFCUT_KEYS",
    "PAPER_KEYS",
    "PART_KEYS",
    "PURPOSE_KEYS",
    "SCAN_KEYS",
    "TABLES",
    "TRIMMER_KEYS",
    "Key",
]


@dataclass(frozen=True, slots=True)
class Key:
    """One key: its name, what it takes, what it means, and an example as it is typed. `is_needed` if it must be there.

    `metric` is the example for a maker who measures in millimetres, where it is another.
    """

    name: str
    takes: str
    help: str
    example: str
    is_needed: bool = False
    metric: str = ""


def named(*keys: Key) -> Mapping[str, Key]:
    """The keys by name, in the order written."""
    return MappingProxyType({key.name: key for key in keys})


TABLES: Final = named(
    Key("kit", "one [kit]", "the kit as a whole", "[kit]", is_needed=True),
    Key("paper", "[paper.WORD], one for each paper", "a paper; parts name it by its word", "[paper.kraft]", is_needed=True),
    Key("part", "[[part]], one for each kind of part", "something that is cut and folded", "[[part]]", is_needed=True),
    Key("extra", "[[extra]], one for each kind of thing", "something that is bought and goes into the kit", "[[extra]]"),
    Key("offcut", "[[offcut]], one for each size", "pieces of a paper left over from before; used first", "[[offcut]]"),
)  # fmt: skip

KIT_KEYS: Final = named(
    Key("name", "words", "what the kit is called", '"Sunday recipe box"', is_needed=True),
    Key("units", "in, mm or cm", "the unit of every number that has none of its own; it is never guessed", '"in"', is_needed=True),
    Key("ruler", "a length", "the finest marks you work to (1/16 in or 1 mm if not said); derived sizes are rounded to it", '"1/16"',
        metric='"0.5 mm"'),
    Key("currency", "three capitals", "the currency of all prices (USD if not said)", '"EUR"'),
    Key("fit", "a table of lengths", "how much free play you like; see below", '{ lid = "1/16" }', metric='{ lid = "1 mm" }'),
    Key("accuracy", "a table", "how accurately you cut, score, fold and glue, or with what; see below", '{ cutter = "scissors" }'),
    Key("trimmer", "a table of lengths", "what your trimmer can do; see below", '{ longest-cut = "12" }',
        metric='{ longest-cut = "300 mm" }'),
    Key("machine", "a table", "the mat of your cutting machine; see below", '{ mat = "12 x 12" }', metric='{ mat = "305 x 305 mm" }'),
    Key("keep", "a table", "which offcuts you keep; see below", '{ side = "2" }', metric='{ side = "50 mm" }'),
    Key("alike", "true or false", "every kit of a batch is cut by the same layouts (false if not said)", "true"),
    Key("for", "a table of true or false", "what the kit is for, which some cautions go by; see below", "{ sale = true }"),
)  # fmt: skip

FIT_KEYS: Final = named(
    Key("lid", "a length or 0", "between a lid and what it covers, in all", '"1/32"', metric='"1 mm"'),
    Key(
        "envelope",
        "a length or 0",
        "between an envelope or pocket and the card in it, in all",
        '"1/4"',
        metric='"6 mm"',
    ),
    Key("contents", "a length or 0", "between a box and what it holds, in all", '"1/4"', metric='"6 mm"'),
    Key("band", "a length or 0", "between a band and what it goes round, in all", '"1/32"', metric='"1 mm"'),
    Key(
        "border",
        "a length or 0",
        "the edge that shows round a part lying on another, on each side",
        '"1/8"',
        metric='"3 mm"',
    ),
)

ACCURACY_KEYS: Final = named(
    Key("cutter", "a tool", "what you cut with: trimmer (if not said), knife and ruler, scissors or cutting machine", '"scissors"'),
    Key("scorer", "a tool", "scoring board (if not said), bone folder and ruler, or cutting machine", '"cutting machine"'),
    Key("cut", "a length or 0", "how far a cut may be off, either way (if not said: as is usual for the tool)", '"1/64"',
        metric='"0.4 mm"'),
    Key("score", "a length or 0", "how far a score may be off its mark, either way", '"0.2 mm"'),
    Key("fold", "a length or 0", "how far a fold may wander off its score, either way", '"0.1 mm"'),
    Key("glue", "a length or 0", "how far a glued edge may be off its place, either way", '"0.5 mm"'),
)  # fmt: skip

TRIMMER_KEYS: Final = named(
    Key("longest-cut", "a length", "the longest cut it can make (any length if not said)", '"12"', metric='"300 mm"'),
    Key(
        "narrowest",
        "a length",
        "the narrowest strip you can hold while cutting, margins not counted (any if not said)",
        '"1/2"',
        metric='"12 mm"',
    ),
    Key(
        "stack",
        "a length",
        "how thick a stack you cut in one go (one sheet at a time if not said)",
        '"1/16"',
        metric='"1.5 mm"',
    ),
)

MACHINE_KEYS: Final = named(
    Key(
        "mat",
        "two lengths",
        "width x height of its mat (a sheet of any size if not said)",
        '"12 x 12"',
        metric='"305 x 305 mm"',
    ),
    Key("edge", "a length or 0", "what it leaves all round, of the mat and of the sheet", '"1/4"', metric='"6 mm"'),
    Key("gap", "a length or 0", "the card that must stay between two pieces", '"1/16"', metric='"1.5 mm"'),
)

KEEP_KEYS: Final = named(
    Key("side", "a length", "an offcut with a shorter side than this is thrown away", '"2"', metric='"50 mm"'),
    Key(
        "area",
        "two lengths",
        "an offcut with less paper than a piece of this size, in whatever shape, is thrown away",
        '"3 x 4"',
        metric='"80 x 100 mm"',
    ),
)

PURPOSE_KEYS: Final = named(
    Key("children", "true or false", "it is meant for children", "true"),
    Key("sale", "true or false", "it will be sold", "true"),
    Key("abroad", "true or false", "it will be sent to another country", "true"),
)

PAPER_KEYS: Final = named(
    Key("label", "words", "what the paper is called on printouts (its word if not said)", '"Kraft cardstock"'),
    Key(
        "sheet",
        "two lengths, or a name",
        "width x height of a sheet, or one of the names below; the up of a print runs along the height",
        '"12 x 12"',
        is_needed=True,
        metric='"A4"',
    ),
    Key("weight", "pounds with the grade, or grams per square metre", "as the wrapper says", '"80 lb cover"', is_needed=True),
    Key("caliper", "a length, pt or µm", "the measured thickness of one sheet; without it, it is estimated from the weight", '"0.011"',
        metric='"0.28 mm"'),
    Key("grain", "long, short or unknown", "whether the fibres run along the longer or the shorter side of the sheet", '"long"'),
    Key("print", "none, all-over or one-way", "one-way has a right way up; all-over looks the same any way round", '"one-way"'),
    Key("two-sided", "true or false", "printed on both sides or coloured through, so that the back may show", "true"),
    Key("back-print", "none, all-over or one-way", "what is printed on the back, if it has a print of its own", '"one-way"'),
    Key("back-turn", "0, 90, 180 or 270", "degrees its up is turned to the left, seen when the sheet is turned over like a page", "180"),
    Key("price", "an amount", "of one sheet", '"1.10"'),
    Key("on-hand", "a whole number", "how many sheets you have", "12"),
    Key("margins", "a length, or a table of left, right, bottom, top", "edges of the sheet that cannot be used", '{ bottom = "1/2" }',
        metric='{ bottom = "12 mm" }'),
    Key("hinge", "a number from 0 to 1", "how deep in the thickness a fold turns (0.5 if not said); found with a test strip", "0.5"),
    Key("scan", "a table", "a picture of the sheet that lies in your workshop; see below", '{ picture = "gingham" }'),
    Key("laid", "a list of sheets, each a list of blanks", "blanks whose place on a sheet you chose; see below", '[["lid at 1 x 2 1/2"]]',
        metric='[["lid at 25 mm x 60 mm"]]'),
)  # fmt: skip

SCAN_KEYS: Final = named(
    Key("picture", "a word", "the picture's word in the workshop", '"gingham"', is_needed=True),
    Key("shows", "two lengths", "width x height of what it shows, the paper's up upwards (the whole sheet if not said)", '"8 1/2 x 11"',
        metric='"210 x 297 mm"'),
    Key("at", "two lengths or 0", "where the lower left corner of that lies on the sheet (0 x 0 if not said)", '"0 x 1/2"',
        metric='"0 x 12 mm"'),
    Key("up", "top, right, bottom or left", "the edge of the picture at which the paper's up is (top if not said)", '"left"'),
)  # fmt: skip

MARGIN_KEYS: Final = named(
    Key("left", "a length or 0", "the left edge", '"1/4"', metric='"6 mm"'),
    Key("right", "a length or 0", "the right edge", '"1/4"', metric='"6 mm"'),
    Key("bottom", "a length or 0", "the lower edge", '"1/2"', metric='"12 mm"'),
    Key("top", "a length or 0", "the upper edge", '"1/4"', metric='"6 mm"'),
)

OFFCUT_KEYS: Final = named(
    Key("paper", "a paper's word", "the paper that it is a piece of", '"kraft"', is_needed=True),
    Key("size", "two lengths", "width x height, lying as the sheet does; a print points up the height", '"5 x 12"', is_needed=True,
        metric='"130 x 305 mm"'),
    Key("count", "a whole number", "how many of this size there are (1 if not said)", "3"),
    Key("margins", "a length, or a table of left, right, bottom, top", "edges that are no use: white, torn", '{ left = "1/4" }',
        metric='{ left = "6 mm" }'),
)  # fmt: skip

PART_KEYS: Final = named(
    Key("name", "words", "what the part is called; each name is used once", '"recipe card"', is_needed=True),
    Key("form", "a form's name", "how the part is made; the forms stand below", '"flat card"', is_needed=True),
    Key("paper", "a paper's word", "what it is cut from", '"kraft"', is_needed=True),
    Key("quantity", "a whole number", "how many go into one kit (1 if not said)", "24"),
    Key("size", "lengths", "score to score: blank and scores come out in these numbers", '"6 x 4"', metric='"150 x 100 mm"'),
    Key("inside", "lengths", "the free room inside; thickness is reckoned in, and it is rounded up", '"6 1/4 x 4 1/4 x 2"',
        metric='"155 x 105 x 50 mm"'),
    Key("outside", "lengths", "over all; thickness is reckoned in, and it is rounded down", '"6 1/2 x 4 1/2 x 2 1/4"',
        metric='"160 x 110 x 55 mm"'),
    Key("on", "a part's name", "what it lies on or is glued to; its size follows, with an even border", '"card"'),
    Key("face", "outside or inside", "on which side of a box or lid it is glued (outside if not said); inside it takes room", '"inside"'),
    Key("border", "a length", "the edge that shows round it on each side, where its size follows from what it lies on", '"1/8"',
        metric='"3 mm"'),
    Key(
        "holds",
        "names of parts and extras",
        "what goes into it, with all that is in or on that and not named here as well; its size follows",
        '["recipe card", "pencil"]',
    ),
    Key("covers", "a part's name", "what it is a lid for; its size follows", '"box"'),
    Key("wraps", "a part's name", "what it goes round as a band; its size follows", '"box"'),
    Key(
        "goes",
        "round the walls, over the top or end to end",
        "which way a band goes (round the walls if not said); over the top: front to back, end to end: side to side",
        '"over the top"',
    ),
    Key("turn", "0, 90, 180 or 270", "degrees that the print is turned to the left on the blank (0 if not said)", "180"),
    Key("grain", "width or height", "along which side of the blank the grain must run, where that matters to you", '"height"'),
    Key("contents", "standing or lying", "how flat things are put into it (as is usual for the form if not said)", '"lying"'),
    Key(
        "post",
        "a list of the words below",
        "what the post office should know of it, filled and closed, that its sizes do not say",
        '["clasp, string or button"]',
    ),
)  # fmt: skip

EXTRA_KEYS: Final = named(
    Key("name", "words", "what the thing is called", '"pencil"', is_needed=True),
    Key("size", "three lengths", "its three sides as it is packed", '"7 x 5/16 x 5/16"', is_needed=True, metric='"180 x 8 x 8 mm"'),
    Key("quantity", "a whole number", "how many go into one kit (1 if not said)", "1"),
    Key(
        "packed",
        "flat or beside",
        "flat: in the stack with the cards; beside: next to the stack or on it, wherever there is room (beside if not said)",
        '"beside"',
    ),
    Key("weight", "grams or ounces", "of one piece", '"6 g"'),
    Key("kind", "one of the words below", "what sort of thing it is, for the cautions; none for an ordinary thing", '"ribbon"'),
    Key("length", "a length", "of a ribbon, unwound, for the cautions; a ribbon whose length is not said counts as long", '"18"',
        metric='"450 mm"'),
    Key("loop", "a length", "of a ribbon that is tied to a ring: the way round it, for the cautions", '"16"', metric='"400 mm"'),
    Key("film", "a length", "of a bag: the thickness of one wall; a film that is not said counts as thin", '"0.05 mm"'),
    Key("label-kept", "true or false", "of a glue, ink, paint or spray: you have its supplier's own label or sheet", "true"),
)  # fmt: skip
