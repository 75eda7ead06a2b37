"""Folding: poses of panels in space, and what can be measured and drawn of them. Lengths in mm, angles in degrees."""

from kitwright.folding.extents import MeasuredExtent, Papers, Term, measure_extent
from kitwright.folding.landing import Landing, land, landings
from kitwright.folding.layers import LayerModel, layers
from kitwright.folding.poses import LOOSE_GAP, Folded, fold
from kitwright.folding.rigid import shift
from kitwright.folding.seams import Closure, FreeEdge, Residual, close_edges, euler_number, seam_residual, signed_volume
from kitwright.folding.stages import State, fold_after, state_after

__all__ = [
    "LOOSE_GAP",
    "Closure",
    "Folded",
    "FreeEdge",
    "Landing",
    "LayerModel",
    "MeasuredExtent",
    "Papers",
    "Residual",
    "State",
    "Term",
    "close_edges",
    "euler_number",
    "fold",
    "fold_after",
    "land",
    "landings",
    "layers",
    "measure_extent",
    "seam_residual",
    "shift",
    "signed_volume",
    "state_after",
]
