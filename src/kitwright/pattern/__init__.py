"""Patterns: what is cut, scored and glued, drawn by attachment. Lengths in mm, print side up, angles in degrees."""

from kitwright.pattern.blank import Blank, FoldWay, Score
from kitwright.pattern.claims import Axis, Claims, End, Extent, Seam, Shows, Up
from kitwright.pattern.draft import COMPASS, Draft, Sketched
from kitwright.pattern.geometry import Point, Ring
from kitwright.pattern.joint import EdgeRef, GlueArea, Joint, Mate, PanelRef, Side
from kitwright.pattern.panel import Panel, PanelKind
from kitwright.pattern.pattern import Pattern, Stage, Stance
from kitwright.pattern.score_chart import (
    CutAway,
    CutShape,
    RuleSide,
    ScoreChart,
    ScoreMark,
    ScorePass,
    score_chart,
    score_passes,
    scores_at,
)
from kitwright.pattern.shaped import ShapedPanel, shaped_panels
from kitwright.pattern.walls import walled_pattern

__all__ = [
    "COMPASS",
    "Axis",
    "Blank",
    "Claims",
    "CutAway",
    "CutShape",
    "Draft",
    "EdgeRef",
    "End",
    "Extent",
    "FoldWay",
    "GlueArea",
    "Joint",
    "Mate",
    "Panel",
    "PanelKind",
    "PanelRef",
    "Pattern",
    "Point",
    "Ring",
    "RuleSide",
    "Score",
    "ScoreChart",
    "ScoreMark",
    "ScorePass",
    "Seam",
    "ShapedPanel",
    "Shows",
    "Side",
    "Sketched",
    "Stage",
    "Stance",
    "Up",
    "score_chart",
    "score_passes",
    "scores_at",
    "shaped_panels",
    "walled_pattern",
]
