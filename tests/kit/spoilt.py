"""Kits of every form at random in which one thing is said wrongly: a size, a sheet, a turn, what is asked of the grain."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from random import Random

from tests.kit.documents import built, part, quick_findings

from kitwright.errors import Mistake, Mistakes
from kitwright.findings import Finding, Severity
from kitwright.kit import apply_changes
from kitwright.proof import Proof

__all__ = ["WRONG", "Scene", "faults_of", "spoilt_kit"]

Said = str | int | list[str]
"""What a key says."""


class Scene:
    """What the kits of one draw have in common: unit, ruler, papers; and lengths drawn in inches, whatever the unit."""

    def __init__(self, rng: Random) -> None:
        self.rng = rng
        self.units, self.ruler = rng.choice((("in", "1/16"), ("in", "1/8"), ("in", "1/32"), ("mm", "1"), ("mm", "0.5")))
        self.step = Fraction(self.ruler)
        self.sheets = (
            ["12 x 12", "8 1/2 x 11", "12 x 18"] if self.units == "in" else ["305 x 305", "210 x 297", "297 x 420"]
        )
        self.sheet = rng.choice(self.sheets)
        self.second = rng.choice(self.sheets)
        self.more = rng.choice(("", "", 'print = "one-way"', 'grain = "long"', 'grain = "short"\nprint = "one-way"'))
        self.fine = ""

    def mark(self, least: float, most: float) -> str:
        """A length between two in inches, on the ruler, as it is typed."""
        unit = 1.0 if self.units == "in" else 25.4
        marks = round(self.rng.uniform(least, most) * unit / float(self.step))
        return self.typed(max(marks, 1) * self.step)

    def typed(self, length: Fraction) -> str:
        """A length as it is typed."""
        if self.units == "mm":
            return f"{float(length):g}"
        whole, rest = divmod(length, 1)
        return f"{whole} {rest}" if whole and rest else str(rest or whole)

    def size(self, *ranges: tuple[float, float]) -> str:
        """Lengths drawn from ranges in inches, as a size."""
        return " x ".join(self.mark(*each) for each in ranges)

    def head(self) -> str:
        """The heading with two papers."""
        thick, thin = ("0.011", "0.006") if self.units == "in" else ("0.28", "0.15")
        return f"""\
