"""What is cut away from a blank, as sentences in numbers for ruler and scissors. Millimetres, read as on the maker's ruler."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Final

from kitwright.measure import Ruler
from kitwright.pattern import Blank, CutAway, CutShape, ScoreChart, ShapedPanel, shaped_panels

__all__ = ["about", "away_sentences", "group_name", "listed", "shape_groups"]

LINE_WIDTH: Final = 0.05
"""Less than this (mm) nobody can cut."""


def away_sentences(blank: Blank, chart: ScoreChart, ruler: Ruler) -> Iterator[str]:
    """What is cut away, in numbers for ruler and scissors: corners, strips, slanted ends of tabs and hems, notches, holes."""
    names = {each.name for each in shaped_panels(blank)}
    strips = [piece for piece in chart.cut_away if piece.shape is CutShape.STRIP]
    others = [piece for piece in chart.cut_away if piece not in strips]
    at_panels = [piece for piece in others if names & set(piece.beside)]
    plain = [piece for piece in others if piece not in at_panels]
    yield from counted(plain, CutShape.CORNER, lambda piece: f" of {ruler.size(piece.width, piece.height)}.")
    # what is beside one tab only and slants is the end of that tab
    round_them = [
        piece
        for piece in at_panels
        if at_corner(piece, chart) and (piece.shape is not CutShape.SLANT or len(piece.beside) > 1)
    ]
    along: list[str] = []
    if round_them:
        ends_at_scores = all(corner_at_scores(piece, blank) for piece in round_them)
        size = f" ({ruler.size(round_them[0].width, round_them[0].height)})" if ends_at_scores else ""
        along.append(f"Cut {count_words(len(round_them), 'corner')}{size} away along the scores")
    along += slit_words([piece for piece in at_panels if piece.shape is CutShape.OTHER], names, chart, ruler)
    along += strip_words(strips, chart, ruler)
    if along:
        yield from (f"{words}." for words in along[:-1])
        yield along[-1] + ("; leave:" if names else ".")
    for group in shape_groups(blank, ruler):
        yield shaped_sentence(group, ruler)
    yield from counted(plain, CutShape.SLANT, lambda piece: slant_words(piece, ruler))
    for piece in plain:
        if piece.shape is CutShape.NOTCH:
            yield notch_sentence(piece, chart, ruler)
        elif piece.shape is CutShape.HOLE:
            yield hole_sentence(piece, chart, ruler)
    other = sum(piece.shape is CutShape.OTHER for piece in plain)
    if other:
        yield f"Trim {count_words(other, 'more piece')} off: use the template page."


def slit_words(pieces: Iterable[CutAway], shaped: set[str], chart: ScoreChart, ruler: Ruler) -> Iterator[str]:
    """Where a tab is as deep as its corner, nothing of the corner falls away: how far to cut in between it and the wall beside it."""
    slits: dict[tuple[str, str], int] = {}
    for piece in pieces:
        if at_corner(piece, chart) or shaped.issuperset(piece.beside):
            continue
        if is_at_end(piece.left, piece.width, chart.width):
            key = ruler.format(piece.width), "left and right"
        elif is_at_end(piece.low, piece.height, chart.height):
            key = ruler.format(piece.height), "lower and upper"
        else:
            continue
        slits[key] = slits.get(key, 0) + 1
    for (deep, edges), count in slits.items():
        corners = count_words(count, "corner")
        yield f"Cut into {corners} along the scores, {deep} deep from the {edges} edges, to free the tabs"


def strip_words(strips: Iterable[CutAway], chart: ScoreChart, ruler: Ruler) -> Iterator[str]:
    """What comes off a wall that is lower than the tabs beside it are deep: how wide, at which edges, from where to where."""
    edges: dict[tuple[str, str, str, str], list[str]] = {}
    for piece in strips:
        if is_at_end(piece.left, piece.width, chart.width):
            edge = "left" if piece.left <= LINE_WIDTH else "right"
            wide, low, long, start = piece.width, piece.low, piece.height, "lower"
        else:
            edge = "lower" if piece.low <= LINE_WIDTH else "upper"
            wide, low, long, start = piece.height, piece.left, piece.width, "left"
        if wide > LINE_WIDTH:
            key = ruler.format(wide), ruler.format(low), ruler.format(low + long), start
            edges.setdefault(key, []).append(edge)
    for (wide_words, low_words, high_words, start), found in edges.items():
        at = f"{listed(sorted(found))} {'edge' if len(found) == 1 else 'edges'}"
        yield f"Take a strip {wide_words} wide off the {at}, {low_words} to {high_words} from the {start} edge"


def counted(pieces: Iterable[CutAway], shape: CutShape, words: Callable[[CutAway], str]) -> Iterator[str]:
    """A sentence for all pieces of one shape and size."""
    found: dict[str, int] = {}
    for piece in pieces:
        if piece.shape is shape:
            found[words(piece)] = found.get(words(piece), 0) + 1
    verb = "Cut away" if shape is CutShape.CORNER else "Cut off"
    for rest, count in found.items():
        yield f"{verb} {count_words(count, 'corner')}{rest}"


def slant_words(piece: CutAway, ruler: Ruler) -> str:
    """` aslant: 3/8 along each edge.`"""
    wide, tall = ruler.format(piece.width), ruler.format(piece.height)
    return f" aslant: {wide} along each edge." if wide == tall else f" aslant: {wide} across and {tall} up."


def at_corner(piece: CutAway, chart: ScoreChart) -> bool:
    """Whether a piece holds a corner of the blank."""
    return is_at_end(piece.left, piece.width, chart.width) and is_at_end(piece.low, piece.height, chart.height)


def is_at_end(low: float, length: float, whole: float) -> bool:
    """Whether a stretch reaches to either end of the whole."""
    return min(low, whole - low - length) <= LINE_WIDTH


def corner_at_scores(piece: CutAway, blank: Blank) -> bool:
    """Whether the inner corner of the box round a corner piece lies on two scores."""
    xs = [score.start[0] for score in blank.scores] + [score.end[0] for score in blank.scores]
    ys = [score.start[1] for score in blank.scores] + [score.end[1] for score in blank.scores]
    x = piece.left + piece.width if piece.left <= LINE_WIDTH else piece.left
    y = piece.low + piece.height if piece.low <= LINE_WIDTH else piece.low
    return any(abs(each - x) <= LINE_WIDTH for each in xs) and any(abs(each - y) <= LINE_WIDTH for each in ys)


def shape_groups(blank: Blank, ruler: Ruler) -> list[tuple[ShapedPanel, ...]]:
    """The panels that are cut to shape, those of one shape together, whichever end is which."""
    groups: dict[tuple[str, ...], list[ShapedPanel]] = {}
    for each in shaped_panels(blank):
        ends = sorted((about(each.right, ruler), about(each.left, ruler)))
        foot = () if each.whole else tuple(ruler.format(end) for end in each.foot)
        groups.setdefault((ruler.format(each.depth), ruler.format(each.at_score), *ends, *foot), []).append(each)
    return [tuple(group) for group in groups.values()]


def shaped_sentence(group: tuple[ShapedPanel, ...], ruler: Ruler) -> str:
    """`4 tabs: 1/2 deep, 1 long at the score, each end taken back about 3/16.`"""
    first = group[0]
    words = [f"{ruler.format(first.depth)} deep", f"{ruler.format(first.at_score)} long at the score"]
    if not first.whole:
        low, high = (ruler.format(end) for end in first.foot)
        edge = "lower" if first.upright else "left"
        words[1] += f" ({low} to {high} from the {edge} edge)"
    if max(first.right, first.left) > LINE_WIDTH:
        ends = about(first.right, ruler), about(first.left, ruler)
        words.append(
            f"each end taken back {ends[0]}"
            if ends[0] == ends[1]
            else f"its ends taken back {ends[0]} and {ends[1]} at the right and left"
        )
    return f"{group_name(group)}: {', '.join(words)}."


def group_name(group: tuple[ShapedPanel, ...]) -> str:
    """`4 tabs`, `Face hem`, `Left and right hem`."""
    plain = {each.name.rstrip(" 0123456789") for each in group}
    if len(group) > 1 and len(plain) == 1:
        return f"{len(group)} {plain.pop()}s"
    firsts, _, lasts = zip(*(each.name.rpartition(" ") for each in group), strict=True)
    if len(set(lasts)) == 1 and all(firsts):
        return f"{listed(list(firsts))} {lasts[0]}".capitalize()
    return listed([each.name for each in group]).capitalize()


def about(mm: float, ruler: Ruler) -> str:
    """A length on the ruler's marks, with `about` where it lies between them: then the next mark up, since a tab may be smaller."""
    return ruler.format(mm) if ruler.is_on_mark(mm) else f"about {ruler.format(ruler.up(mm))}"


