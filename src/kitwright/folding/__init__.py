"""Folding: poses of panels in space, and what can be measured and drawn of them. Lengths in mm, angles in degrees."""

from kitwright.folding.collision import Crossing, crossings
from kitwright.folding.extents import MeasuredExtent, Papers, Term, measure_extent, paper_of
from kitwright.folding.landing import Landing, land, landings
from kitwright.folding.layers import LayerModel, layers
from kitwright.folding.motion import Bump, Way, bumps
from kitwright.folding.plates import EdgeKind, Plate, PlateEdge, Tag, block_plates, plates
from kitwright.folding.poses import LOOSE_GAP, Folded, fold
from kitwright.folding.print_up import PrintUp, print_up, print_ups, wanted_up
from kitwright.folding.projection import FROM_ABOVE, FROM_FRONT, ISOMETRIC, Viewpoint
from kitwright.folding.rigid import shift
from kitwright.folding.seams import Closure, FreeEdge, Residual, close_edges, euler_number, seam_residual, signed_volume
from kitwright.folding.showing import seen_backs
from kitwright.folding.solids import Clash, Slab, clashes, inner_clashes, moved, slabs
from kitwright.folding.stages import State, fold_after, fold_pictured, state_after
from kitwright.folding.view import Arrow, View, ViewFace, look, seen_areas
from kitwright.folding.view_edges import ViewEdge

__all__ = [
    "FROM_ABOVE",
    "FROM_FRONT",
    "ISOMETRIC",
    "LOOSE_GAP",
    "Arrow",
    "Bump",
    "Clash",
    "Closure",
    "Crossing",
    "EdgeKind",
    "Folded",
    "FreeEdge",
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
    "Tag",
    "Term",
    "View",
    "ViewEdge",
    "ViewFace",
    "Viewpoint",
    "Way",
    "block_plates",
    "bumps",
    "clashes",
    "close_edges",
    "crossings",
    "euler_number",
    "fold",
    "fold_after",
    "fold_pictured",
    "inner_clashes",
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
    "signed_volume",
    "slabs",
    "state_after",
    "wanted_up",
]
