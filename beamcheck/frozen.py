"""``dataclass`` and ``replace`` for classes that are frozen, slotted and compared by identity.

Written as with the library ``dataclasses``, which is what type checkers see and what still takes them for its own. But
that compiles six functions a class, and the fifty classes of a study took a sixth of a check; here one is compiled, and
only for a class that is made often.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NoReturn

if TYPE_CHECKING:
    from dataclasses import dataclass, replace

__all__ = ["dataclass", "names", "replace"]


def _frozen(*, frozen: bool, slots: bool, eq: bool) -> Callable[[type[Any]], type[Any]]:
    """The decorator of the same name, for these three settings only."""
    if not frozen or not slots or eq:
        raise TypeError("only frozen=True, slots=True, eq=False is made here; take the library's own for others")
    return _made


def names(cls: type[Any]) -> tuple[str, ...]:
    """Names of the fields, in order."""
    found: tuple[str, ...] = cls.__match_args__
    return found


def _replaced(old: Any, /, **changes: Any) -> Any:
    """The same with other figures in the fields named. Raises TypeError for a field that there is not."""
    cls = type(old)
    return cls(**{name: getattr(old, name) for name in names(cls)} | changes)


if not TYPE_CHECKING:
    dataclass, replace = _frozen, _replaced


class _Fields:
    """The library's own description of the fields, made when someone asks for it."""

    def __get__(self, _: object, owner: Any) -> Any:
        from dataclasses import make_dataclass

        made: Any = make_dataclass(owner.__name__, names(owner))
        owner.__dataclass_fields__ = made.__dataclass_fields__
        return made.__dataclass_fields__


class _Signature:
    """The parameters, for a person who asks what a class takes."""

    def __get__(self, _: object, owner: Any) -> Any:
        from inspect import signature
        from types import MethodType

        return signature(MethodType(_compiled(owner), owner))


def _made(cls: type[Any]) -> type[Any]:
    own = tuple(cls.__annotations__)
    known = {name: cls.__dict__[name] for name in own if name in cls.__dict__}
    if tuple(known) != own[len(own) - len(known) :]:
        raise TypeError(f"{cls.__name__} has a field without a default after one that has one")
    body = {name: part for name, part in cls.__dict__.items() if name not in (*known, "__dict__", "__weakref__")}
    fields = {"__slots__": own, "__match_args__": own, "__known__": known}
    made: Any = type(cls.__name__, cls.__bases__, _SHARED | body | fields)
    made.__qualname__ = cls.__qualname__
    made.__init__ = _constructor(made)
    slotted: type[Any] = made
    return slotted


def _setters(cls: type[Any]) -> dict[str, Callable[[object, Any], None]]:
    return {name: getattr(cls, name).__set__ for name in names(cls)}


def _constructor(cls: Any) -> Callable[..., None]:
    """Put each figure into its slot: in a loop at first, by a compiled function once a class is made often.

    Most classes are made a few times in a study, and to compile costs as much as to make some two hundred of them.
    """
    setters, known, fields, finished = _setters(cls), cls.__known__, names(cls), hasattr(cls, "__post_init__")
    made = 0

    def looped(self: Any, *given: Any, **named: Any) -> None:
        nonlocal made
        made += 1
        figures = known | dict(zip(fields, given, strict=False)) | named
        told = len(given) <= len(fields) and named.keys().isdisjoint(fields[: len(given)])
        if made > _SELDOM or not told or figures.keys() != setters.keys():
            cls.__init__ = _compiled(cls)
            cls.__init__(self, *given, **named)  # which says what is missing, unknown or told twice
            return
        for name, figure in figures.items():
            setters[name](self, figure)
        if finished:
            self.__post_init__()

    return looped


def _compiled(cls: Any) -> Callable[..., None]:
    """Compile what a hand would write: a parameter for each field, put into its slot."""
    known: dict[str, Any] = cls.__known__
    parameters = ", ".join(f"{name}=known[{name!r}]" if name in known else name for name in names(cls))
    lines = [f"def __init__(self, {parameters}):", *(f" set_{name}(self, {name})" for name in names(cls))]
    if hasattr(cls, "__post_init__"):
        lines.append(" self.__post_init__()")
    scope: dict[str, Any] = {f"set_{name}": setter for name, setter in _setters(cls).items()} | {"known": known}
    exec("\n".join(lines), scope)  # noqa: S102  names of the class's own annotations, nothing from outside
    made: Callable[..., None] = scope["__init__"]
    return made


def _refuse(self: object, name: str, *_: object) -> NoReturn:
    raise AttributeError(f"{type(self).__name__}.{name} cannot be changed")


def _told(self: object) -> str:
    parts = (f"{name}={getattr(self, name)!r}" for name in names(type(self)))
    return f"{type(self).__qualname__}({', '.join(parts)})"


def _made_again(self: object) -> tuple[type, tuple[Any, ...]]:
    """Copying and pickling call the constructor, as the slots refuse to be set."""
    return type(self), tuple(getattr(self, name) for name in names(type(self)))


_SHARED = {
    "__setattr__": _refuse,
    "__delattr__": _refuse,
    "__repr__": _told,
    "__reduce__": _made_again,
    "__dataclass_fields__": _Fields(),
    "__signature__": _Signature(),
}

_SELDOM = 20  # a class that is made more often than that is worth compiling
