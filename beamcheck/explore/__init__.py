"""Beyond one study: how near each input comes to tipping a result, which other beams would do, variants."""

from collections.abc import Callable

Progress = Callable[[float], None]
"""Told the share that is done, up to 1."""
