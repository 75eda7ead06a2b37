"""Reading `[paper.WORD]`: one paper of a kit document."""

from __future__ import annotations

import re
from fractions import Fraction

from kitwright.errors import Mistake
from kitwright.kit.entry import Entry
from kitwright.kit.keys import MARGIN_KEYS, PAPER_KEYS, SCAN_KEYS
from kitwright.kit.sheet_names import sheet_in
from kitwright.kit.values import (
    length_or_zero_in,
    number_text,
    one_of,
    place_in,
    quarter_turns,
    share,
    text,
    whole,
    yes_or_no,
)
from kitwright.measure import Money, Unit, parse_money
from kitwright.paper import (
    Caliper,
    Grain,
    Margins,
    Paper,
    Print,
    Scan,
    UpEdge,
    estimate_caliper,
    find_grade,
    parse_caliper,
    parse_weight,
)

__all__ = ["read_paper"]

MOST_SHEETS = 1_000_000
PICTURE_WORD = re.compile(r"[a-z0-9](?:[a-z0-9-]{0,58}[a-z0-9])?")
"""What the word of a picture may be."""


def read_paper(entry: Entry, word: str, *, unit: Unit, currency: str) -> Paper | None:
    """One paper; None where it has a mistake, which has been noted."""
    before = len(entry.notes.mistakes)
    entry = entry.only(PAPER_KEYS)
    label = entry.read("label", text)
    sheet = entry.need(PAPER_KEYS["sheet"], sheet_in(unit))
    weight = entry.need(PAPER_KEYS["weight"], weight_text, do=weight_hint(entry))
    caliper = entry.read("caliper", lambda value: parse_caliper(number_text(value), unit))
    grain = entry.read("grain", one_of(Grain))
    print_ = entry.read("print", one_of(Print))
    two_sided = entry.read("two-sided", yes_or_no)
    back = entry.read("back-print", one_of(Print))
    back_turn = entry.read("back-turn", quarter_turns)
    price = entry.read("price", lambda value: read_price(value, currency))
    on_hand = entry.read("on-hand", whole(least=0, most=MOST_SHEETS))
    margins = read_margins(entry, unit)
    hinge = entry.read("hinge", share)
    scan = read_scan(entry, unit)
    if len(entry.notes.mistakes) > before or sheet is None or weight is None:
        return None
    try:
        return Paper(
            key=word,
            label=label or word,
            sheet_width_mm=sheet[0],
            sheet_height_mm=sheet[1],
            gsm=parse_weight(weight),
            caliper=caliper or estimated(weight),
            grain=Grain(grain or Grain.UNKNOWN),
            print_=Print(print_ or Print.NONE),
            two_sided=two_sided or False,
            back=Print(back or Print.NONE),
            back_turn=back_turn or 0,
            price=price,
            on_hand=on_hand,
            margins=margins,
            hinge_depth=0.5 if hinge is None else hinge,
            scan=scan,
        )
    except Mistake as mistake:
        entry.add(mistake)
        return None


def weight_hint(entry: Entry) -> str:
    """What to do about a missing weight, more exactly where at least the caliper is there."""
    if "caliper" in entry.values:
        return 'The caliper says how thick it is, not how heavy. Add weight = "80 lb cover" or "216 gsm" too.'
    return 'Add weight = "80 lb cover" or "216 gsm", as the wrapper says.'


def weight_text(value: object) -> str:
    """A weight as it was said, once it is sure that it can be read."""
    said = number_text(value)
    parse_weight(said)
    return said


def estimated(weight: str) -> Caliper:
    """The likely caliper of a paper of this weight."""
    return estimate_caliper(parse_weight(weight), find_grade(weight))


def read_price(value: object, currency: str) -> Money:
    """The price of one sheet."""
    return parse_money(number_text(value), currency)


def read_margins(entry: Entry, unit: Unit) -> Margins:
    """The margins of a sheet, one for all edges or one for each; none where they have a mistake."""
    length = length_or_zero_in(unit)
    if not isinstance(entry.values.get("margins"), dict):
        margin = entry.read("margins", length) or Fraction(0)
        return Margins(left=margin, right=margin, bottom=margin, top=margin)
    edges = entry.table("margins")
    if edges is None:
        return Margins()
    edges = edges.only(MARGIN_KEYS)
    return Margins(**{edge: edges.read(edge, length) or Fraction(0) for edge in MARGIN_KEYS})


def read_scan(entry: Entry, unit: Unit) -> Scan | None:
    """The picture of a sheet; None where there is none, or it has a mistake."""
    table = entry.table("scan")
    if table is None:
        return None
    table = table.only(SCAN_KEYS)
    picture = table.need(SCAN_KEYS["picture"], picture_word)
    shows = table.read("shows", sheet_in(unit))
    at = table.read("at", place_in(unit))
    up = table.read("up", one_of(UpEdge))
    if picture is None:
        return None
    return Scan(
        picture=picture,
        shows=None if shows is None else (shows[0], shows[1]),
        at=at or (Fraction(0), Fraction(0)),
        up=UpEdge(up or UpEdge.TOP),
    )


def picture_word(value: object) -> str:
    """The word of a picture: small letters, digits and hyphens."""
    said = text(value)
    if not PICTURE_WORD.fullmatch(said):
        raise Mistake(
            f"{said[:60]!r} is no word of a picture.",
            do="Write small letters, digits and hyphens, as the workshop does.",
        )
    return said
