"""Short kit documents for tests, and the findings about them."""

from __future__ import annotations

from kitwright.findings import Finding, Severity
from kitwright.kit import BuiltKit, build, prove, read_kit
from kitwright.kit.fits import KitFits
from kitwright.kit.part_proof import part_proofs
from kitwright.kit.prove import checked
from kitwright.pattern import Axis
from kitwright.proof.tolerance import MAKES, Makes

__all__ = [
    "bad",
    "built",
    "finding",
    "findings_of",
    "head",
    "inside",
    "lengths",
    "outside",
    "part",
    "quick_findings",
    "said",
]


def head(
    *,
    units: str = "in",
    ruler: str = "1/16",
    sheet: str = "24 x 24",
    caliper: str = "0.011",
    fit: str = "",
    more: str = "",
) -> str:
    """The heading of a kit with a card and a thin paper, on sheets large enough for anything."""
    return f"""\
[kit]
name = "a kit"
units = "{units}"
ruler = "{ruler}"
{f"fit = {fit}" if fit else ""}
[paper.card]
sheet = "{sheet}"
weight = "80 lb cover"
caliper = "{caliper}"
two-sided = true
{more}
[paper.thin]
sheet = "{sheet}"
weight = "80 lb text"
caliper = "{caliper if units == "mm" else "0.006"}"
two-sided = true
"""


def part(name: str, form: str, *, paper: str = "card", **keys: str | int | list[str]) -> str:
    """The table of one part; an underscore in a key stands for a hyphen."""
    lines = ["[[part]]", f'name = "{name}"', f'form = "{form}"', f'paper = "{paper}"']
    for key, value in keys.items():
        lines.append(f"{key.replace('_', '-')} = {said(value)}")
    return "\n".join(lines) + "\n"


def said(value: str | int | list[str]) -> str:
    """A value as it is typed."""
    if isinstance(value, list):
        return "[" + ", ".join(said(each) for each in value) + "]"
    return str(value) if isinstance(value, int) else f'"{value}"'


def built(text: str) -> BuiltKit:
    """The built kit of a document."""
    return build(read_kit(text))


def lengths(kit: BuiltKit, name: str) -> str:
    """The size of a part, score to score, as it is read off the kit's ruler."""
    made = kit.part(name)
    return kit.kit.ruler.size(*(made.lengths[each] for each in made.form.size))


def inside(kit: BuiltKit, name: str) -> dict[str, float]:
    """Inside sizes in mm by axis."""
    return {axis.value: round(found.net, 6) for axis, found in kit.part(name).inside.items()}


def outside(kit: BuiltKit, name: str) -> dict[str, float]:
    """Outside sizes in mm by axis."""
    return {axis.value: round(found.net, 6) for axis, found in kit.part(name).outside.items()}


def finding(text: str, code: str, about: str | None = None, *, with_fixes: bool = False) -> Finding:
    """The one finding with this code (and about this)."""
    (found,) = (
        each
        for each in prove(built(text), with_fixes=with_fixes).findings
        if each.code == code and about in (None, each.about)
    )
    return found


def findings_of(kit: BuiltKit, *, motion: bool = False, makes: int = 0) -> list[Finding]:
    """Every check, part by part, each part's own before its relations, without fixes."""
    return list(checked(KitFits(kit, kit.kit.accuracy, Makes(makes)), part_proofs(kit), motion=motion))


def quick_findings(kit: BuiltKit) -> list[Finding]:
    """All findings but those of folding on the way, which take longest."""
    return findings_of(kit, makes=MAKES)


def bad(found: list[Finding] | tuple[Finding, ...]) -> list[tuple[str, str]]:
    """What fails or was not decided: code and about."""
    return [(each.code, each.about) for each in found if each.severity in (Severity.FAIL, Severity.UNKNOWN)]


WIDTH, DEPTH, HEIGHT = Axis.WIDTH.value, Axis.DEPTH.value, Axis.HEIGHT.value
