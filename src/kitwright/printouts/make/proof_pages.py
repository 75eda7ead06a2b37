"""The proof as a page: the verdict, what to change, the margins of what fits as pictures to scale, and everything else in a list."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from kitwright.findings import Finding, Severity
from kitwright.kit import BuiltKit, Goes, MendedKit, differences
from kitwright.measure import Unit
from kitwright.pattern import Axis
from kitwright.printouts.drawing import Move, placed
from kitwright.printouts.ink import bounds
from kitwright.printouts.make.fit_picture import FitPicture, fit_picture
from kitwright.printouts.make.proof_words import (
    CHECK_WORDS,
    NO_FIX,
    SEVERITY_WORDS,
    accuracy_sentence,
    change_words,
    limit_words,
    share_words,
)
from kitwright.printouts.page import A4, US_LETTER, Page
from kitwright.printouts.write.house import (
    bold,
    caution,
    columns,
    document,
    gap,
    heading,
    joined,
    muted,
    note,
    paragraph,
    picture,
    pictures,
    small,
    table,
    together,
)
from kitwright.printouts.write.typst import Markup
from kitwright.proof import Proof

__all__ = ["proof_blocks", "proof_report", "usual_page"]

LARGE: Final = (82.0, 38.0)
"""Width and height of the picture of what must be looked at, mm."""

SMALL: Final = (57.0, 26.0)
"""Width and height of the picture of what fits, mm."""

FULL: Final = (176.0, 42.0)
"""Width and height of a picture with the names of very many things, mm."""

HIGHEST: Final = 110.0
"""A picture that its words make higher than this has the width of the page instead, mm."""

WAYS: Final = ((Axis.WIDTH, "side to side"), (Axis.DEPTH, "front to back"))
"""How the two ways of a fit are told apart."""

ACROSS: Final = 3
"""Pictures of what fits in a row."""

LETTERS_ACROSS: Final = 56
"""About so many letters of a list go into a line of half a page."""


class Sources:
    """The sources of limits on one page, each named once, at its end, and marked by its number where a limit is told."""

    def __init__(self) -> None:
        self.marks: dict[str, str] = {}

    def mark(self, because: str) -> str:
        """The mark of a source: `[1]`."""
        return self.marks.setdefault(because, f"[{len(self.marks) + 1}]")

    def told(self) -> str:
        """Every source with its mark."""
        return "Where the limits are from: " + "  ".join(
            f"{mark} {because}." for because, mark in self.marks.items()
        ).replace("..", ".")


def usual_page(unit: Unit) -> Page:
    """The page that makers who measure in this unit print on."""
    return US_LETTER if unit is Unit.INCH else A4


def proof_report(built: BuiltKit, proof: Proof, page: Page, *, mended: MendedKit | None = None) -> str:
    """The proof as a document of its own, a page where it has room, as Typst source; with what `mended` changed, if that is given."""
    return document(proof_blocks(built, proof, mended=mended), title="Does it fit?", kit=built.kit.name, page=page)


def proof_blocks(built: BuiltKit, proof: Proof, *, mended: MendedKit | None = None) -> Iterator[Markup]:
    """Verdict, what to change or look at, all changes together, what fits, what else was checked, how it was reckoned."""
    sources = Sources()
    yield paragraph(bold(proof.sentence()))
    grave = proof.of(Severity.FAIL, Severity.UNKNOWN, Severity.WARNING)
    for severity in (Severity.FAIL, Severity.UNKNOWN, Severity.WARNING):
        yield from graver_blocks(
            built, [each for each in with_one_remedy(grave) if each[0].severity is severity], sources
        )
    if mended is not None and mended.fixes:
        yield from together_blocks(built, mended)
    fits = [finding for finding in proof.of(Severity.NOTE, Severity.OK) if is_shown(finding)]
    if fits:
        yield heading("What fits, and with how much to spare", level=2)
        yield from spare_rows(built, fits, sources)
    rest = [finding for finding in proof.of(Severity.NOTE, Severity.OK) if finding not in fits]
    if rest:
        yield heading("Also checked", level=2)
        lines = list(rest_lines(rest, sources, [part.name for part in built.parts]))
        half = halved([sum(map(len, line)) for line in lines])
        told = [paragraph(*line) for line in lines]
        yield small(columns(told[:half], told[half:], between=6.0))
    count = max((finding.makings.count for finding in proof.findings if finding.makings), default=0)
    made = f"{accuracy_sentence(built.kit.accuracy, count, built.kit.ruler)} " if count else ""
    words = (
        f"{made}Sizes are those of the folded parts, with the thickness of each paper and the layers of tabs and hems."
    )
    yield small(paragraph(muted(f"{words} {sources.told()}")), points=8)


def spare_rows(built: BuiltKit, fits: Sequence[Finding], sources: Sources) -> Iterator[Markup]:
    """What fits, in rows of pictures; a picture that the names of very many things make high has the width of the page for them."""
    drawn = [(each, fit_picture(built, each, width=SMALL[0], height=SMALL[1])) for each in fits]
    usual = [(each, shown) for each, shown in drawn if shown is None or shown.drawing.height <= HIGHEST]
    for start in range(0, len(usual), ACROSS):
        row = usual[start : start + ACROSS]
        even = as_high_as_their_ink([shown for _, shown in row])
        blocks = [spare_block(built, each, shown, sources) for (each, _), shown in zip(row, even, strict=True)]
        yield pictures(blocks, across=ACROSS, between=5.0, level="top")
    for each, shown in drawn:
        if (each, shown) not in usual:
            yield spare_block(built, each, fit_picture(built, each, width=FULL[0], height=FULL[1]), sources)


def halved(lengths: Sequence[int]) -> int:
    """How many paragraphs of so many letters go into the first of two columns so that they end as evenly as they can."""
    rows = [math.ceil(length / LETTERS_ACROSS) + 0.3 for length in lengths]
    return min(range(len(rows) + 1), key=lambda first: max(sum(rows[:first]), sum(rows[first:])))


def together_blocks(built: BuiltKit, mended: MendedKit) -> Iterator[Markup]:
    """What every part becomes if all changes are made, one after the other; also what follows from them."""
    rows = [(bold(each.about), each.what, each.before, bold(each.after)) for each in differences(built, mended.built)]
    left = mended.proof.of(Severity.FAIL, Severity.UNKNOWN, Severity.WARNING)
    still = dict.fromkeys(f"{each.about} ({SEVERITY_WORDS[each.severity]})" for each in left)
    then = f"What is left: {', '.join(still)}." if still else "Nothing is left to change or look at."
    yield together(
        heading("All changes together", level=2),
        paragraph(f"One change moves another. Made one after the other and proved again, they come to this. {then}"),
        small(table(("part", "what", "now", "then"), rows)),
    )


def is_shown(finding: Finding) -> bool:
    """Whether a fit that is well is worth a picture: a rim far above the foot of its box is not."""
    return finding.makings is not None or bool(finding.placed)


def with_one_remedy(findings: Sequence[Finding]) -> list[list[Finding]]:
    """The findings, those about one part that one and the same fix mends together, the gravest of them first."""
    found: dict[object, list[Finding]] = {}
    for finding in sorted(findings, key=lambda each: -each.severity.rank):
        key = (finding.about, finding.fix) if finding.fix and finding.makings is None else (finding.about, id(finding))
        found.setdefault(key, []).append(finding)
    return list(found.values())


def graver_blocks(built: BuiltKit, groups: Sequence[Sequence[Finding]], sources: Sources) -> Iterator[Markup]:
    """What must be changed or looked at: a picture at the left and words at the right; two beside each other where nothing is drawn."""
    plain: list[Markup] = []
    for finding, *others in groups:
        word = f"{SEVERITY_WORDS[finding.severity].capitalize()}: {finding.about}"
        words = [small(paragraph(line), points=10) for line in finding_lines(built, finding, others, sources)]
        box = caution(*words, word=word) if finding.severity is Severity.FAIL else note(*words, word=word)
        drawn = fit_picture(built, finding, width=LARGE[0], height=LARGE[1])
        if drawn is None:
            plain.append(box)
            continue
        if drawn.drawing.height > HIGHEST:
            drawn = fit_picture(built, finding, width=FULL[0], height=FULL[1]) or drawn
            yield picture(drawn.drawing, alt=drawn.alt, caption=drawn.caption)
            yield box
            continue
        shown = picture(drawn.drawing, alt=drawn.alt, caption=drawn.caption)
        yield together(columns([shown], [box], widths=[f"{LARGE[0]:g}mm", "1fr"], between=5.0))
    for pair in batched(plain, 2):
        yield (
            pair[0]
            if len(plain) == 1
            else together(columns(*([box] for box in pair), widths=["1fr", "1fr"], between=5.0))
        )


def batched(blocks: Sequence[Markup], count: int) -> Iterator[Sequence[Markup]]:
    """Blocks, so many at a time; an empty one in the last row where one is lacking."""
    for start in range(0, len(blocks), count):
        row = list(blocks[start : start + count])
        yield row + [Markup("")] * (count - len(row))


def finding_lines(built: BuiltKit, finding: Finding, others: Sequence[Finding], sources: Sources) -> Iterator[str]:
    """The message and those of `others` with the same remedy, what to do, the share of makes, the limit and its source."""
    yield " ".join(each.message for each in (finding, *others))
    if finding.fix:
        yield joined(bold("Do this: "), finding.fix.sentence)
        by = change_words(built, finding.fix)
        if by:
            yield joined(bold("That is: "), f"{by}.")
    if finding.advice:
        yield joined(bold(f"{NO_FIX.capitalize()}: "), finding.advice)
    if finding.makings:
        yield joined(bold("Of all makes: "), share_words(finding.makings), ".")
    if finding.because:
        yield muted(limit_line(built, finding, sources))


def limit_line(built: BuiltKit, finding: Finding, sources: Sources) -> str:
    """The limit, and the mark under which the page names its source."""
    limit = limit_words(finding, built.kit.ruler)
    return f"Limit: {limit} {sources.mark(finding.because)}" if limit else f"Limit: {sources.mark(finding.because)}"


def as_high_as_their_ink(drawn: Sequence[FitPicture | None]) -> list[FitPicture | None]:
    """The pictures of a row, all cut to the height that the highest of them needs."""
    inked = [bounds(each.drawing.marks) if each else None for each in drawn]
    high = max((ink[3] - ink[1] for ink in inked if ink), default=0.0)
    return [
        replace(each, drawing=placed(each.drawing, Move(f=high - ink[3]), width=each.drawing.width, height=high))
        if each and ink
        else each
        for each, ink in zip(drawn, inked, strict=True)
    ]


def spare_block(built: BuiltKit, finding: Finding, drawn: FitPicture | None, sources: Sources) -> Markup:
    """What fits: its picture, and under it what it is, the share of makes, and the limit with its source."""
    goes = {built.part(name).part.goes for name in finding.parts if name in built.by_name}
    way = next((words for axis, words in WAYS if finding.code.endswith(f"-fit-{axis.value}")), "")
    way = way if goes == {Goes.WALLS} else ""
    lines: list[str] = [bold(f"{finding.about}, {way}" if way else finding.about)]
    if finding.makings:
        lines.append(f"{share_words(finding.makings).capitalize()}.")
    lines.append(muted(limit_line(built, finding, sources)))
    under = small(paragraph(lines[0]), *(paragraph(line) for line in lines[1:]))
    shown = [picture(drawn.drawing, alt=drawn.alt, close=True), gap(1.5)] if drawn else []
    return Markup("\n".join((*shown, f"#align(left)[{under}]")))


def rest_lines(findings: Sequence[Finding], sources: Sources, parts: Sequence[str]) -> Iterator[tuple[str, ...]]:
    """A line for a check that many parts pass alike, a line for everything else; each with the source of its limit."""
    for code, words in CHECK_WORDS.items():
        alike = [each for each in findings if each.code == code and each.severity is Severity.OK]
        if alike:
            marks = dict.fromkeys(sources.mark(each.because) for each in alike if each.because)
            yield bold(f"{words}: "), f"{listed([each.about for each in alike], parts)}. ", muted(" ".join(marks))
    for finding in findings:
        if finding.severity is Severity.NOTE or finding.code not in CHECK_WORDS:
            yield (
                bold(f"{finding.about}: "),
                f"{finding.message} ",
                muted(sources.mark(finding.because) if finding.because else ""),
            )


def listed(names: Sequence[str], parts: Sequence[str]) -> str:
    """Names in a row, each once; of more than two parts in one word if it is all of them."""
    return "every part" if len(parts) > 2 and set(parts) <= set(names) else ", ".join(dict.fromkeys(names))
