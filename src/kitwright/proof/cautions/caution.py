"""What a caution is: a sentence for the person who makes or receives the kit, why it is shown, and whom to ask."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Caution", "Place", "Topic"]


class Topic(StrEnum):
    """What a caution is about; the order is the order in which cautions are shown, gravest first."""

    BAG = "thin bag"
    MAGNET = "magnet"
    SMALL_PARTS = "small parts"
    LONG_RIBBON = "long ribbon or cord"
    BLADE = "blade or point"
    HEAT = "heat"
    SUPPLY = "glue, ink, paint or spray"
    CHILDREN = "made for children"
    SELLING = "selling"
    ABROAD = "sending abroad"
    GENERAL = "general"

    @property
    def rank(self) -> int:
        """0 for what is shown first."""
        return list(Topic).index(self)


class Place(StrEnum):
    """Where a caution belongs: with the maker at the bench, with the recipient in the booklet, or on the thing itself."""

    BENCH = "bench sheet"
    BOOKLET = "booklet"
    LABEL = "label on the thing"


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution, in general words.

    `text` is printed as it stands. `about` names the things that gave rise to it, in the order given. `ask` says who decides
    ("Ask …", a whole sentence). `because` says why it is shown: the source of the threshold, or "common practice, no source".
    `least_points` is the smallest type size in points where a source asks for one. A caution is never left out to save space.
    """

    code: str
    topic: Topic
    text: str
    ask: str
    because: str
    places: tuple[Place, ...]
    about: tuple[str, ...] = ()
    least_points: int | None = None
