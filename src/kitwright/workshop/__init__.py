"""The workshop: a maker's folder of kits, with every change kept so that it can be undone. Plain files, and a small database."""

from kitwright.workshop.changes import Changes, Revision
from kitwright.workshop.folder import Conflict, KitOnShelf, NoSuchKit, StoredKit, Workshop
from kitwright.workshop.scans import LARGEST_PICTURE, Scans
from kitwright.workshop.trouble import Trouble

__all__ = [
    "LARGEST_PICTURE",
    "Changes",
    "Conflict",
    "KitOnShelf",
    "NoSuchKit",
    "Revision",
    "Scans",
    "StoredKit",
    "Trouble",
    "Workshop",
]
