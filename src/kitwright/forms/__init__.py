"""All forms, one file each. Importing this package fills the catalogue."""

from kitwright.forms import (
    belly_band,
    flap_lid,
    flat_card,
    half_fold_card,
    lift_off_lid,
    mat,
    pocket,
    side_seam_envelope,
    tag,
    tray,
    two_half_wrap_box,
)

__all__ = [
    "belly_band",
    "flap_lid",
    "flat_card",
    "half_fold_card",
    "lift_off_lid",
    "mat",
    "pocket",
    "side_seam_envelope",
    "tag",
    "tray",
    "two_half_wrap_box",
]
