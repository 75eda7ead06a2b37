"""The side-seam envelope: its closing flap stays wide enough to cover the upper corners of the back."""

import pytest

from kitwright.forms.side_seam_envelope import SideSeamEnvelope
from kitwright.pattern import PanelRef


@pytest.mark.parametrize(("width", "height", "flap"), [(240, 110, 44), (100, 200, 150), (60, 60, 30)])
def test_the_closing_flap_leans_little_and_keeps_most_of_its_width(width: float, height: float, flap: float) -> None:
    pattern = SideSeamEnvelope(width=width, height=height, back=height * 0.85, flap=flap, side_tab=15).draw()
    outline = pattern.panel(PanelRef("envelope", "closing flap")).outline
    fold, tip = (
        [x for x, y in outline if y == pytest.approx(level)]
        for level in (min(y for _, y in outline), max(y for _, y in outline))
    )
    assert max(fold) - min(fold) == pytest.approx(width)
    assert max(tip) - min(tip) >= 0.75 * width - 1e-9
    for lean in (min(tip) - min(fold), max(fold) - max(tip)):
        assert 0 < lean <= flap / 3 + 1e-9  # about 18 degrees
