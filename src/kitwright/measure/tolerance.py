"""The two tolerances of geometry, in millimetres, each with the physical reason for its size."""

from typing import Final

__all__ = ["CRAFT_TOLERANCE", "NUMERIC_TOLERANCE"]

NUMERIC_TOLERANCE: Final = 1e-6
"""Two computed points this close are one point. A part of 1 m carries about 1e-13 m of rounding; this is far above that and far
below anything a hand can see."""

CRAFT_TOLERANCE: Final = 0.1
"""What a person at a trimmer cannot tell from zero: a tenth of a millimetre, the width of a fine scored line. A seam that misses by
less than this closes by itself. Common practice, no source."""
