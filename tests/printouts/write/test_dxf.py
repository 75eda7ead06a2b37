"""Patterns as DXF, read back by ezdxf's own reader and auditor."""

import io
import math
import os
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import ezdxf
import pytest
from ezdxf.document import Drawing as Document
from ezdxf.entities import Circle as DxfCircle
from ezdxf.entities import DXFGraphic, LWPolyline
from ezdxf.entities import Line as DxfLine

from kitwright.printouts.compose import print_up_arrow
from kitwright.printouts.drawing import Circle, Curve, Label, Line, Mark, Polygon, Role, Running
from kitwright.printouts.write.dxf import to_dxf

SQUARE = ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0))
MARKS: tuple[Mark, ...] = (
    Polygon(SQUARE, Role.PRINT_FACE),
    Polygon(SQUARE, Role.GLUE),
    Polygon(SQUARE, Role.CUT),
    Line((10, 0), (10, 30), Role.VALLEY),
    Line((20, 0), (20, 30), Role.MOUNTAIN),
    Line((30, 5), (30, 25), Role.SLIT),
    Circle((35, 15), 4, Role.CUT),
    print_up_arrow((5, 15)),
    Label("front", (5, 5)),
    Running((0, 0), (40, 0), ((10, "10"), (20, "20"))),
)


def read(data: bytes) -> Document:
    """The document, found without fault by the library's auditor."""
    document = ezdxf.read(io.StringIO(data.decode("cp1252")))
    assert not document.audit().errors
    return document


def on_layer(document: Document, layer: str) -> list[DXFGraphic]:
    return [each for each in document.modelspace() if each.dxf.layer == layer]


def test_the_units_are_millimetres_and_one_unit_is_one() -> None:
    # DXF reference, HEADER section: $INSUNITS 4 = millimetres, $MEASUREMENT 1 = metric; AC1015 is the release of the year 2000
    document = read(to_dxf(MARKS))
    assert (document.header["$INSUNITS"], document.header["$MEASUREMENT"]) == (4, 1)
    assert document.dxfversion == "AC1015"
    (outline,) = [each for each in on_layer(document, "cut") if isinstance(each, LWPolyline)]
    assert outline.closed
    assert list(outline.get_points("xy")) == list(SQUARE)


def test_every_line_lies_on_the_layer_named_for_what_is_done_there() -> None:
    document = read(to_dxf(MARKS))
    assert {each.dxf.layer for each in document.modelspace()} == {
        "cut",
        "valley score",
        "mountain score",
        "print direction",
    }
    (valley,) = on_layer(document, "valley score")
    (mountain,) = on_layer(document, "mountain score")
    (slit,) = [each for each in on_layer(document, "cut") if isinstance(each, DxfLine)]
    (hole,) = [each for each in on_layer(document, "cut") if isinstance(each, DxfCircle)]
    assert (tuple(valley.dxf.start)[:2], tuple(valley.dxf.end)[:2]) == ((10, 0), (10, 30))
    assert (tuple(mountain.dxf.start)[:2], tuple(mountain.dxf.end)[:2]) == ((20, 0), (20, 30))
    assert (tuple(slit.dxf.start)[:2], tuple(slit.dxf.end)[:2]) == ((30, 5), (30, 25))
    assert (tuple(hole.dxf.center)[:2], hole.dxf.radius) == ((35, 15), 4)


def test_scores_are_shown_dashed_by_their_layers_and_cuts_whole() -> None:
    layers = read(to_dxf(MARKS)).layers
    kinds = {name: layers.get(name).dxf.linetype for name in ("cut", "valley score", "mountain score")}
    assert kinds == {"cut": "Continuous", "valley score": "valley score", "mountain score": "mountain score"}


def test_tints_glue_words_and_numbers_stay_out() -> None:
    kinds = {each.dxftype() for each in read(to_dxf(MARKS)).modelspace()}
    assert kinds == {"LWPOLYLINE", "LINE", "CIRCLE"}


def test_a_curve_becomes_a_chain_of_its_length() -> None:
    # a quarter circle of radius 10 as one cubic arc with handles 4/3 (sqrt 2 - 1) r long, the usual approximation, good to 0.03 %
    handle = 40 / 3 * (math.sqrt(2) - 1)
    document = read(to_dxf([Curve(((10, 0), (10, handle), (handle, 10), (0, 10)), Role.CUT)]))
    (chain,) = on_layer(document, "cut")
    assert isinstance(chain, LWPolyline)
    points = list(chain.get_points("xy"))
    length = sum(math.dist(one, other) for one, other in pairwise(points))
    assert length == pytest.approx(math.pi * 5, rel=2e-3)


def test_equal_marks_give_equal_bytes() -> None:
    assert to_dxf(MARKS) == to_dxf(MARKS)


def test_writing_leaves_nothing_in_the_home_folder(tmp_path: Path) -> None:
    program = """
from kitwright.printouts.drawing import Line, Role
from kitwright.printouts.write.dxf import to_dxf
to_dxf([Line((0, 0), (1, 0), Role.CUT)])
import os
assert "XDG_CACHE_HOME" not in os.environ and os.environ["XDG_CONFIG_HOME"] == "elsewhere"
"""
    homes = {"HOME": str(tmp_path), "USERPROFILE": str(tmp_path), "XDG_CONFIG_HOME": "elsewhere"}
    around = {name: value for name, value in os.environ.items() if not name.startswith("XDG_")}
    subprocess.run([sys.executable, "-c", program], check=True, env={**around, **homes}, cwd=tmp_path)
    assert list(tmp_path.iterdir()) == []
