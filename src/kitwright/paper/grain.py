"""Which way the fibres of a sheet run, and which way its print stands."""

from enum import StrEnum

__all__ = ["Fibres", "Grain", "Print"]


class Grain(StrEnum):
    """The direction of the fibres; the values are the words of a kit document.

    A fold along the grain is smooth, a fold across it may crack (Roberts & Etherington, *Bookbinding and the Conservation of
    Books*, "grain"). On a square sheet *long* means along the height, the second number written, and *short* along the width.
    """

    LONG = "long"
    SHORT = "short"
    UNKNOWN = "unknown"


class Print(StrEnum):
    """What is printed on the sheet; the values are the words of a kit document.

    A one-way print has a right way up, and its up runs along the height of the sheet. *all-over* looks the same any way round.
    """

    NONE = "none"
    ALL_OVER = "all-over"
    ONE_WAY = "one-way"


class Fibres(StrEnum):
    """Along which side of a blank, as it is drawn, the fibres run; the values are the words of a kit document."""

    WIDTH = "width"
    HEIGHT = "height"