[kit]
name = "a kit"
units = "{self.units}"
ruler = "{self.ruler}"
{self.fine}
[paper.card]
sheet = "{self.sheet}"
weight = "80 lb cover"
caliper = "{thick}"
two-sided = true
{self.more}
[paper.thin]
sheet = "{self.second}"
weight = "80 lb text"
caliper = "{thin}"
two-sided = true
"""


def card(scene: Scene, *, size: str = "", quantity: int = 0) -> str:
    form = scene.rng.choice(("flat card", "half-fold card"))
    many = quantity or scene.rng.randint(1, 12)
    return part("card", form, size=size or scene.size((3, 6), (2.5, 5)), quantity=many)


def things(scene: Scene, count: int, largest: float) -> str:
    sides = scene.size((0.5, largest), (0.4, largest / 2), (0.2, 1))
    return f'[[extra]]\nname = "soap"\nsize = "{sides}"\nquantity = {count}\n'


def box_form(scene: Scene) -> str:
    return scene.rng.choice(("tray", "tray", "two-half wrap box"))


def cover_of(scene: Scene, form: str, **keys: str | int) -> str:
    name = "lift-off lid" if form == "tray" else "flap lid"
    return part("lid", name, paper=scene.rng.choice(("card", "thin")), covers="box", **keys)


def too_large_for_its_sheet(scene: Scene) -> str:
    rng = scene.rng
    sizes = {
        "flat card": ((3, 16), (3, 16)),
        "half-fold card": ((3, 11), (3, 11)),
        "side-seam envelope": ((3, 11), (3, 8)),
        "tray": ((2, 9), (2, 8), (1, 5)),
        "two-half wrap box": ((2, 8), (1, 5), (2, 8)),
        "lift-off lid": ((2, 9), (2, 9), (1, 3)),
        "flap lid": ((3, 11), (1, 6)),
        "pocket": ((3, 11), (3, 11)),
        "belly band": ((2, 8), (1, 4), (1, 4)),
        "tag": ((1, 5.5), (2, 9)),
        "mat": ((3, 16), (3, 16)),
    }
    form = rng.choice(tuple(sizes))
    grain = {"grain": rng.choice(("width", "height"))} if rng.random() < 0.2 else {}
    return part("piece", form, size=scene.size(*sizes[form]), turn=rng.choice((0, 0, 90, 180)), **grain)


def derived_too_large_for_its_sheet(scene: Scene) -> str:
    form = box_form(scene)
    text = card(scene, size=scene.size((4, 9), (3, 7)), quantity=scene.rng.randint(1, 60))
    text += part("box", form, holds="card")
    if scene.rng.random() < 0.5:
        text += cover_of(scene, form)
    if scene.rng.random() < 0.5:
        text += part("band", "belly band", paper="thin", wraps="box", height=scene.mark(0.5, 1))
    return text


def too_small_for_its_contents(scene: Scene) -> str:
    rng, form = scene.rng, box_form(scene)
    sides = ((3, 6), (2, 5), (0.5, 3)) if form == "tray" else ((3, 6), (1, 3), (3, 6))
    key = rng.choice(("size", "size", "inside"))
    text = card(scene) if rng.random() < 0.7 else ""
    holds = ["card"] if text else []
    loose = things(scene, rng.randint(1, 9), 3) if rng.random() < 0.5 or not text else ""
    holds += ["soap"] if loose else []
    more: dict[str, Said] = {key: scene.size(*sides), "holds": holds}
    if rng.random() < 0.3:
        more["contents"] = rng.choice(("standing", "lying"))
    text += part("box", form, paper="card", **more)
    if rng.random() < 0.5:
        text += cover_of(scene, form)
    if rng.random() < 0.3:
        text += part("band", "belly band", paper="thin", wraps="box", height=scene.mark(0.4, 0.6))
    return text + loose


def one_side_too_small_for_its_contents(scene: Scene) -> str:
    form = box_form(scene)
    side = scene.rng.choice(("width", "depth", "height"))
    return card(scene, quantity=scene.rng.randint(5, 40)) + part(
        "box", form, holds="card", **{side: scene.mark(*((0.5, 1.5) if side == "height" or form != "tray" else (2, 4)))}
    )


def lid_of_a_wrong_size(scene: Scene) -> str:
    form = box_form(scene)
    sides = ((3, 6), (2, 4), (1, 3)) if form == "tray" else ((3, 6), (1, 3), (2, 5))
    lengths = [scene.mark(*each) for each in sides]
    off = scene.step * scene.rng.choice((-16, -4, -2, -1, 0, 1, 8, 20))
    axis = scene.rng.choice((0, 1))
    said = [Fraction(0), Fraction(0)]
    for place in (0, 1):
        words = lengths[place].split()
        said[place] = sum((Fraction(word) for word in words), Fraction(0)) + (off if place == axis else 4 * scene.step)
    size = " x ".join(scene.typed(max(each, scene.step)) for each in said)
    return part("box", form, size=" x ".join(lengths)) + cover_of(scene, form, size=size)


def lid_that_hangs_too_far(scene: Scene) -> str:
    rng, form = scene.rng, box_form(scene)
    sides = ((3, 6), (2, 4), (0.35, 2)) if form == "tray" else ((3, 6), (1, 3), (1.2, 4))
    hangs = {"tray": ("height",), "two-half wrap box": ("front_flap", "back")}[form]
    keys = {rng.choice(hangs): scene.mark(0.6, 4)} if rng.random() < 0.8 else {}
    text = part("box", form, size=scene.size(*sides)) + cover_of(scene, form, **keys)
    if rng.random() < 0.3:
        text += part("band", "belly band", paper="thin", wraps="box", height=scene.mark(0.4, 1.5))
    return text


def band_that_does_not_go(scene: Scene) -> str:
    rng, form = scene.rng, box_form(scene)
    sides = ((2, 4), (1, 2.5), (0.5, 2)) if form == "tray" else ((2, 4), (1, 2), (1.2, 3))
    keys: dict[str, str | int] = {"height": scene.mark(0.4, 3)}
    if rng.random() < 0.5:
        keys["size"] = scene.size((2, 4), (0.6, 2.5))
    if rng.random() < 0.4:
        keys["goes"] = rng.choice(("over the top", "end to end"))
    text = part("box", form, size=scene.size(*sides)) + part("band", "belly band", paper="thin", wraps="box", **keys)
    return text + (cover_of(scene, form) if rng.random() < 0.4 else "")


def envelope_too_small(scene: Scene) -> str:
    text = card(scene, quantity=1)
    return text + part(
        "envelope", "side-seam envelope", paper="thin", holds="card", size=scene.size((3, 6.5), (2.5, 5))
    )


def pocket_too_narrow(scene: Scene) -> str:
    text = card(scene, quantity=1) + part("tag", "tag", size=scene.size((1.5, 3.5), (2, 4)))
    return text + part("pocket", "pocket", on="card", holds="tag", size=scene.size((1.3, 4), (1.3, 4)))


def mat_that_sticks_out(scene: Scene) -> str:
    keys = {"size": scene.size((3, 6), (2.5, 5))} if scene.rng.random() < 0.8 else {"border": scene.mark(0, 0.2)}
    text = card(scene, quantity=1) + part("mat", "mat", on="card", **keys)
    return text + part("envelope", "side-seam envelope", paper="thin", holds="card")


def print_that_stands_wrong(scene: Scene) -> str:
    rng = scene.rng
    scene.more = rng.choice(('print = "one-way"', 'grain = "long"\nprint = "one-way"'))
    form = rng.choice(("half-fold card", "tray", "two-half wrap box", "belly band", "pocket", "tag"))
    sides = {"tray": 3, "two-half wrap box": 3, "belly band": 3}.get(form, 2)
    grain = {"grain": rng.choice(("width", "height"))} if rng.random() < 0.3 else {}
    return part("piece", form, size=scene.size(*((2, 3.5),) * sides), turn=rng.choice((0, 90, 180, 270)), **grain)


def maker_too_rough(scene: Scene) -> str:
    scene.fine = f'[kit.accuracy]\n{scene.rng.choice(("cut", "score", "fold"))} = "{scene.mark(0.1, 0.6)}"'
    return part("card", scene.rng.choice(("flat card", "half-fold card")), size=scene.size((1.3, 4), (1.3, 4))) + part(
        "box", "tray", size=scene.size((2, 4), (2, 4), (0.4, 2))
    )


WRONG: tuple[Callable[[Scene], str], ...] = (
    too_large_for_its_sheet,
    derived_too_large_for_its_sheet,
    too_small_for_its_contents,
    one_side_too_small_for_its_contents,
    lid_of_a_wrong_size,
    lid_that_hangs_too_far,
    band_that_does_not_go,
    envelope_too_small,
    pocket_too_narrow,
    mat_that_sticks_out,
    print_that_stands_wrong,
    maker_too_rough,
)
"""What may be wrong, each the maker of a kit's parts."""


