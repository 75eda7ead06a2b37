"""From contents to cautions. Each rule is one small function; none of them can take a caution away again."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from kitwright.errors import Mistake
from kitwright.proof.cautions import words
from kitwright.proof.cautions.bags import BAG_SOURCE, BagTrigger, screen_bag
from kitwright.proof.cautions.caution import Caution, Place, Topic
from kitwright.proof.cautions.contents import Contents, Material, Piece, ToolKind
from kitwright.proof.cautions.small_parts import GAUGE_SOURCE, ScreenResult, screen_small_part

__all__ = ["LONGEST_FREE_CORD", "LONGEST_LOOP", "derive_cautions"]

LONGEST_FREE_CORD: Final = 220
"""Free length of a cord in mm above which it is taken as long (EN 71-1:2005+A8:2009, 5.4, as quoted by a test house)."""

LONGEST_LOOP: Final = 380
"""Way round a loop in mm above which it is taken as large (the same place)."""

CORD_SOURCE: Final = "EN 71-1:2005+A8:2009, 5.4, second-hand: free length 220 mm, loop 380 mm"
COMMON: Final = "common practice, no source"

EDGES: Final = frozenset({ToolKind.KNIFE, ToolKind.TRIMMER})
POINTS: Final = frozenset({ToolKind.SCISSORS, ToolKind.AWL})
HOT: Final = frozenset({ToolKind.HEAT_TOOL, ToolKind.GLUE_GUN})
BOTH: Final = (Place.BENCH, Place.BOOKLET)


def derive_cautions(contents: Contents) -> tuple[Caution, ...]:
    """All the cautions that these contents call for, gravest topic first; the general one is always among them, last.

    Raises `Mistake` for a size, film or length that is not above zero.
    """
    found = [
        *bag_cautions(contents),
        *magnet_cautions(contents),
        *small_part_cautions(contents),
        *cord_cautions(contents),
        *sharp_cautions(contents),
        *heat_cautions(contents),
        *supply_cautions(contents),
        *circumstance_cautions(contents),
    ]
    return tuple(sorted(found, key=lambda caution: caution.topic.rank))


def bag_cautions(contents: Contents) -> Iterator[Caution]:
    """One caution for each bag that the usual rules name or nearly name, for its type size goes by its own size."""
    for bag in contents.bags:
        screen = screen_bag(bag)
        canada = []
        if contents.for_children and screen.canada_asks_for_warning:
            canada.append(words.BAG_CANADA)
        if contents.for_children and screen.canada_film_too_thin:
            canada.append(words.BAG_CANADA_THIN)
        if screen.trigger is BagTrigger.NONE and not canada:
            continue
        yield Caution(
            code="bag" if screen.trigger is BagTrigger.WARN else "bag-advised",
            topic=Topic.BAG,
            text=words.BAG,
            ask=" ".join((*canada, words.ASK_BAG)),
            because=BAG_SOURCE,
            places=(Place.LABEL, Place.BOOKLET),
            about=(bag.name,),
            least_points=screen.points,
        )


def may_be_small(piece: Piece) -> bool:
    """Whether the piece counts for the small-parts rules and may fit the gauge; a piece of unknown size does."""
    if piece.material is not Material.OTHER:
        return False
    if piece.size is None:
        return True
    screen = screen_small_part(
        piece.size, outline=piece.outline, rigidity=piece.rigidity, least_width=piece.least_width
    )
    return screen is ScreenResult.MAY_FIT


def magnet_cautions(contents: Contents) -> Iterator[Caution]:
    """One caution for all the magnets, whatever their size and strength: the strength is not known here."""
    names = tuple(piece.name for piece in contents.pieces if piece.is_magnet)
    if names:
        yield Caution(
            code="magnet",
            topic=Topic.MAGNET,
            text=words.MAGNET,
            ask=words.ASK_MAGNET,
            because="loose magnets that may fit the small-parts gauge, 16 CFR 1262; the strength is not known here",
            places=BOTH,
            about=names,
        )


def small_part_cautions(contents: Contents) -> Iterator[Caution]:
    """One caution for all the pieces that may fit the small-parts gauge."""
    names = tuple(piece.name for piece in contents.pieces if may_be_small(piece))
    if names:
        yield Caution(
            code="small-parts",
            topic=Topic.SMALL_PARTS,
            text=words.SMALL_PARTS,
            ask=words.ASK_LABORATORY if contents.for_children else words.ASK_GAUGE,
            because=GAUGE_SOURCE,
            places=(Place.LABEL, Place.BOOKLET),
            about=names,
        )


def cord_cautions(contents: Contents) -> Iterator[Caution]:
    """One caution for all ribbons and cords that are long or of unknown length, and one for large loops."""
    for cord in contents.cords:
        if (cord.free_length is not None and cord.free_length < 0) or (cord.loop is not None and cord.loop <= 0):
            raise Mistake(f"The length of {cord.name!r} is below zero.", do="Measure the longest free end.")
    unknown = tuple(cord.name for cord in contents.cords if cord.free_length is None)
    long = tuple(
        cord.name for cord in contents.cords if cord.free_length is None or cord.free_length > LONGEST_FREE_CORD
    )
    unsaid = (words.ASK_CORD_LENGTH.format(names=", ".join(unknown)),) if unknown else ()
    looped = tuple(cord.name for cord in contents.cords if cord.loop is not None and cord.loop > LONGEST_LOOP)
    for code, text, names, asked in (
        ("long-ribbon", words.CORD, long, unsaid),
        ("large-loop", words.CORD_LOOP, looped, ()),
    ):
        if names:
            yield Caution(
                code=code,
                topic=Topic.LONG_RIBBON,
                text=text,
                ask=" ".join((*asked, words.ASK_CORD)),
                because=CORD_SOURCE,
                places=BOTH,
                about=names,
            )


def sharp_cautions(contents: Contents) -> Iterator[Caution]:
    """How to handle blades and points at the bench, and a line for the recipient about what is sharp in the kit."""
    edges = tuple(tool.name for tool in contents.tools if tool.kind in EDGES)
    points = tuple(tool.name for tool in contents.tools if tool.kind in POINTS)
    for code, text, names, because in (
        ("blade", words.BLADE_BENCH, edges, "teachers' guidance on cutting tools (NSEAD)"),
        ("point", words.POINT_BENCH, points, COMMON),
    ):
        if names:
            yield Caution(
                code=code,
                topic=Topic.BLADE,
                text=text,
                ask=words.ASK_SHARP,
                because=because,
                places=(Place.BENCH,),
                about=names,
            )
    in_kit = tuple(tool.name for tool in contents.tools if tool.in_kit and tool.kind in EDGES | POINTS)
    in_kit += tuple(piece.name for piece in contents.pieces if piece.is_sharp)
    if in_kit:
        yield Caution(
            code="sharp-in-kit",
            topic=Topic.BLADE,
            text=words.SHARP_IN_KIT,
            ask=words.ASK_SHARP_CHILD if contents.for_children else words.ASK_SHARP,
            because="sharp points and edges, 16 CFR 1500.48 and 1500.49 (2007)",
            places=(Place.LABEL, Place.BOOKLET),
            about=in_kit,
        )


def heat_cautions(contents: Contents) -> Iterator[Caution]:
    """One caution for all the hot tools."""
    hot = tuple(tool for tool in contents.tools if tool.kind in HOT)
    if hot:
        yield Caution(
            code="heat",
            topic=Topic.HEAT,
            text=words.HEAT,
            ask=words.ASK_HEAT,
            because=COMMON,
            places=BOTH if any(tool.in_kit for tool in hot) else (Place.BENCH,),
            about=tuple(tool.name for tool in hot),
        )


def supply_cautions(contents: Contents) -> Iterator[Caution]:
    """One caution for all glues, inks, paints and sprays, with the names of those whose supplier's statement is missing."""
    if not contents.supplies:
        return
    missing = tuple(supply.name for supply in contents.supplies if not supply.has_statement)
    listed = (words.NO_STATEMENT.format(names=", ".join(missing)),) if missing else ()
    yield Caution(
        code="supply",
        topic=Topic.SUPPLY,
        text=" ".join((words.SUPPLY, *listed)),
        ask=words.ASK_SUPPLY,
        because="art materials keep their maker's own statement, 16 CFR 1500.14(b)(8)",
        places=BOTH if any(supply.in_kit for supply in contents.supplies) else (Place.BENCH,),
        about=tuple(supply.name for supply in contents.supplies),
    )


def circumstance_cautions(contents: Contents) -> Iterator[Caution]:
    """What follows from the maker's own answers, and the general line that is always there."""
    if contents.for_children:
        yield Caution(
            code="for-children",
            topic=Topic.CHILDREN,
            text=words.CHILDREN,
            ask=words.ASK_LABORATORY,
            because="children's products, 16 CFR 1200.2; tracking labels, CPSIA section 103",
            places=(Place.BENCH,),
        )
    if contents.for_sale:
        yield Caution(
            code="selling",
            topic=Topic.SELLING,
            text=words.SELLING,
            ask=words.ASK_SELLING,
            because=COMMON,
            places=(Place.BENCH,),
        )
    if contents.sent_abroad:
        yield Caution(
            code="abroad",
            topic=Topic.ABROAD,
            text=words.ABROAD,
            ask=words.ASK_ABROAD,
            because="for example Regulation (EU) 2023/988, from 13 Dec 2024",
            places=(Place.BENCH,),
        )
    yield Caution(
        code="general",
        topic=Topic.GENERAL,
        text=words.GENERAL,
        ask=words.ASK_AUTHORITY,
        because=COMMON,
        places=BOTH,
    )
