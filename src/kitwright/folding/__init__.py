"""Folding: poses of panels in space, and what can be measured and drawn of them. Lengths in mm, angles in degrees."""

from kitwright.folding.poses import LOOSE_GAP, Folded, fold
from kitwright.folding.rigid import shift
from kitwright.folding.stages import State, fold_after, state_after

__all__ = ["LOOSE_GAP", "Folded", "State", "fold", "fold_after", "shift", "state_after"]
