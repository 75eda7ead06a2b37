"""Pairs of kit documents: one that has a kind of finding, and the same with one thing changed that has it no more."""

from __future__ import annotations

from dataclasses import dataclass

from tests.kit.documents import head, part

from kitwright.findings import Severity

__all__ = ["PAIRS", "Pair"]


@dataclass(frozen=True, slots=True)
class Pair:
    """A kind of finding, how grave it is, a document that has it, and what is put in whose place so that it is gone.

    Where the form itself refuses the numbers, the document cannot be built at all, and the finding is told as a mistake.
    """

    code: str
    severity: Severity
    document: str
    bad: str
    good: str
    is_refused: bool = False

    @property
    def text(self) -> str:
        """The document with the finding."""
        assert self.document.count(self.bad) == 1, (self.code, self.bad)
        return self.document

    @property
    def changed(self) -> str:
        """The document without it."""
        return self.document.replace(self.bad, self.good)


FAIL, WARNING, NOTE, UNKNOWN = Severity.FAIL, Severity.WARNING, Severity.NOTE, Severity.UNKNOWN

TRAY = head(units="mm", ruler="0.5", sheet="600 x 600", caliper="0.3") + part("box", "tray", size="100 x 60 x 40")
CARD = head(units="mm", ruler="0.5", sheet="600 x 600", caliper="0.3") + part("card", "flat card", size="100 x 70")
ONE_WAY = head(more='print = "one-way"')
GRAIN = head(sheet="12 x 11", more='grain = "long"')
HALF_FOLD = part("card", "half-fold card", size="5 1/2 x 4 1/4", fold="top", grain="height")


def lid(size: str, **more: str) -> str:
    return TRAY + part("lid", "lift-off lid", covers="box", size=size, **more)


def enveloped(cards: int) -> str:
    """So many cards of 0.3 mm in one envelope."""
    card = part("card", "flat card", size="100 x 70", quantity=cards)
    return CARD.partition("[[part]]")[0] + card + part("e", "side-seam envelope", holds="card")


def pockets(count: int, wide: str) -> str:
    """So many empty pockets of a width on a card of 100 x 70."""
    return CARD + part("p", "pocket", on="card", size=f"{wide} x 30", tab="10", notch="5", quantity=count)


def trimmed(limit: str, *, offcut: str = "") -> str:
    """A card of 100 x 250 on A4, cut with a trimmer: ends first takes cuts of 210 and 250, with 110 at least to hold."""
    text = head(units="mm", ruler="1", sheet="A4", caliper="0.3").replace(
        "[paper.card]", f"[kit.trimmer]\n{limit}\n[paper.card]"
    )
    on_hand = f'[[offcut]]\npaper = "card"\nsize = "{offcut}"\n' if offcut else ""
    return text + on_hand + part("card", "flat card", size="100 x 250")


def trial(slip: str) -> str:
    return head() + part("piece", "trial piece", size="60 mm", slip=slip)


def refused(code: str, document: str, bad: str, good: str) -> Pair:
    return Pair(code, FAIL, document, bad, good, is_refused=True)


def sized(form: str, size: str, key: str, value: str, **more: str) -> str:
    return head(units="mm", ruler="0.5", sheet="900 x 900", caliper="0.3") + part(
        "p", form, size=size, **{key: value}, **more
    )


