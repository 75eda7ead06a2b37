"""Folding: poses of panels in space, and what can be measured and drawn of them. Lengths in mm, angles in degrees."""

from kitwright.folding.collision import Crossing, crossings
from kitwright.folding.extents import MeasuredExtent, Papers, Term, measure_extent, paper_of
from kitwright.folding.landing import Landing, land, landings
from kitwright.folding.layers import LayerModel, layers
from kitwright.folding.motion import Bump, Way, bumps
from kitwright.folding.plates import EdgeKind, Plate, PlateEdge, plates
from kitwright.folding.poses import LOOSE_GAP, Folded, fold
from kitwright.folding.print_up import PrintUp, print_up, print_ups, wanted_up
from kitwright.folding.projection import ISOMETRIC, Viewpoint
from kitwright.folding.rigid import shift
from kitwright.folding.seams import Residual, seam_residual
from kitwright.folding.showing import seen_backs
from kitwright.folding.solids import Clash, Slab, clashes, moved, slabs
from kitwright.folding.stages import State, fold_after, fold_pictured, state_after
from kitwright.folding.view import Arrow, View, ViewFace, look, seen_areas
from kitwright.folding.view_edges import ViewEdge

__all__ = [
    "ISOMETRIC",
    "LOOSE_GAP",
    "Arrow",
    "Bump",
    "Clash",
    "Crossing",
    "EdgeKind",
    "Folded",
    "Landing",
    "LayerModel",
    "MeasuredExtent",
    "Papers",
    "Plate",
    "PlateEdge",
    "PrintUp",
    "Residual",
    "Slab",
    "State",
    "Term",
    "View",
    "ViewEdge",
    "ViewFace",
    "Viewpoint",
    "Way",
    "bumps",
    "clashes",
    "crossings",
    "fold",
    "fold_after",
    "fold_pictured",
    "land",
    "landings",
    "layers",
    "look",
    "measure_extent",
    "moved",
    "paper_of",
    "plates",
    "print_up",
    "print_ups",
    "seam_residual",
    "seen_areas",
    "seen_backs",
    "shift",
    "slabs",
    "state_after",
    "wanted_up",
]
