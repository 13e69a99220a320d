"""One set of laws, two languages: Python and JavaScript agree to the last character, whatever a reader chose.

The cases are made from every circuit of the project; node works all of one circuit's cases out in one run.
"""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest

from build_tools.laws.meaning import equation_text, work_out
from build_tools.laws.practice import take_set
from build_tools.page.hand import tell_line
from build_tools.page.record import write_record
from build_tools.page.rendering import render
from build_tools.page.writing import build_solution
from tests.parity.cases import Case, Choice, files, find_cases, find_simple_loops
from tests.parity.trees import parse_block, text_of, tidy, without

script = Path(__file__).parents[1] / "javascript/parity.mjs"


@pytest.fixture(params=files, ids=lambda file: file.stem, scope="module")
def both(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory, node: str) -> list[tuple[Case, dict[str, Any]]]:
    """Every case of one circuit, with what the scripts make of it."""
    cases = list(find_cases(request.param))
    path = tmp_path_factory.mktemp("parity") / "cases.jsonl"
    path.write_text("\n".join(case.write() for case in cases), encoding="utf-8")
    done = subprocess.run([node, str(script), str(path)], capture_output=True, text=True, check=False, encoding="utf-8")
    assert done.returncode == 0, done.stderr
    return list(zip(cases, map(json.loads, done.stdout.split("\n")), strict=True))


def test_equations(both: list[tuple[Case, dict[str, Any]]]) -> None:
    """Every equation, its row of the matrix and its right side are the same on both sides."""
    for case, scripts in both:
        equations = case.worked.equations
        assert scripts["equations"] == list(map(equation_text, case.worked.written.equations)), case.name
        assert scripts["matrix"] == [list(map(str, row)) for row in equations.matrix], case.name
        assert scripts["right"] == list(map(str, equations.right)), case.name


def test_route_by_hand(both: list[tuple[Case, dict[str, Any]]]) -> None:
    """Every line by hand and its sentence are the same on both sides."""
    for case, scripts in both:
        route = case.worked.route
        lines = [
            [
                line.number, line.action.value, list(line.uses), list(map(str, line.multipliers)), line.current,
                [[current, str(factor)] for current, factor in line.terms], str(line.right), str(line.scale),
            ]
            for line in route.lines
        ]  # fmt: skip
        assert scripts["lines"] == lines, case.name
        assert scripts["said"] == list(map(tell_line, route.lines)), case.name
        assert scripts["kept"] == list(route.kept), case.name


def test_solution(both: list[tuple[Case, dict[str, Any]]]) -> None:
    """Every current, voltage, power, role and potential is the same on both sides, and every check sum is 0."""
    for case, scripts in both:
        solution = case.worked.solution
        states = [
            [name, str(state.current), None if state.voltage is None else str(state.voltage), str(state.power), state.role.value]
            for name, state in solution.parts.items()
        ]
        assert scripts["currents"] == {name: str(value) for name, value in solution.currents.items()}, case.name
        assert scripts["parts"] == states, case.name
        assert scripts["potentials"] == [[point, None if value is None else str(value)] for point, value in solution.potentials.items()], (
            case.name
        )
        assert set(scripts["sums"]) == {"0"}, case.name
        largest = max((abs(float(value)) for value in solution.currents.values()), default=0)
        assert scripts["difference"] <= 1e-9 * largest, case.name


def test_sections(both: list[tuple[Case, dict[str, Any]]]) -> None:
    """Every section that a choice can change is the same markup on both sides, and so the same text.

    The second opinion is NumPy's on the built page and the browser's own after a choice; it is left aside there.
    """
    for case, scripts in both:
        context = build_solution(case.worked, case.layout)
        for section, view in scripts["sections"].items():
            built = parse_block(render("section.html.jinja", {**context, "section": section}))
            shown = tidy(view)
            if case.choice != Choice():
                built, shown = (without(tree, "second-opinion") for tree in (built, shown))
            assert text_of(shown) == text_of(built), f"{case.name} {section}"
            assert shown == built, f"{case.name} {section}"


def test_practice_values(both: list[tuple[Case, dict[str, Any]]]) -> None:
    """A set is the same on both sides to the last digit, and the object that the checks work on is what `solve --json` prints."""
    for case, scripts in both:
        if not case.choice.practice:
            continue
        record = write_record(work_out(take_set(case.own.topology, case.choice.practice)))
        for current in record["currents"]:
            del current["value"], current["meaning"]
        for part in record["parts"].values():
            for key in ("current", "voltage", "power", "role"):
                del part[key]
        assert scripts["example"] == {key: value for key, value in record.items() if key not in ("potentials", "found", "checks")}, (
            case.name
        )


def test_loops(both: list[tuple[Case, dict[str, Any]]]) -> None:
    """The scripts walk the same loops, and list every loop that there is."""
    for case, scripts in both:
        loops = [[loop.name, loop.start, [[step.part.name, step.forward] for step in loop.steps]] for loop in case.worked.topology.loops]
        assert scripts["loops"] == loops, case.name
        assert scripts["independent"] == len(loops), case.name
        every = {frozenset(step.part.name for step in walk) for walk in find_simple_loops(case.own.topology)}
        assert {frozenset(walk) for walk in scripts["all"]} == every, case.name


def test_addresses(both: list[tuple[Case, dict[str, Any]]]) -> None:
    """What a reader chose comes back unchanged from the address it is written to."""
    for case, scripts in both:
        assert scripts["read"] == case.choice.plain | {"notes": []}, f"{case.name} {scripts['search']}"
        assert not set(scripts["search"]) & set("%~ "), scripts["search"]
