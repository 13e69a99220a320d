"""The command line, run as its users run it: exit status, output, and never a traceback."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

root = Path(__file__).parents[1]


def run(*arguments: str, folder: Path = root) -> subprocess.CompletedProcess[str]:
    """Run `python -m build_tools` with these arguments in a folder."""
    command = [sys.executable, "-m", "build_tools", *arguments]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, encoding="utf-8", timeout=60)
    assert "Traceback" not in done.stderr
    return done


def test_solve_prints_equations_and_meanings() -> None:
    """The short form is for reading: units, equations, currents."""
    done = run("solve", "circuits/bilge-pump-two-banks.toml")

    assert done.returncode == 0
    assert "equations in V, Ω and A:" in done.stdout
    assert "flows as assumed: from c to d through R1." in done.stdout


def test_solve_json_prints_one_object() -> None:
    """What scripts read is one JSON object and nothing else."""
    done = run("solve", "circuits/bilge-pump-two-banks.toml", "--json")

    assert done.returncode == 0
    assert json.loads(done.stdout)["address"] == "bilge-pump-two-banks"


def test_solve_prints_the_answer_to_a_set_of_practice_values() -> None:
    """For the tutor who set it: which set, its values, its answers; as text and as one object."""
    done = run("solve", "circuits/frost-bridge.toml", "--set", "4")
    record = json.loads(run("solve", "circuits/frost-bridge.toml", "--set", "4", "--json").stdout)

    assert done.stdout.splitlines()[1:4] == ["practice values, set 4:", "  E1 = 6\N{NO-BREAK SPACE}V", "  R1 = 8\N{NO-BREAK SPACE}kΩ"]
    assert "I5 = −0.375\N{NO-BREAK SPACE}mA" in done.stdout
    assert (record["parts"]["R1"]["value"], record["parts"]["R1"]["text"]) == ("8000", "8\N{NO-BREAK SPACE}kΩ")
    assert record["currents"][4]["exact"] == "-3/8000"


@pytest.mark.parametrize("number", ["0", "100", "-1", "4.5", "x", "04", ""])
def test_a_set_that_there_is_not_is_wrong_usage(number: str) -> None:
    """One line says which numbers there are."""
    done = run("solve", "circuits/frost-bridge.toml", f"--set={number}")

    assert done.returncode == 2
    assert f"expected a whole number from 1 to 99, got {number}:" in done.stderr


def test_check_reports_all_faults_of_all_files_and_leaves_with_1(tmp_path: Path) -> None:
    """Two faulty files and a good one: both reports, on standard error."""
    for name, value in (("one", "4 kohn"), ("two", "4,5 ohm"), ("good", "4 ohm")):
        text = f'[parts]\nE1 = {{ battery = "1 V", minus = "a", plus = "b" }}\nR1 = {{ resistor = "{value}", between = ["a", "b"] }}\n'
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")

    done = run("check", str(tmp_path))

    assert done.returncode == 1
    assert done.stdout == ""
    assert f"{tmp_path}/one.toml:3: parts.R1.resistor: expected a resistance" in done.stderr
    assert f"{tmp_path}/two.toml:3: parts.R1.resistor: expected a resistance" in done.stderr
    assert "good.toml" not in done.stderr


def test_a_folder_without_circuits_says_where_they_stand(tmp_path: Path) -> None:
    """A folder of other things, empty or not, is answered with the way to the circuits."""
    empty = run("check", str(tmp_path))
    (tmp_path / "published.toml").write_text('"examples/winch/" = ["loops"]\n', encoding="utf-8")
    other = run("check", str(tmp_path))

    assert (empty.returncode, other.returncode) == (1, 1)
    assert empty.stderr == f"{tmp_path}: expected circuit files, NAME.toml, got none\n    circuits stand in circuits/\n"
    assert other.stderr.endswith(
        "published.toml: expected a circuit file, got one without [parts] or any other of its keys\n" + empty.stderr[-32:]
    )


def test_check_without_a_path_takes_the_circuits_folder() -> None:
    """The usual call checks the library."""
    done = run("check")

    assert done.returncode == 0
    assert done.stdout.endswith(" circuits, no faults\n")


@pytest.mark.parametrize(
    "arguments", [(), ("solve",), ("solve", "a", "b"), ("draw",), ("check", "--fast"), ("new",), ("new", "Über Bord"), ("new", "../x")]
)
def test_wrong_usage_leaves_with_2(arguments: tuple[str, ...]) -> None:
    """A command that does not exist, a missing or odd name: usage, not a fault of a circuit."""
    done = run(*arguments)

    assert done.returncode == 2
    assert done.stdout == ""


@pytest.mark.parametrize("path", ["nothing.toml", "circuits", "README.md/x.toml"])
def test_a_path_that_is_no_circuit_leaves_solve_with_1(path: str) -> None:
    """One line says what was found instead."""
    done = run("solve", path)

    assert done.returncode == 1
    assert done.stderr.startswith(f"{path}: expected a circuit file, got ")


def test_new_writes_a_file_that_solves_and_never_overwrites(tmp_path: Path) -> None:
    """The starter has a comment on every section, solves at once, and is left alone the second time."""
    first = run("new", "night-lamp", folder=tmp_path)
    path = tmp_path / "circuits" / "night-lamp.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text + "# mine\n", encoding="utf-8")
    second = run("new", "night-lamp", folder=tmp_path)

    assert first.returncode == 0
    assert 'title = "Night lamp"' in text
    assert run("check", folder=tmp_path).stdout == "1 circuit, no faults\n"
    assert second.returncode == 2
    assert path.read_text(encoding="utf-8").endswith("# mine\n")


def test_two_names_that_differ_only_in_capitals_are_refused(tmp_path: Path) -> None:
    """On many hosts they would be one address."""
    text = '[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b" }\nR1 = { resistor = "1 ohm", between = ["a", "b"] }\n'
    for name in ("lamp", "Lamp"):
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")

    done = run("check", str(tmp_path))

    assert done.returncode == 1
    assert "got lamp.toml beside Lamp.toml" in done.stderr


@pytest.mark.parametrize(
    ("arguments", "meant"),
    [
        (("check", "link-wire"), "circuits/link-wire.toml"),
        (("solve", "circuits/linkwire.toml"), "circuits/link-wire.toml"),
        (("solve", "circuits/Link-Wire"), "circuits/link-wire.toml"),
    ],
)
def test_a_name_that_is_nearly_right_is_answered_with_the_file(arguments: tuple[str, str], meant: str) -> None:
    """Without folder, without ending, with a slip."""
    done = run(*arguments)

    assert done.returncode == 1
    assert done.stderr.endswith(f"got no file of that name\n    did you mean {meant}?\n")