def spoilt_kit(rng: Random, wrong: Callable[[Scene], str] | None = None) -> str:
    """The document of a kit with one thing said wrongly, mostly; some can be built no more, and some are right by luck."""
    scene = Scene(rng)
    parts = (wrong or rng.choice(WRONG))(scene)
    return scene.head() + parts


GRAVE = (Severity.FAIL, Severity.UNKNOWN)


def faults_of(text: str, before: Proof) -> list[str]:
    """What is wrong with the fixes and the advice of a kit's proof: every fix is written into the document, which is proved again."""
    return [fault for finding in before.findings for fault in faults_in(text, before, finding)]


def faults_in(text: str, before: Proof, finding: Finding) -> list[str]:
    """What is wrong with the fix or the advice of one finding."""
    amiss = finding.severity in GRAVE
    if bool(finding.advice) != (amiss and finding.fix is None):
        return [f"{finding.code} about {finding.about}: fix {finding.fix}, advice {finding.advice!r}"]
    if finding.fix is None:
        return []
    try:
        after = quick_findings(built(apply_changes(text, finding.fix.changes)))
    except (Mistake, Mistakes) as mistake:
        return [f"{finding.fix.sentence} {mistake}"]
    counts = {*GRAVE, *(() if amiss else (Severity.WARNING,))}
    was = {key: severity.rank for key, severity in gravest(before.findings).items() if severity in counts}
    faults = []
    for key, severity in gravest(after).items():
        if key == (finding.code, finding.about):
            faults += ["it is there still"] if severity in {*counts, finding.severity} else []
        elif severity in counts and severity.rank > was.get(key, 0):
            faults.append(f"{key} is new")
    return [f"{finding.code} about {finding.about}: {finding.fix.sentence} {fault}" for fault in faults]


def gravest(findings: Iterable[Finding]) -> dict[tuple[str, str], Severity]:
    """How grave the gravest finding of a kind about one thing is."""
    found: dict[tuple[str, str], Severity] = {}
    for each in sorted(findings, key=lambda each: each.severity.rank):
        found[each.code, each.about] = each.severity
    return found
