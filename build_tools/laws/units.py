"""One coherent choice of units for all equations of a page, so that no power of ten is left in them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from build_tools.circuit.circuit import Circuit


@dataclass(frozen=True, slots=True, kw_only=True)
class Units:
    """Units that belong together: voltage = resistance × current, power = voltage × current."""

    voltage: str
    resistance: str
    current: str
    power: str
    size: dict[str, Fraction]
    """For each of the four units its size in the SI unit."""


def build_units(voltage: str, resistance: str, current: str, power: str) -> Units:
    """Build a choice of units from their symbols."""
    prefixes = {"k": Fraction(1000), "M": Fraction(10**6), "m": Fraction(1, 1000), "µ": Fraction(1, 10**6)}
    symbols = (voltage, resistance, current, power)
    size = {symbol: prefixes[symbol[0]] if len(symbol) > 1 else Fraction(1) for symbol in symbols}
    return Units(voltage=voltage, resistance=resistance, current=current, power=power, size=size)


ordinary = build_units("V", "Ω", "A", "W")
thousands = build_units("V", "kΩ", "mA", "mW")
millions = build_units("V", "MΩ", "µA", "µW")
small = build_units("mV", "Ω", "mA", "µW")


def choose_units(circuit: Circuit) -> Units:
    """The units in which the values of a circuit read best; they depend on the given values only."""
    resistances = [value for part in circuit.parts if (value := part.resistance)]
    emfs = [part.emf for part in circuit.parts if part.emf]
    if resistances and min(resistances) >= 100_000 and max(resistances) >= 1_000_000:
        return millions
    if resistances and min(resistances) >= 100 and max(resistances) >= 1000:
        return thousands
    if emfs and max(emfs) < Fraction(1, 10) and all(value < 1000 for value in resistances):
        return small
    return ordinary


def find_decimals(values: Iterable[Fraction]) -> int:
    """How many decimals a column of values needs for three figures in its largest, from 0 to 6."""
    largest = max((abs(value) for value in values), default=Fraction(0))
    places = 0
    while largest and largest * 10**places < 100 and places < 6:
        places += 1
    return places