def notch_sentence(piece: CutAway, chart: ScoreChart, ruler: Ruler) -> str:
    """A half-round notch: how wide, how deep, where."""
    at_side = piece.left <= LINE_WIDTH or piece.left + piece.width >= chart.width - LINE_WIDTH
    if at_side:
        side = "left" if piece.left <= LINE_WIDTH else "right"
        across, deep, middle, edge = piece.height, piece.width, piece.low + piece.height / 2, "lower"
    else:
        side = "lower" if piece.low <= LINE_WIDTH else "upper"
        across, deep, middle, edge = piece.width, piece.height, piece.left + piece.width / 2, "left"
    return (
        f"Cut a half-round notch into the {side} edge, {near(across, ruler)} wide and {near(deep, ruler)} deep, "
        f"its middle {near(middle, ruler)} from the {edge} edge."
    )


def hole_sentence(piece: CutAway, chart: ScoreChart, ruler: Ruler) -> str:
    """A round hole: how wide, where its middle is."""
    across = near(piece.width, ruler)
    right = near(piece.left + piece.width / 2, ruler)
    down = near(chart.height - piece.low - piece.height / 2, ruler)
    return f"Punch a hole {across} across, its middle {right} from the left edge and {down} below the upper edge."


def near(mm: float, ruler: Ruler) -> str:
    """A length as the ruler has it, or as it is written where it lies between marks by no more than a maker can see."""
    return ruler.near(mm).removesuffix(f" {ruler.unit.value}")


def listed(words: list[str]) -> str:
    """`2`, `2 and 4`, `2, 4 and 6`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def count_words(count: int, noun: str) -> str:
    """`1 corner`, `2 corners`."""
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"
