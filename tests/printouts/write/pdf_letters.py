"""Every letter of a PDF with the box of its ink, read by PDFium: whether any lies outside the margins or on another. Millimetres, y up."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations

import pypdfium2 as pdfium

MM = 25.4 / 72
CELL = 12.0
"""Letters that overlap share a cell of this size (mm): larger than any letter."""

ON_ANOTHER = 0.4
"""Two letters lie on each other where they share so much of the smaller one's width and of its height; neighbours in a word share less."""


@dataclass(frozen=True, slots=True)
class Letter:
    """One visible letter, its place in the text, and the box of its ink."""

    sign: str
    place: int
    left: float
    low: float
    right: float
    high: float


@dataclass(frozen=True, slots=True)
class Page:
    """A page with its letters in the order of the document, and its words without any white space."""

    width: float
    height: float
    letters: tuple[Letter, ...]
    words: str

    def beyond(self, left: float, low: float, right: float, high: float) -> list[Letter]:
        """The letters that reach out of the page without margins so wide."""
        return [
            each
            for each in self.letters
            if each.left < left or each.low < low or each.right > self.width - right or each.high > self.height - high
        ]

    def on_another(self) -> list[tuple[Letter, Letter]]:
        """Pairs of letters that lie on each other."""
        cells: dict[tuple[int, int], list[Letter]] = defaultdict(list)
        for each in self.letters:
            for cell in {
                (int(x // CELL), int(y // CELL)) for x in (each.left, each.right) for y in (each.low, each.high)
            }:
                cells[cell].append(each)
        pairs = {pair for near in cells.values() for pair in combinations(near, 2) if lie_on_each_other(*pair)}
        return sorted(pairs, key=lambda pair: (-pair[0].high, pair[0].left))


def lie_on_each_other(one: Letter, other: Letter) -> bool:
    """Whether two letters share much of their boxes; the two of a ligature do so rightly."""
    if abs(one.place - other.place) == 1:
        return False
    wide = min(one.right, other.right) - max(one.left, other.left)
    tall = min(one.high, other.high) - max(one.low, other.low)
    return wide > ON_ANOTHER * min(one.right - one.left, other.right - other.left) and tall > ON_ANOTHER * min(
        one.high - one.low, other.high - other.low
    )


def letters_of(data: bytes) -> tuple[Page, ...]:
    """The pages of a PDF."""
    document = pdfium.PdfDocument(data)
    try:
        return tuple(read(document[number]) for number in range(len(document)))
    finally:
        document.close()


def read(page: pdfium.PdfPage) -> Page:
    """One page."""
    width, height = page.get_size()
    text = page.get_textpage()
    words = text.get_text_range()
    letters = []
    for number in range(text.count_chars()):
        sign = text.get_text_range(number, 1)
        left, low, right, high = (MM * side for side in text.get_charbox(number))
        if sign.strip() and right > left and high > low:
            letters.append(Letter(sign, number, left, low, right, high))
    text.close()
    page.close()
    return Page(width * MM, height * MM, tuple(letters), squeezed(words))


def squeezed(words: str) -> str:
    """Words without white space: lines may end anywhere."""
    return "".join(words.split())


def lost(pages: Iterable[Page], words: Iterable[str]) -> Iterator[str]:
    """The words that stand on none of the pages."""
    found = [page.words for page in pages]
    for each in words:
        if not any(squeezed(each) in page for page in found):
            yield each
