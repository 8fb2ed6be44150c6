"""Figures that other people printed, met by the clauses to half of the last printed digit.

The cases stand in the TOML files beside this test. One clause alone is a ``case``:

    [[case]]
    clause = "nds_2018.bending_stress"
    source = "document, edition, example, page"     # never the place where a copy was seen
    seen = "excerpt"                                # printed, excerpt, computed or memory, as in the tables
    inputs = { M = "10,000 lb*ft", S = "73.83 in^3" }
    printed = "1625 psi"

Several clauses one after the other are a ``chain``: ``given`` holds the inputs by name, ``steps`` the clauses in
order, each taking its inputs by name from what is given or came before. A step may be a table: ``as`` renames its
result, ``takes`` says which figure stands in for a parameter. ``printed`` holds the figures that the source prints,
``ratios`` those it prints as one figure over another: a utilisation, or a capacity (the limit over the stress of
a load of one).

Where the source rounds on its way, ``rounded`` gives its digits for an input or a step, and ``differs`` says so.
A ``note`` is a figure that is left out, and why. The tolerance cannot be chosen.
"""

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from beamcheck.standards import clauses
from beamcheck.tables import SEEN
from beamcheck.trace import Clause, Given, Trust, Value, ancestry

FOLDER = Path(__file__).parent
CLAUSES = {clause.key: clause for clause in clauses()}
SLACK = 1e-9
PLACES = re.compile(r"https?:|www\.|\.(com|org|net|io|edu)\b|github|repository|library", re.IGNORECASE)


class Printed(NamedTuple):
    """A figure as printed: number, unit, and half of its last digit."""

    text: str
    number: float
    unit: str
    half: float

    @classmethod
    def read(cls, text: str) -> "Printed":
        found = re.fullmatch(r"(-?[0-9][0-9,]*(?:\.([0-9]+))?)\s*([A-Za-z%].*)?", text.strip())
        assert found, f"{text!r} is not a figure with a unit"
        digits, decimals, unit = found.groups()
        return cls(text, float(digits.replace(",", "")), unit or "1", 0.5 * 10.0 ** -len(decimals or ""))

    def meets(self, number: float) -> bool:
        """Whether a number would be printed so."""
        return abs(number - self.number) <= self.half * (1 + SLACK) + SLACK * abs(self.number)


class Step(NamedTuple):
    """One clause of a chain: the name of its result, and which figure stands in for which parameter."""

    clause: Clause
    name: str
    takes: dict[str, str]


class Chain(NamedTuple):
    """A worked example: what is given, what is done, what is printed."""

    where: str
    source: str
    seen: str
    given: dict[str, str]
    steps: tuple[Step, ...]
    printed: dict[str, Printed]
    ratios: tuple[dict[str, str], ...]
    rounded: dict[str, Printed]
    differs: str

    def values(self, *, rounding: bool = True) -> tuple[dict[str, Value], dict[str, Value]]:
        """Every figure by name as computed, and as the source goes on with it."""
        exact = {name: self.value(name, Printed.read(text)) for name, text in self.given.items()}
        used = dict(exact)
        if rounding:
            used |= {name: self.value(name, self.rounded[name]) for name in self.rounded.keys() & exact.keys()}
        for step in self.steps:
            inputs = {name: used[step.takes.get(name, name)] for name, _ in step.clause.parameters}
            exact[step.name] = used[step.name] = step.clause(**inputs)
            if rounding and step.name in self.rounded:
                used[step.name] = self.value(step.name, self.rounded[step.name])
        return exact, used

    def value(self, name: str, figure: Printed) -> Value:
        return Value(name, figure.number, figure.unit, Given(self.where, Trust.STATED, figure.text))

    def misses(self, *, rounding: bool = True) -> list[str]:
        """The printed figures that the clauses do not meet, as sentences."""
        exact, used = self.values(rounding=rounding)
        found = [(name, figure, exact[name].to(figure.unit)) for name, figure in self.printed.items()]
        for ratio in self.ratios:
            top, bottom = used[ratio["top"]], used[ratio["bottom"]]
            figure = Printed.read(ratio["printed"])
            found.append((f"{ratio['top']}/{ratio['bottom']}", figure, top.number / bottom.to(top.unit)))
        missed = [entry for entry in found if not entry[1].meets(entry[2])]
        return [f"{name}: {figure.text} printed, {number:.7g} here" for name, figure, number in missed]


