"""Clauses of published documents, one module per document and edition; numbers in, one number out, no houses."""

from beamcheck.trace import Clause


def clauses() -> tuple[Clause, ...]:
    """Every clause of every document, by key, for the reference and the rules; imports every document."""
    import importlib
    import pkgutil

    found: dict[str, Clause] = {}
    for module in pkgutil.iter_modules(__path__, f"{__name__}."):
        members = vars(importlib.import_module(module.name)).values()
        found |= {item.key: item for item in members if isinstance(item, Clause)}
    return tuple(found[key] for key in sorted(found))
