"""Reading a PDF back with an independent reader (PDFium): lines in millimetres, and the words of a page."""

import ctypes
from dataclasses import dataclass

import pypdfium2 as pdfium
from pypdfium2 import raw

MM = 25.4 / 72
"""One unit of a PDF page is 1/72 in (ISO 32000-1, 8.3.2.3)."""


@dataclass(frozen=True)
class Read:
    """One page: its size, every path as points (all in mm, y up), and its words."""

    width: float
    height: float
    paths: tuple[tuple[tuple[float, float], ...], ...]
    words: str

    def has_line(self, *, across: float = 0.0, up: float = 0.0, within: float = 0.1) -> bool:
        """Whether some two-point path on the page is this long, measured from end to end."""
        return any(
            abs(abs(b[0] - a[0]) - across) <= within and abs(abs(b[1] - a[1]) - up) <= within
            for a, b in (path for path in self.paths if len(path) == 2)
        )


def read_pdf(data: bytes) -> list[Read]:
    """The pages of a PDF."""
    document = pdfium.PdfDocument(data)
    try:
        return [read_page(document[number]) for number in range(len(document))]
    finally:
        document.close()


def box_of_words(data: bytes, words: str) -> tuple[float, float, float, float]:
    """The box (left, low, right, high, in mm) around the ink of these words, where they first stand on the first page."""
    document = pdfium.PdfDocument(data)
    page = document[0]
    text = page.get_textpage()
    found = text.search(words, match_case=True).get_next()
    assert found is not None, words
    boxes = [
        text.get_charbox(number) for number in range(found[0], found[0] + found[1]) if words[number - found[0]] != " "
    ]
    text.close()
    page.close()
    document.close()
    lefts, lows, rights, highs = zip(*boxes, strict=True)
    return (min(lefts) * MM, min(lows) * MM, max(rights) * MM, max(highs) * MM)


def read_page(page: pdfium.PdfPage) -> Read:
    """One page."""
    width, height = page.get_size()
    paths = []
    for thing in page.get_objects(max_depth=8):
        if thing.type != raw.FPDF_PAGEOBJ_PATH:
            continue
        matrix = thing.get_matrix()
        points = []
        for number in range(raw.FPDFPath_CountSegments(thing.raw)):
            x, y = ctypes.c_float(), ctypes.c_float()
            raw.FPDFPathSegment_GetPoint(raw.FPDFPath_GetPathSegment(thing.raw, number), x, y)
            right, up = matrix.on_point(x.value, y.value)
            points.append((right * MM, up * MM))
        paths.append(tuple(points))
    text = page.get_textpage()
    words = text.get_text_range().replace("\r\n", "\n")
    text.close()
    page.close()
    return Read(width * MM, height * MM, tuple(paths), words)
