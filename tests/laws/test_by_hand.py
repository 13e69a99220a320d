"""The route by hand: every line follows from the lines it names, and the last ones are the answers."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from build_tools.laws.hand_lines import Action, Line
from build_tools.laws.meaning import WorkedCircuit, to_units
from build_tools.pipeline import work_file
from tests.circuit_of import worked

root = Path(__file__).parents[2]
files = sorted([*(root / "circuits").glob("*.toml"), *(root / "tests/published/circuits").glob("*.toml")])

Row = tuple[dict[str, Fraction], Fraction]
"""Σ factor × current = right."""


def as_row(line: Line) -> Row:
    """What a line says, with everything on the left but the number."""
    terms = dict(line.terms)
    if line.action is Action.EXPRESS:
        return {line.current: Fraction(1), **{current: -factor for current, factor in terms.items()}}, Fraction(0)
    return ({line.current: Fraction(1)} if line.action is Action.FIND else terms), line.right


def follows(row: Row, others: list[Row]) -> bool:
    """Whether one row is a combination of others: it adds nothing to their rank."""
    from build_tools.laws.elimination import rank

    names = sorted({name for factors, _ in [row, *others] for name in factors})
    vectors = [[*(factors.get(name, Fraction(0)) for name in names), right] for factors, right in [row, *others]]
    return rank(vectors) == rank(vectors[1:])


@pytest.mark.parametrize("path", files, ids=lambda path: path.stem)
def test_every_line_follows_from_the_lines_it_names(path: Path) -> None:
    """No line needs anything but the lines it names, and none of those is left out of its sentence."""
    example = work_file(path)
    rows: dict[int, Row] = {at: (each.factors, each.right) for at, each in enumerate(example.written.equations, 1)}

    for line in example.route.lines:
        assert all(use in rows for use in line.uses)
        assert follows(as_row(line), [rows[use] for use in line.uses]), line
        rows[line.number] = as_row(line)
        if line.action is Action.COMBINE:
            parents = [rows[use] for use in line.uses]
            for current, factor in as_row(line)[0].items():
                assert factor * line.scale == sum(
                    m * parent[0].get(current, 0) for m, parent in zip(line.multipliers, parents, strict=True)
                )


@pytest.mark.parametrize("path", files, ids=lambda path: path.stem)
def test_a_line_knows_whether_all_its_signs_are_turned(path: Path) -> None:
    """A loop equation with expressions put in has the signs of its line, or the line says that they are turned."""
    example = work_file(path)
    rows: dict[int, Row] = {at: (each.factors, each.right) for at, each in enumerate(example.written.equations, 1)}

    for line in example.route.lines:
        rows[line.number] = as_row(line)
        if line.action is Action.INSERT:
            (loop, _), *expressions = (rows[use] for use in line.uses)
            put = dict(loop)
            for (current, _), *others in (expression.items() for expression, _ in expressions):
                for other, factor in others:
                    put[other] = put.get(other, Fraction(0)) - put[current] * factor
                del put[current]
            put = {current: factor for current, factor in put.items() if factor}
            sign = -1 if line.is_turned else 1
            assert put == {current: sign * factor * line.scale for current, factor in line.terms}


@pytest.mark.parametrize("path", files, ids=lambda path: path.stem)
def test_the_route_ends_at_the_asked_currents_and_writes_no_fraction_before_the_last_lines(path: Path) -> None:
    """All asked currents are found, as the elimination of the whole matrix finds them; rows hold whole numbers."""
    example = work_file(path)
    found = {line.current: line.right for line in example.route.lines if line.action is Action.FIND}

    for current in example.route.asked:
        assert found[current] == to_units(example.solution.currents[current], example.units.current, example.units)
    if example.route.lines:
        assert example.route.lines[-1].current in example.route.asked
    for line in example.route.lines:
        numbers = [factor for _, factor in line.terms] + ([] if line.action is Action.FIND else [line.right])
        assert all(number.denominator == 1 for number in numbers)


def test_no_line_is_written_for_nothing() -> None:
    """Every line but the answers is used by a later one."""
    for path in files:
        lines = work_file(path).route.lines
        used = {use for line in lines for use in line.uses}
        assert [line.number for line in lines if line.number not in used and line.action is not Action.FIND] == [], path.stem


bridge = """
asked = ["R3"]
[parts]
E1 = { battery = "24 V", minus = "d", plus = "a" }
R2 = { resistor = "150 ohm", between = ["a", "b"] }
R3 = { resistor = "50 ohm", between = ["a", "c"] }
R6 = { resistor = "100 ohm", between = ["b", "c"] }
R4 = { resistor = "300 ohm", between = ["b", "d"] }
R5 = { resistor = "250 ohm", between = ["c", "d"] }
[currents]
I1 = { through = "E1", toward = "a" }
I2 = { through = "R2", toward = "b" }
I3 = { through = "R3", toward = "c" }
I4 = { through = "R4", toward = "d" }
I5 = { through = "R5", toward = "d" }
I6 = { through = "R6", toward = "b" }
"""


def test_the_unbalanced_bridge_is_done_in_few_lines() -> None:
    """24 V bridge of Kuphaldt, Lessons In Electric Circuits I, ch. 10: 68/725 A in the 50 Ω resistor, kept currents three."""
    example = worked(bridge)
    last = example.route.lines[-1]

    assert (last.current, last.right) == ("I3", Fraction(68, 725))
    assert len(example.route.kept) == 3
    assert "I3" in example.route.kept
    assert len(example.route.lines) <= 9


def test_all_currents_are_found_where_the_question_names_none() -> None:
    """Without `asked` the route goes on until every current is known."""
    example: WorkedCircuit = worked(bridge.replace('asked = ["R3"]', ""))

    assert example.route.asked == ("I1", "I2", "I3", "I4", "I5", "I6")
    assert {line.current for line in example.route.lines if line.action is Action.FIND} == set(example.route.asked)


def test_a_current_that_no_loop_holds_is_found_by_the_junction_rule() -> None:
    """The only branch between two loops can never be kept: its current is zero by the junction rule alone."""
    example = worked(
        'asked = ["R3"]\n[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b" }\nR1 = { resistor = "1 ohm", between = ["b", "a"] }\n'
        'R3 = { resistor = "1 ohm", between = ["a", "c"] }\nE2 = { battery = "1 V", minus = "c", plus = "d" }\n'
        'R2 = { resistor = "1 ohm", between = ["d", "c"] }\n'
    )

    assert example.route.lines[-1].current == "I2"
    assert example.route.lines[-1].right == 0
