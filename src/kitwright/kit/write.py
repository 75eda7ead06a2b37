"""From a kit to the text of a document that says the same. Lengths come out exactly, in the kit's unit wherever that can be done."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Final

import kitwright.forms  # noqa: F401  (fills the catalogue)
from kitwright.catalogue import CATALOGUE, parameters
from kitwright.errors import Mistake
from kitwright.kit.bench import Keeping, Machine, OffcutOnHand
from kitwright.kit.edit import quoted
from kitwright.kit.keys import ACCURACY_KEYS, FIT_KEYS, MARGIN_KEYS, PURPOSE_KEYS, TRIMMER_KEYS
from kitwright.kit.model import Extra, Face, FitRules, Goes, Kit, Laid, Part, Purpose, SizingKind
from kitwright.kit.read_part import key_of
from kitwright.measure import Unit, format_length
from kitwright.paper import (
    Caliper,
    Grade,
    Grain,
    Margins,
    Paper,
    Print,
    Scan,
    UpEdge,
    estimate_caliper,
    grams_per_square_metre,
    pounds,
)
from kitwright.proof.mailing import Feature
from kitwright.proof.tolerance import USUAL_ACCURACY, Accuracy

__all__ = ["laid_text", "length_text", "scan_text", "size_text", "write_kit"]

PLACES: Final = 6
"""A document takes no more digits in a row."""


def write_kit(kit: Kit) -> str:
    """A document that reads as this kit, place and wording of remarks apart. Raises `Mistake` for a length that cannot be written."""
    blocks = [
        *heading(kit),
        *(paper_block(key, paper, kit) for key, paper in kit.papers.items()),
        *(part_block(part, kit) for part in kit.parts),
        *(extra_block(extra, kit.unit) for extra in kit.extras),
        *(offcut_block(offcut, kit.unit) for offcut in kit.offcuts),
    ]
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def heading(kit: Kit) -> Iterator[list[str]]:
    """The table `[kit]` and those in it, which are said where they are not as usual."""
    yield [
        "[kit]",
        f"name = {quoted(kit.name)}",
        f"units = {quoted(kit.unit.value)}",
        f"ruler = {quoted(length_text(kit.ruler.step, kit.unit))}",
        f"currency = {quoted(kit.currency)}",
        *(["alike = true"] if kit.alike else []),
    ]
    usual = FitRules.usual(kit.unit)
    said = [key for key in FIT_KEYS if getattr(kit.fit, key) != getattr(usual, key)]
    if said:
        yield ["[kit.fit]", *(f"{key} = {quoted(length_text(getattr(kit.fit, key), kit.unit))}" for key in said)]
    if kit.accuracy != USUAL_ACCURACY:
        yield ["[kit.accuracy]", *accuracy_lines(kit.accuracy, kit.unit)]
    limits = {key: getattr(kit.trimmer, key.replace("-", "_")) for key in TRIMMER_KEYS}
    if any(limits.values()):
        yield ["[kit.trimmer]", *(f"{key} = {quoted(length_text(mm, kit.unit))}" for key, mm in limits.items() if mm)]
    if kit.keeping != Keeping.usual(kit.unit):
        side, area = length_text(kit.keeping.side, kit.unit), size_text(kit.keeping.area, kit.unit)
        yield ["[kit.keep]", f"side = {quoted(side)}", f"area = {quoted(area)}"]
    if kit.machine != Machine.usual(kit.unit):
        yield ["[kit.machine]", *machine_lines(kit.machine, kit.unit)]
    if kit.purpose != Purpose():
        yield ["[kit.for]", *(f"{key} = true" for key in PURPOSE_KEYS if getattr(kit.purpose, key))]


def machine_lines(machine: Machine, unit: Unit) -> Iterator[str]:
    """The cutting machine, all of it."""
    if machine.mat is not None:
        yield f"mat = {quoted(size_text(machine.mat, unit))}"
    yield f"edge = {quoted(length_text(machine.edge, unit))}"
    yield f"gap = {quoted(length_text(machine.gap, unit))}"


def accuracy_lines(accuracy: Accuracy, unit: Unit) -> Iterator[str]:
    """The limits, all of them."""
    for key in ACCURACY_KEYS:
        if key in ("cut", "score", "fold", "glue"):
            yield f"{key} = {quoted(length_text(exact(getattr(accuracy, key)), unit))}"


def paper_block(key: str, paper: Paper, kit: Kit) -> list[str]:
    """The table of one paper."""
    lines = [
        f"[paper.{key if key.isascii() and key.isalnum() else quoted(key)}]",
        f"label = {quoted(paper.label)}",
        f"sheet = {quoted(size_text((paper.sheet_width_mm, paper.sheet_height_mm), kit.unit))}",
        f"weight = {quoted(weight_text(paper))}",
    ]
    if not paper.caliper.is_estimate:
        lines.append(f"caliper = {quoted(length_text(exact(paper.caliper.mm), kit.unit))}")
    if paper.grain is not Grain.UNKNOWN:
        lines.append(f"grain = {quoted(paper.grain.value)}")
    if paper.print_ is not Print.NONE:
        lines.append(f"print = {quoted(paper.print_.value)}")
    if paper.two_sided:
        lines.append("two-sided = true")
    if paper.back is not Print.NONE:
        lines.append(f"back-print = {quoted(paper.back.value)}")
    if paper.back_turn:
        lines.append(f"back-turn = {90 * paper.back_turn}")
    if paper.price is not None:
        lines.append(f"price = {quoted(str(paper.price).removesuffix(paper.price.currency).strip())}")
    if paper.on_hand is not None:
        lines.append(f"on-hand = {paper.on_hand}")
    lines += margin_lines(paper.margins, kit.unit)
    if paper.hinge_depth != 0.5:
        lines.append(f"hinge = {round(paper.hinge_depth, PLACES)}")
    if paper.scan is not None:
        lines.append(f"scan = {scan_text(paper.scan, kit.unit)}")
    if key in kit.laid:
        lines.append(f"laid = {laid_text(kit.laid[key], kit.unit)}")
    return lines


def scan_text(scan: Scan, unit: Unit) -> str:
    """The value of `scan`, on one line."""
    said = [f"picture = {quoted(scan.picture)}"]
    if scan.shows is not None:
        said.append(f"shows = {quoted(size_text(scan.shows, unit))}")
    if any(scan.at):
        said.append(f"at = {quoted(size_text(scan.at, unit))}")
    if scan.up is not UpEdge.TOP:
        said.append(f"up = {quoted(scan.up.value)}")
    return f"{{ {', '.join(said)} }}"


def laid_text(sheets: Iterable[Iterable[Laid]], unit: Unit) -> str:
    """The value of `laid`, on one line: a list for every sheet."""
    return f"[{', '.join('[' + ', '.join(quoted(one_laid(each, unit)) for each in sheet) + ']' for sheet in sheets)}]"


def one_laid(laid: Laid, unit: Unit) -> str:
    """One blank with its place, as it is read."""
    turned = f", turned {90 * laid.turn}" if laid.turn else ""
    return f"{laid.blank} at {size_text(laid.at, unit)}{turned}"


def margin_lines(margins: Margins, unit: Unit) -> Iterator[str]:
    """The margins of a sheet or offcut, if it has any."""
    if margins != Margins():
        edges = ", ".join(f"{edge} = {quoted(length_text(getattr(margins, edge), unit))}" for edge in MARGIN_KEYS)
        yield f"margins = {{ {edges} }}"


def offcut_block(offcut: OffcutOnHand, unit: Unit) -> list[str]:
    """The table of one kind of offcut."""
    size = quoted(size_text((offcut.width, offcut.height), unit))
    lines = ["[[offcut]]", f"paper = {quoted(offcut.paper)}", f"size = {size}", f"count = {offcut.count}"]
    return [*lines, *margin_lines(offcut.margins, unit)]


def part_block(part: Part, kit: Kit) -> list[str]:
    """The table of one part."""
    lines = ["[[part]]", f"name = {quoted(part.name)}", f"form = {quoted(part.form)}", f"paper = {quoted(part.paper)}"]
    if part.quantity != 1:
        lines.append(f"quantity = {part.quantity}")
    if part.sizing.kind is not SizingKind.DERIVED:
        lines.append(f"{part.sizing.kind.value} = {quoted(size_text(part.sizing.lengths, kit.unit))}")
    keys = {parameter.name: key_of(parameter) for parameter in parameters(CATALOGUE[part.form])}
    lines += [
        f"{keys[name]} = {quoted(value if isinstance(value, str) else length_text(value, kit.unit))}"
        for name, value in part.settings.items()
    ]
    for key in ("on", "covers", "wraps"):
        if getattr(part, key):
            lines.append(f"{key} = {quoted(getattr(part, key))}")
    if part.face is not Face.OUTSIDE:
        lines.append(f"face = {quoted(part.face)}")
    if part.goes is not Goes.WALLS:
        lines.append(f"goes = {quoted(part.goes)}")
    if part.border is not None:
        lines.append(f"border = {quoted(length_text(part.border, kit.unit))}")
    if part.holds:
        lines.append(f"holds = [{', '.join(map(quoted, part.holds))}]")
    if part.turn:
        lines.append(f"turn = {90 * part.turn}")
    if part.fibres is not None:
        lines.append(f"grain = {quoted(part.fibres.value)}")
    if part.standing is not None:
        lines.append(f"contents = {quoted('standing' if part.standing else 'lying')}")
    if part.oddities:
        lines.append(f"post = [{', '.join(quoted(each.value) for each in Feature if each in part.oddities)}]")
    return lines


def extra_block(extra: Extra, unit: Unit) -> list[str]:
    """The table of one extra."""
    lines = ["[[extra]]", f"name = {quoted(extra.name)}", f"size = {quoted(size_text(extra.size, unit))}"]
    if extra.quantity != 1:
        lines.append(f"quantity = {extra.quantity}")
    lines.append(f"packed = {quoted(extra.packed.value)}")
    if extra.weight_g is not None:
        lines.append(f"weight = {quoted(f'{extra.weight_g:.4f}'.rstrip('0').rstrip('.') + ' g')}")
    if extra.kind:
        lines.append(f"kind = {quoted(extra.kind)}")
    measures = {key: getattr(extra, key) for key in ("length", "loop", "film")}
    lines += [f"{key} = {quoted(length_text(mm, unit))}" for key, mm in measures.items() if mm is not None]
    if extra.has_label:
        lines.append("label-kept = true")
    return lines


def exact(mm: float) -> Fraction:
    """A float as the decimal that it stands for."""
    return Fraction(repr(mm))


def length_text(mm: Fraction, unit: Unit) -> str:
    """A length as it is typed in a kit of this unit: `4 1/4`, `108`, or with another unit where only that is exact. Zero is `0`.

    Raises `Mistake` for a length that no short number says exactly.
    """
    if mm == 0:
        return "0"
    for other in dict.fromkeys((unit, Unit.MILLIMETRE, Unit.INCH)):
        text = in_unit(mm, other)
        if text is not None:
            return text if other is unit else f"{text} {other.value}"
    value = mm / unit.mm
    if max(value.numerator, value.denominator) < 10**PLACES:
        whole, rest = divmod(value.numerator, value.denominator)
        return f"{whole} {rest}/{value.denominator}" if whole else f"{rest}/{value.denominator}"
    raise Mistake(f"{float(mm):g} mm cannot be written exactly.", do="Round it to the ruler.")


def in_unit(mm: Fraction, unit: Unit) -> str | None:
    """This length in a unit: as a mixed number of inches, or as a decimal with few places; None if neither is exact."""
    value = mm / unit.mm
    if unit is Unit.INCH and 64 % value.denominator == 0:
        return format_length(mm, unit)
    scaled = value * 10**PLACES
    if scaled.denominator == 1:
        whole, rest = divmod(int(scaled), 10**PLACES)
        return f"{whole}.{rest:0{PLACES}d}".rstrip("0").rstrip(".")
    return None


def size_text(lengths: Iterable[Fraction], unit: Unit) -> str:
    """Several lengths as a size: `6 x 4`; each with a unit of its own where one of them needs another than the kit's."""
    said = [length_text(length, unit) for length in lengths]
    bare = [text.split(" ")[-1] not in tuple(Unit) for text in said]
    if not all(bare):
        said = [f"{text} {unit.value}" if is_bare else text for text, is_bare in zip(said, bare, strict=True)]
    return " x ".join(said)


def weight_text(paper: Paper) -> str:
    """The weight in pounds where it was told in pounds, or where only its grade gives the estimated thickness; else in g/m²."""
    for grade in Grade:
        lb = round(pounds(paper.gsm, grade))
        if grams_per_square_metre(lb, grade) == paper.gsm and has_caliper_of(paper, grade):
            return f"{lb} lb {grade.value}"
    gsm = f"{paper.gsm:.{PLACES}f}".rstrip("0").rstrip(".")
    grades = (None, *Grade)
    grade_ = next((grade for grade in grades if has_caliper_of(paper, grade)), None)
    return f"{gsm} gsm" + (f" {grade_.value}" if grade_ else "")


def has_caliper_of(paper: Paper, grade: Grade | None) -> bool:
    """Whether the paper's thickness is what would be estimated for its grade; of no matter where it was measured."""
    caliper: Caliper = paper.caliper
    return not caliper.is_estimate or estimate_caliper(paper.gsm, grade).mm == caliper.mm
