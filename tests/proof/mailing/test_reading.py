import pytest

from kitwright.errors import Mistakes
from kitwright.proof.mailing import Kind, MailPiece, Shape, Status, judge, load_services, parse_service

RULES = """
[service]
code = "xx"
name = "Test Post"
place = "Testland"
unit = "mm"
weight_unit = "g"
source = "made up for this test"
date = "1 Jan 2020"
status = "read"

[[class]]
name = "small"
kind = "letter"
sides = "longest"
shapes = ["card", "envelope"]
length = ["0", "200"]
height = ["0", "100"]
thickness = ["0", "5"]
weight = ["0", "50"]
clause = "1"

[[class]]
name = "large"
kind = "parcel"
sides = "longest"
shapes = ["card", "envelope", "box", "tube"]
length = ["0", "400"]
height = ["0", "300"]
thickness = ["0", "50"]
weight = ["0", "2 kg"]
clause = "2"
"""


def refused(text):
    with pytest.raises(Mistakes) as caught:
        parse_service(text, document="test.toml")
    return [str(mistake) for mistake in caught.value.mistakes]


def test_rules_are_read_with_their_clauses():
    service = parse_service(RULES)
    assert [row.name for row in service.classes] == ["small", "large"]
    assert str(service.classes[0].clause) == "1, made up for this test, 1 Jan 2020"


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('thickness = ["0", "5"]\n', "", 'test.toml, class 1, "small": The range of thickness is missing.'),
        ('["0", "5"]', '["5", "0"]', 'test.toml, class 1, "small": The range of thickness, 5 to 0, is turned round.'),
        ('["0", "5"]', '["0"]', "test.toml, class 1, \"small\": thickness = ['0'] should be a range."),
        ('["0", "5"]', '["0", 5]', 'test.toml, class 1, "small": thickness = 5 should be a length in quotes.'),
        ('["0", "5"]', '["0", "five"]', "test.toml, class 1, \"small\": 'five' is not a length that can be read."),
        ('"2 kg"', '"2 stone"', "test.toml, class 2, \"large\": '2 stone' is not a weight that can be read."),
        ('clause = "1"', "", "test.toml, class 1, \"small\": 'clause' is missing."),
        ('date = "1 Jan 2020"\n', "", "test.toml, [service]: 'date' is missing."),
        ('clause = "1"', 'clause = "1"\ncolour = "red"', "test.toml, class 1, \"small\": 'colour' is not known here."),
        ('"parcel"', '"sack"', "test.toml, class 2, \"large\": kind = 'sack' is not known."),
        ('"parcel"', '"too big"', 'test.toml, class 2, "large": A class cannot be too big.'),
        ('status = "read"', 'status = "sure"', "test.toml, [service]: status = 'sure' is not known."),
        ('weight_unit = "g"', 'weight_unit = "st"', "test.toml, [service]: weight_unit = 'st' is not known."),
        ('name = "large"', 'name = "small"', 'test.toml, class 2, "small": Class 1 has the same name.'),
        ('"box", "tube"]', '"box"]', "test.toml, Test Post: No class takes a tube."),
        ('shapes = ["card", "envelope"]', "shapes = []", 'test.toml, class 1, "small": It takes no shape.'),
        (
            'clause = "1"',
            'clause = "1"\n[[class.condition]]\neffect = "next class"\nsays = "x"\nclause = "1a"',
            'test.toml, class 1, "small", condition 1: It asks for nothing.',
        ),
    ],
)
def test_a_row_that_is_wrong_is_refused_by_its_name(old, new, told):
    assert old in RULES
    assert any(line.startswith(told) for line in refused(RULES.replace(old, new, 1)))


def test_a_gap_between_the_ranges_of_two_classes_is_refused_with_the_row_above_it():
    gap = RULES.replace('thickness = ["0", "50"]', 'thickness = ["6", "50"]')
    assert refused(gap)[0].startswith(
        'test.toml, class 2, "large": The range of thickness from 5 mm to 6 mm is missing for a card.'
    )


def test_ranges_that_only_touch_leave_no_gap():
    touching = RULES.replace('thickness = ["0", "50"]', 'thickness = ["5", "50"]')
    assert parse_service(touching).classes[1].name == "large"


def test_a_class_that_an_earlier_one_covers_is_refused_as_overlapping():
    covered = RULES.replace('["0", "200"]', '["0", "400"]').replace('["0", "100"]', '["0", "300"]')
    covered = covered.replace('["0", "5"]', '["0", "50"]').replace(
        '["0", "50"]\nclause = "1"', '["0", "2 kg"]\nclause = "1"'
    )
    covered = covered.replace('shapes = ["card", "envelope"]', 'shapes = ["card", "envelope", "box", "tube"]')
    assert refused(covered)[0].startswith('test.toml, class 2, "large": Its ranges overlap those of class 1, "small"')


def test_all_mistakes_are_told_at_once():
    twice = RULES.replace('clause = "1"\n', "").replace('kind = "parcel"', 'kind = "sack"')
    assert len(refused(twice)) == 2


def test_text_that_is_not_toml_is_refused():
    assert refused("[service")[0].startswith("test.toml: This is not TOML")


def test_the_shipped_rules_are_complete_and_dated():
    services = load_services()
    assert [service.code for service in services] == ["ca", "de", "uk", "upu", "us"]
    for service in services:
        for row in service.classes:
            clauses = [row.clause, *(condition.clause for condition in row.conditions)]
            assert all(clause.date and clause.source and clause.name for clause in clauses)
            recalled = [clause for clause in clauses if "recalled" in clause.source]
            assert all(clause.status is not Status.READ for clause in recalled)


def test_own_rules_judge_like_shipped_ones():
    verdict = judge(MailPiece(200, 100, 5, 50, Shape.CARD), parse_service(RULES))
    assert (verdict.kind, verdict.class_name) == (Kind.LETTER, "small")


def test_a_piece_too_long_and_too_thin_for_every_class_is_too_big():
    thick = RULES.replace('thickness = ["0", "50"]', 'thickness = ["5", "50"]')
    found = judge(MailPiece(401, 100, 4, 60, Shape.CARD), parse_service(thick))
    assert [reason.is_over for reason in found.reasons] == [True, False]
    assert found.kind is Kind.TOO_BIG


@pytest.mark.parametrize(
    ("sizes", "kind"),
    [
        ((140, 90, 0.5), Kind.LETTER),
        ((139, 90, 0.5), Kind.TOO_SMALL),
        ((140, 89, 0.5), Kind.TOO_SMALL),
        ((140, 90, 0.4), Kind.TOO_SMALL),
    ],
)
def test_a_piece_below_the_least_length_height_or_thickness_is_too_small(sizes, kind):
    length, height, thickness = sizes
    least = '[smallest]\nlength = "140"\nheight = "90"\nthickness = "0.5"\nshapes = ["card"]\nclause = "0"\n'
    assert judge(MailPiece(length, height, thickness, 20, Shape.CARD), parse_service(RULES + least)).kind is kind
