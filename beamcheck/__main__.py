"""``python -m beamcheck`` is ``bearline``."""

from beamcheck.cli import main

main()
