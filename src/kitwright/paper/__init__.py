"""Papers: sheets, weight, caliper, grain and print. All arithmetic with the thickness of paper lives in this layer only."""

from kitwright.paper.caliper import LEAST_CALIPER, MOST_CALIPER, Caliper
from kitwright.paper.grain import Grain, Print
from kitwright.paper.stock import Margins, Paper

__all__ = ["LEAST_CALIPER", "MOST_CALIPER", "Caliper", "Grain", "Margins", "Paper", "Print"]
