"""The pages written by hand: what the guide says about circuit files is what the reader does."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from build_tools.__main__ import build_parser
from build_tools.circuit.circuit import Kind
from build_tools.circuit.part import kinds
from build_tools.circuit.quantity import units
from build_tools.circuit.reading import file_keys, levels, resistor_shapes
from build_tools.pipeline import FaultyCircuits, solve_file

docs = Path(__file__).parent.parent / "docs"
pages = sorted((*docs.glob("ideas/*.md"), *docs.glob("guide/*.md")))
circuit_file = (docs / "guide" / "circuit-file.md").read_text(encoding="utf-8")
linking = (docs / "guide" / "linking.md").read_text(encoding="utf-8")
figures = (docs / "guide" / "figures.md").read_text(encoding="utf-8")


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """One fenced block of a page."""

    label: str
    """The class that says what the block is: complete, parts, refused, says or report."""
    text: str


def blocks_of(page: str) -> tuple[Block, ...]:
    """The labelled fenced blocks of a page, in order."""
    found = re.findall(r"^``` \{ \.\w+ \.(\w+) \}\n(.*?)^```$", page, re.MULTILINE | re.DOTALL)
    return tuple(Block(label=label, text=text) for label, text in found)


def labelled(label: str) -> tuple[str, ...]:
    """The texts of the blocks of the guide's circuit file page with this label."""
    return tuple(block.text for block in blocks_of(circuit_file) if block.label == label)


def refusals() -> tuple[tuple[str, str], ...]:
    """Each refused change with the message that is shown below it."""
    blocks = blocks_of(circuit_file)
    return tuple((one.text, two.text) for one, two in pairwise(blocks) if one.label == "refused")


