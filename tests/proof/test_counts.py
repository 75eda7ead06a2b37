"""As many lids, bands and envelopes as things that they are for."""

import pytest

from kitwright.findings import Severity
from kitwright.proof import Pairing, check_counts


@pytest.mark.parametrize(
    ("outers", "inners", "pairing", "says"),
    [
        (2, 2, Pairing.EACH, ""),
        (1, 2, Pairing.EACH, "There is 1 × o for 2 × i: 1 × i goes without."),
        (1, 20, Pairing.EACH, "There is 1 × o for 20 × i: 19 × i go without."),
        (3, 2, Pairing.EACH, "There are 3 × o for 2 × i: 1 too many."),
        (2, 6, Pairing.SHARED, ""),
        (5, 6, Pairing.SHARED, "There are 5 × o for 6 × i: there are 2 in some of them and less in others."),
        (6, 5, Pairing.SHARED, "There are 6 × o for 5 × i: 1 too many."),
        (4, 2, Pairing.ROUND_EACH, ""),
        (1, 2, Pairing.ROUND_EACH, "There is 1 × o for 2 × i: 1 × i goes without."),
        (1, 12, Pairing.ROUND_ALL, ""),
        (
            6,
            6,
            Pairing.ROUND_ALL,
            "There are 6 × o for 6 × i, and each of them is made to go round all 6 together.",
        ),
    ],
)
def test_what_is_said_of_how_many_there_are(outers: int, inners: int, pairing: Pairing, says: str) -> None:
    found = check_counts("o for i", ("o", outers), ("i", inners), pairing)
    assert (found.message if found else "") == says
    assert found is None or found.severity is Severity.NOTE