PAIRS = (
    # fits
    Pair("lid-fit-width", FAIL, lid("100 x 62 x 20"), "100 x 62 x", "102 x 62 x"),
    Pair("lid-fit-width", WARNING, lid("110 x 62 x 20"), "110 x 62 x", "102.5 x 62 x"),
    Pair("lid-fit-depth", FAIL, lid("102.5 x 60 x 20"), "5 x 60 x", "5 x 62 x"),
    Pair(
        "band-fit-width",
        FAIL,
        TRAY + part("band", "belly band", wraps="box", size="99 x 62", height="30"),
        "99 x 62",
        "102.5 x 62",
    ),
    Pair(
        "band-fit-depth",
        FAIL,
        TRAY + part("band", "belly band", wraps="box", size="102.5 x 59", height="30"),
        "x 59",
        "x 62.5",
    ),
    Pair("lid-height", FAIL, lid("102 x 62 x 45"), "62 x 45", "62 x 20"),
    Pair("lid-height", NOTE, lid("102 x 62 x 35"), "62 x 35", "62 x 20"),
    Pair(
        "band-place",
        FAIL,
        TRAY + part("band", "belly band", wraps="box", size="102.5 x 62.5", height="45"),
        'height = "45"',
        'height = "30"',
    ),
    Pair("layers-in-the-way", FAIL, lid("101.1 x 62 x 20"), "101.1 x", "102 x"),
    Pair(
        "envelope-fit",
        FAIL,
        CARD + part("e", "side-seam envelope", holds="card", size="99 x 75"),
        "99 x 75",
        "108 x 76",
    ),
    Pair(
        "envelope-fit",
        NOTE,
        CARD + part("e", "side-seam envelope", holds="card", size="130 x 90"),
        "130 x 90",
        "108 x 76",
    ),
    Pair("thickness", FAIL, enveloped(70), "quantity = 70", "quantity = 20"),
    Pair("thickness", WARNING, enveloped(22), "quantity = 22", "quantity = 20"),
    Pair("pocket-fit", FAIL, CARD + part("p", "pocket", holds="card", size="69 x 80"), "69 x 80", "108 x 76"),
    Pair("pocket-fit", NOTE, CARD + part("p", "pocket", holds="card", size="108 x 95"), "108 x 95", "108 x 76"),
    Pair(
        "counted", NOTE, enveloped(5) + part("e2", "side-seam envelope", holds="card"), "quantity = 5", "quantity = 4"
    ),
    Pair("counted", NOTE, lid("102 x 62 x 20") + "quantity = 2\n", "quantity = 2", "quantity = 1"),
    Pair("side-by-side", FAIL, pockets(4, "51"), "51 x 30", "45 x 30"),
    Pair("side-by-side", WARNING, pockets(4, "50"), "50 x 30", "45 x 30"),
    Pair("mat-on-card", FAIL, CARD + part("m", "mat", on="card", size="104 x 60"), "104 x 60", "94 x 64"),
    Pair("mat-on-card", NOTE, CARD + part("m", "mat", on="card", size="90 x 64"), "90 x 64", "94 x 64"),
    Pair("contents-fit", FAIL, CARD + part("b", "tray", holds="card", size="90 x 76 x 20"), "90 x 76", "108 x 78"),
    Pair("contents-fit", NOTE, CARD + part("b", "tray", holds="card", size="104 x 78 x 20"), "104 x 78", "108 x 78"),
    # sheet and ruler
    Pair("blank-on-sheet", FAIL, head(sheet="8 x 8") + part("c", "flat card", size="9 x 4"), "9 x 4", "8 x 4"),
    Pair("blank-in-reach", FAIL, trimmed('longest-cut = "200"'), '"200"', '"250"'),
    Pair("blank-in-reach", FAIL, trimmed('narrowest = "111"'), '"111"', '"110"'),
    Pair("blank-in-reach", NOTE, trimmed('longest-cut = "200"', offcut="100 x 260"), '"200"', '"250"'),
    Pair("on-the-ruler", NOTE, head() + part("c", "flat card", size="5 1/32 x 4"), "5 1/32", "5 1/16"),
    Pair(
        "caliper-estimated",
        NOTE,
        '[kit]\nname = "k"\nunits = "in"\n[paper.card]\nsheet = "12 x 12"\nweight = "80 lb cover"\n'
        + part("c", "flat card", size="5 x 4"),
        'weight = "80 lb cover"\n',
        'weight = "80 lb cover"\ncaliper = "0.011"\n',
    ),
    # print and grain
    Pair(
        "print-up-front",
        FAIL,
        ONE_WAY + part("t", "half-fold card", size="5 x 4", turn=180),
        "turn = 180",
        "turn = 0",
    ),
    Pair(
        "print-up-back-wall",
        WARNING,
        ONE_WAY + part("t", "tray", size="5 x 4 x 2", turn=90),
        'print = "one-way"',
        'print = "all-over"',
    ),
    Pair(
        "print-up-elsewhere",
        NOTE,
        ONE_WAY + part("t", "tray", size="5 x 4 x 2", turn=180),
        'print = "one-way"',
        'print = "all-over"',
    ),
    Pair("scores-and-grain", WARNING, GRAIN + HALF_FOLD, 'grain = "height"', 'grain = "width"'),
    Pair(
        "grain-as-asked",
        FAIL,
        GRAIN.replace('grain = "long"', 'grain = "long"\nprint = "one-way"') + HALF_FOLD,
        'grain = "height"',
        "",
    ),
    Pair(
        "grain-as-asked",
        NOTE,
        GRAIN.replace('grain = "long"', 'grain = "unknown"') + HALF_FOLD,
        'grain = "unknown"',
        'grain = "long"',
    ),
    Pair(
        "prints-agree",
        WARNING,
        ONE_WAY
        + part("box", "two-half wrap box", size="6 x 2 x 5")
        + part("band", "belly band", wraps="box", height="2", turn=180),
        "turn = 180",
        "turn = 0",
    ),
    Pair(
        "back-shows",
        NOTE,
        head(more='print = "all-over"').replace("two-sided = true", "two-sided = false", 1)
        + part("t", "tray", size="5 x 4 x 2"),
        "two-sided = false",
        "two-sided = true",
    ),
    Pair(
        "back-print-up",
        NOTE,
        head(more='back-print = "one-way"') + part("t", "tray", size="5 x 4 x 2"),
        'back-print = "one-way"',
        'back-print = "all-over"',
    ),
    Pair(
        "too-rough",
        FAIL,
        CARD.replace("100 x 70", "100 x 20").replace("[paper.card]", '[kit.accuracy]\ncut = "10"\n[paper.card]'),
        'cut = "10"',
        'cut = "9.9"',
    ),
    Pair(
        "too-rough",
        FAIL,
        TRAY.replace("x 40", "x 12").replace("[paper.card]", '[kit.accuracy]\nscore = "6"\n[paper.card]'),
        'score = "6"',
        'score = "5.9"',
    ),
    Pair(
        "core-shows",
        NOTE,
        head(more='print = "all-over"').replace("two-sided = true", "two-sided = false", 1)
        + part("b", "two-half wrap box", size="5 x 2 x 4"),
        "two-sided = false",
        "two-sided = true",
    ),
    # drawing
    Pair("seams-meet", FAIL, trial("short side"), "short side", "none"),
    Pair("tabs-land", FAIL, trial("long tab"), "long tab", "none"),
    Pair("nothing-passes-through", FAIL, trial("crossed"), "crossed", "none"),
    Pair("layers-woven", FAIL, trial("woven"), "woven", "none"),
    Pair("face-shows", FAIL, trial("covered"), "covered", "none"),
    Pair("folding-motion", WARNING, trial("hook in the way"), "hook in the way", "none"),
    # what a form refuses
    refused("lid-tabs-meet", sized("lift-off lid", "60 x 20 x 20", "tab", "12"), "12", "9"),
    refused("tray-tabs-meet", sized("tray", "60 x 20 x 20", "tab", "12"), "12", "9"),
    refused("wrap-box-hem-too-deep", sized("two-half wrap box", "60 x 30 x 40", "hem", "22"), "22", "19"),
    refused("flap-lid-hem-too-deep", sized("flap lid", "60 x 30", "hem", "24", front_flap="20"), '"24"', '"9"'),
    refused("band-overlap-too-long", sized("belly band", "40 x 20 x 20", "overlap", "45"), "45", "30"),
    refused("pocket-tabs-too-deep", sized("pocket", "60 x 40", "tab", "15"), "15", "10"),
    refused("pocket-notch-too-wide", sized("pocket", "60 x 40", "notch", "22"), "22", "10"),
    refused("envelope-back-too-high", sized("side-seam envelope", "120 x 80", "back", "81"), "81", "70"),
    refused("envelope-flap-too-long", sized("side-seam envelope", "120 x 80", "flap", "81"), "81", "40"),
    refused("envelope-flap-too-short", sized("side-seam envelope", "120 x 80", "flap", "16"), "16", "40"),
    refused("envelope-tabs-too-deep", sized("side-seam envelope", "60 x 50", "side_tab", "21"), "21", "15"),
    refused("tag-corners-meet", sized("tag", "40 x 60", "corner", "18"), "18", "10"),
    refused("tag-hole-near-edge", sized("tag", "40 x 60", "hole", "12", hole_below_top="8"), "12", "5"),
)
