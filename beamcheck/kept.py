"""Keep the last results of a pure function, whose parameters type checkers go on to see."""

from collections.abc import Callable
from functools import lru_cache
from typing import Any, TypeVar, cast

F = TypeVar("F", bound=Callable[..., Any])


def kept(size: int) -> Callable[[F], F]:
    """As the library's ``lru_cache``, which takes whatever it is given for right."""
    return cast("Callable[[F], F]", lru_cache(maxsize=size))
