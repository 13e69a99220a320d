"""The pages written by hand: what the guide says about circuit files is what the reader does."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest

from build_tools.circuit.circuit import Circuit, Kind
from build_tools.circuit.part import kinds
from build_tools.circuit.problem import CircuitError
from build_tools.circuit.quantity import units
from build_tools.circuit.reading import file_keys, levels, read_circuit, resistor_shapes
from build_tools.circuit.report import write_report
from build_tools.circuit.source import read_source
from build_tools.laws.survey import find_topology

docs = Path(__file__).parent.parent / "docs"
pages = sorted((*docs.glob("ideas/*.md"), *docs.glob("guide/*.md")))
circuit_file = (docs / "guide" / "circuit-file.md").read_text(encoding="utf-8")
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
    return tuple((one.text, two.text) for one, two in zip(blocks, blocks[1:], strict=False) if one.label == "refused")


def work(text: str, folder: Path) -> Circuit:
    """Read a circuit and find its junctions, branches and loops."""
    path = folder / "lamp-two-banks.toml"
    path.write_text(text, encoding="utf-8")
    circuit = read_circuit(read_source(path))
    find_topology(circuit)
    return circuit


def report_on(text: str, folder: Path) -> str:
    """What the author reads about a circuit with faults; empty for one without."""
    try:
        work(text, folder)
    except CircuitError as error:
        return write_report("circuits/lamp-two-banks.toml", error, read_source(folder / "lamp-two-banks.toml"))
    return ""


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


def test_complete_examples_are_accepted(tmp_path: Path) -> None:
    """Every block that the guide calls a complete example is a circuit with exactly one answer."""
    examples = labelled("complete")
    assert examples
    for example in examples:
        assert report_on(example, tmp_path) == ""


def test_the_example_is_the_circuit_of_the_ideas(tmp_path: Path) -> None:
    """The example has the parts, the directions and the loops that the pages about the two rules work with."""
    circuit = work(labelled("complete")[0], tmp_path)
    topology = find_topology(circuit)
    values = {name: part.value.exact for name, part in circuit.part.items() if part.value}
    assert values == {"E1": 12, "E2": 6, "R1": 2, "R2": 5, "R3": 10}
    assert {branch.current: (branch.start, branch.end) for branch in topology.branches} == {
        "I1": ("a", "b"), "I2": ("a", "b"), "I3": ("b", "a"),
    }  # fmt: skip
    assert [[step.part.name for step in loop.steps] for loop in topology.loops] == [["E1", "R1", "R3"], ["R3", "R2", "E2"]]


def test_the_part_lines_are_accepted(tmp_path: Path) -> None:
    """The lines that show every kind of part make a circuit together."""
    circuit = work("[parts]\n" + labelled("parts")[0], tmp_path)
    assert {part.kind for part in circuit.parts} == set(Kind)


@pytest.mark.parametrize(
    "word",
    [
        *file_keys, *levels, *Kind, *{key for rule in kinds.values() for key in (*rule.ends, *rule.options, *rule.states)},
        "joined", "bends", "resistors", "through", "toward", "start", "leave_out", "unknown",
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
def test_refusals_say_what_the_guide_shows(change: str, message: str, tmp_path: Path) -> None:
    """Each refusal of the guide happens, with the words that it shows."""
    example = without_drawing(labelled("complete")[0])
    assert report_on(example, tmp_path) == ""
    report = joined_up(report_on(changed(example, change), tmp_path))
    assert message.strip()
    for piece in message.split("…\n"):
        assert joined_up(piece) in report


def test_the_whole_report_is_what_the_guide_shows(tmp_path: Path) -> None:
    """The report shown in full is the report of the example with that line in it, to the letter."""
    shown = labelled("report")[0]
    line = shown.splitlines()[1].strip()
    assert report_on(changed(labelled("complete")[0], line), tmp_path) == shown.rstrip("\n")


def quantity_rows() -> tuple[tuple[str, str], ...]:
    """Each refused quantity of the table with what the table offers instead (empty for plain words)."""
    table = circuit_file.split("### Quantities")[1].split("###")[0]
    rows = re.findall(r'^\| `"(.+?)"` \|.*?\| (.*?) \|$', table, re.MULTILINE)
    return tuple((written, offered.strip('`"') if offered.startswith("`") else "") for written, offered in rows)


@pytest.mark.parametrize(("written", "offered"), quantity_rows())
def test_refused_quantities_are_refused(written: str, offered: str, tmp_path: Path) -> None:
    """Each quantity in the table of refusals is refused, and the report offers what the table offers."""
    report = report_on(changed(labelled("complete")[0], f'R1 = {{ resistor = "{written}", between = ["p", "b"] }}'), tmp_path)
    assert "parts.R1.resistor: expected a resistance" in report
    assert not offered or f'"{offered}"' in report


def test_the_numbers_of_the_ideas_hold() -> None:
    """The currents and powers that the idea pages state solve their equations, and so do the variants they mention."""
    currents = Fraction(3, 2), Fraction(-3, 5), Fraction(9, 10)
    assert two_banks(Fraction(10)) == currents
    assert two_banks(Fraction(2))[1] == 0
    assert two_banks(Fraction(1))[1] > 0
    first, second, third = currents
    assert (12 * first, 2 * first**2, 5 * second**2, 10 * third**2, -6 * second) == tuple(
        Fraction(power) for power in ("18", "4.5", "1.8", "8.1", "3.6")
    )


def two_banks(lamp: Fraction) -> tuple[Fraction, Fraction, Fraction]:
    """The three currents for a given lamp: the potential of b from the three conductances, then each branch."""
    high = (Fraction(12, 2) + Fraction(6, 5)) / (Fraction(1, 2) + Fraction(1, 5) + 1 / lamp)
    return (12 - high) / 2, (6 - high) / 5, high / lamp


@pytest.mark.parametrize("page", pages, ids=lambda page: f"{page.parent.name}/{page.name}")
def test_pages_are_written_with_care(page: Path) -> None:
    """Each page is short, has a true minus before numbers and a no-break space between number and unit."""
    text = re.sub(r"^```.*?^```$|<figure.*?</figure>|`[^`]*`|<[^>]+>", " ", page.read_text(encoding="utf-8"), flags=re.M | re.S)
    assert len(re.findall(r"[\w’']+", text)) <= 1000
    assert not re.search(r"(?<![\w.])-\d", text)
    assert not re.search(r"\d ?(?:V|A|Ω|W|mA|kΩ)\b", text)


def test_links_to_examples_lead_to_circuits() -> None:
    """Each link from a page to an example has a circuit file behind it."""
    texts = (re.sub(r"^```.*?^```$", "", page.read_text("utf-8"), flags=re.M | re.S) for page in pages)
    names = {name for text in texts for name in re.findall(r"\]\(\.\./examples/([\w-]+)\.md", text)}
    assert len(names) > 5
    assert names - {"index"} <= {path.stem for path in (docs.parent / "circuits").glob("*.toml")}
