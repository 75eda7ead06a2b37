"""Papers and things that are bought, as fields of forms: as they stand in the document, and for new ones."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from kitwright.catalogue import CATALOGUE
from kitwright.kit import EXTRA_KINDS, BuiltKit, Kit, Machine, said_in
from kitwright.measure import Unit
from kitwright.web.fields import Field, Within
from kitwright.web.new_kit import HINTS

__all__ = [
    "extra_fields",
    "machine_fields",
    "new_extra",
    "new_offcut",
    "new_paper",
    "new_part",
    "offcut_fields",
    "on_hand_fields",
    "paper_fields",
]

GRAINS: Final = (
    ("", "not known"),
    ("long", "along the longer side"),
    ("short", "along the shorter side"),
)
PRINTS: Final = (("", "none"), ("all-over", "all over, any way up"), ("one-way", "with a right way up"))
TURNS: Final = (("", "not"), *((f"{quarter * 90}", f"{quarter * 90}° to the left") for quarter in (1, 2, 3)))
BACKS: Final = (("", "plain white or not looked at"), ("true", "may show"))
PLACES: Final = (("beside", "next to the cards"), ("flat", "flat, in the stack"))
LABELS: Final = (("", "not kept, or no such thing"), ("true", "I keep it"))
EDGES: Final = MappingProxyType({"left": "Left", "right": "Right", "top": "Top", "bottom": "Bottom"})
SHEET_EDGES: Final = Within(
    "margins",
    "Edges that are no use",
    "A white edge or a torn strip: nothing is laid there. As the sheet lies before you, the print's up away from you.",
)
OFFCUT_EDGES: Final = Within("margins", SHEET_EDGES.legend, "White, torn or cut askew: nothing is laid there.")
MACHINE: Final = Within("machine", "Your machine")
KINDS: Final = (("", "an ordinary thing"), *((kind, kind) for kind in EXTRA_KINDS))


def paper_fields(document: str, word: str, built: BuiltKit) -> tuple[Field, ...]:
    """The fields of a paper that the kit has."""
    paper = built.kit.papers[word]
    ruler = built.kit.ruler
    usual = {"label": word, "caliper": f"about {ruler.near(paper.caliper.mm)}" if paper.caliper.is_estimate else ""}
    said = said_in(document, "paper", word)
    return papers(built.kit.unit, built.kit.currency, said, usual, edges_in(document, "paper", word))


def new_paper(built: BuiltKit) -> tuple[Field, ...]:
    """The fields for another paper, with a common sheet and weight."""
    is_inch = built.kit.unit is Unit.INCH
    said = {"sheet": "8 1/2 x 11" if is_inch else "210 x 297 mm", "weight": "80 lb cover" if is_inch else "220 gsm"}
    return papers(built.kit.unit, built.kit.currency, said, {}, {})


def papers(
    unit: Unit, currency: str, said: Mapping[str, str], usual: Mapping[str, str], edges: Mapping[str, str]
) -> tuple[Field, ...]:
    """The fields of any paper."""

    def of(key: str, label: str, help: str = "", choices: tuple[tuple[str, str], ...] = ()) -> Field:
        value = said.get(key, "")
        if choices and value in ("false", "none", "unknown", "0"):
            value = ""
        return Field(key, label, value, usual=usual.get(key, ""), help=help, choices=choices)

    return (
        of("label", "Called"),
        of("sheet", f"Sheet, width × height, {unit.value}", "As it lies before you, the print's up away from you."),
        of("weight", "Weight, as the wrapper says", "80 lb cover, or 220 gsm"),
        of("print", "Print", choices=PRINTS),
        of("grain", "Grain", choices=GRAINS),
        of("caliper", "Thickness of one sheet", "If you can measure it."),
        of("two-sided", "Its back", choices=BACKS),
        of("back-print", "Print on its back", choices=PRINTS),
        of("back-turn", "The back’s up is turned", "Seen when the sheet is turned over like a page.", TURNS),
        of("price", f"Price of a sheet, {currency}"),
        of("on-hand", "Sheets on hand"),
        *edge_fields(SHEET_EDGES, unit, edges),
    )


def edges_in(document: str, table: str, name: str) -> Mapping[str, str]:
    """What is said of the edges of a sheet or an offcut that are no use, by edge; one length may be said for all four."""
    for_all = said_in(document, table, name).get("margins")
    return said_in(document, table, name, inside="margins") if for_all is None else dict.fromkeys(EDGES, for_all)


def edge_fields(within: Within, unit: Unit, said: Mapping[str, str]) -> tuple[Field, ...]:
    """A field for each edge, as the sheet lies before the maker."""
    return tuple(
        Field(key, f"{label}, {unit.value}", said.get(key, ""), usual="0", within=within)
        for key, label in EDGES.items()
    )


def on_hand_fields(document: str, word: str) -> tuple[Field, ...]:
    """How many sheets of a paper there are."""
    return (Field("on-hand", "Sheets on hand", said_in(document, "paper", word).get("on-hand", ""), usual="not said"),)


def offcut_fields(document: str, number: int, kit: Kit) -> tuple[Field, ...]:
    """The fields of an offcut, by its place among them."""
    return offcuts(kit, said_in(document, "offcut", str(number)), edges_in(document, "offcut", str(number)))


def new_offcut(kit: Kit) -> tuple[Field, ...]:
    """The fields for one more size of offcut."""
    return offcuts(kit, {"paper": next(iter(kit.papers), "")}, {})


def offcuts(kit: Kit, said: Mapping[str, str], edges: Mapping[str, str]) -> tuple[Field, ...]:
    """The fields of any offcut."""
    papers = tuple((key, paper.label) for key, paper in kit.papers.items())
    return (
        Field("paper", "A piece of", said.get("paper", ""), choices=papers),
        Field(
            "size",
            f"Width × height, {kit.unit.value}",
            said.get("size", ""),
            help="Lying as its sheet did; the print points up the height.",
        ),
        Field("count", "How many", said.get("count", ""), usual="1"),
        *edge_fields(OFFCUT_EDGES, kit.unit, edges),
    )


def machine_fields(document: str, kit: Kit) -> tuple[Field, ...]:
    """The fields of the kit's cutting machine."""
    said, usual, unit = said_in(document, "kit", "", inside="machine"), Machine.usual(kit.unit), kit.unit.value
    return (
        Field("mat", f"Mat, width × height, {unit}", said.get("mat", ""), usual="as the sheet", within=MACHINE),
        Field(
            "edge",
            f"Edge it leaves, {unit}",
            said.get("edge", ""),
            usual=kit.ruler.format(usual.edge),
            help="All round, of the mat and of the sheet.",
            within=MACHINE,
        ),
        Field(
            "gap",
            f"Card between two pieces, {unit}",
            said.get("gap", ""),
            usual=kit.ruler.format(usual.gap),
            within=MACHINE,
        ),
    )


