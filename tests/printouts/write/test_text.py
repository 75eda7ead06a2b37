from kitwright.printouts.drawing import Arrow, Circle, Dimension, Drawing, Group, Label, Line, Polygon, Role, Running
from kitwright.printouts.write.text import drawing_to_text


def test_a_drawing_is_remembered_mark_by_mark() -> None:
    drawing = Drawing(
        100,
        70.00001,
        (
            Polygon(((0, 0), (100, 0), (100, 70)), Role.CUT, holes=(((50, 10), (60, 10), (60, 20)),)),
            Line((1 / 3, 0), (30, -0.0), Role.MOUNTAIN),
            Group("words", (Label('5" wide', (65, 35), weight="bold", room=(60, 60)), Arrow((0, 0), (5, 0)))),
            Circle((5, 5), 2, Role.SLIT),
            Dimension((0, 0), (100, 0), "4 in", -8),
            Running((0, 0), (100, 0), ((10, "3/8"),)),
        ),
    )
    assert drawing_to_text(drawing).splitlines() == [
        "canvas 100 × 70",
        "polygon cut points=((0,0),(100,0),(100,70)) holes=(((50,10),(60,10),(60,20)))",
        "line mountain start=(0.3333,0) end=(30,0)",
        "group words",
        "  label note text='5\" wide' at=(65,35) weight='bold' room=(60,60)",
        "  arrow action start=(0,0) end=(5,0)",
        "circle slit centre=(5,5) radius=2",
        "dimension dimension start=(0,0) end=(100,0) text='4 in' offset=-8",
        "running dimension start=(0,0) end=(100,0) stops=((10,'3/8'))",
    ]


def test_a_clipped_drawing_says_so() -> None:
    assert drawing_to_text(Drawing(10, 10, clipped=True)) == "canvas 10 × 10 clipped\n"
