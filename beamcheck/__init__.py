"""bearline: a structural pre-check for removing an interior wall. A study aid, never an approval."""

__version__ = "0.3.0"
