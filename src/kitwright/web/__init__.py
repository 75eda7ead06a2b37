"""The workbench page: design, see, prove and print a kit in the browser. A small server for this machine only."""

from kitwright.web.app import make_app

__all__ = ["make_app"]
