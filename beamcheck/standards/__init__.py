"""Clauses of published documents, one module per document and edition; numbers in, one number out, no houses."""

from collections.abc import Iterator

from beamcheck.trace import Clause


def every_clause() -> Iterator[Clause]:
    """All clauses of all documents, for the reference and the rules; imports every document."""
    import importlib
    import pkgutil

    seen: set[str] = set()
    for module in pkgutil.iter_modules(__path__, f"{__name__}."):
        for item in vars(importlib.import_module(module.name)).values():
            if isinstance(item, Clause) and item.key not in seen:
                seen.add(item.key)
                yield item


def clauses() -> tuple[Clause, ...]:
    """Every clause of every document, by key."""
    return tuple(sorted(every_clause(), key=lambda item: item.key))
