"""Practice values: the same circuit with other emfs and resistances, always the same for the same file and number.

Nothing is stored. A small generator starts from the names and values of the parts and the number of the set, so a link
to a set stays good when the file's name, its title or its question change. A set is of the circuit's own kind: every
current that flows still flows, no battery changes over between giving and being charged, the page's units stay. It is
drawn again until the answers are tidy, and the tidiest draw is taken. The scripts mirror this in `practice.mjs`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from build_tools.circuit.circuit import Circuit, Kind, Part
from build_tools.circuit.numeral import SPACE, decimals, with_unit
from build_tools.circuit.quantity import Quantity
from build_tools.laws.choices import apply_choices
from build_tools.laws.elimination import solve
from build_tools.laws.equation import write_equations
from build_tools.laws.topology import Step, Topology
from build_tools.laws.units import choose_units

most_sets = 99
"""Sets are numbered from 1 to this."""
set_number = re.compile(r"[1-9][0-9]?")
"""How the number of a set is written."""
most_draws = 40
"""How often a set is drawn before the tidiest has to do."""
sizes = (1, 2, 3, 4, 5, 6, 8, 10, 12)
"""What a value may be, times a power of ten: numbers with many divisors in common."""
largest_whole = 30
"""Up to this, in the author's unit, an emf may be any whole number near the author's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """A value that practice changes."""

    part: str
    key: str
    """Where it stands in the part: "value" or "internal_resistance"."""
    own: Quantity
    choices: tuple[Quantity, ...]
    """What may stand there, the smallest first; none of them wider in print than the author's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Character:
    """What kind of circuit it is, and how tidy its answers are."""

    flows: tuple[bool, ...]
    """For each unknown whether a current flows."""
    gives: tuple[int, ...]
    """For each battery in a branch: 1 giving, 0 idle, −1 being charged."""
    unit: str
    """The unit of current on the page."""
    denominators: tuple[int, ...]
    """Of the currents in that unit."""


def take_set(topology: Topology, number: int) -> Circuit:
    """The circuit of a topology with the practice values of one set.

    Args:
        topology: the circuit as its file has it.
        number: which set, from 1 to `most_sets`.
    """
    slots, own = find_slots(topology.circuit), find_character(topology)
    best, least = topology, (2, 0)
    for values in draw_values(slots, number):
        drawn = put_values(topology, slots, values)
        score = judge(find_character(drawn), own)
        if score < least:
            best, least = drawn, score
        if least == (0, 0):
            break
    return replace(apply_choices(topology), parts=best.circuit.parts)


def find_slots(circuit: Circuit) -> tuple[Slot, ...]:
    """Every emf, resistance of a resistor and internal resistance; meters and capacitors stay as they are."""
    return tuple(
        Slot(part=part.name, key=key, own=own, choices=find_choices(own, is_emf=own.unit == "V"))
        for part in circuit.parts
        if part.kind in (Kind.BATTERY, Kind.RESISTOR)
        for key, own in (("value", part.value), ("internal_resistance", part.internal_resistance))
        if own
    )


def find_choices(own: Quantity, *, is_emf: bool) -> tuple[Quantity, ...]:
    """Round values near the author's, in the author's unit: from half to double for an emf, a third to three times else."""
    digits, _, unit = own.shown.partition(SPACE)
    step = 10 ** len(digits.partition(".")[2])
    size = int(Fraction(digits) * step)
    near = whole_near(size, step) if is_emf and size <= largest_whole * step else []
    texts = [decimals(Fraction(each, step)) for each in (near if len(near) > 2 else round_near(size))]
    one = own.exact * step / size
    return tuple(
        Quantity(one * Fraction(text), own.unit, with_unit(text, unit)) for text in texts if print_width(text) <= print_width(digits)
    )


def whole_near(size: int, step: int) -> list[int]:
    """Whole multiples of a step from half a size to double of it."""
    return [each for each in range(step, 2 * size + 1, step) if 2 * each >= size]


def round_near(size: int) -> list[int]:
    """The round sizes from a third of a size to three times it."""
    powers = [10**power for power in range(len(str(3 * size)))]
    return sorted({each for power in powers for factor in sizes if size <= 3 * (each := factor * power) <= 9 * size})


def print_width(digits: str) -> int:
    """How wide digits are in print; a point is half as wide as a digit."""
    return 2 * len(digits) - ("." in digits)


def draw_values(slots: tuple[Slot, ...], number: int) -> Iterator[list[Quantity]]:
    """One draw after the other.

    The last slot is not drawn: it goes through its other values from set to set, so that no set is like the one before
    it or like the author's.
    """
    if not slots:
        return
    *drawn, last = slots
    others = [each for each in last.choices if each.exact != last.own.exact]
    state = 0
    for letter in ";".join(f"{slot.part} {slot.own.shown}" for slot in slots):
        state = scramble(state ^ ord(letter))
    turned = others[(state + number) % len(others)]
    state ^= number
    for _ in range(most_draws):
        values = []
        for slot in drawn:
            state = scramble(state + 0x9E3779B9)
            values.append(slot.choices[state % len(slot.choices)])
        yield [*values, turned]


def scramble(number: int) -> int:
    """One of 2³² numbers from another, with no pattern left.

    Source: the two-round multiply-xorshift hash "lowbias32" by C. Wellons, published without restrictions; from memory.
    """
    number &= 0xFFFFFFFF
    number = (number ^ number >> 16) * 0x7FEB352D & 0xFFFFFFFF
    number = (number ^ number >> 15) * 0x846CA68B & 0xFFFFFFFF
    return number ^ number >> 16


def put_values(topology: Topology, slots: tuple[Slot, ...], values: list[Quantity]) -> Topology:
    """The same topology, with these values in its parts."""
    part = dict(topology.circuit.part)
    for slot, value in zip(slots, values, strict=True):
        part[slot.part] = set_value(part[slot.part], slot.key, value)

    def walked(steps: tuple[Step, ...]) -> tuple[Step, ...]:
        return tuple(Step(part[step.part.name], step.forward) for step in steps)

    return replace(
        topology,
        circuit=replace(topology.circuit, parts=tuple(part.values())),
        branches=tuple(replace(branch, steps=walked(branch.steps)) for branch in topology.branches),
        loops=tuple(replace(loop, steps=walked(loop.steps)) for loop in topology.loops),
    )


def set_value(part: Part, key: str, value: Quantity) -> Part:
    """The same part with another value."""
    return replace(part, value=value) if key == "value" else replace(part, internal_resistance=value)


def find_character(topology: Topology) -> Character:
    """What a draw is judged by."""
    equations = write_equations(topology)
    currents = solve(equations.matrix, equations.right)
    units = choose_units(topology.circuit)
    value = dict(zip(equations.unknowns, currents, strict=True))
    steps = [(step, value[branch.current]) for branch in topology.branches for step in branch.steps if step.part.kind is Kind.BATTERY]
    return Character(
        flows=tuple(map(bool, currents)),
        gives=tuple(sign_of(current if step.forward else -current) for step, current in steps),
        unit=units.current,
        denominators=tuple((current / units.size[units.current]).denominator for current in currents),
    )


def sign_of(value: Fraction) -> int:
    """1, 0 or −1."""
    return (value > 0) - (value < 0)


def judge(drawn: Character, own: Character) -> tuple[int, int]:
    """How good a draw is, the lower the better: 0 where it is of the author's kind; 0 where it is tidy, else how untidy.

    What rests in the author's circuit may flow; but no battery may be charged that the author's page does not say so of.
    """
    flows = all(new or not old for new, old in zip(drawn.flows, own.flows, strict=True))
    gives = all(new == old or new > old == 0 for new, old in zip(drawn.gives, own.gives, strict=True))
    untidy = max((each for each in drawn.denominators if each > 20 and 1000 % each), default=0)
    return int(not (flows and gives and drawn.unit == own.unit)), untidy
