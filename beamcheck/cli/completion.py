"""What a shell may offer, beyond commands, options and files, for the word being typed."""

from pathlib import Path

import typer

from beamcheck.errors import BeamcheckError


def table_names(incomplete: str) -> list[str]:
    """Names of tables that begin as typed."""
    from beamcheck import tables

    return [name for name in tables.names() if name.startswith(incomplete)]


def keys(context: typer.Context, incomplete: str) -> list[str]:
    """Keys of the survey named before that begin as typed; none of a survey that cannot be studied."""
    from beamcheck.cli.survey import read_study
    from beamcheck.study.find import keys as all_keys

    try:
        found = all_keys(read_study(Path(context.params["survey"]).expanduser()))
    except BeamcheckError:
        return []
    return [key for key in found if key.startswith(incomplete)]
