"""The files of a pack, read back by independent readers (PDFium, an XML parser)."""

import io
import math
import resource
import xml.etree.ElementTree as ET
from functools import cache
from importlib import resources
from itertools import pairwise
from pathlib import Path

import ezdxf
import pypdfium2
import pytest
from ezdxf.entities import LWPolyline
from tests.printouts.write.pdf_reader import read_pdf

from kitwright.cutting import verify_plan
from kitwright.kit import read_kit
from kitwright.paper import Print
from kitwright.pattern import FoldWay
from kitwright.plan import Plan, plan
from kitwright.printouts.make.bench_pack import Section, bench_pack, bench_pack_source
from kitwright.printouts.make.templates import needs_template
from kitwright.printouts.make.whole_pack import file_name, whole_pack
from kitwright.printouts.page import A4, US_LETTER, Page
from kitwright.printouts.write.pdf import to_pdf

EXAMPLES = ("recipe-box", "thank-you-cards", "postcard-set")
MM_PER_POINT = 25.4 / 72


@cache
def planned(name: str, batch: int = 4) -> Plan:
    """An example kit, planned."""
    text = resources.files("kitwright").joinpath("examples", f"{name}.toml").read_text(encoding="utf-8")
    return plan(read_kit(text), batch=batch)


@cache
def bound(name: str, page: Page) -> bytes:
    """The bench pack of an example kit."""
    return bench_pack(planned(name), page)


@cache
def packed(name: str) -> dict[str, bytes]:
    """All files of the pack of an example kit."""
    return whole_pack(planned(name))


def pages_of(pdf: bytes) -> list[tuple[float, float, str]]:
    """Width and height in mm, and the words, of every page."""
    document = pypdfium2.PdfDocument(pdf)
    found = []
    for page in document:
        text = page.get_textpage()
        found.append((page.get_width() * MM_PER_POINT, page.get_height() * MM_PER_POINT, text.get_text_range()))
        text.close()
        page.close()
    document.close()
    return found


@pytest.mark.parametrize("page", [US_LETTER, A4], ids=lambda page: page.key)
@pytest.mark.parametrize("name", EXAMPLES)
def test_every_page_has_the_size_asked_for_and_words_on_it(name: str, page: Page) -> None:
    pages = pages_of(bound(name, page))
    for width, height, words in pages:
        assert width == pytest.approx(page.width, abs=0.1)
        assert height == pytest.approx(page.height, abs=0.1)
        assert f"of {len(pages)}" in words
        assert len(words.split()) > 20


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_pack_names_every_part_and_every_cut_size(name: str) -> None:
    made = planned(name)
    words = " ".join(" ".join(text for *_, text in pages_of(bound(name, US_LETTER))).replace("\xa0", " ").split())
    for part in made.built.parts:
        assert part.name in words
    for line in made.lines:
        assert made.ruler.size(*line.blank.size).replace("\xa0", " ") in words


