"""The figure in words, for those who do not see it: one short line, and sentences to draw the circuit from.

All of it is plain text in a fixed order. Places are called by their first point, as in the equations.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Sequence

from build_tools.circuit.circuit import Kind, Part
from build_tools.circuit.problem import listed
from build_tools.circuit.quantity import Quantity
from build_tools.circuit.sentences import say
from build_tools.figure.layout import Layout
from build_tools.figure.words import drawn_ends, ends_in_words, heading, loop_words
from build_tools.laws.topology import Branch, Step, Topology

longest_short_text = 105
"""Characters that the short description may have: screen readers cut long alternative texts."""

number_words = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")

nouns = {
    Kind.BATTERY: ("battery", "batteries"),
    Kind.RESISTOR: ("resistor", "resistors"),
    Kind.WIRE: ("bare wire", "bare wires"),
    Kind.SWITCH: ("switch", "switches"),
    Kind.AMMETER: ("ammeter", "ammeters"),
    Kind.VOLTMETER: ("voltmeter", "voltmeters"),
    Kind.CAPACITOR: ("capacitor", "capacitors"),
}

spoken_units = {"V": "volt", "Ω": "ohm", "A": "amp", "F": "farad"}
spoken_prefixes = {"M": "mega", "k": "kilo", "m": "milli", "µ": "micro", "n": "nano", "p": "pico"}


def short_description(topology: Topology) -> str:
    """Say in at most 105 characters what the figure shows, with less detail where there is much to show."""
    every = (*(part for part in topology.circuit.parts if part not in topology.idle), *topology.idle)
    # With parts set aside the drawing has more loops than carry a current: without naming them, better no number.
    meshes = "" if topology.idle else meshes_in_words(topology)
    attempts = (
        *detailed_texts(topology),
        f"{listed(kinds_in_words(every, exact))}{meshes}",
        f"{listed(kinds_in_words(every, plain))}{meshes}",
        f"{listed(kinds_in_words(every, rough))}{meshes}",
        f"{counted(len(every), ('part', 'parts'))}{meshes}",
    )
    texts = [f"Circuit diagram: {attempt}." for attempt in attempts]
    return next((text for text in texts if len(text) <= longest_short_text), texts[-1])


def detailed_texts(topology: Topology) -> tuple[str, ...]:
    """The parts that carry current, apart from those that do not; none where all parts are of one sort."""
    if not topology.idle or not topology.branches:
        return ()
    live = [part for part in topology.circuit.parts if part not in topology.idle]
    text = f"{listed(kinds_in_words(live, exact))}{meshes_in_words(topology)}"
    aside = f", with {listed(kinds_in_words(topology.idle, exact))}"
    return (f"{text}{aside} without current", f"{text}{aside}")


def meshes_in_words(topology: Topology) -> str:
    """Say in how many loops current can flow; nothing for none."""
    loops = len(topology.branches) - sum(junction.used for junction in topology.junctions)
    return "" if not loops else " in one loop" if loops == 1 else f" in {counted(loops, ('mesh', 'meshes'))}"


def long_description(topology: Topology, layout: Layout | None) -> tuple[str, ...]:
    """Describe the circuit in sentences from which it can be drawn without seeing the figure.

    Junctions and plain lines first, then each branch with its assumed current, the parts without current, and the loops.
    Where the circuit is drawn every part stands between the points that the figure and the table of parts name.
    """
    marks = marked_places(topology)
    return (
        junctions_in_words(topology),
        *lines_in_words(topology),
        *(branch_in_words(branch, topology, marks, layout) for branch in topology.branches),
        *(idle_in_words(part, topology, layout) for part in topology.idle),
        *(say("words.loop", name=loop.name, way=loop_words(loop, layout)) for loop in topology.loops),
    )


def junctions_in_words(topology: Topology) -> str:
    """Name the junctions."""
    names = [junction.name for junction in topology.junctions]
    if not names:
        return "There is no junction."
    return f"There {'are' if len(names) > 1 else 'is'} {counted(len(names), ('junction', 'junctions'))}: {listed(names)}."


def branch_in_words(branch: Branch, topology: Topology, marks: frozenset[str], layout: Layout | None) -> str:
    """Say where a branch runs, in the sense of its assumed current, and every part on it in that order."""
    start, end = drawn_ends(branch.start, branch.end, branch.steps, layout)
    ends = ends_in_words(start, end, branch.steps, layout)
    passed = [(topology.node[step.end], step.end) for step in branch.steps[:-1]]
    tails = [*(f", to point {point if layout else node}" if node in marks else "" for node, point in passed), ""]
    parts = [f"{step_in_words(step, layout)}{tail}" for step, tail in zip(branch.steps, tails, strict=True)]
    return say("words.current", name=branch.current, way=f"{ends}: {'; '.join(parts)}")


def step_in_words(step: Step, layout: Layout | None) -> str:
    """Name a part on its branch, with the way it goes, its values and its polarity."""
    along = "along" if step.part.kind is Kind.WIRE else "through"
    polarity = f", {'negative' if step.forward else 'positive'} end first" if step.part.kind is Kind.BATTERY else ""
    return f"{heading(step, layout)} {along} {part_in_words(step.part)}{polarity}".lstrip()


def idle_in_words(part: Part, topology: Topology, layout: Layout | None) -> str:
    """Say where a part without current stands."""
    start, end = (part.start, part.end) if layout else (topology.node[part.start], topology.node[part.end])
    word = heading(Step(part, True), layout)
    polarity = ", negative end first" if part.kind is Kind.BATTERY else ""
    return f"Without current, from {start} to {end}{f', {word}' if word else ''}: {part_in_words(part)}{polarity}."


def lines_in_words(topology: Topology) -> list[str]:
    """Say for each place that is drawn at several points which points those are."""
    drawn = dict.fromkeys(end for pair in topology.circuit.drawing.joined for end in pair)
    places = {node: [point for point in drawn if topology.node[point] == node] for node in topology.node.values()}
    junctions = {junction.name for junction in topology.junctions}
    return [
        f"{'A plain line makes' if len(points) == 2 else 'Plain lines make'} {listed(points)} "
        f"one {'junction' if node in junctions else 'point'}."
        for node, points in places.items()
        if points
    ]


def part_in_words(part: Part) -> str:
    """Name a part with its kind, state and values."""
    noun = " ".join(filter(None, [part.state if part.state != "bare" else "", nouns[part.kind][0], part.name]))
    if part.value is None and part.kind in (Kind.BATTERY, Kind.RESISTOR, Kind.CAPACITOR):
        noun += " of unknown value"
    values = f" of {spoken(part.value)}" if part.value else ""
    inside = f" with internal resistance {spoken(part.internal_resistance)}" if part.internal_resistance else ""
    return f"{noun}{values}{inside}"


def spoken(quantity: Quantity) -> str:
    """Write a quantity with its unit in words: 4.7 kilohms."""
    number, _, unit = quantity.shown.rpartition("\N{NO-BREAK SPACE}")
    prefix, base = spoken_prefixes.get(unit[:-1], ""), spoken_units[unit[-1]]
    # The two vowels run together in speech: megohm, kilohm.
    prefix = re.sub(r"[ao]$", "", prefix) if base == "ohm" else prefix
    number = number.replace("\N{MINUS SIGN}", "minus ")
    return f"{number} {prefix}{base}{'' if number == '1' else 's'}"


def marked_places(topology: Topology) -> frozenset[str]:
    """Places inside a branch that other sentences speak of: a loop, a plain line or a part without current is there."""
    idle = (end for part in topology.idle for end in (part.start, part.end))
    lines = (end for pair in topology.circuit.drawing.joined for end in pair)
    return frozenset(topology.node[point] for point in (*idle, *lines, *(loop.start for loop in topology.loops)))


def counted(number: int, noun: tuple[str, str]) -> str:
    """Write a number with its noun, up to twelve in words: "two batteries"."""
    return f"{number_words[number] if number < len(number_words) else number} {noun[number != 1]}"


def kinds_in_words(parts: Sequence[Part], detail: Callable[[Part], tuple[str, str]]) -> list[str]:
    """Count parts by what they are called, kinds in the order of `Kind`."""
    order = sorted(parts, key=lambda part: (tuple(Kind).index(part.kind), part.state))
    return [counted(number, noun) for noun, number in Counter(map(detail, order)).items()]


def exact(part: Part) -> tuple[str, str]:
    """The noun of a part, with the state of a switch."""
    one, many = nouns[part.kind]
    return (f"{part.state} {one}", f"{part.state} {many}") if part.kind is Kind.SWITCH else (one, many)


def plain(part: Part) -> tuple[str, str]:
    """The noun of a part."""
    return nouns[part.kind]


def rough(part: Part) -> tuple[str, str]:
    """The noun of a battery or a resistor; all else is other parts."""
    return nouns[part.kind] if part.kind in (Kind.BATTERY, Kind.RESISTOR) else ("other part", "other parts")
