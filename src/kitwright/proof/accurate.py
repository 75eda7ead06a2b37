"""Whether a maker works accurately enough for a part at all. Millimetres."""

from __future__ import annotations

from kitwright.findings import Finding, Reading, Severity, judged
from kitwright.measure import Ruler
from kitwright.pattern import PanelKind, Pattern
from kitwright.proof.tolerance import Accuracy

__all__ = ["check_accuracy"]


def check_accuracy(about: str, pattern: Pattern, accuracy: Accuracy, ruler: Ruler) -> Finding | None:
    """What fails where two errors, one at either edge, can leave nothing of the narrowest face; None where something is left of each."""
    names = ("cut", "score") if any(blank.scores for blank in pattern.blanks) else ("cut",)
    worst = max(names, key=lambda name: getattr(accuracy, name))
    error = getattr(accuracy, worst)
    sides = {
        panel.name: min(max(way) - min(way) for way in zip(*panel.outline, strict=True))
        for blank in pattern.blanks
        for panel in blank.panels
        if panel.kind is PanelKind.FACE
    }
    narrowest = min(sides, key=lambda name: sides[name])
    if 2 * error < sides[narrowest]:
        return None
    words = (
        f"Its {narrowest} is only {ruler.near(sides[narrowest])} on its shorter side, and your {worst}s may be off by "
        f"{ruler.near(error)} either way: nothing that is said of it holds. Check the accuracy of the kit, or make the part larger."
    )
    return judged("too-rough", Severity.FAIL, about, words, Reading(sides[narrowest], 2 * error, accuracy.because))
