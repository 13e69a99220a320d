"""Practice values: always the same, of the author's kind, tidy, and no wider in print than the author's own."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from build_tools.circuit.circuit import Circuit, Kind
from build_tools.circuit.quantity import Dimension, Quantity, parse_quantity
from build_tools.circuit.reading import read_circuit
from build_tools.circuit.source import read_source
from build_tools.laws.equation import write_equations
from build_tools.laws.practice import find_character, find_choices, judge, most_sets, scramble, take_set
from build_tools.laws.solution import Role, solve_circuit
from build_tools.laws.survey import find_topology
from build_tools.laws.topology import Topology
from build_tools.laws.units import choose_units
from tests.circuit_of import circuit_of

root = Path(__file__).parents[2]
files = sorted((root / "circuits").glob("*.toml"))
every = [*files, *sorted((root / "tests/published/circuits").glob("*.toml")), *sorted((root / "tests/parity/circuits").glob("*.toml"))]
tidy_share = {"neutral-wire": 0.1, "meters-on-the-heater": 0.1, "bus-bar": 0.4, "floating-bank": 0.5, "link-wire": 0.5}
"""Where less than eight sets in ten are tidy: many unknowns, or values that stay as they are."""


@cache
def topology_of(path: Path) -> Topology:
    return find_topology(read_circuit(read_source(path)))


@cache
def sets_of(path: Path) -> tuple[Circuit, ...]:
    """Every set of a demo circuit, the first ten of another."""
    return tuple(take_set(topology_of(path), number + 1) for number in range(most_sets if path in files else 10))


def values(circuit: Circuit) -> list[str]:
    return [
        quantity.shown.replace("\N{NO-BREAK SPACE}", " ")
        for part in circuit.parts
        for quantity in (part.value, part.internal_resistance)
        if quantity
    ]


@pytest.mark.parametrize(
    ("name", "number", "expected"),
    [
        ("bow-lamp", 1, "23 V, 0.5 Ω, 1 Ω, 5 Ω"),
        ("frost-bridge", 4, "6 V, 8 kΩ, 5 kΩ, 2 kΩ, 20 kΩ, 4 kΩ"),
        ("neutral-wire", 99, "21 V, 8 V, 0.6 Ω, 0.6 Ω, 0.2 Ω, 1 Ω, 20 Ω, 5 Ω, 5 Ω"),
    ],
)
def test_a_set_stays_what_it_is(name: str, number: int, expected: str) -> None:
    """A link that a tutor gave out shows these values in years to come: this table never changes."""
    assert ", ".join(values(take_set(topology_of(root / f"circuits/{name}.toml"), number))) == expected


def test_a_set_hangs_on_the_parts_alone() -> None:
    """Another title, another question, another name of the file: the same values."""
    parts = '[parts]\nE1 = { battery = "12 V", minus = "a", plus = "b" }\nR1 = { resistor = "4 ohm", between = ["b", "a"] }\n'
    one = take_set(find_topology(circuit_of(f'title = "One"\nlevel = "core"\n{parts}')), 7)
    other = take_set(find_topology(circuit_of(f'title = "Other"\nquestion = "Why?"\n{parts}')), 7)
    assert values(one) == values(other)


@pytest.mark.parametrize("path", every, ids=lambda path: path.stem)
def test_every_set_keeps_the_kind_of_its_circuit(path: Path) -> None:
    """What flows still flows, no battery changes over, units and all but the values stay, and no set is like the one before."""
    own = topology_of(path)
    before = [values(own.circuit), *map(values, sets_of(path))]
    assert all(one != other for one, other in pairwise(before))
    assert values(own.circuit) not in before[1:]
    for circuit in sets_of(path):
        check_kind(circuit, own)
        for part, given in zip(circuit.parts, own.circuit.parts, strict=True):
            assert (part.name, part.kind, part.start, part.end, part.state) == (given.name, given.kind, given.start, given.end, given.state)
            assert part == given or part.kind in (Kind.BATTERY, Kind.RESISTOR)
            if part != given:
                assert part.value
                assert given.value
                check_value(part.value, given.value)
            if part.internal_resistance and given.internal_resistance:
                check_value(part.internal_resistance, given.internal_resistance)


def check_kind(circuit: Circuit, own: Topology) -> None:
    """Held against the whole solution, which the draws never look at."""
    topology = find_topology(circuit)
    before, after = (solve_circuit(each, write_equations(each)) for each in (own, topology))
    assert [name for name, value in before.currents.items() if value and not after.currents[name]] == []
    for name, state in before.parts.items():
        if state.part.kind is Kind.BATTERY:
            allowed = {state.role, Role.GIVING} if state.role is Role.IDLE else {state.role}
            assert after.parts[name].role in allowed, (name, values(circuit))
    assert choose_units(circuit) == choose_units(own.circuit)


def check_value(value: Quantity, old: Quantity) -> None:
    """The author's unit, no wider in print, near the author's size, and exactly what is printed."""
    digits, unit = value.shown.split("\N{NO-BREAK SPACE}")
    old_digits, old_unit = old.shown.split("\N{NO-BREAK SPACE}")
    assert unit == old_unit
    assert len(digits) <= len(old_digits)
    assert len(digits) - digits.count(".") / 2 <= len(old_digits) - old_digits.count(".") / 2
    assert old.exact / 3 <= value.exact <= 3 * old.exact
    dimension = Dimension.EMF if value.unit == "V" else Dimension.RESISTANCE
    assert parse_quantity(value.shown.replace("\N{NO-BREAK SPACE}", " "), dimension) == value


@pytest.mark.parametrize("path", files, ids=lambda path: path.stem)
def test_every_set_of_a_demo_circuit_solves(path: Path) -> None:
    """Exactly and, as a second opinion, by numpy. Assumed directions, the junction left out and the loops stay."""
    own = topology_of(path)
    for circuit in sets_of(path):
        topology = find_topology(circuit)
        solution = solve_circuit(topology, write_equations(topology))
        largest = max(map(abs, map(float, solution.currents.values())))
        assert solution.checks.numpy_difference <= 1e-9 * largest
        assert {*solution.checks.junction_sums, *solution.checks.loop_sums, solution.checks.power_balance} == {0}
        assert shape(topology) == shape(own)


def shape(topology: Topology) -> list[object]:
    """All of a topology but the values."""
    walks = [*topology.branches, *topology.loops]
    return [*topology.junctions, *([(step.part.name, step.forward) for step in walk.steps] for walk in walks)]


@pytest.mark.parametrize("path", files, ids=lambda path: path.stem)
def test_most_sets_are_tidy(path: Path) -> None:
    """Every current has a denominator up to 20 or ends within three decimals, in the units of the page."""
    own = find_character(topology_of(path))
    tidy = sum(judge(find_character(find_topology(circuit)), own) == (0, 0) for circuit in sets_of(path))
    assert tidy >= tidy_share.get(path.stem, 0.8) * most_sets


@pytest.mark.parametrize(
    ("shown", "is_emf", "expected"),
    [
        ("12 V", True, "6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 24"),
        ("9 V", True, "5 6 7 8 9"),
        ("1.5 V", True, "1 2 3"),
        ("0.5 V", True, "0.2 0.3 0.4 0.5 0.6 0.8 1 1.2"),
        ("230 V", True, "80 100 120 200 300 400 500 600"),
        ("60 mV", True, "20 30 40 50 60 80"),
        ("4.7 kohm", False, "2 3 4 5 6 8 10 12"),
        ("0.5 ohm", False, "0.2 0.3 0.4 0.5 0.6 0.8 1 1.2"),
        ("1 ohm", False, "1 2 3"),
        ("9 ohm", False, "3 4 5 6 8"),
        ("24 ohm", False, "8 10 12 20 30 40 50 60"),
    ],
)
def test_what_may_stand_in_place_of_a_value(shown: str, is_emf: bool, expected: str) -> None:
    """Whole volts from half to double for an emf, round sizes from a third to three times for a resistance, none wider in print."""
    own = parse_quantity(shown, Dimension.EMF if is_emf else Dimension.RESISTANCE)
    assert [each.shown.split("\N{NO-BREAK SPACE}")[0] for each in find_choices(own, is_emf=is_emf)] == expected.split()


def test_scramble_leaves_no_pattern() -> None:
    """Neighbours become different numbers, spread evenly over every small remainder."""
    found = [scramble(number) for number in range(10_000)]
    assert len(set(found)) == len(found)
    for divisor in (2, 3, 7, 19):
        counts = [sum(each % divisor == rest for each in found) for rest in range(divisor)]
        assert max(counts) - min(counts) < 0.2 * len(found) / divisor + 60


def test_a_circuit_without_current_has_sets_too() -> None:
    """Nothing flows, whatever the values."""
    circuit = circuit_of('[parts]\nE1 = { battery = "9 V", minus = "a", plus = "b" }\nK1 = { switch = "open", between = ["b", "a"] }\n')
    assert values(take_set(find_topology(circuit), 1)) != ["9 V"]
