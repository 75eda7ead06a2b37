"""The sheets met on the way: which of them a plan is looked for among."""

from kitwright.cutting import UPRIGHT, PieceType, Stock, TrimmerLimits
from kitwright.cutting.job import make_job
from kitwright.cutting.losses import losses_against
from kitwright.cutting.master import Prices
from kitwright.cutting.met import MOST_OFFERED, Met
from kitwright.cutting.sketch import Leaf, Pattern

JOB = make_job(
    [PieceType("large", 8, 10, 2, UPRIGHT), PieceType("small", 2, 10, 1, UPRIGHT)],
    [Stock("sheet", 10, 10, None, 7)],
    TrimmerLimits(),
)
# As if a large piece were worth 5 and a small one 2, of a sheet for 7 that rents for 1 more.
PRICES = Prices(12.0, (5.0, 2.0), (1.0,), ())
UNIT = losses_against(JOB, PRICES).scale


def pattern(*counts: int) -> Pattern:
    """A pattern of which only the counts matter here."""
    return Pattern(0, counts, Leaf(0, 0))


def test_copies_beyond_what_is_wanted_are_worth_nothing() -> None:
    losses = losses_against(JOB, PRICES)
    assert losses.of(0, (1, 1)) == 1 * UNIT
    assert losses.of(0, (0, 3)) == losses.of(0, (0, 1)) == 6 * UNIT
    assert losses.of_these(0, [0, 1]) == 1 * UNIT


def test_sheets_that_lose_more_than_a_cheaper_plan_may_are_not_offered() -> None:
    met = Met(JOB)
    for counts in ((0, 1), (1, 1), (1, 0)):
        met.keep(pattern(*counts))
    assert [each.counts for each in met.likely()] == [(0, 1), (1, 1), (1, 0)]
    met.weigh(losses_against(JOB, PRICES))
    met.aim_below(21)  # the next cheaper plan costs 14: two more than the programme
    assert [each.counts for each in met.likely()] == [(1, 1)]
    met.aim_below(28)
    assert [each.counts for each in met.likely()] == [(1, 1), (1, 0), (0, 1)]


def test_a_sheet_loses_little_only_against_a_known_programme() -> None:
    met = Met(JOB)
    met.aim_below(28)
    assert not met.loses_little(0, [0, 1])
    met.weigh(losses_against(JOB, PRICES))
    met.aim_below(21)
    assert not met.loses_little(0, [0, 1])
    met.aim_below(28)
    assert met.loses_little(0, [0, 1])
    assert not met.loses_little(0, [0])


def test_no_more_sheets_are_offered_than_a_programme_can_take() -> None:
    job = make_job([PieceType(str(i), 1 + i, 1, 1, UPRIGHT) for i in range(7)], [Stock("s", 30, 30)], TrimmerLimits())
    met = Met(job)
    for number in range(MOST_OFFERED + 50):
        met.keep(Pattern(0, tuple(number // 4**place % 4 for place in range(7)), Leaf(0, 0)))
    assert len(met.patterns) == MOST_OFFERED + 50
    assert len(met.likely()) == MOST_OFFERED
    assert met.likely()[-1].counts == tuple((MOST_OFFERED + 49) // 4**place % 4 for place in range(7))
    met.weigh(losses_against(job, Prices(0.0, (0.1,) * 7, (0.0,), ())))
    met.aim_below(1000)
    assert len(met.likely()) == MOST_OFFERED
