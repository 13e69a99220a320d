"""The figure in words: whole texts, their length, and the circuit rebuilt from nothing but the text."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from build_tools.circuit.quantity import Dimension, parse_quantity
from build_tools.circuit.reading import read_circuit
from build_tools.circuit.source import read_source
from build_tools.figure.description import long_description, short_description, spoken
from build_tools.figure.words import way_in_words
from build_tools.laws.survey import find_topology
from build_tools.laws.topology import Topology
from tests.figure.built_by_hand import drawn, make
from tests.figure.rebuilt import check_rebuilt

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
        ("Loop L1, clockwise from a: up through E1 (minus to plus); to the right through R1; down and to the left through R2."),
        ("Loop L2, clockwise from a: up and to the right through R2; down through R3; to the left through E2 (plus to minus)."),
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
    assert long_description(topology, layout)[3:] == (
        "Without current, from b to c, to the right: open switch K1.",
        "Without current, from c to d, down: battery E2 of 9 volts, negative end first.",
    )
    assert long_description(topology, layout)[1] == "A plain line makes a and g one point."


@pytest.mark.parametrize("path", sorted((Path(__file__).parents[2] / "circuits").glob("*.toml")), ids=lambda path: path.stem)
def test_one_letter_stands_for_one_thing(path: Path) -> None:
    """A branch runs between the letters that its row of directions names, a part without current between those of its row."""
    topology = find_topology(read_circuit(read_source(path)))
    layout = drawn(topology)
    told = re.findall(r"(?:Current|Without)[^.]*? from (\w+) to (\w+)", " ".join(long_description(topology, layout)))
    ways = [re.match(r"from (\w+) to (\w+)", way_in_words(branch, layout)) for branch in topology.branches]
    assert told == [*(way.groups() for way in ways if way), *((part.start, part.end) for part in topology.idle)]


@pytest.mark.parametrize("case", circuits)
def test_can_be_drawn_from_the_words_alone(case: str) -> None:
    """Parts, values, ends, polarities, assumed directions and plain lines all come back out of the text."""
    check_rebuilt(*circuits[case])


@pytest.mark.parametrize("path", sorted((Path(__file__).parents[2] / "circuits").glob("*.toml")), ids=lambda path: path.stem)
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
        assert text.startswith("Circuit diagram: ")
        assert text.endswith(".")
