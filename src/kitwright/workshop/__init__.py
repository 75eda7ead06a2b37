"""The workshop: a maker's folder of kits, with every change kept so that it can be undone. Plain files, and a small database."""

from kitwright.workshop.changes import Changes, Revision
from kitwright.workshop.folder import Conflict, KitOnShelf, StoredKit, Workshop
from kitwright.workshop.scans import LARGEST_PICTURE, Scans

__all__ = ["LARGEST_PICTURE", "Changes", "Conflict", "KitOnShelf", "Revision", "Scans", "StoredKit", "Workshop"]
