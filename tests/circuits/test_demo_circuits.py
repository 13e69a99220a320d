"""The demo circuits against exact currents worked out outside this project, and the variety they must keep.

Source of the figures: solved independently with sympy, nodal potentials (one equation per place, an ideal battery or a
bare wire as an unknown current of its own); no line of build_tools took part.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from build_tools.pipeline import solve_file

FOLDER = Path(__file__).parents[2] / "circuits"

Example = dict[str, Any]
"""The object that `solve --json` prints."""

# Currents in A, from `from` to `to` through the part: a battery from minus to plus, else from the first of `between`.
KNOWN = {
    "alarm-capacitor": "E1 3/2000, R1 3/2000, R2 1/500, C1 0, R3 -1/2000, E2 1/2000",
    "alarm-line": "E1 3/2000, R1 3/2000, M1 0, K1 3/2000, R2 3/2000",
    "bilge-pump-two-banks": "E1 6, E2 -3, R1 3",
    "bow-lamp": "E1 2, R1 2, R2 2",
    "bus-bar": "E1 6, R1 6, R2 2, W1 4, R3 3, W2 1, R4 4, E2 3, R5 3",
    "bypassed-lamp": "E1 3, R1 3, R2 0, W1 3",
    "dinghy-charge": "E1 2, R1 2, E2 -2",
    "floating-bank": "E1 4, R1 4, E2 0, R2 4",
    "frost-bridge": "E1 7/2000, R1 1/500, R2 3/2000, R3 3/1000, R4 1/2000, R5 -1/1000",
    "heater-switch-closed": "E1 2, R1 2, R2 1/2, K1 3/2, R3 3/2",
    "heater-switch-open": "E1 4/5, R1 4/5, R2 4/5, K1 0, R3 0",
    "idle-wire": "E1 3, R1 2, R2 1, R3 2, R4 1, W1 0",
    "jetty-lamps": "E1 4, R1 12/5, R2 8/5, R3 0",
    "link-wire": "E1 4, R1 2, W1 2, R2 3, E2 1",
    "meters-on-the-heater": "E1 6, M1 0, R2 4, A1 2, R1 2",
    "neutral-wire": "E1 2, E2 4, R1 4, R2 -2, R3 2, R4 3, R5 1/2, R6 1, R7 3/2, W1 1/2",
    "pontoon-lamps": "E1 4, R1 4, R2 2, R3 2, R4 1, R5 1, R6 1",
    "tank-gauge-bridge": "E1 9/2000, R1 3/1000, R2 3/2000, R3 3/1000, R4 3/2000, A1 0",
    "three-banks": "E1 1, R1 1, R2 3, E2 -3, R3 2, E3 2",
    "voltmeter-that-joins-in": "E1 3/5000, R1 3/5000, R2 3/10000, M1 3/10000",
    "wire-across-the-bridge": "E1 3, R1 1, R2 2, R3 2, R4 1, W1 -1",
}

# Voltages in V of parts that no current passes, from the same independent solution.
KNOWN_VOLTAGES = [
    ("alarm-capacitor", "C1", 6),
    ("alarm-line", "M1", Fraction(141, 20)),
    ("heater-switch-open", "K1", Fraction(48, 5)),
    ("meters-on-the-heater", "M1", 12),
]


@cache
def solved(address: str) -> Example:
    """The solved example, once per run."""
    return dict(solve_file(FOLDER / f"{address}.toml"))


def currents(address: str) -> dict[str, Fraction]:
    """The exact current of each part as the project has it; a part without current counts as 0."""
    parts = solved(address)["parts"]
    return {name: Fraction((part["current"] or {}).get("exact") or 0) for name, part in parts.items()}


def table_row(text: str) -> dict[str, Fraction]:
    """Read one row of KNOWN."""
    pairs = (pair.split() for pair in text.split(","))
    return {name: Fraction(current) for name, current in pairs}


def kinds(example: Example) -> set[str]:
    """The kinds of part an example has."""
    return {part["kind"] for part in example["parts"].values()}


def wire_between_junctions(example: Example) -> bool:
    """Whether some branch is a bare wire and nothing else, and carries a current."""
    parts = example["parts"]
    alone = [branch["parts"][0] for branch in example["branches"] if len(branch["parts"]) == 1]
    return any(parts[name]["kind"] == "wire" and parts[name]["current"]["value"] for name in alone)


def charged(example: Example) -> bool:
    """Whether some battery takes up power."""
    return any(p["kind"] == "battery" and p["power"]["value"] > 0 for p in example["parts"].values())


def real_meter(kind: str) -> Callable[[Example], bool]:
    """Whether some meter of this kind has a resistance of its own."""
    return lambda example: any(p["kind"] == kind and p["value"] for p in example["parts"].values())


def ideal_meter(kind: str) -> Callable[[Example], bool]:
    """Whether some meter of this kind is ideal."""
    return lambda example: any(p["kind"] == kind and not p["value"] for p in example["parts"].values())


def batteries(count: int) -> Callable[[Example], bool]:
    """Whether the example has so many batteries."""
    return lambda example: [p["kind"] for p in example["parts"].values()].count("battery") == count


def loops(count: int) -> Callable[[Example], bool]:
    """Whether the example has so many independent loops."""
    return lambda example: len(example["loops"]) == count


VARIETY: list[tuple[str, int, Callable[[Example], bool]]] = [
    ("one loop", 3, loops(1)),
    ("two loops", 3, loops(2)),
    ("three loops", 3, loops(3)),
    ("four loops", 2, loops(4)),
    ("two batteries", 3, batteries(2)),
    ("three batteries", 1, batteries(3)),
    ("a battery being charged", 3, charged),
    ("internal resistance", 3, lambda e: any(p["internal_resistance"] for p in e["parts"].values())),
    ("a bare wire that carries a current between junctions", 4, wire_between_junctions),
    ("a current that comes out zero", 3, lambda e: any(c["exact"] == "0" for c in e["currents"])),
    ("a current opposite to the one assumed", 4, lambda e: any(c["as_assumed"] is False for c in e["currents"])),
    ("a switch", 2, lambda e: "switch" in kinds(e)),
    ("a capacitor", 1, lambda e: "capacitor" in kinds(e)),
    ("an ideal ammeter", 1, ideal_meter("ammeter")),
    ("a real ammeter", 1, real_meter("ammeter")),
    ("an ideal voltmeter", 1, ideal_meter("voltmeter")),
    ("a real voltmeter", 1, real_meter("voltmeter")),
    ("milliamperes", 3, lambda e: e["units"]["current"] == "mA"),
    *((f"the level {level}", 3, lambda e, level=level: e["level"] == level) for level in ("first steps", "core", "stretch")),
]


def test_every_demo_circuit_has_known_currents() -> None:
    """The table has a row for each circuit file and for no other."""
    assert {path.stem for path in FOLDER.glob("*.toml")} == set(KNOWN)


@pytest.mark.parametrize("address", KNOWN)
def test_demo_currents_are_the_known_ones(address: str) -> None:
    """Every part carries exactly the current that the independent solution gives it."""
    assert currents(address) == table_row(KNOWN[address])


@pytest.mark.parametrize(("address", "part", "voltage"), KNOWN_VOLTAGES)
def test_voltage_where_no_current_passes(address: str, part: str, voltage: Fraction) -> None:
    """A charged capacitor, an open switch and an ideal voltmeter have a voltage, but no current."""
    assert Fraction(solved(address)["parts"][part]["voltage"]["exact"]) == voltage


@pytest.mark.parametrize(("what", "at_least", "holds"), VARIETY, ids=[row[0] for row in VARIETY])
def test_variety_of_the_demo_circuits(what: str, at_least: int, holds: Callable[[Example], bool]) -> None:
    """The demo circuits cover each thing a course needs, more than once where it is hard."""
    having = [address for address in KNOWN if holds(solved(address))]
    assert len(having) >= at_least, f"{what}: only {having}"


@pytest.mark.parametrize("address", KNOWN)
def test_demo_values_suit_work_by_hand(address: str) -> None:
    """Each current is a short decimal in the page's unit, and none is absurdly large."""
    unit = Fraction(1, 1000) if solved(address)["units"]["current"] == "mA" else Fraction(1)
    for current in currents(address).values():
        assert (current / unit * 10).denominator == 1
        assert abs(current) < 30
