"""The figure in words: whole texts, their length, and the circuit rebuilt from nothing but the text."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from math import cos, sin
from pathlib import Path

import pytest

from build_tools.circuit.circuit import Circuit, Drawing, Kind, Part
from build_tools.circuit.quantity import Dimension, parse_quantity
from build_tools.circuit.reading import read_circuit
from build_tools.circuit.source import read_source
from build_tools.figure.description import long_description, short_description, spoken
from build_tools.figure.layout import Layout, Spot
from build_tools.laws.survey import find_topology
from build_tools.laws.topology import Branch, Junction, Loop, Step, Topology

kinds = {"E": Kind.BATTERY, "R": Kind.RESISTOR, "W": Kind.WIRE, "K": Kind.SWITCH,
         "A": Kind.AMMETER, "M": Kind.VOLTMETER, "C": Kind.CAPACITOR}  # fmt: skip
dimensions = {Kind.BATTERY: Dimension.EMF, Kind.CAPACITOR: Dimension.CAPACITANCE}


def make_part(line: str) -> Part:
    """Read "E1 a b 12 V, 0.5 ohm", "K1 c d open": name, start, end, then value or state."""
    name, start, end, rest = [*line.split(maxsplit=3), ""][:4]
    kind = kinds[name[0]]
    value, _, inside = rest.partition(", ")
    return Part(
        name=name, kind=kind, start=start, end=end,
        value=parse_quantity(value, dimensions.get(kind, Dimension.RESISTANCE)) if " " in value else None,
        internal_resistance=parse_quantity(inside, Dimension.RESISTANCE) if inside else None,
        state=value if " " not in value else "",
    )  # fmt: skip


def make(
    parts: str,
    branches: Iterable[str],
    loops: Iterable[str] = (),
    junctions: str = "",
    joined: tuple[tuple[str, str], ...] = (),
) -> Topology:
    """Build a topology by hand; a way is "I1 b e R1 -E1", a loop "L1 a E1 -R2", a minus for walked backwards."""
    every = {part.name: part for part in map(make_part, parts.strip().splitlines())}
    circuit = Circuit("bank", "", "", "core", (), (), tuple(every.values()), drawing=Drawing(joined=joined))
    node = {point: point for point in circuit.points}
    for first, second in joined:
        node = {point: node[first] if place == node[second] else place for point, place in node.items()}
    ways = [way.split() for way in branches]
    live = {name.lstrip("-") for way in ways for name in way[3:]}

    def steps(names: list[str]) -> tuple[Step, ...]:
        return tuple(Step(every[name.lstrip("-")], name[0] != "-") for name in names)

    return Topology(
        circuit, node,
        tuple(Junction(name=name, points=(name,), used=number > 0) for number, name in enumerate(junctions.split())),
        tuple(Branch(current=way[0], start=way[1], end=way[2], steps=steps(way[3:])) for way in ways),
        tuple(Loop(name=way[0], start=way[1], steps=steps(way[2:])) for way in (loop.split() for loop in loops)),
        tuple(part for part in every.values() if part.name not in live),
    )  # fmt: skip


def drawn(topology: Topology, places: dict[str, Spot] | None = None) -> Layout:
    """Draw every part straight between its ends, or as the file says; points without a place go on a circle."""
    drawing = topology.circuit.drawing
    every: dict[str, Spot] = {point: (90 * cos(i), 90 * sin(i)) for i, point in enumerate(topology.circuit.points)}
    every |= {point: (float(80 * x), float(-80 * y)) for point, (x, y) in drawing.places.items()} | (places or {})
    bends = {name: [(float(80 * x), float(-80 * y)) for x, y in way] for name, way in drawing.bends.items()}
    return Layout(
        places=every,
        routes={
            part.name: (every[part.start], *bends.get(part.name, []), every[part.end])
            for part in topology.circuit.parts
        },
        lines=tuple((every[first], every[second]) for first, second in drawing.joined),
    )


two_banks = make(
    "E1 a b 12 V, 0.5 ohm\nR1 b c 4.7 kohm\nR2 c a 1 ohm\nR3 d c 3 ohm\nE2 a d 6 V",
    ["I1 a c E1 R1", "I2 c a R2", "I3 a c E2 R3"],
    ["L1 a E1 R1 R2", "L2 a -R2 -R3 -E2"],
    "a c",
)
two_banks_layout = drawn(two_banks, {"a": (0, 100), "b": (0, 0), "c": (100, 0), "d": (100, 100)})

boathouse = make(
    """
    E1 a b 12 V
    R1 b c 1.5 kohm
    K2 c f closed
    W1 f g bare
    A1 g h 20 mohm
    R2 b d 2 Mohm
    A2 d e ideal
    E2 a e 500 mV
    K1 b x open
    C1 c f 10 uF
    M1 d e ideal
    M2 x e 1 Mohm
    R9 a z 5 ohm
    E9 z y 9 V
    R8 b r 7 ohm
    E8 r b 3 V
    """.replace("    ", ""),
    ["I1 a b E1", "I2 b a R1 K2 W1 A1", "I3 a b E2 -A2 -R2", "I4 b b R8 E8"],
    ["L1 a E1 R1 K2 W1 A1", "L2 d A2 -E2 E1 R2", "L3 r E8 R8"],
    "a b",
    (("a", "h"), ("e", "p"), ("b", "q")),
)
one_loop = make("E1 a b 12 V\nR1 b c 1 ohm\nR2 c a 0.5 ohm", ["I1 a a E1 R1 R2"], ["L1 c R2 E1 R1"])
one_loop_layout = drawn(one_loop, {"a": (0, 100), "b": (0, 0), "c": (100, 50)})
circuits = {
    "two banks": (two_banks, None),
    "two banks, drawn": (two_banks, two_banks_layout),
    "every kind of part": (boathouse, None),
    "one loop": (one_loop, None),
    "one loop, drawn": (one_loop, one_loop_layout),
}


def test_describes_a_drawn_circuit() -> None:
    """The whole long text of one circuit: junctions, branches in order, loops."""
    assert long_description(two_banks, two_banks_layout) == (
        "There are two junctions: a and c.",
        (
            "Current I1 is assumed from a to c: up through battery E1 of 12 volts with internal resistance 0.5 ohms, "
            "negative end first; to the right through resistor R1 of 4.7 kilohms."
        ),
        "Current I2 is assumed from c to a: down and to the left through resistor R2 of 1 ohm.",
        (
            "Current I3 is assumed from a to c: to the right through battery E2 of 6 volts, negative end first; "
            "up through resistor R3 of 3 ohms."
        ),
        (
            "Loop L1, clockwise from a: up through E1 (minus to plus); to the right through R1; "
            "down and to the left through R2."
        ),
        (
            "Loop L2, clockwise from a: up and to the right through R2; down through R3; "
            "to the left through E2 (plus to minus)."
        ),
    )


def test_describes_a_loop_without_junctions() -> None:
    """One loop has no junction; a point inside the branch is named where a loop starts there."""
    assert long_description(one_loop, one_loop_layout)[:2] == (
        "There is no junction.",
        (
            "Current I1 is assumed clockwise round the loop from a: up through battery E1 of 12 volts, negative end first; "
            "down and to the right through resistor R1 of 1 ohm, to point c; "
            "down and to the left through resistor R2 of 0.5 ohms."
        ),
    )


def test_describes_what_carries_no_current() -> None:
    """Idle parts are told with their way, plain lines as what they are."""
    topology = make("E1 a b 6 V\nR1 b a 2 ohm\nK1 b c open\nE2 c d 9 V", ["I1 a a E1 R1"], joined=(("a", "g"),))
    layout = drawn(topology, {"a": (0, 90), "b": (0, 0), "c": (90, 0), "d": (90, 90), "g": (0, 150)})
    assert long_description(topology, layout)[2:] == (
        "Without current, from b to c, to the right: open switch K1.",
        "Without current, from c to d, down: battery E2 of 9 volts, negative end first.",
        "A plain line makes a and g one point.",
    )


way_word = r"(?:to the (?:left|right)|(?:up|down)(?: and to the (?:left|right))?)"
number = r"[\d.]+ \w+"
part_text = rf"(?:(open|closed|ideal) )?([a-z ]+) (\w+)(?: of ({number}))?(?: with internal resistance ({number}))?"
item_text = rf"(?:{way_word} )?(?:through|along) {part_text}(?:, (negative|positive) end first)?(?:, to point (\w+))?"
branch_text = (
    r"Current (\w+) is assumed (?:from (\w+) to (\w+)|(?:(?:anti)?clockwise )?round the loop from (\w+)): (.+)\."
)
idle_text = rf"Without current, from (\w+) to (\w+)(?:, {way_word})?: {part_text}(, negative end first)?\."
line_text = r"(?:A plain line makes|Plain lines make) (.+) one (?:junction|point)\."
sizes: dict[str, Fraction | int] = {"volt": 1, "millivolt": Fraction(1, 1000), "ohm": 1, "kilohm": 1000, "milliohm": Fraction(1, 1000),
         "millifarad": Fraction(1, 1000),
    "megohm": 10**6, "microfarad": Fraction(1, 10**6)}  # fmt: skip

End = tuple[str, str]
Values = tuple[str, str, Fraction | None, Fraction | None]


def read_value(text: str | None) -> Fraction | None:
    """A spoken quantity back in SI units."""
    if not text:
        return None
    digits, unit = text.split()
    return Fraction(digits) * sizes[unit.removesuffix("s") if digits != "1" else unit]


class Rebuilt:
    """A circuit drawn from its description by someone who never saw the figure."""

    def __init__(self, sentences: Iterable[str]) -> None:
        self.values: dict[str, Values] = {}
        self.ends: dict[str, set[End]] = {}
        self.named: set[str] = set()
        self.branches: list[tuple[str, ...]] = []
        self.joined: set[frozenset[str]] = set()
        for sentence in sentences:
            self.read(sentence)

    def read(self, sentence: str) -> None:
        """Take in one sentence; a junction list and a loop add no part."""
        if match := re.fullmatch(branch_text, sentence):
            self.read_branch(match)
        elif match := re.fullmatch(idle_text, sentence):
            start, end, *words, _ = match.groups()
            self.named |= {start, end}
            self.place(words, start, end, backwards=False)
        elif match := re.fullmatch(line_text, sentence):
            self.joined.add(frozenset(re.split(", | and ", match[1])))
        else:
            assert sentence.startswith(("There ", "Loop ")), sentence

    def read_branch(self, match: re.Match[str]) -> None:
        """Walk along a branch, from each part to the next."""
        current, start, end, round_from, items = match.groups()
        here, end = start or round_from, end or round_from
        self.named |= {here, end}
        names = []
        for item in items.split("; "):
            found = re.fullmatch(item_text, item)
            assert found, item
            *words, polarity, point = found.groups()
            self.named |= {point} - {None}
            there = point or (end if item == items.split("; ")[-1] else f"after {words[2]}")
            self.place(words, here, there, backwards=polarity == "positive")
            here = there
            names.append(words[2])
        self.branches.append((current, start or round_from, end, *names))

    def place(self, words: list[str], here: str, there: str, backwards: bool) -> None:
        """Put one part between two places; the ends of a battery can be told apart."""
        state, noun, name, value, inside = words
        self.values[name] = (state or "", noun, read_value(value), read_value(inside))
        start, end = (there, here) if backwards else (here, there)
        self.ends.setdefault(start, set()).add((name, "minus" if noun == "battery" else ""))
        self.ends.setdefault(end, set()).add((name, "plus" if noun == "battery" else ""))


def original_ends(topology: Topology) -> dict[str, set[End]]:
    """Which ends of which parts meet in each place of the circuit itself."""
    ends: dict[str, set[End]] = {}
    for part in topology.circuit.parts:
        battery = part.kind is Kind.BATTERY
        ends.setdefault(topology.node[part.start], set()).add((part.name, "minus" if battery else ""))
        ends.setdefault(topology.node[part.end], set()).add((part.name, "plus" if battery else ""))
    return ends


def drawn_apart(topology: Topology) -> set[frozenset[str]]:
    """The points of each place that plain lines draw in several."""
    ends = {end for pair in topology.circuit.drawing.joined for end in pair}
    return {frozenset(end for end in ends if topology.node[end] == topology.node[one]) for one in ends}


def original_values(topology: Topology) -> dict[str, Values]:
    """Kind, state and exact values of each part of the circuit itself."""
    return {
        part.name: (
            part.state.replace("bare", ""),
            "bare wire" if part.kind is Kind.WIRE else part.kind.value,
            part.value.exact if part.value else None,
            part.internal_resistance.exact if part.internal_resistance else None,
        )
        for part in topology.circuit.parts
    }


def check_rebuilt(topology: Topology, layout: Layout | None) -> None:
    """Compare a circuit with what its description says."""
    rebuilt, ends = Rebuilt(long_description(topology, layout)), original_ends(topology)
    assert rebuilt.values == original_values(topology)
    # A point inside a branch may have lost its letter; what meets there must still meet.
    assert sorted(map(sorted, rebuilt.ends.values())) == sorted(map(sorted, ends.values()))
    assert {name: rebuilt.ends[name] for name in rebuilt.named} == {name: ends[name] for name in rebuilt.named}
    assert rebuilt.joined == drawn_apart(topology)
    assert rebuilt.branches == [
        (branch.current, branch.start, branch.end, *(step.part.name for step in branch.steps))
        for branch in topology.branches
    ]


@pytest.mark.parametrize("case", circuits)
def test_can_be_drawn_from_the_words_alone(case: str) -> None:
    """Parts, values, ends, polarities, assumed directions and plain lines all come back out of the text."""
    check_rebuilt(*circuits[case])


@pytest.mark.parametrize(
    "path", sorted((Path(__file__).parents[2] / "circuits").glob("*.toml")), ids=lambda path: path.stem
)
def test_describes_every_example_in_full(path: Path) -> None:
    """Each circuit of the site can be drawn from its words, with a drawing and without, and has a short text."""
    topology = find_topology(read_circuit(read_source(path)))
    check_rebuilt(topology, None)
    check_rebuilt(topology, drawn(topology))
    assert len(short_description(topology)) <= 105


def test_names_every_place_that_a_sentence_speaks_of() -> None:
    """A point inside a branch is named where a loop starts, a plain line ends or a part without current hangs."""
    text = " ".join(long_description(boathouse, None))
    assert [point for point in "cdefghr" if f"to point {point}" in text] == ["c", "d", "e", "f", "r"]


@pytest.mark.parametrize(
    ("shown", "words"),
    [
        ("4.7 kΩ", "4.7 kilohms"), ("1 kΩ", "1 kilohm"), ("12 V", "12 volts"), ("1 V", "1 volt"),
        ("500 mV", "500 millivolts"), ("2 MΩ", "2 megohms"), ("20 mΩ", "20 milliohms"), ("0.5 Ω", "0.5 ohms"),
        ("10 µF", "10 microfarads"), ("3.3 nF", "3.3 nanofarads"), ("1.5 kV", "1.5 kilovolts"),
        ("470 pF", "470 picofarads"), ("1 F", "1 farad"), ("2 A", "2 amps"), ("5 mA", "5 milliamps"),
    ],
)  # fmt: skip
def test_speaks_units_in_words(shown: str, words: str) -> None:
    """Units are spelled out, plural but for exactly one."""
    dimension = {"V": Dimension.EMF, "Ω": Dimension.RESISTANCE, "F": Dimension.CAPACITANCE, "A": Dimension.CURRENT}
    assert spoken(parse_quantity(shown, dimension[shown[-1]])) == words


def bundle(letters: str) -> Topology:
    """Parts side by side between two junctions: "EERRW"; lower case: an open switch, a capacitor, an ideal voltmeter."""
    states = {"W": "bare", "K": "closed", "k": "open", "A": "ideal", "m": "ideal",
              "E": "1 V", "R": "1 ohm", "c": "1 uF"}  # fmt: skip
    lines = [f"{letter.upper()}{number} a b {states[letter]}" for number, letter in enumerate(letters)]
    live = [f"I{number} a b {letter}{number}" for number, letter in enumerate(letters) if letter.isupper()]
    return make("\n".join(lines), live, junctions="a b" if len(live) > 2 else "")


@pytest.mark.parametrize(
    ("topology", "text"),
    [
        (two_banks, "Circuit diagram: two batteries and three resistors in two meshes."),
        (one_loop, "Circuit diagram: one battery and two resistors in one loop."),
        (boathouse, "Circuit diagram: four batteries, four resistors and eight other parts."),
        (bundle("ERRRRRRRRRRRR"), "Circuit diagram: one battery and twelve resistors in twelve meshes."),
        (bundle("ERRRRRRRRRRRRR"), "Circuit diagram: one battery and 13 resistors in 13 meshes."),
        (bundle("EERRWk"), ("Circuit diagram: two batteries, two resistors and one bare wire in four meshes, "
         "with one open switch.")),
        (bundle("ERKWWAAcmm"), "Circuit diagram: one battery, one resistor and eight other parts."),
        (bundle("ERRWKkk"),
         "Circuit diagram: one battery, two resistors, one bare wire, one closed switch and two open switches."),
        (bundle("EERRWKKK"),
         "Circuit diagram: two batteries, two resistors, one bare wire and three closed switches in seven meshes."),
        (bundle("EERRWWKKkkAA"),
         "Circuit diagram: two batteries, two resistors, two bare wires, four switches and two ammeters."),
        (bundle("EEEERRRRWWWKKK"),
         "Circuit diagram: four batteries, four resistors, three bare wires and three closed switches in 13 meshes."),
        (bundle("Ek"), "Circuit diagram: one battery in one loop, with one open switch without current."),
        (bundle("kc"), "Circuit diagram: one open switch and one capacitor."),
    ],
)  # fmt: skip
def test_says_in_short_what_is_drawn(topology: Topology, text: str) -> None:
    """Kinds are counted in words with right plurals, and detail goes where the text would grow too long."""
    assert short_description(topology) == text


@pytest.mark.parametrize("times", [1, 2, 12, 13, 400])
def test_keeps_the_short_text_short(times: int) -> None:
    """No circuit, however large, has an alternative text of more than 105 characters."""
    for letters in ("E", "ER", "ERW", "ERWK", "ERWKkc", "ERWKkcmA", "kcm"):
        text = short_description(bundle(letters * times))
        assert len(text) <= 105, text
        assert text.startswith("Circuit diagram: ") and text.endswith(".")
