"""``beamcheck.frozen`` gives what the library's own decorator gives with the same settings."""

import copy
import dataclasses
import inspect
import pickle
import pkgutil
import sys
from importlib import import_module

import pytest

import beamcheck
from beamcheck import frozen
from beamcheck.beam.model import Line
from beamcheck.errors import OutOfRange


class Stated:
    """A figure and where it was read."""

    where: str
    number: float = 1.5
    names: tuple[str, ...] = ()

    @property
    def twice(self) -> float:
        """Twice the figure."""
        return 2 * self.number


def _copied() -> type:
    body = {name: part for name, part in vars(Stated).items() if name not in ("__dict__", "__weakref__")}
    return type("Stated", (), body)


OURS = frozen.dataclass(frozen=True, slots=True, eq=False)(_copied())
THEIRS = dataclasses.dataclass(frozen=True, slots=True, eq=False)(_copied())
BOTH = pytest.mark.parametrize("cls", [OURS, THEIRS], ids=["ours", "the library's"])


@BOTH
def test_fields_are_read_and_no_other_is_taken(cls) -> None:
    """Fields are taken by place or by name, with their defaults; one too many or too few is refused."""
    made = cls("tape", names=("a",))
    assert (made.where, made.number, made.names, made.twice) == ("tape", 1.5, ("a",), 3.0)
    for arguments, named in (((), {}), (("tape", 1.0, (), 4), {}), (("tape",), {"other": 1})):
        with pytest.raises(TypeError):
            cls(*arguments, **named)


@BOTH
def test_nothing_can_be_changed(cls) -> None:
    """Setting or deleting a field, or anything else, is refused."""
    made = cls("tape")
    for name in ("where", "else"):
        with pytest.raises((AttributeError, TypeError)):
            setattr(made, name, 1)
    with pytest.raises((AttributeError, TypeError)):
        del made.where
    assert made.where == "tape"
    assert not hasattr(made, "__dict__")


@BOTH
def test_alike_is_not_the_same(cls) -> None:
    """Two with the same figures differ; each is what it is, in a set as well."""
    one, other = cls("tape"), cls("tape")
    assert one != other
    assert len({one, other, one}) == 2


def test_both_tell_themselves_alike() -> None:
    """Name, text, fields, what a pattern takes and the parameters are those of the library's."""
    assert repr(OURS("tape")) == repr(THEIRS("tape"))
    assert OURS.__match_args__ == THEIRS.__match_args__ == frozen.names(OURS)
    assert OURS.__slots__ == THEIRS.__slots__
    assert OURS.__doc__ == THEIRS.__doc__
    assert [field.name for field in dataclasses.fields(OURS)] == [field.name for field in dataclasses.fields(THEIRS)]
    ours, theirs = (inspect.signature(cls).parameters for cls in (OURS, THEIRS))
    assert [(one.name, one.default) for one in ours.values()] == [(one.name, one.default) for one in theirs.values()]


@pytest.mark.parametrize("replace", [frozen.replace, dataclasses.replace], ids=["ours", "the library's"])
def test_replace_changes_what_it_is_told(replace) -> None:
    """The same with another figure; the old one stays, a field that there is not is refused."""
    old = OURS("tape", 2.0)
    new = replace(old, number=3.0)
    assert (new.where, new.number, old.number) == ("tape", 3.0, 2.0)
    with pytest.raises(TypeError):
        replace(old, other=1)


def test_copies_hold_the_same() -> None:
    """Copying, deeply too, and pickling make one with the same figures."""
    line = Line((0.0, 120.0), left_overhang=12.0)
    for made in (copy.copy(line), copy.deepcopy(line), pickle.loads(pickle.dumps(line))):  # noqa: S301  our own
        assert (made.supports, made.left_overhang, made.right_overhang) == ((0.0, 120.0), 12.0, 0.0)
        assert made.bays == line.bays


def test_a_class_that_is_made_often_is_made_as_at_first() -> None:
    """Filled by a loop or, after many makings, by a compiled function: the same figures and the same refusals."""
    cls = frozen.dataclass(frozen=True, slots=True, eq=False)(_copied())
    for count in range(3 * frozen._SELDOM):
        made = cls("tape", names=("a",)) if count % 2 else cls(where="tape", names=("a",))
        assert (made.where, made.number, made.names) == ("tape", 1.5, ("a",))
    assert cls.__init__.__name__ == "__init__"
    for arguments, named in (((), {}), (("tape", 1.0, (), 4), {}), (("tape",), {"other": 1}), (("a",), {"where": "b"})):
        with pytest.raises(TypeError):
            cls(*arguments, **named)


def test_what_comes_after_the_fields_are_set_is_called_from_the_first_on() -> None:
    """A class that looks its fields over does so in every making."""
    for _ in range(3 * frozen._SELDOM):
        with pytest.raises(OutOfRange):
            Line((120.0, 0.0))
        assert Line((0.0, 120.0)).supports == (0.0, 120.0)


def test_a_field_without_a_default_comes_first() -> None:
    """As the library does, one that stands after a field with a default is refused where the class is written."""

    class Wrong:
        number: float = 1.5
        where: str

    with pytest.raises(TypeError, match="without a default"):
        frozen.dataclass(frozen=True, slots=True, eq=False)(Wrong)


def test_other_settings_are_left_to_the_library() -> None:
    """A class that is compared by its figures, or that changes, is not made here."""
    for settings in ({"frozen": False}, {"slots": False}, {"eq": True}):
        with pytest.raises(TypeError, match="library"):
            frozen.dataclass(**{"frozen": True, "slots": True, "eq": False} | settings)


def test_every_such_class_of_the_program_is_made_here() -> None:
    """No frozen class that is compared by identity pays for what the library compiles."""
    for module in pkgutil.walk_packages(beamcheck.__path__, "beamcheck."):
        if not module.name.endswith("__main__"):
            import_module(module.name)
    dear = [
        f"{cls.__module__}.{cls.__name__}"
        for name, module in list(sys.modules.items())
        if name.startswith("beamcheck.")
        for cls in vars(module).values()
        if isinstance(cls, type) and cls.__module__ == name and "__dataclass_params__" in vars(cls)
        if not vars(cls)["__dataclass_params__"].eq
    ]
    assert dear == []
