"""Whole surveys by a second road that shares no code: every utilisation the same within a millionth.

The full number runs by itself: python tests/independent/run_second_road.py --surveys 2000
"""

import ast
import random
import sys
from pathlib import Path

import pytest

FOLDER = Path(__file__).parent
sys.path.insert(0, str(FOLDER))

from random_surveys import survey  # noqa: E402  the folder above comes first
from second_road.cases import Cases, advance  # noqa: E402
from second_road.stiffness import Line  # noqa: E402
from two_roads import compare  # noqa: E402

SEEDS = range(60)


@pytest.mark.parametrize("seed", SEEDS)
def test_both_roads_give_the_same_utilisations(seed: int) -> None:
    """Take-down, beam line, beams, seats, posts, girders and pads of a random house agree, check by check."""
    found = compare(survey(seed))
    assert not found.refused
    assert found.different == {}


def test_the_random_surveys_reach_every_kind_of_check() -> None:
    """Among the houses of the suite there is every kind of member, load, seat and support, and close to every check."""
    text = "".join(survey(seed) for seed in SEEDS)
    words = ["LVL", "PSL", "LSL", "glulam", "Southern Pine", "unknown", "full ", "W8", "Pipe", "HSS", "6x8", "-ply 2x"]
    words += ["notch", "cap", "wood plate", "steel plate", "stud pack", "[[girder]]", "[[pad]]", "overhang_left"]
    words += [f'kind = "{kind}"' for kind in ("floor", "ceiling", "roof", "strut", "wall above", "point", "line")]
    words += ["layers =", "by area", "pier_height", "pier_material", "foot_length"]
    words += ["ASCE 7-16", "ASCE 7-22", '"wet"', '"not held"', '"one piece"', '"flush"', '"in wall"', '"free"']
    words += ["plies_joined_by", " sinker", " bolt", "end_notch_bottom", "end_notch_top", "end_notch_reach"]
    assert [word for word in words if word not in text] == []


def test_the_second_road_imports_nothing_of_the_program() -> None:
    """No module of the second road names the program."""
    named = []
    for path in sorted((FOLDER / "second_road").glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            modules = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            modules += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            named += [f"{path.name}: {module}" for module in modules if module.startswith("beamcheck")]
    assert named == []


def _line(seed):
    dice = random.Random(seed)  # noqa: S311  a repeatable draw
    supports = [0.0]
    for _ in range(dice.randint(1, 4)):
        supports.append(supports[-1] + dice.randint(30, 240))
    line = Line(supports, dice.choice((0.0, 24.0)), dice.choice((0.0, 40.0)))
    loads = [(line.start, line.end, 20.0)]
    for _ in range(dice.randint(1, 3)):
        a, b = sorted(dice.sample(range(int(line.start) + 1, int(line.end)), 2))
        loads += [(float(a), None, float(dice.randint(-500, 3000))), (float(a), float(b), float(dice.randint(0, 90)))]
    return line, loads


def _frame(line, loads):
    """The line as a plane frame of unit stiffness, one member a bay."""
    pynite = pytest.importorskip("Pynite", reason="PyNiteFEA, a second opinion for tests only, is not installed")
    model = pynite.FEModel3D()
    model.add_material("plain", 1e6, 4e5, 0.2, 0.0)
    model.add_section("beam", 60.0, 100.0, 500.0, 50.0)
    for joint in line.joints:
        model.add_node(f"at {joint}", joint, 0.0, 0.0)
    for k, support in enumerate(line.supports):
        model.def_support(f"at {support}", k == 0, True, True, True, False, False)
    for bay, (a, b) in enumerate(line.bays):
        model.add_member(f"bay {bay}", f"at {a}", f"at {b}", "plain", "beam")
        for first, last, size in loads:
            if last is None:
                if a < first <= b:
                    model.add_member_pt_load(f"bay {bay}", "Fy", -size, first - a)
            elif min(last, b) > max(first, a):
                model.add_member_dist_load(f"bay {bay}", "Fy", -size, -size, max(first, a) - a, min(last, b) - a)
    model.analyze_linear()
    return model


@pytest.mark.parametrize("seed", range(50))
def test_its_beam_line_against_a_frame_program(seed: int) -> None:
    """Reactions, and moment, shear and way down at sections, are those of a general-purpose frame program."""
    line, loads = _line(seed)
    model, cases = _frame(line, loads), Cases(line, [("D", load) for load in loads])
    pieces, reactions = cases.summed({"D": 1.0}, frozenset())
    told = [model.nodes[f"at {support}"].RxnFY["Combo 1"] for support in line.supports]
    most = max(map(abs, told))
    assert list(reactions) == pytest.approx(told, rel=1e-9, abs=1e-9 * most)
    bent = max(abs(pieces[:, 2]))
    for bay, (a, b) in enumerate(line.bays):
        for k in range(1, 8):
            way = k * (b - a) / 8 + 0.123
            piece = max(n for n in cases.pieces_of(bay) if cases.stations[n] <= a + way)
            down, _, M, V = advance(pieces[piece], a + way - cases.stations[piece])
            member = model.members[f"bay {bay}"]
            assert -member.moment("Mz", way) == pytest.approx(M, abs=1e-9 * bent)
            assert member.shear("Fy", way) == pytest.approx(V, abs=1e-9 * most)
            assert -member.deflection("dy", way) == pytest.approx(down / 5e8, abs=1e-9)
