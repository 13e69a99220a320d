"""Junctions, branches and loops: what hangs together in a circuit, and what is chosen where the author chose nothing."""

from __future__ import annotations

import pytest

from build_tools.laws.elimination import rank
from build_tools.laws.loop import branch_vector
from build_tools.laws.survey import find_topology
from build_tools.laws.topology import Topology
from build_tools.laws.unused import find_unused_loop
from tests.circuit_of import circuit_of

two_loops = """
[parts]
E1 = { battery = "12 V", minus = "a", plus = "b" }
R1 = { resistor = "2 ohm", between = ["b", "c"] }
R2 = { resistor = "4 ohm", between = ["c", "a"] }
R3 = { resistor = "1 ohm", between = ["c", "d"] }
E2 = { battery = "9 V", minus = "a", plus = "d" }
"""


def branches(topology: Topology) -> list[str]:
    """Each branch in short: I1 a>c E1+R1+ (a minus sign after a part that is passed from its end to its start)."""
    return [
        f"{branch.current} {branch.start}>{branch.end} "
        + "".join(f"{step.part.name}{'+' if step.forward else '-'}" for step in branch.steps)
        for branch in topology.branches
    ]


shapes = {
    "parts in series make one branch": (two_loops, ["I1 a>c E1+R1+", "I2 c>a R2+", "I3 a>c E2+R3-"], [], "a- c"),
    "one loop has no junction": (
        '[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b" }\nR1 = { resistor = "1 ohm", between = ["c", "b"] }\n'
        'R2 = { resistor = "1 ohm", between = ["c", "a"] }\n',
        ["I1 a>a E1+R1-R2+"], [], "",
    ),
    "a dead end carries nothing, and its point is no junction": (
        '[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b" }\nR1 = { resistor = "1 ohm", between = ["b", "a"] }\n'
        'R2 = { resistor = "1 ohm", between = ["b", "c"] }\nR3 = { resistor = "1 ohm", between = ["c", "d"] }\n',
        ["I1 a>a E1+R1+"], ["R2", "R3"], "",
    ),
    "an open switch, an ideal voltmeter and a capacitor carry nothing": (
        '[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b" }\nR1 = { resistor = "1 ohm", between = ["b", "a"] }\n'
        'K1 = { switch = "open", between = ["a", "b"] }\nM1 = { voltmeter = "ideal", between = ["a", "b"] }\n'
        'C1 = { capacitor = "1 uF", between = ["a", "b"] }\n',
        ["I1 a>a E1+R1+"], ["K1", "M1", "C1"], "",
    ),
    "a closed switch, an ideal ammeter and a bare wire are branches of their own between junctions": (
        '[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b" }\nR1 = { resistor = "1 ohm", between = ["b", "a"] }\n'
        'K1 = { switch = "closed", between = ["b", "c"] }\nR2 = { resistor = "1 ohm", between = ["c", "a"] }\n'
        'A1 = { ammeter = "ideal", between = ["c", "d"] }\nR3 = { resistor = "1 ohm", between = ["d", "a"] }\n'
        'W1 = { wire = "bare", between = ["d", "e"] }\nR4 = { resistor = "1 ohm", between = ["e", "a"] }\nR5 = { resistor = "1 ohm", between = ["e", "a"] }\n',
        ["I1 a>b E1+", "I2 b>a R1+", "I3 b>c K1+", "I4 c>a R2+", "I5 c>d A1+", "I6 d>a R3+", "I7 d>e W1+", "I8 e>a R4+", "I9 e>a R5+"], [],
        "a- b c d e",
    ),
    "parallel parts between the same two points": (
        '[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b", internal_resistance = "1 ohm" }\n'
        'R1 = { resistor = "1 ohm", between = ["a", "b"] }\nR2 = { resistor = "1 ohm", between = ["a", "b"] }\n',
        ["I1 a>b E1+", "I2 b>a R1-", "I3 b>a R2-"], [], "a- b",
    ),
    "joined points are one junction": (
        two_loops.replace('["c", "a"]', '["c", "g"]').replace('minus = "a", plus = "d"', 'minus = "h", plus = "d"')
        + '[drawing]\njoined = [["a", "g"], ["g", "h"]]\n',
        ["I1 a>c E1+R1+", "I2 c>a R2+", "I3 a>c E2+R3-"], [], "a=g=h- c",
    ),
    "two loops that touch in one point": (
        '[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b" }\nR1 = { resistor = "1 ohm", between = ["b", "a"] }\n'
        'E2 = { battery = "1 V", minus = "a", plus = "c" }\nR2 = { resistor = "1 ohm", between = ["c", "a"] }\n',
        ["I1 a>a E1+R1+", "I2 a>a E2+R2+"], [], "a-",
    ),
    "a branch between two loops has a current of its own (which is zero)": (
        '[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b" }\nR1 = { resistor = "1 ohm", between = ["b", "a"] }\n'
        'R3 = { resistor = "1 ohm", between = ["a", "c"] }\nE2 = { battery = "1 V", minus = "c", plus = "d" }\n'
        'R2 = { resistor = "1 ohm", between = ["d", "c"] }\n',
        ["I1 a>a E1+R1+", "I2 a>c R3+", "I3 c>c E2+R2+"], [], "a- c",
    ),
    "pieces joined only through a capacitor each leave a junction out": (
        '[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b", internal_resistance = "1 ohm" }\nR1 = { resistor = "1 ohm", between = ["b", "a"] }\n'
        'R2 = { resistor = "1 ohm", between = ["b", "a"] }\nC1 = { capacitor = "1 uF", between = ["b", "c"] }\n'
        'E2 = { battery = "1 V", minus = "c", plus = "d", internal_resistance = "1 ohm" }\nR3 = { resistor = "1 ohm", between = ["d", "c"] }\nR4 = { resistor = "1 ohm", between = ["d", "c"] }\n',
        ["I1 a>b E1+", "I2 b>a R1+", "I3 b>a R2+", "I4 c>d E2+", "I5 d>c R3+", "I6 d>c R4+"], ["C1"], "a- b c- d",
    ),
    "without a closed way there is nothing": (
        '[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b" }\nK1 = { switch = "open", between = ["b", "a"] }\n', [], ["E1", "K1"], "",
    ),
    "the author's directions come first, in the author's order": (
        two_loops + '[currents]\nIb = { through = "E2", toward = "a" }\nIa = { through = "R1", toward = "b" }\nIc = { through = "R2", toward = "a" }\n',
        ["Ib c>a R3+E2-", "Ia c>a R1-E1-", "Ic c>a R2+"], [], "a- c",
    ),
    "where the author named some, all are in the order of their names": (
        two_loops + '[currents]\nI2 = { through = "E2", toward = "a" }\n', ["I1 a>c E1+R1+", "I2 c>a R3+E2-", "I3 c>a R2+"], [], "a- c",
    ),
    "the author's choice of the junction left out": (
        two_loops + '[equations]\nleave_out = "c"\n', ["I1 a>c E1+R1+", "I2 c>a R2+", "I3 a>c E2+R3-"], [], "a c-",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("text", "expected", "idle", "junctions"), shapes.values(), ids=list(shapes))
def test_a_circuit_is_taken_apart(text: str, expected: list[str], idle: list[str], junctions: str) -> None:
    """Branches with ends, parts and senses; parts without a current; junctions, the one left out marked by a minus."""
    topology = find_topology(circuit_of(text))

    assert branches(topology) == expected
    assert [part.name for part in topology.idle] == idle
    assert " ".join("=".join(each.points) + ("" if each.used else "-") for each in topology.junctions) == junctions


def walks(topology: Topology) -> list[str]:
    """Each loop in short: L1 from a: E1 R1 R2."""
    return [f"{loop.name} from {loop.start}: {' '.join(step.part.name for step in loop.steps)}" for loop in topology.loops]


ladder = """
[points]
a = [0, 0]
b = [0, 2]
c = [2, 2]
d = [4, 2]
e = [4, 0]
f = [2, 0]

[parts]
R4 = { resistor = "1 ohm", between = ["c", "d"] }
E1 = { battery = "12 V", minus = "a", plus = "b" }
R1 = { resistor = "2 ohm", between = ["b", "c"] }
R2 = { resistor = "4 ohm", between = ["c", "f"] }
R3 = { resistor = "1 ohm", between = ["d", "e"] }

[drawing]
joined = [["a", "f"], ["f", "e"]]
"""


def test_inner_loops_are_taken_where_there_is_a_drawing() -> None:
    """Clockwise from the bottom left corner, from left to right."""
    assert walks(find_topology(circuit_of(ladder))) == ["L1 from a: E1 R1 R2", "L2 from f: R2 R4 R3"]


def test_few_part_loops_are_taken_where_there_is_none() -> None:
    """Each begins at its first battery, or else its first part."""
    without = ladder.split("[parts]")[1]

    assert walks(find_topology(circuit_of("[parts]" + without))) == ["L1 from c: R4 R3 R2", "L2 from a: E1 R1 R2"]


def test_few_part_loops_are_taken_where_lines_cross() -> None:
    """A drawing with a crossing has no inner loops."""
    crossed = ladder.replace("d = [4, 2]\ne = [4, 0]", "d = [4, 0]\ne = [4, 2]").replace('["f", "e"]', '["a", "e"]')

    topology = find_topology(circuit_of(crossed))

    assert sorted(len(loop.steps) for loop in topology.loops) == [3, 3]
    assert rank([branch_vector(loop.steps, topology.branches) for loop in topology.loops]) == 2


def test_an_authors_loop_is_kept_and_completed() -> None:
    """The author's loop comes first; what it leaves open is filled up with inner loops under free names."""
    outer = ladder + '\n[loops]\nL2 = { start = "e", through = ["R3", "R4", "R1", "E1"] }\n'

    assert walks(find_topology(circuit_of(outer))) == ["L2 from e: R3 R4 R1 E1", "L1 from a: E1 R1 R2"]


def test_the_unused_loop_is_the_outer_one() -> None:
    """All inner loops added up go round the outside."""
    topology = find_topology(circuit_of(ladder))
    loop = find_unused_loop(topology)

    assert loop is not None
    assert [step.part.name for step in loop.steps] == ["E1", "R1", "R4", "R3"]
    assert find_unused_loop(find_topology(circuit_of(shapes["one loop has no junction"][0]))) is None