@pytest.fixture(autouse=True)
def _in_an_empty_project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Work where a file can be named as an author names it."""
    monkeypatch.chdir(tmp_path)
    Path("circuits").mkdir()


def solve(text: str) -> dict[str, Any]:
    """Solve a circuit file with this text, under the name that the guide gives it."""
    path = Path("circuits/lamp-two-banks.toml")
    path.write_text(text, encoding="utf-8")
    return solve_file(path)


def report_on(text: str) -> str:
    """What the author reads about a circuit with faults; empty for one without."""
    try:
        solve(text)
    except FaultyCircuits as faulty:
        return str(faulty)
    return ""


def currents_of(text: str) -> dict[str, Fraction]:
    """The exact current of each unknown."""
    return {current["name"]: Fraction(current["exact"]) for current in solve(text)["currents"]}


def changed(text: str, change: str) -> str:
    """A circuit file in which the lines of the change take the place of those with the same key, or are added."""
    section = "parts"
    for line in change.splitlines():
        if heading := re.fullmatch(r"\[(\w+)\]", line):
            section = heading[1]
            text += "" if f"[{section}]\n" in text else f"\n[{section}]\n"
        elif line:
            text = with_line(text, section, line)
    return text


def with_line(text: str, section: str, line: str) -> str:
    """The file with one line put into one section."""
    before, head, after = text.partition(f"[{section}]\n")
    body, gap, rest = after.partition("\n[")
    key = line.split("=")[0]
    lines = body.splitlines()
    at = next((number for number, old in enumerate(lines) if old.startswith(key)), len(lines))
    return before + head + "\n".join([*lines[:at], line, *lines[at + 1 :]]) + "\n" + gap + rest


def without_drawing(text: str) -> str:
    """The same circuit without coordinates, so that a change may name new points."""
    return re.sub(r"^\[(points|drawing)\]\n.*?(?=^\[)", "", text, flags=re.MULTILINE | re.DOTALL)


def joined_up(text: str) -> str:
    """A text as one line, so that it may be broken anywhere on the page."""
    return " ".join(text.split())


def test_complete_examples_are_accepted() -> None:
    """Every block that the guide calls a complete example is a circuit with exactly one answer."""
    examples = labelled("complete")
    assert examples
    for example in examples:
        assert report_on(example) == ""


def test_the_example_is_the_circuit_of_the_ideas() -> None:
    """The example has the parts, the directions and the loops that the pages about the two rules work with."""
    solved = solve(labelled("complete")[0])
    values = {name: Fraction(part["value"]) for name, part in solved["parts"].items()}
    assert values == {"E1": 12, "E2": 6, "R1": 2, "R2": 5, "R3": 10}
    assert {branch["current"]: (branch["from"], branch["to"]) for branch in solved["branches"]} == {
        "I1": ("a", "b"), "I2": ("a", "b"), "I3": ("b", "a"),
    }  # fmt: skip
    assert [loop["walk"] for loop in solved["loops"]] == [["E1", "R1", "R3"], ["R3", "R2", "E2"]]


def test_the_part_lines_are_accepted() -> None:
    """The lines that show every kind of part make a circuit together."""
    solved = solve("[parts]\n" + labelled("parts")[0])
    assert {part["kind"] for part in solved["parts"].values()} == set(Kind)


@pytest.mark.parametrize(
    "word",
    [
        *file_keys, *levels, *Kind, *sorted({key for rule in kinds.values() for key in (*rule.ends, *rule.options, *rule.states)}),
        "joined", "bends", "resistors", "batteries", "through", "toward", "start", "leave_out", "unknown",
        *(unit for unit in units if not unit.endswith("A")),
    ],
)  # fmt: skip
def test_every_word_of_the_format_is_explained(word: str) -> None:
    """Each key, kind, state, level and unit of the format stands in the guide as code or in a code block."""
    code = "\n".join(re.findall(r"`([^`\n]+)`", circuit_file)) + "\n".join(re.findall(r"^```.*?^```$", circuit_file, re.M | re.S))
    bold = "\n".join(re.findall(r"\*\*(\w+)\*\*", circuit_file))
    assert re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", code + "\n" + bold)


@pytest.mark.parametrize("shape", resistor_shapes)
def test_every_resistor_shape_is_explained(shape: str) -> None:
    """The guide to figures names each shape a resistor can have."""
    assert f'"{shape}"' in figures


@pytest.mark.parametrize(("change", "message"), refusals())
def test_refusals_say_what_the_guide_shows(change: str, message: str) -> None:
    """Each refusal of the guide happens, with the words that it shows."""
    example = without_drawing(labelled("complete")[0])
    assert report_on(example) == ""
    report = joined_up(report_on(changed(example, change)))
    assert message.strip()
    for piece in message.split("…\n"):
        assert joined_up(piece) in report


def test_the_whole_report_is_what_the_guide_shows() -> None:
    """The report shown in full is the report of the example with that line in it, to the letter."""
    shown = labelled("report")[0]
    line = shown.splitlines()[1].strip()
    assert report_on(changed(labelled("complete")[0], line)) == shown.rstrip("\n")


def quantity_rows() -> tuple[tuple[str, str], ...]:
    """Each refused quantity of the table with what the table offers instead (empty for plain words)."""
    table = circuit_file.split("### Quantities")[1].split("###")[0]
    rows = re.findall(r'^\| `"(.+?)"` \|.*?\| (.*?) \|$', table, re.MULTILINE)
    return tuple((written, offered.strip('`"') if offered.startswith("`") else "") for written, offered in rows)


@pytest.mark.parametrize(("written", "offered"), quantity_rows())
def test_refused_quantities_are_refused(written: str, offered: str) -> None:
    """Each quantity in the table of refusals is refused, and the report offers what the table offers."""
    report = report_on(changed(labelled("complete")[0], f'R1 = {{ resistor = "{written}", between = ["p", "b"] }}'))
    assert "parts.R1.resistor: expected a resistance" in report
    assert not offered or f'"{offered}"' in report


def test_the_numbers_of_the_lamp_on_two_banks_hold() -> None:
    """The currents and powers that the idea pages state are those of the example."""
    text = labelled("complete")[0]
    assert currents_of(text) == {"I1": Fraction(3, 2), "I2": Fraction(-3, 5), "I3": Fraction(9, 10)}
    powers = {name: Fraction(part["power"]["exact"]) for name, part in solve(text)["parts"].items()}
    stated = {"E1": "-18", "R1": "4.5", "R2": "1.8", "R3": "8.1", "E2": "3.6"}
    assert powers == {name: Fraction(power) for name, power in stated.items()}


@pytest.mark.parametrize(("lamp", "sign"), [("10 ohm", -1), ("2 ohm", 0), ("1 ohm", 1)])
def test_the_second_bank_is_charged_idle_or_giving(lamp: str, sign: int) -> None:
    """Whether the stronger battery charges the weaker one depends on the lamp as the page about signs says."""
    current = currents_of(changed(labelled("complete")[0], f'R3 = {{ resistor = "{lamp}", between = ["b", "a"] }}'))["I2"]
    assert (current > 0) - (current < 0) == sign


bridge = """
[parts]
R1 = { resistor = "3 ohm", between = ["d", "b"] }
R2 = { resistor = "6 ohm", between = ["d", "c"] }
R3 = { resistor = "6 ohm", between = ["b", "a"] }
R4 = { resistor = "3 ohm", between = ["c", "a"] }
W1 = { wire = "bare", between = ["b", "c"] }
E1 = { battery = "12 V", minus = "a", plus = "d" }
"""


def test_the_numbers_of_the_bare_wire_hold() -> None:
    """The part currents that the page about the bare wire states are right, each from the first end to the second."""
    stated = {"R1": 2, "R2": 1, "R3": 1, "R4": 2, "W1": 1, "E1": 3}
    assert {name: Fraction(part["current"]["exact"]) for name, part in solve(bridge)["parts"].items()} == stated


def test_a_second_bare_wire_is_refused() -> None:
    """Two bare wires side by side have no single answer, as the page about the bare wire says."""
    assert "undecided current" in report_on(bridge + 'W2 = { wire = "bare", between = ["b", "c"] }\n')


@pytest.mark.parametrize("key", solve_file(docs.parent / "circuits" / "dinghy-charge.toml"))
def test_every_key_for_scripts_is_explained(key: str) -> None:
    """Each key of the solution as data stands in the guide to linking."""
    assert f"`{key}`" in linking


def test_the_commands_of_the_guide_exist() -> None:
    """Each command line of the tool in the guide is one that it understands."""
    guide = "".join(page.read_text(encoding="utf-8") for page in docs.glob("guide/*.md"))
    lines = set(re.findall(r"^python -m build_tools (.+)$", guide, re.MULTILINE))
    assert len(lines) > 1
    for line in lines:
        build_parser().parse_args(line.split())


@pytest.mark.parametrize("page", pages, ids=lambda page: f"{page.parent.name}/{page.name}")
def test_pages_are_written_with_care(page: Path) -> None:
    """Each page is short, has a true minus before numbers and a no-break space between number and unit."""
    text = re.sub(r"^```.*?^```$|<figure.*?</figure>|`[^`]*`|<[^>]+>", " ", page.read_text(encoding="utf-8"), flags=re.M | re.S)
    if page.name != "slips.md":  # a list to look things up in, as long as there are slips
        assert len(re.findall(r"[\w’']+", text)) <= 1000
    assert not re.search(r"(?<![\w.])-\d", text)
    assert not re.search(r"\d ?(?:V|A|Ω|W|mA|kΩ)\b", text)


def test_links_to_examples_lead_to_circuits() -> None:
    """Each link from a page to an example has a circuit file behind it."""
    texts = (re.sub(r"^```.*?^```$", "", page.read_text("utf-8"), flags=re.M | re.S) for page in pages)
    names = {name for text in texts for name in re.findall(r"\]\(\.\./examples/([\w-]+)\.md", text)}
    assert len(names) > 5
    assert names - {"index"} <= {path.stem for path in (docs.parent / "circuits").glob("*.toml")}
