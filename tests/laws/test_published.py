"""Our answers against published ones. The tables in tests/published name the source of every value."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from build_tools.circuit.quantity import Dimension, QuantityError, parse_quantity
from build_tools.pipeline import solve_file
from tests.published.answers import Example, answer, answer_with_exact, current_toward, read_value
from tests.published.table import Published, Stated, circuits, load, read_printed, read_published

published = read_published()
every = [stated for one in published for stated in one.stated]
right = [stated for stated in every if not stated.slip and "unknown" not in stated.ask]
slips = [stated for stated in every if stated.slip]
unknown = [one for one in published if one.given]
sets = load("equations.toml")["set"]
numbers = load("numbers.toml")


def test_the_tables_are_whole() -> None:
    """No circuit, no value and no source is lost, and each circuit file is in the table."""
    assert (len(published), len(every), len(slips), len(unknown), len(sets)) == (33, 142, 4, 7, 10)
    assert {one.path for one in published} == set(circuits.glob("*.toml"))
    assert {one.source for one in published} == set(load("values.toml")["source"])
    assert {one.status for one in published} <= {"read", "memory"}


@pytest.mark.parametrize("stated", right, ids=str)
def test_published_value_is_ours(stated: Stated) -> None:
    """Our exact value rounds to the published one: it is within half a unit of its last decimal."""
    ours = answer(stated)

    assert stated.agrees_with(ours), f"{ours} is not {stated.text}"
    assert ours == stated.exact


@pytest.mark.parametrize("stated", slips, ids=lambda stated: f"{stated}, {stated.slip}")
def test_published_slip_is_not_ours(stated: Stated) -> None:
    """Where the printed value is a slip, ours is the right one and the slip is told by the table."""
    ours = answer(stated)

    assert ours == stated.exact
    assert not stated.agrees_with(ours)


@pytest.mark.parametrize("one", published, ids=lambda one: one.address)
def test_published_circuit_passes_its_own_checks(one: Published) -> None:
    """Nothing is left over at any junction, round any loop, or of the power, and numpy agrees."""
    checks = solve_file(one.path)["checks"]

    assert {*checks["junction_sums"], *checks["loop_sums"], checks["power_balance"]} == {"0"}
    assert checks["numpy_difference"] < 1e-9


@pytest.mark.parametrize("one", unknown, ids=lambda one: one.address)
def test_the_exact_unknown_gives_what_was_given(one: Published) -> None:
    """The exact value, which rounds to the published answer, leads back to exactly what the source gives."""
    unknown_part = next(stated for stated in one.stated if "unknown" in stated.ask)
    value, _, _ = read_printed(one.given["value"])

    assert unknown_part.agrees_with(unknown_part.exact)
    assert unknown_part.agrees_with(read_value(solve_file(one.path), unknown_part.ask["unknown"]))
    assert answer_with_exact(one, unknown_part) == value


@pytest.mark.parametrize("row", sets, ids=lambda row: f"{row['circuit']}, {row['place']}")
def test_published_equations_hold_for_our_currents(row: dict[str, Any]) -> None:
    """Our currents satisfy each published equation exactly and round to the published solution."""
    example = solve_file(circuits / f"{row['circuit']}.toml")
    ours = [current_toward(example["parts"][part], end) for part, end in row["unknowns"]]

    for *factors, right_side in row["rows"]:
        assert sum(Fraction(factor) * current for factor, current in zip(factors, ours, strict=True)) == Fraction(right_side)
    for current, text in zip(ours, row["solution"], strict=True):
        value, _, half_unit = read_printed(text)
        assert abs(current - value) <= half_unit


@pytest.mark.parametrize("row", [row for row in sets if row["same_set"]], ids=lambda row: row["circuit"])
def test_published_equation_set_comes_out_row_by_row(row: dict[str, Any]) -> None:
    """With the published directions, loops and left-out junction ours is the published set, but for a factor in each row."""
    example = solve_file(circuits / f"{row['circuit']}.toml")

    assert [toward_of(example, name) for name in example["unknowns"]] == [tuple(pair) for pair in row["unknowns"]]
    ours = {normal([*equation["coefficients"], equation["right"]]) for equation in example["equations"]}
    assert ours == {normal(published_row) for published_row in row["rows"]}


def toward_of(example: Example, name: str) -> tuple[str, str]:
    """A current as its branch's first resistor and the end of it that the branch runs to."""
    branch = next(branch for branch in example["branches"] if branch["current"] == name)
    here = branch["from"]
    for part_name in branch["parts"]:
        part = example["parts"][part_name]
        here = part["to"] if here == part["from"] else part["from"]
        if part["kind"] == "resistor":
            return part_name, here
    raise AssertionError(f"no resistor in the branch of {name}")


def normal(row: list[str]) -> tuple[Fraction, ...]:
    """A row divided by its first factor that is not zero."""
    values = [Fraction(value) for value in row]
    first = next(value for value in values if value)
    return tuple(value / first for value in values)


shown = [(rule["rule"], *case) for rule in numbers["rule"] for case in rule.get("cases", [])]
refused = [(rule["rule"], *case) for rule in numbers["rule"] for case in rule.get("refused", [])]


@pytest.mark.parametrize(("rule", "kind", "typed", "printed"), shown)
def test_quantities_are_shown_by_the_rules_of_print(rule: str, kind: str, typed: str, printed: str) -> None:
    """What an author types is shown as the SI Brochure and NIST SP 811 want it; the table names the section."""
    assert parse_quantity(typed, Dimension[kind.upper()], signed=True).shown == printed, rule


@pytest.mark.parametrize(("rule", "kind", "typed"), refused)
def test_quantities_against_the_rules_of_print_are_refused(rule: str, kind: str, typed: str) -> None:
    """What would break a rule of print is refused when the file is read."""
    with pytest.raises(QuantityError) as refusal:
        parse_quantity(typed, Dimension[kind.upper()], signed=True)

    assert refusal.value.way_out, rule


@pytest.mark.parametrize("prefix", ["m", "", "k", "M"])
def test_every_preferred_value_is_read_exactly(prefix: str) -> None:
    """The values of E24, in three decades and with every prefix, are exact. Source: IEC 60063, as quoted in the table."""
    size = {"m": Fraction(1, 1000), "": Fraction(1), "k": Fraction(1000), "M": Fraction(10**6)}[prefix]
    for value in numbers["series"]["E24"]:
        for typed in (f"{value / 10:.1f}", f"{value}", f"{value}0"):
            read = parse_quantity(f"{typed} {prefix}ohm", Dimension.RESISTANCE)
            assert (read.exact, read.unit) == (Fraction(typed) * size, "Ω")
            assert read.shown == f"{typed}\u00a0{prefix}Ω"


def test_number_series_are_nested_and_not_computed() -> None:
    """Each series is every second value of the next (E3 of E6 too), and E24 is not a rounded power where the table says so."""
    series = numbers["series"]
    for small, large in (("E3", "E6"), ("E6", "E12"), ("E12", "E24")):
        assert series[small] == series[large][::2]
    powers = [round(10 ** (1 + k / 24)) for k in range(24)]
    assert [value for value, power in zip(series["E24"], powers, strict=True) if value != power] == series["not_rounded_powers"]
