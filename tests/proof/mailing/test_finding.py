import re

import pytest

from kitwright.findings import Severity
from kitwright.proof.mailing import DISCLAIMER, MailPiece, Shape, judge, load_services, mailing_finding

INCH = 25.4
US = next(service for service in load_services() if service.code == "us")


def finding(length, height, thickness, shape=Shape.ENVELOPE):
    piece = MailPiece(length * INCH, height * INCH, thickness * INCH, 20, shape)
    return mailing_finding(judge(piece, US), about="card in its envelope")


# Limits: USPS DMM 101 1.1 and 1.2a, 9 Jul 2023
@pytest.mark.parametrize(
    ("sizes", "code", "severity"),
    [
        ((5.5, 3.25, 0.02), "mailing-too-small", Severity.FAIL),
        ((7.25, 5.25, 0.02), "mailing-letter", Severity.NOTE),
        ((6, 6, 0.02), "mailing-non-machinable-letter", Severity.WARNING),
        ((9.25, 6.25, 0.02), "mailing-large-letter", Severity.NOTE),
        ((9, 6, 2), "mailing-parcel", Severity.NOTE),
        ((60, 40, 40), "mailing-too-big", Severity.FAIL),
    ],
)
def test_each_verdict_has_its_code_and_severity(sizes, code, severity):
    found = finding(*sizes)
    assert (found.code, found.severity) == (code, severity)
    assert found.message.endswith(DISCLAIMER)


def test_a_square_envelope_is_told_its_aspect_and_its_clause():
    found = finding(6, 6, 0.02)
    assert found.message.startswith(
        "USPS, United States: non-machinable letter (letter). Length ÷ height is outside 1.3 to 2.5. "
        "The length ÷ height is 1.000, less than 1.3. At a height of 6 in the length must be at least 7 13/16 in."
    )
    assert (found.measured, found.required, found.unit) == (1.0, 1.3, "")
    assert round(found.margin, 9) == -0.3
    assert found.because == "DMM 101 1.2a, USPS Domestic Mail Manual, Physical Standards, 9 Jul 2023"


def test_a_flat_is_told_why_it_is_no_letter():
    assert "Not a letter: The height is 6 1/4 in, more than 6-1/8 in." in finding(9.25, 6.25, 0.02).message


def test_a_recalled_rule_says_so_where_the_clause_is_printed():
    uk = next(service for service in load_services() if service.code == "uk")
    found = mailing_finding(judge(MailPiece(90, 60, 1, 5, Shape.CARD), uk), about="tag")
    assert found.code == "mailing-too-small"
    assert found.because.endswith("(from memory)")


def test_the_wording_sends_people_to_the_post_office():
    assert "not postal advice" in DISCLAIMER
    assert "ask the post office" in DISCLAIMER


def test_no_verdict_names_a_price():
    for sizes in ((7.25, 5.25, 0.02), (6, 6, 0.02), (9, 6, 2)):
        assert not re.search(r"[$£€]|\d\.\d\d (USD|GBP|EUR)", finding(*sizes).message)
