"""The checked circuit: what a file says, with every name known and every value exact.

These are the types that flow into all later rooms. They hold no file, no equation and no drawing; `reading.py` makes
them from a file.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from functools import cached_property

from build_tools.circuit.quantity import Quantity

Place = tuple[Fraction, Fraction]
"""Where something stands on the drawing grid: x to the right, y upwards."""


class Kind(StrEnum):
    """The kinds of part; each is also the key that names it in a circuit file."""

    BATTERY = "battery"
    RESISTOR = "resistor"
    WIRE = "wire"
    SWITCH = "switch"
    AMMETER = "ammeter"
    VOLTMETER = "voltmeter"
    CAPACITOR = "capacitor"


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part with its two ends. Forward means from `start` to `end`."""

    name: str
    kind: Kind
    start: str
    """The point where it begins: a battery's minus, else the first of `between`."""
    end: str
    """The point where it ends: a battery's plus, else the second of `between`."""
    value: Quantity | None = None
    """Emf [V], resistance [Ω] or capacitance [F]; None for a bare wire, a switch and an ideal meter."""
    internal_resistance: Quantity | None = None
    """A battery's internal resistance [Ω]; None for an ideal battery and for every other kind."""
    state: str = ""
    """"bare" for a wire, "open" or "closed" for a switch, "ideal" for an ideal meter, else empty."""

    @property
    def emf(self) -> Fraction:
        """Rise of potential from start to end that the part makes by itself [V]; 0 but for a battery."""
        return self.value.exact if self.kind is Kind.BATTERY and self.value else Fraction(0)

    @property
    def resistance(self) -> Fraction | None:
        """Resistance to a steady current [Ω]; 0 for a bare wire, None where no steady current can pass."""
        if self.kind is Kind.CAPACITOR or self.state == "open":
            return None
        if self.kind is Kind.VOLTMETER and self.state == "ideal":
            return None
        if self.kind is Kind.BATTERY:
            return self.internal_resistance.exact if self.internal_resistance else Fraction(0)
        return self.value.exact if self.value else Fraction(0)

    @property
    def conducts(self) -> bool:
        """Whether a steady current can pass."""
        return self.resistance is not None

    def other(self, point: str) -> str:
        """The end that is not `point`."""
        return self.start if point == self.end else self.end


@dataclass(frozen=True, slots=True, kw_only=True)
class AssumedCurrent:
    """An assumed direction that the author chose."""

    name: str
    through: str
    """The part the current goes through."""
    toward: str
    """The end of that part it runs to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenLoop:
    """A loop that the author chose, in walking order."""

    name: str
    start: str
    through: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """How the author wants the circuit drawn. Everything in it may be empty."""

    places: dict[str, Place] = field(default_factory=dict)
    """Where each point stands, in the file's order; empty where the tool is to lay the circuit out."""
    joined: tuple[tuple[str, str], ...] = ()
    """Pairs of points joined by a plain line: one junction drawn in two places."""
    bends: dict[str, tuple[Place, ...]] = field(default_factory=dict)
    """Corner points of a part, on the way from its start to its end."""
    resistors: str = ""
    """"zigzag" or "rectangle"; empty: as the site is set."""
    batteries: str = ""
    """"one cell" or "several cells"; empty: as the site is set."""


@dataclass(frozen=True)
class Circuit:
    """A whole circuit file, checked."""

    address: str
    title: str
    question: str
    """Markdown, not trusted."""
    level: str
    topics: tuple[str, ...]
    asked: tuple[str, ...]
    """The parts whose current the question asks for; empty: all of them."""
    parts: tuple[Part, ...]
    formerly: tuple[str, ...] = ()
    """Old addresses of the file: links to them lead on to it."""
    currents: tuple[AssumedCurrent, ...] = ()
    loops: tuple[ChosenLoop, ...] = ()
    leave_out: str = ""
    """A point of the junction whose equation is not used; empty: chosen by the tool."""
    drawing: Drawing = field(default_factory=Drawing)

    @cached_property
    def part(self) -> dict[str, Part]:
        """Each part by its name."""
        return {part.name: part for part in self.parts}

    @cached_property
    def points(self) -> tuple[str, ...]:
        """Every point, in the order of [points], else in the order the parts name them."""
        ends = (end for part in self.parts for end in (part.start, part.end))
        lines = (end for pair in self.drawing.joined for end in pair)
        return tuple(dict.fromkeys([*self.drawing.places, *ends, *lines]))
