"""The crease model written out: what a panel with folded ends measures outside and inside. Lengths in mm."""

from kitwright.paper import Paper, inner_loss, outer_gain


def outside(score_to_score: float, paper: Paper, *, ends: int = 2) -> float:
    """The outside size of a panel of `score_to_score` with walls folded up at right angles at so many of its ends."""
    return score_to_score + ends * outer_gain(paper)


def inside(score_to_score: float, paper: Paper, *, ends: int = 2) -> float:
    """The inside size of a panel of `score_to_score` with walls folded up at right angles at so many of its ends."""
    return score_to_score - ends * inner_loss(paper)
