"""Clauses of published documents, one module per document and edition; numbers in, one number out, no houses."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from beamcheck.trace import Clause


def clauses() -> "tuple[Clause, ...]":
    """Every clause of every document, by key. Imports them all, so a single study never calls it."""
    from importlib import import_module
    from pkgutil import walk_packages

    from beamcheck.trace import Clause

    found = {
        id(item): item
        for module in walk_packages(__path__, f"{__name__}.")
        for item in vars(import_module(module.name)).values()
        if isinstance(item, Clause)
    }
    return tuple(sorted(found.values(), key=lambda item: item.key))