def extra_fields(document: str, name: str, unit: Unit) -> tuple[Field, ...]:
    """The fields of a thing that is bought."""
    return extras(unit, said_in(document, "extra", name))


def new_extra(unit: Unit) -> tuple[Field, ...]:
    """The fields for one more thing that is bought."""
    return extras(unit, {"quantity": "1"})


def extras(unit: Unit, said: Mapping[str, str]) -> tuple[Field, ...]:
    """The fields of any thing that is bought."""
    like = HINTS[unit.value]["thing_size_1"]
    return (
        Field("name", "Called", said.get("name", "")),
        Field("size", f"Its three sides, {unit.value}", said.get("size", ""), help=like),
        Field("quantity", "How many in a kit", said.get("quantity", ""), usual="1"),
        Field("packed", "Packed", said.get("packed", "beside"), choices=PLACES),
        Field("weight", "Weight of one", said.get("weight", ""), help="6 g or 0.2 oz"),
        Field("kind", "What sort of thing", said.get("kind", ""), help="For the cautions.", choices=KINDS),
        Field("length", f"Length of a ribbon, {unit.value}", said.get("length", ""), help="Unwound. For the cautions."),
        Field("loop", f"Way round its loop, {unit.value}", said.get("loop", ""), help="Of a ribbon tied to a ring."),
        Field("film", "Thickness of a bag's wall", said.get("film", ""), help="0.05 mm, for instance."),
        Field("label-kept", "Label of a glue, ink, paint or spray", said.get("label-kept", ""), choices=LABELS),
    )


def new_part(built: BuiltKit) -> tuple[Field, ...]:
    """The fields for one more part, its relations apart."""
    forms = tuple((key, each.title) for key, each in CATALOGUE.items())
    papers = tuple((key, paper.label) for key, paper in built.kit.papers.items())
    return (
        Field("name", "Called", ""),
        Field("form", "It is a", next(iter(CATALOGUE)), choices=forms),
        Field("paper", "Cut from", papers[0][0] if papers else "", choices=papers),
        Field("quantity", "How many in a kit", "1"),
        Field(
            "size",
            f"Its size, {built.kit.unit.value}",
            "",
            help="Score to score, like 5 1/2 x 4 1/4. Leave it empty if it follows from what is chosen below.",
        ),
    )
