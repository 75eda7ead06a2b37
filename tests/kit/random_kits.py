"""Kit documents at random, and random edits of them: every form, every relation, papers, ruler, free play, quantities and sizes.

`sensible` ones mostly build, `wild` ones say anything of anything. Whoever gives the same random numbers gets the same documents.
"""

from __future__ import annotations

import copy
from collections.abc import Mapping
from dataclasses import dataclass, field
from random import Random
from typing import Final

import kitwright.forms  # noqa: F401  # fills the catalogue
from kitwright.catalogue import CATALOGUE, parameters
from kitwright.kit import Face, Goes
from kitwright.pattern import Axis

__all__ = ["RandomKit", "edited", "sensible", "wild"]

Value = str | int | list[str]
LIDS: Final = ("lift-off lid", "flap lid")
BOXES: Final = ("tray", "two-half wrap box")
SIZES: Final = {Axis.WIDTH: (70, 140), Axis.DEPTH: (40, 110), Axis.HEIGHT: (45, 120)}
"""Lengths of what has a size of its own, mm."""

FIT_KEYS: Final = ("lid", "envelope", "contents", "band", "border")


@dataclass
class RandomKit:
    """A kit document in pieces, in millimetres."""

    ruler: str = "1"
    calipers: dict[str, str] = field(default_factory=lambda: {"card": "0.3", "thin": "0.15", "heavy": "1.2"})
    fit: dict[str, str] = field(default_factory=dict)
    accuracy: dict[str, str] = field(default_factory=dict)
    parts: list[dict[str, Value]] = field(default_factory=list)
    extras: list[dict[str, Value]] = field(default_factory=list)

    @property
    def text(self) -> str:
        """The document."""
        lines = ["[kit]", 'name = "a kit"', 'units = "mm"', f'ruler = "{self.ruler}"']
        for key, lengths in (("fit", self.fit), ("accuracy", self.accuracy)):
            if lengths:
                lines.append(f"{key} = {{ {', '.join(f'{k} = {said(v)}' for k, v in lengths.items())} }}")
        for word, caliper in self.calipers.items():
            lines += [f"[paper.{word}]", 'sheet = "700 x 1000"', 'weight = "240 gsm"', f'caliper = "{caliper}"']
        for heading, tables in (("part", self.parts), ("extra", self.extras)):
            for table in tables:
                lines += [f"[[{heading}]]", *(f"{key} = {said(value)}" for key, value in table.items())]
        return "\n".join(lines) + "\n"

    @property
    def names(self) -> list[str]:
        """Everything that a relation can name."""
        return [str(each["name"]) for each in (*self.parts, *self.extras)]


def said(value: Value) -> str:
    """A value as it is typed."""
    if isinstance(value, list):
        return "[" + ", ".join(map(said, value)) + "]"
    return str(value) if isinstance(value, int) else f'"{value}"'


def sensible(random: Random, *, most: int = 7) -> RandomKit:
    """A kit whose parts relate to earlier ones as their forms are meant to."""
    kit = RandomKit(ruler=random.choice(["1", "0.5"]))
    for number in range(random.randint(0, 2)):
        kit.extras.append(
            {"name": f"extra {number}", "size": "60 x 20 x 9", "packed": random.choice(["flat", "beside"])}
        )
    for number in range(random.randint(3, most)):
        form = random.choice(sorted(CATALOGUE)) if number else random.choice(["flat card", "tray", "half-fold card"])
        part: dict[str, Value] = {"name": f"part {number}", "form": form, "paper": random.choice(sorted(kit.calipers))}
        part |= belonging(random, kit, form)
        if random.random() < 0.3:
            part |= setting(random, form)
        kit.parts.append(part)
    random.shuffle(kit.parts)
    return kit


