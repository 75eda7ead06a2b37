"""How the marks that a person reads (labels, dimensions, arrows) are drafted. Millimetres on paper, y up, angles in degrees."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from kitwright.printouts.drawing import Anchor, Arrow, Callouts, Dimension, Label, Level, Point, Role, Running
from kitwright.printouts.lettering import CAP_HEIGHT, DESCENT, LINE_HEIGHT, text_width
from kitwright.printouts.pieces import Disc, Ink, Path, Text, flattened, shifted, stroke, turned_by, walk

__all__ = [
    "RING_RADIUS",
    "SMALLEST_LETTERS",
    "arrow_ink",
    "callout_ink",
    "dimension_ink",
    "fitting_label",
    "label_height",
    "label_ink",
    "ring_spots",
    "running_ink",
    "spread",
]

SMALLEST_LETTERS: Final = 2.5
"""Letters below this (mm of em, about 7 point) are not readable on a bench. Common practice, no source."""

PLATE_MARGIN: Final = 0.15
"""How far the plate under a label reaches beyond its words, in parts of the letter size."""


# ---- words


def fitting_label(label: Label) -> Label | None:
    """The label as it fits its room: smaller, turned, or its short form; `None` where nothing readable fits."""
    if label.room is None:
        return label
    width, height = label.room
    can_turn = label.anchor == "middle" and label.level == "middle"
    for text in (label.text, label.short):
        for wide, high, turn in ((width, height, 0.0), (height, width, 90.0)):
            if not text or (turn and not can_turn):
                continue
            one = replace(label, text=text, size=1.0)
            size = min(label.size, wide / text_width(text, 1.0, label.weight), high / label_height(one))
            if size >= min(SMALLEST_LETTERS, label.size):
                return replace(label, text=text, size=size, angle=(label.angle + turn) % 360)
    return None


def label_height(label: Label) -> float:
    """Height in mm from the top of the capitals of the first line to the descenders of the last."""
    return (label.text.count("\n") * LINE_HEIGHT + CAP_HEIGHT + DESCENT) * label.size


def label_ink(mark: Label) -> Iterator[Ink]:
    """The lines of a label, under them its plate."""
    label = fitting_label(mark)
    if label is None or not label.text.strip():
        return
    lines = label.text.split("\n")
    below = label.text.count("\n") * LINE_HEIGHT * label.size
    cap = CAP_HEIGHT * label.size
    first = {"base": 0.0, "top": -cap, "middle": (below - cap) / 2}[label.level]
    texts = []
    for number, line in enumerate(lines):
        down = first - number * LINE_HEIGHT * label.size
        at = shifted(label.at, *turned_by((0.0, down), label.angle))
        if line.strip():
            texts.append(Text(line, at, label.size, label.anchor, label.angle, label.role, label.weight))
    if label.plate:
        for text in texts:
            yield Path((text.corners(margin=PLATE_MARGIN * text.size),), Role.BLANK, "fill", closed=True)
    yield from texts


def callout_ink(mark: Callouts) -> Iterator[Ink]:
    """Lines and words of the labels that fit nowhere, then the labels that stand in their room.

    The words that are led out stand square to the way that they stand along, readable from below or from the right.
    """
    inside = [label for label in mark.labels if fitting_label(label) is not None]
    seen = {label.text for label in inside}
    outside = {label.text: label for label in reversed(mark.labels) if label.text not in seen}
    if outside:
        yield from led_out(tuple(outside.values()), mark)
    for label in inside:
        yield from label_ink(label)


def led_out(labels: Sequence[Label], mark: Callouts) -> Iterator[Ink]:
    """Words beyond the thing drawn, spread along its edge, each with a line that leads to its place."""
    length = math.dist(mark.start, mark.end)
    along = ((mark.end[0] - mark.start[0]) / length, (mark.end[1] - mark.start[1]) / length)
    side = math.copysign(1.0, mark.offset)
    out = (-along[1] * side, along[0] * side)
    placed = sorted(
        ((label.at[0] - mark.start[0]) * along[0] + (label.at[1] - mark.start[1]) * along[1], number)
        for number, label in enumerate(labels)
    )
    places = spread([distance for distance, _ in placed], gap=LINE_HEIGHT * LEADER_LETTERS)
    angle = math.degrees(math.atan2(out[1], out[0])) % 360
    turned_over = 90 + 1e-9 < angle <= 270 + 1e-9
    anchor: Anchor = "end" if turned_over else "start"
    for (distance, number), place in zip(placed, places, strict=True):
        label = labels[number]
        over = walk(walk(mark.start, along, distance), out, abs(mark.offset))
        end = walk(walk(mark.start, along, place), out, abs(mark.offset) + (LEADER if place != distance else 0.0))
        yield Disc(label.at, LEADER_DOT, label.role, "solid")
        yield stroke((label.at, over), label.role)
        if place != distance:
            yield stroke((over, end), label.role)
        words = Label(
            label.short or label.text,
            walk(end, out, TEXT_OVER_LINE),
            label.role,
            LEADER_LETTERS,
            anchor,
            angle=(angle + 180) % 360 if turned_over else angle,
            weight=label.weight,
        )
        yield from label_ink(words)


# ---- dimensions and arrows

LEADER_DOT: Final = 0.45
LEADER_LETTERS: Final = 3.0

HEAD_LENGTH: Final = 2.4
LARGEST_HEAD: Final = 0.6
"""Length of an arrow's head at most, in parts of the arrow's."""
HEAD_SLENDERNESS: Final = 0.32
"""Width over length of an arrowhead."""

EXTENSION_GAP: Final = 1.0
EXTENSION_OVER: Final = 1.6
TEXT_OVER_LINE: Final = 0.9
ZERO_RADIUS: Final = 0.8
LEADER: Final = 2.0
RING_RADIUS: Final = 2.9
"""Of the ring round a number (mm): two figures go in, and on a screen a finger finds it."""
RING_GAP: Final = 0.5


def dimension_ink(mark: Dimension) -> Iterator[Ink]:
    """Extension lines, dimension line, arrowheads and words; heads outside and words beyond the end where it is too short."""
    length = math.dist(mark.start, mark.end)
    if length == 0:
        return
    along = ((mark.end[0] - mark.start[0]) / length, (mark.end[1] - mark.start[1]) / length)
    left = (-along[1], along[0])
    side = math.copysign(1.0, mark.offset)
    near, far = min(EXTENSION_GAP, abs(mark.offset)) * side, mark.offset + EXTENSION_OVER * side
    a, b = (walk(at, left, mark.offset) for at in (mark.start, mark.end))
    for at in (mark.start, mark.end):
        yield stroke((walk(at, left, near), walk(at, left, far)), mark.role)
    width = text_width(mark.text, mark.size)
    tight = length < 2.6 * HEAD_LENGTH
    beyond = width > length - 1.5
    angle = math.degrees(math.atan2(along[1], along[0])) % 360
    if 90 + 1e-9 < angle <= 270 + 1e-9:
        angle, ahead, last = (angle + 180) % 360, (-along[0], -along[1]), a
    else:
        ahead, last = along, b
    above = (-ahead[1], ahead[0])
    tail = 1.8 * HEAD_LENGTH if tight else 0.0
    reach = tail + (width + 1.0 if beyond else 0.0)
    start, end = (a, b) if last == b else (b, a)
    yield stroke((walk(start, ahead, -tail), walk(end, ahead, reach)), mark.role)
    yield arrow_head(start, ahead if tight else (-ahead[0], -ahead[1]), mark.role, HEAD_LENGTH)
    yield arrow_head(end, (-ahead[0], -ahead[1]) if tight else ahead, mark.role, HEAD_LENGTH)
    middle = walk(end, ahead, tail + 0.5 + width / 2) if beyond else ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    yield from label_ink(
        Label(mark.text, walk(middle, above, TEXT_OVER_LINE), mark.role, mark.size, level="base", angle=angle)
    )


def running_ink(mark: Running) -> Iterator[Ink]:
    """Dimension line, circle at zero, stops and their words, readable from below or from the right.

    The words stand along a level line where they have room, otherwise square to the line. Ringed: only numbers in rings.
    """
    if mark.ringed:
        for words, stop, spot in ring_spots(mark):
            yield stroke((stop, walk_towards(spot, stop)), mark.role)
            yield from ring_ink(words, spot, mark)
        return
    length = math.dist(mark.start, mark.end)
    if length == 0:
        return
    along = ((mark.end[0] - mark.start[0]) / length, (mark.end[1] - mark.start[1]) / length)
    side = math.copysign(1.0, mark.offset)
    out = (-along[1] * side, along[0] * side)
    offset = abs(mark.offset)

    def at(distance: float, outwards: float) -> Point:
        return walk(walk(mark.start, along, distance), out, outwards)

    stops = sorted(mark.stops)
    widest = max(text_width(words, mark.size) for _, words in stops) + mark.size / 2
    lies = abs(along[1]) < abs(along[0]) / 1e3 and len(stops) * widest <= length
    places = spread([distance for distance, _ in stops], gap=widest if lies else mark.size * 1.15)
    angle = math.degrees(math.atan2(out[1], out[0])) % 360
    anchor: Anchor = "start"
    level: Level = "middle"
    if lies:
        angle, anchor, level = 0.0, "middle", "base" if out[1] > 0 else "top"
    elif 90 + 1e-9 < angle <= 270 + 1e-9:
        angle, anchor = (angle + 180) % 360, "end"
    lead = LEADER if places != [distance for distance, _ in stops] else 0.0
    gap = min(EXTENSION_GAP, offset)
    yield stroke((at(0, gap), at(0, offset + EXTENSION_OVER)), mark.role)
    yield Disc(at(0, offset), ZERO_RADIUS, mark.role, "line")
    yield stroke((at(ZERO_RADIUS, offset), at(max([length, *(d for d, _ in stops)]), offset)), mark.role)
    last = 0.0
    for (distance, words), place in zip(stops, places, strict=True):
        over = at(distance, offset + EXTENSION_OVER)
        yield stroke((at(distance, gap), over), mark.role)
        if distance - last >= 1.5 * HEAD_LENGTH:
            yield arrow_head(at(distance, offset), along, mark.role, HEAD_LENGTH)
        else:
            yield stroke((at(distance - 0.8, offset - 0.8), at(distance + 0.8, offset + 0.8)), mark.role)
        if place != distance:
            yield stroke((over, at(place, offset + EXTENSION_OVER + lead)), mark.role)
        spot = at(place, offset + EXTENSION_OVER + lead + 0.7)
        yield from label_ink(Label(words, spot, mark.role, mark.size, anchor, level, angle))
        last = distance


def ring_spots(mark: Running) -> tuple[tuple[str, Point, Point], ...]:
    """The words of ringed stops, where the line to each begins, and the middle of its ring."""
    length = math.dist(mark.start, mark.end)
    along = ((mark.end[0] - mark.start[0]) / length, (mark.end[1] - mark.start[1]) / length)
    side = math.copysign(1.0, mark.offset)
    out = (-along[1] * side, along[0] * side)
    stops = sorted(mark.stops)
    places = spread([distance for distance, _ in stops], gap=2 * RING_RADIUS + RING_GAP)
    near, far = min(EXTENSION_GAP, abs(mark.offset)), abs(mark.offset) + RING_RADIUS
    return tuple(
        (
            words,
            walk(walk(mark.start, along, distance), out, near),
            walk(walk(mark.start, along, place), out, far),
        )
        for (distance, words), place in zip(stops, places, strict=True)
    )


def walk_towards(spot: Point, goal: Point) -> Point:
    """The place on the rim of a ring round `spot` that is nearest to a goal outside it."""
    away = math.dist(spot, goal)
    return walk(spot, ((goal[0] - spot[0]) / away, (goal[1] - spot[1]) / away), RING_RADIUS)


def ring_ink(words: str, spot: Point, mark: Running) -> Iterator[Ink]:
    """A number in its ring."""
    yield Disc(spot, RING_RADIUS, mark.role, "paper")
    yield Disc(spot, RING_RADIUS, mark.role, "line")
    yield from label_ink(Label(words, spot, mark.role, mark.size))


def spread(places: Sequence[float], *, gap: float) -> list[float]:
    """Places in rising order, moved as little as needed so that neighbours are at least `gap` apart: clusters keep their middle."""
    clusters: list[list[float]] = []  # each: sum of (place − its rank × gap), count
    for place in places:
        clusters.append([place, 1.0])
        while len(clusters) > 1:
            (one, n), (two, m) = clusters[-2], clusters[-1]
            start, after = one / n - (n - 1) / 2 * gap, two / m - (m - 1) / 2 * gap
            if after - (start + (n - 1) * gap) >= gap:
                break
            clusters[-2:] = [[one + two, n + m]]
    spots: list[float] = []
    for total, count in clusters:
        first = total / count - (count - 1) / 2 * gap
        spots += [first + rank * gap for rank in range(int(count))]
    return spots


def arrow_ink(mark: Arrow) -> Iterator[Ink]:
    """Shaft and head of an arrow; a bent shaft is one Bézier arc, and the head follows its end. A short arrow has a smaller head."""
    length = math.dist(mark.start, mark.end)
    if length == 0:
        return
    head_size = min(mark.head_size, LARGEST_HEAD * length)
    along = ((mark.end[0] - mark.start[0]) / length, (mark.end[1] - mark.start[1]) / length)
    left = (-along[1], along[0])
    rise = 4 / 3 * mark.bend * length
    one, two = (walk(walk(mark.start, along, part * length), left, rise) for part in (0.22, 0.78))
    run = math.dist(two, mark.end)
    ahead = ((mark.end[0] - two[0]) / run, (mark.end[1] - two[1]) / run)
    back = {"solid": 0.8, "hollow": 1.0, "open": 0.0, "none": 0.0}[mark.head] * head_size
    stop = walk(mark.end, ahead, -back)
    if mark.bend:
        chain = (mark.start, one, walk(two, ahead, -back / 2), stop)
        yield replace(stroke(flattened(chain), mark.role), rings=(chain,), curved=True)
    else:
        yield stroke((mark.start, stop), mark.role)
    if mark.head == "solid":
        yield arrow_head(mark.end, ahead, mark.role, head_size, slenderness=0.6)
    elif mark.head != "none":
        tip, *wings = arrow_head(mark.end, ahead, mark.role, head_size, slenderness=0.7).rings[0]
        if mark.head == "hollow":
            yield Path(((tip, *wings),), mark.role, "paper", closed=True)
            yield Path(((tip, *wings),), mark.role, "line", closed=True)
        else:
            yield Path(((wings[0], tip, wings[1]),), mark.role, "line", closed=False)


def arrow_head(tip: Point, ahead: Point, role: Role, length: float, *, slenderness: float = HEAD_SLENDERNESS) -> Path:
    """A filled triangle with its tip at `tip`, pointing `ahead` (a unit vector)."""
    left = (-ahead[1], ahead[0])
    base = walk(tip, ahead, -length)
    half = length * slenderness / 2
    return Path(((tip, walk(base, left, half), walk(base, left, -half)),), role, "solid", closed=True)
