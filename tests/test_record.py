"""The object of `solve --json`: its keys are a promise to other people's scripts."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from build_tools.page.record import write_record
from build_tools.pipeline import solve_file
from tests.circuit_of import worked

root = Path(__file__).parents[1]
files = sorted((root / "circuits").glob("*.toml"))

promised = {
    "": {"address", "title", "question", "level", "topics", "asked", "units", "junctions", "branches", "loops", "equations",
         "unknowns", "currents", "parts", "potentials", "found", "checks"},
    "units": {"voltage", "resistance", "current"},
    "junctions": {"name", "points", "used"},
    "branches": {"current", "from", "to", "parts"},
    "loops": {"name", "start", "walk"},
    "equations": {"rule", "origin", "text", "coefficients", "right"},
    "currents": {"name", "exact", "value", "as_assumed", "meaning"},
    "parts": {"kind", "value", "internal_resistance", "text", "internal_text", "from", "to", "current", "voltage", "power", "role"},
    "potentials": {"exact", "value"},
    "found": {"exact", "value", "unit"},
    "checks": {"junction_sums", "loop_sums", "power_balance", "numpy_difference"},
}  # fmt: skip


def each(value: Any) -> list[Any]:
    """The members of a list, the values of a table of tables, or the table itself."""
    if isinstance(value, list):
        return value
    return list(value.values()) if value and all(isinstance(member, dict) for member in value.values()) else [value]


@pytest.mark.parametrize("path", files, ids=lambda path: path.stem)
def test_every_promised_key_is_there(path: Path) -> None:
    """Keys stay; more may be added."""
    record = solve_file(path)

    for name, keys in promised.items():
        for member in each(record[name]) if name else [record]:
            if member:
                assert keys <= set(member), name


@pytest.mark.parametrize("path", files, ids=lambda path: path.stem)
def test_the_numbers_hold_together(path: Path) -> None:
    """A script that knows only the object can check it: equations, exact and rounded values, voltages and powers."""
    record = solve_file(path)
    currents = {each["name"]: Fraction(each["exact"]) for each in record["currents"]}

    assert list(currents) == record["unknowns"] == [branch["current"] for branch in record["branches"]]
    assert len(record["equations"]) == len(record["unknowns"])
    for equation in record["equations"]:
        left = sum(Fraction(factor) * currents[name] for factor, name in zip(equation["coefficients"], record["unknowns"], strict=True))
        assert left == Fraction(equation["right"])
    for part in record["parts"].values():
        assert part["current"]["value"] == float(Fraction(part["current"]["exact"]))
        if part["voltage"]["exact"] is not None:
            assert Fraction(part["power"]["exact"]) == Fraction(part["voltage"]["exact"]) * Fraction(part["current"]["exact"])
            ends = [record["potentials"][part[end]]["exact"] for end in ("from", "to")]
            if None not in ends:
                assert Fraction(ends[0]) - Fraction(ends[1]) == Fraction(part["voltage"]["exact"])
    checks = record["checks"]
    assert {*checks["junction_sums"], *checks["loop_sums"], checks["power_balance"]} == {"0"}
    assert checks["numpy_difference"] < 1e-9


def test_signs_and_roles_of_a_charged_battery() -> None:
    """A charger of 16 V through 0.4 Ω into 12 V: 10 A and 40 W, OpenStax University Physics 2, ch. 10, problem 25."""
    record = write_record(
        worked(
            'title = "t"\n[parts]\nE1 = { battery = "16 V", minus = "b", plus = "t" }\n'
            'E2 = { battery = "12 V", minus = "b", plus = "t", internal_resistance = "0.4 ohm" }\n'
            '[currents]\nI1 = { through = "E2", toward = "t" }\n'
        )
    )

    (current,) = record["currents"]
    assert (current["exact"], current["as_assumed"]) == ("-10", False)
    assert current["meaning"].startswith("10.0\N{NO-BREAK SPACE}A flows opposite to the assumed direction")
    charged = record["parts"]["E2"]
    assert charged["role"] == "charging"
    assert charged["current"]["exact"] == "-10"
    assert charged["voltage"]["exact"] == "-16"
    assert charged["power"]["exact"] == "160"
    assert record["parts"]["E1"]["role"] == "giving"
    assert record["parts"]["E1"]["power"]["exact"] == "-160"


def test_nothing_fixes_a_voltage_between_pieces() -> None:
    """A null is "nothing fixes it": a voltmeter between two circuits, and the potentials beyond it."""
    record = write_record(
        worked(
            '[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b" }\nR1 = { resistor = "1 ohm", between = ["a", "b"] }\n'
            'M1 = { voltmeter = "ideal", between = ["b", "c"] }\nE2 = { battery = "6 V", minus = "c", plus = "d" }\n'
            'R2 = { resistor = "3 ohm", between = ["d", "c"] }\nC1 = { capacitor = "2 uF", between = ["d", "c"] }\n'
            'C2 = { capacitor = "2 uF", between = ["a", "d"] }\n'
        )
    )

    assert record["parts"]["M1"]["voltage"] == {"exact": None, "value": None}
    assert record["potentials"]["d"] == {"exact": None, "value": None}
    assert record["parts"]["C1"]["voltage"]["exact"] == "6"
    assert record["found"] == {
        "C1": {"exact": "3/250000", "value": 12e-6, "unit": "C"},
        "C2": {"exact": None, "value": None, "unit": "C"},
    }


def test_a_circuit_without_a_closed_way_is_solved_too() -> None:
    """No unknowns, no equations, every current zero; the open switch holds the whole emf."""
    record = write_record(
        worked('[parts]\nE1 = { battery = "9 V", minus = "a", plus = "b" }\nK1 = { switch = "open", between = ["b", "a"] }\n')
    )

    assert (record["unknowns"], record["equations"], record["currents"]) == ([], [], [])
    assert record["parts"]["K1"]["voltage"]["exact"] == "9"
    assert record["parts"]["E1"]["role"] == "idle"
