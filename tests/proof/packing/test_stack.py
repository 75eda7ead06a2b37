import pytest

from kitwright.errors import Mistake
from kitwright.proof.packing import SPRINGBACK, stack_height


def test_a_stack_is_as_high_as_its_layers_and_what_they_spring_back():
    # 24 cards of 0.30 and 24 envelopes of 2 x 0.15: 14.4 mm; a tenth more is common practice, no source
    assert stack_height([(24, 0.3), (24, 0.3)], springback=0) == pytest.approx(14.4)
    assert stack_height([(24, 0.3), (24, 0.3)], springback=SPRINGBACK) == pytest.approx(15.84)
    assert stack_height([], springback=SPRINGBACK) == 0


@pytest.mark.parametrize(("layers", "springback"), [([(-1, 0.3)], 0.1), ([(1, -0.3)], 0.1), ([(1, 0.3)], -0.1)])
def test_a_stack_below_zero_is_refused(layers, springback):
    with pytest.raises(Mistake, match="below zero"):
        stack_height(layers, springback=springback)