def belonging(random: Random, kit: RandomKit, form: str) -> dict[str, Value]:
    """What a new part of a form says of its size and of those that are there."""
    flat = [str(each["name"]) for each in kit.parts if not is_box(each)]
    boxes = [str(each["name"]) for each in kit.parts if each["form"] in BOXES]
    open_ = [str(each["name"]) for each in kit.parts if each["form"] in (*BOXES, *LIDS)]
    everything = [str(each["name"]) for each in kit.parts]
    bought = [str(each["name"]) for each in kit.extras]
    found: dict[str, Value] = {}
    if form in LIDS and boxes:
        return {"covers": random.choice(boxes)}
    if form == "belly band" and everything:
        return {"wraps": random.choice(everything), **({"goes": random.choice(list(Goes))} if boxes else {})}
    if form == "side-seam envelope" and flat:
        return {"holds": random.choice(flat), "quantity": random.randint(1, 3)}
    if form in BOXES and [*flat, *bought] and random.random() < 0.8:
        some = random.sample([*flat, *bought], random.randint(1, min(3, len([*flat, *bought]))))
        return {"holds": some}
    if form in ("mat", "pocket", "flat card", "tag") and everything and random.random() < 0.8:
        found["on"] = random.choice(everything)
        if found["on"] in open_ and random.random() < 0.7:
            found["face"] = Face.INSIDE
        if random.random() < 0.3:
            found["border"] = str(random.randint(1, 8))
        if form == "pocket" and bought and random.random() < 0.4:
            found["holds"] = random.choice(bought)
        if form in ("mat", "pocket") and random.random() < 0.7:
            return found
    return {**found, "size": size(random, form), "quantity": random.randint(1, 3)}


def is_box(part: Mapping[str, Value]) -> bool:
    """Whether a part has a depth."""
    return Axis.DEPTH in CATALOGUE[str(part["form"])].size.values()


def size(random: Random, form: str) -> str:
    """A size of its own for a part of a form."""
    return " x ".join(str(random.randint(*SIZES[axis])) for axis in CATALOGUE[form].size.values())


def setting(random: Random, form: str) -> dict[str, Value]:
    """One of a form's own numbers or choices, near what is usual."""
    free = [each for each in parameters(CATALOGUE[form]) if each.name not in CATALOGUE[form].size]
    if not free:
        return {}
    chosen = random.choice(free)
    if chosen.choices:
        return {chosen.word.replace(" ", "-"): random.choice(chosen.choices)}
    least = round(chosen.at_least + 0.5)
    return {chosen.word.replace(" ", "-"): str(random.randint(least, max(least, round(min(chosen.at_most, 25)))))}


def wild(random: Random) -> RandomKit:
    """A kit in which anything may lie on, hold, cover or go round anything, itself and what is not there as well."""
    kit = sensible(random, most=5)
    for _ in range(random.randint(1, 4)):
        relate(random, kit)
    return kit


def relate(random: Random, kit: RandomKit) -> None:
    """Say, change or take out a relation of some part."""
    part = random.choice(kit.parts)
    strange = [str(part["name"]), "nothing"]
    names = strange if random.random() < 0.04 else [name for name in kit.names if name not in strange]
    match random.choice(["on", "holds", "covers", "wraps", "face", "out", "no size"]):
        case "holds":
            part["holds"] = random.sample(names, random.randint(1, min(3, len(names))))
        case "face":
            part["face"] = random.choice(list(Face))
            part.setdefault("on", random.choice(names))
        case "out":
            part.pop(random.choice(["on", "holds", "covers", "wraps"]), None)
        case "no size":
            part.pop("size", None)
        case key:
            part[key] = random.choice(names)
    for key, other in (("face", "on"), ("border", "on"), ("goes", "wraps"), ("contents", "holds")):
        if other not in part:
            part.pop(key, None)


def edited(random: Random, kit: RandomKit) -> RandomKit:
    """The same kit with one thing changed."""
    kit = copy.deepcopy(kit)
    part = random.choice(kit.parts)
    match random.randint(0, 11):
        case 0:
            relate(random, kit)
        case 1:
            kit.calipers[random.choice(sorted(kit.calipers))] = random.choice(["0.1", "0.3", "0.6", "1.5"])
        case 2:
            kit.ruler = random.choice(["0.5", "1", "2"])
        case 3:
            kit.fit[random.choice(FIT_KEYS)] = str(random.randint(1, 9))
        case 4:
            kit.accuracy[random.choice(["cut", "score", "fold", "glue"])] = random.choice(["0.2", "0.5", "1"])
        case 5:
            part["paper"] = random.choice(sorted(kit.calipers))
        case 6:
            part["quantity"] = random.randint(1, 4)
        case 7 if kit.extras:
            random.choice(kit.extras)["size"] = f"{random.randint(30, 70)} x 20 x {random.randint(3, 15)}"
        case 8 if "on" in part:
            part |= (
                {"face": random.choice(list(Face))} if random.random() < 0.6 else {"border": str(random.randint(1, 9))}
            )
        case 9:
            part |= setting(random, str(part["form"]))
        case 10:
            part |= {"turn": random.choice([0, 90, 180, 270])}
        case _:
            part["size"] = size(random, str(part["form"]))
    return kit