def as_chain(file: str, number: int, case: dict[str, Any]) -> Chain:
    """A case as a chain of one step, and a chain as it is."""
    if "clause" in case:
        given, steps = case["inputs"], [case["clause"]]
        printed = {CLAUSES[case["clause"]].gives: case["printed"]}
    else:
        given, steps, printed = case["given"], case["steps"], case.get("printed", {})
    return Chain(
        where=f"{file}[{number}]",
        source=case["source"],
        seen=case["seen"],
        given=given,
        steps=tuple(as_step(step) for step in steps),
        printed={name: Printed.read(text) for name, text in printed.items()},
        ratios=tuple(case.get("ratios", ())),
        rounded={name: Printed.read(text) for name, text in case.get("rounded", {}).items()},
        differs=case.get("differs", ""),
    )


def as_step(step: str | dict[str, Any]) -> Step:
    """A clause by its key, or a table that renames its result or its inputs."""
    if isinstance(step, str):
        return Step(CLAUSES[step], CLAUSES[step].gives, {})
    clause = CLAUSES[step["clause"]]
    return Step(clause, step.get("as", clause.gives), step.get("takes", {}))


def tables() -> Iterator[tuple[str, dict[str, Any]]]:
    """The case files beside this test, by name."""
    for path in sorted(FOLDER.glob("*.toml")):
        if path.name != "uncovered.toml":
            yield path.name, tomllib.loads(path.read_text(encoding="utf-8"))


def chains() -> Iterator[Any]:
    """Every case and chain, named in the report by its last clause and its source."""
    for file, table in tables():
        unknown = table.keys() - {"case", "chain", "note"}
        assert not unknown, f"{file}: {unknown}"
        for number, case in enumerate((*table.get("case", ()), *table.get("chain", ())), start=1):
            chain = as_chain(file, number, case)
            what = ", ".join(step.clause.key for step in chain.steps[-1:])
            yield pytest.param(chain, id=f"{what} | {chain.source} | {chain.where}")


CHAINS = list(chains())


@pytest.mark.parametrize("chain", CHAINS)
def test_printed_figures_are_met(chain: Chain) -> None:
    """Every figure that the source prints comes out of the clauses to half of its last digit."""
    assert chain.misses() == []


@pytest.mark.parametrize("chain", CHAINS)
def test_case_says_where_it_comes_from(chain: Chain) -> None:
    """A case names its document and not the place where a copy was seen, and says how it was seen."""
    assert len(chain.source.split()) >= 3
    assert not PLACES.search(chain.source)
    assert chain.seen in SEEN


@pytest.mark.parametrize("chain", CHAINS)
def test_every_step_leads_to_a_printed_figure(chain: Chain) -> None:
    """No figure is given and no clause is run that a printed figure, or the source's own digits, does not rest on."""
    exact, used = chain.values()
    roots = [exact[name] for name in (*chain.printed, *chain.rounded)]
    roots += [used[ratio[which]] for ratio in chain.ratios for which in ("top", "bottom")]
    met: set[int] = set()
    for root in roots:
        list(ancestry(root, met))
    idle = [name for name, value in exact.items() if id(value) not in met and id(used[name]) not in met]
    assert roots
    assert idle == []


ROUNDED = [chain for chain in CHAINS if chain.values[0].rounded or chain.values[0].differs]


@pytest.mark.parametrize("chain", ROUNDED)
def test_rounded_digits_are_the_sources_own(chain: Chain) -> None:
    """Digits that stand in for a figure are that figure to half of their last place, have a reason, and are needed."""
    exact, _ = chain.values()
    assert chain.rounded
    assert len(chain.differs.split()) >= 4
    for name, figure in chain.rounded.items():
        assert figure.meets(exact[name].to(figure.unit)), f"{name} = {exact[name].number}, not {figure.text}"
    assert chain.misses(rounding=False) != []


def test_what_is_left_out_has_a_reason() -> None:
    """A printed figure that is not used as a target stands in a note with its source and why."""
    for file, table in tables():
        for note in table.get("note", ()):
            assert note.keys() == {"source", "printed", "why"}, file
            assert len(note["why"].split()) >= 4
            assert not PLACES.search(note["source"])


@pytest.mark.parametrize(
    ("printed", "met"), [("975 psi", True), ("974 psi", False), ("974.9 psi", False), ("6.72 MPa", True)]
)
def test_a_digit_less_or_more_is_seen(printed: str, met: bool) -> None:
    """120,000 lb*in over 123.1 in3 is 974.82 psi or 6.7211 MPa, and nothing beside it in the digits printed."""
    inputs = {"M": "10,000 lb*ft", "S": "123.1 in^3"}
    case = {"clause": "nds_2018.bending_stress", "source": "", "seen": "", "inputs": inputs, "printed": printed}
    assert (as_chain("planted", 1, case).misses() == []) is met