@pytest.mark.parametrize("page", [US_LETTER, A4], ids=lambda page: page.key)
def test_each_template_page_holds_its_heading_its_ruler_bar_and_its_drawing(page: Page) -> None:
    made = planned("thank-you-cards")
    read = read_pdf(bound("thank-you-cards", page))
    first = next(number for number, each in enumerate(read) if "Template" in each.words)
    for each in read[first:]:
        assert "Template" in each.words
        # the bar stands upright beside a drawing as long as the page
        assert each.has_line(across=101.6) or each.has_line(up=101.6)
    labels = {line.label for line in made.lines if needs_template(line)}
    assert all(any(label in each.words for each in read[first:]) for label in labels)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_drawing_of_a_blank_is_true_to_scale(name: str) -> None:
    made = planned(name)
    files = packed(name)
    for line in made.lines:
        root = ET.fromstring(files[f"patterns/{file_name(line.label)}.svg"])
        width_mm, height_mm = (float(root.attrib[key].removesuffix("mm")) for key in ("width", "height"))
        _, _, box_width, box_height = map(float, root.attrib["viewBox"].split())
        assert (width_mm, height_mm) == pytest.approx((box_width, box_height))
        assert width_mm >= line.blank.size[0]
        assert height_mm >= line.blank.size[1]


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_dxf_of_a_blank_has_its_outline_and_scores_at_true_length(name: str) -> None:
    made = planned(name)
    files = packed(name)
    for line in made.lines:
        text = files[f"patterns/{file_name(line.label)}.dxf"].decode("cp1252")
        document = ezdxf.read(io.StringIO(text))
        lengths: dict[str, float] = {}
        for each in document.modelspace():
            if isinstance(each, LWPolyline):
                points = list(each.vertices_in_wcs())
                points.extend(points[:1] if each.closed else ())
            else:
                points = [each.dxf.start, each.dxf.end]
            length = sum(one.distance(other) for one, other in pairwise(points))
            lengths[each.dxf.layer] = lengths.get(each.dxf.layer, 0.0) + length
        rings = [line.blank.shape.exterior, *line.blank.shape.interiors]
        cuts = sum(ring.length for ring in rings) + sum(math.dist(*slit) for slit in line.blank.slits)
        assert lengths["cut"] == pytest.approx(cuts, abs=1e-3)
        for way in FoldWay:
            scores = sum(score.length for score in line.blank.scores if score.way is way)
            assert lengths.get(f"{way.value} score", 0.0) == pytest.approx(scores, abs=1e-3)
        is_one_way = line.part.paper.print_ is Print.ONE_WAY
        assert ("print direction" in lengths) == is_one_way


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_svg_of_a_pack_is_well_formed_and_says_what_it_shows(name: str) -> None:
    drawings = {path: data for path, data in packed(name).items() if path.endswith(".svg")}
    assert drawings
    for path, data in drawings.items():
        root = ET.fromstring(data)
        title = root.find("{http://www.w3.org/2000/svg}title")
        assert title is not None, path
        assert title.text


def test_a_second_writing_gives_the_same_bytes() -> None:
    assert whole_pack(planned("postcard-set")) == packed("postcard-set")


@pytest.mark.parametrize("batch", [1, 12, 100])
@pytest.mark.parametrize("name", EXAMPLES)
def test_the_plans_of_the_examples_pass_the_independent_check(name: str, batch: int) -> None:
    made = planned(name, batch)
    for paper in made.papers:
        assert paper.cut_plan.is_complete
        assert verify_plan(paper.demand, paper.stocks, paper.cut_plan) == ()
        assert paper.at_least is not None
        assert paper.at_least <= paper.sheets


def test_cut_list_score_chart_and_drawing_have_the_same_numbers() -> None:
    made = planned("recipe-box")
    (half,) = [line for line in made.lines if line.label == "box: half"]
    width, height = half.blank.size
    assert (half.chart.width, half.chart.height) == (width, height)
    box = made.built.part("box").lengths
    # scores of a two-half wrap box, worked by hand: side, side + width; bottom, bottom + height; the hem is what is left
    deep, wide, high, hem = (float(box[key]) for key in ("depth", "width", "height", "hem"))
    across, up = half.chart.passes
    assert [mark.at for mark in across.marks] == pytest.approx([deep, deep + wide])
    assert across.length == pytest.approx(2 * deep + wide)
    assert [mark.at for mark in up.marks] == pytest.approx([deep, deep + high])
    assert up.length == pytest.approx(deep + high + hem)


@pytest.mark.skipif(not Path("/proc/self/statm").exists(), reason="memory in use is read as Linux tells it")
def test_the_typesetter_keeps_nothing_of_a_pack_that_it_has_set() -> None:
    source = bench_pack_source(planned("recipe-box"), A4, [Section.SCORES, Section.TEMPLATES])

    def memory_after(first: int) -> int:
        for number in range(first, first + 3):
            to_pdf(f"{source}\n// {number}")
        return int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1]) * resource.getpagesize()

    before = memory_after(0)
    assert memory_after(3) - before < 25 << 20
