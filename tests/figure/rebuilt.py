"""A circuit drawn from its description alone, and what it must agree with."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from build_tools.circuit.circuit import Kind
from build_tools.figure.description import long_description
from build_tools.figure.layout import Layout
from build_tools.laws.topology import Topology

way_word = r"(?:to the (?:left|right)|(?:up|down)(?: and to the (?:left|right))?)"
number = r"[\d.]+ \w+"
part_text = rf"(?:(open|closed|ideal) )?([a-z ]+) (\w+)(?: of ({number}))?(?: with internal resistance ({number}))?"
item_text = rf"(?:{way_word} )?(?:through|along) {part_text}(?:, (negative|positive) end first)?(?:, to point (\w+))?"
branch_text = r"Current (\w+) is assumed (?:from (\w+) to (\w+)|(?:(?:anti)?clockwise )?round the loop from (\w+)): (.+)\."
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

    def place_of(self, point: str) -> str:
        """One name for all points that plain lines join."""
        return min(next((points for points in self.joined if point in points), {point}))

    def meeting(self) -> dict[str, set[End]]:
        """Which ends of which parts meet, at one point or at points that plain lines join."""
        ends: dict[str, set[End]] = {}
        for point, met in self.ends.items():
            ends.setdefault(self.place_of(point), set()).update(met)
        return ends

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
    meeting = rebuilt.meeting()
    assert sorted(map(sorted, meeting.values())) == sorted(map(sorted, ends.values()))
    assert {rebuilt.place_of(name): meeting[rebuilt.place_of(name)] for name in rebuilt.named} == {
        rebuilt.place_of(name): ends[topology.node[name]] for name in rebuilt.named
    }
    assert rebuilt.joined == drawn_apart(topology)
    assert [(current, rebuilt.place_of(start), rebuilt.place_of(end), *names) for current, start, end, *names in rebuilt.branches] == [
        (branch.current, rebuilt.place_of(branch.start), rebuilt.place_of(branch.end), *(step.part.name for step in branch.steps))
        for branch in topology.branches
    ]
