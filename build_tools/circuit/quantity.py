"""Quantities: "4.7 kohm" becomes an exact value in its SI unit; anything else is refused by name.

A quantity is a number, a space, a unit. The number may have a decimal point and a power of ten (`1.5e3`); the unit is
one of those in `units`. `µ` and `u` are the same, and so are `Ω` and `ohm`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from build_tools.circuit.numeral import MINUS, decimals, with_unit
from build_tools.circuit.problem import describe, did_you_mean, shorten


class Dimension(Enum):
    """What is measured: the noun with its article, an example as written in a file, and the SI unit."""

    EMF = ("an emf", "12 V", "V")
    VOLTAGE = ("a voltage", "6 V", "V")
    RESISTANCE = ("a resistance", "4.7 kohm", "Ω")
    CURRENT = ("a current", "2 A", "A")
    CAPACITANCE = ("a capacitance", "10 uF", "F")

    @property
    def wanted(self) -> str:
        """What a message asks for."""
        return f'{self.value[0]} such as "{self.value[1]}"'


@dataclass(frozen=True, slots=True)
class Quantity:
    """An exact value with its unit."""

    exact: Fraction
    """The value in the SI unit."""
    unit: str
    """The SI unit: V, Ω, A or F."""
    shown: str
    """As the author wrote it, typeset: 4.7 kΩ."""


class QuantityError(ValueError):
    """A text that is not the quantity wanted; the fields are those of a Problem."""

    def __init__(self, expected: str, found: str, way_out: str = "") -> None:
        self.expected, self.found, self.way_out = expected, found, way_out
        super().__init__(f"expected {expected}, got {found}; {way_out}")


prefixes = {"": 0, "m": -3, "k": 3, "M": 6, "u": -6, "n": -9, "p": -12}
"""Each prefix with its power of ten."""

units: dict[str, tuple[str, Fraction]] = {
    f"{prefix}{unit}": (si, Fraction(10) ** prefixes[prefix])
    for unit, si, fitting in (
        ("V", "V", ("", "m", "k")),
        ("ohm", "Ω", ("", "m", "k", "M")),
        ("A", "A", ("", "m", "u")),
        ("F", "F", ("", "m", "u", "n", "p")),
    )
    for prefix in fitting
}
"""Every unit a file may use, with the SI unit it belongs to and its size in it."""

nouns = {"V": "a voltage", "Ω": "a resistance", "A": "a current", "F": "a capacitance"}

largest, smallest = Fraction(10**15), Fraction(1, 10**15)
"""Sizes beyond these, in the SI unit, are slips of the pen: no circuit on paper needs them."""

one_spelling = str.maketrans({"\N{OHM SIGN}": "Ω", "\N{MICRO SIGN}": "u", "\N{GREEK SMALL LETTER MU}": "u", "\N{MINUS SIGN}": "-"})
pattern = re.compile(r"(?P<number>[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE](?P<power>[+-]?\d+))?)(?P<gap>\s*)(?P<unit>\S*)", re.ASCII)


def parse_quantity(value: object, wanted: Dimension, *, signed: bool = False) -> Quantity:
    """Read a quantity of the wanted dimension.

    Args:
        value: what stands in the file, of any type.
        wanted: the dimension it must have.
        signed: whether zero and negative values are allowed (a given current or voltage).

    Raises:
        QuantityError: for anything that is not such a quantity, with the way out.
    """
    match, text = split_number(value, wanted)
    factor = find_factor(match, text, wanted)
    exact = read_number(match, text, wanted) * factor
    check_size(exact, text, wanted, signed)
    return Quantity(exact, wanted.value[2], typeset(match))


def split_number(value: object, wanted: Dimension) -> tuple[re.Match[str], str]:
    """Take the text apart into number, gap and unit."""
    if not isinstance(value, str):
        way_out = "write number, space and unit in quotes" if isinstance(value, int | float) else ""
        raise QuantityError(wanted.wanted, describe(value), way_out)
    text = " ".join(value.translate(one_spelling).split())
    match = pattern.fullmatch(text) if len(text) <= 200 else None
    if match:
        return match, text
    fault, way_out = explain_unreadable(text)
    raise QuantityError(wanted.wanted, describe(value) + fault, way_out)


def explain_unreadable(text: str) -> tuple[str, str]:
    """The fault's name and the way out for a text that is no number and unit at all."""
    if re.match(r"[+-]?\d+(,\d{3})+(?!\d)", text, re.ASCII):
        return " with a comma", f'write decimals with a point and thousands with nothing, "{shorten(text.replace(",", ""))}"'
    if re.match(r"[+-]?\d*,\d+(?![\d,])", text, re.ASCII):
        return " with a decimal comma", f'write a decimal point, "{shorten(text.replace(",", "."))}"'
    if re.match(r"[+-]?nan", text, re.IGNORECASE):
        return ", which is not a number (NaN)", "write a number, a space and a unit"
    if re.match(r"[+-]?inf", text, re.IGNORECASE):
        return ", which is infinite", "write a number, a space and a unit"
    return "", "write a number, a space and a unit"


def find_factor(match: re.Match[str], text: str, wanted: Dimension) -> Fraction:
    """The size of the unit in the SI unit, where it is a unit of the wanted dimension."""
    unit, number = match["unit"].replace("Ω", "ohm"), match["number"]
    fitting = [name for name, (si, _) in units.items() if si == wanted.value[2]]
    inside = re.fullmatch(r"([kMR])(\d+)", unit) if wanted is Dimension.RESISTANCE else None
    if inside:
        written = f"{number}.{inside[2]} {inside[1].replace('R', '')}ohm"
        raise QuantityError(wanted.wanted, f"{describe(text)} with its unit in place of the point", f'write "{written}"')
    if not unit:
        raise QuantityError(wanted.wanted, f"{describe(text)} without a unit", f'write a unit: "{number} {fitting[0]}"')
    if unit not in units:
        guess = next((name for name in fitting if name.lower() == unit.lower()), "")
        near = f'did you mean "{number} {guess}"?' if guess else did_you_mean(f"{number} {unit}", [f"{number} {name}" for name in fitting])
        raise QuantityError(
            wanted.wanted, f'{describe(text)} with the unknown unit "{shorten(unit)}"', near or f"the units here are {', '.join(fitting)}"
        )
    if units[unit][0] != wanted.value[2]:
        raise QuantityError(wanted.wanted, f"{nouns[units[unit][0]]}, {describe(text)}", f"the units here are {', '.join(fitting)}")
    if not match["gap"]:
        raise QuantityError(wanted.wanted, f"{describe(text)} without a space", f'write "{number} {match["unit"]}"')
    return units[unit][1]


def read_number(match: re.Match[str], text: str, wanted: Dimension) -> Fraction:
    """The number itself, as long as its power of ten is a sensible one."""
    if match["power"] and abs(int(match["power"][:8])) > 30:
        raise QuantityError(
            wanted.wanted,
            f"{describe(text)} with the exponent {shorten(match['power'], 12)} out of range",
            "use a prefix such as k or m, or an exponent from -30 to 30",
        )
    return Fraction(match["number"])


def check_size(exact: Fraction, text: str, wanted: Dimension, signed: bool) -> None:
    """Refuse zero and negative sizes where they make no sense, and sizes that are slips of the pen."""
    if exact != 0 and not smallest <= abs(exact) <= largest:
        raise QuantityError(wanted.wanted, f"{describe(text)}, which is out of range", "sizes from 1e-15 to 1e15 in the SI unit are read")
    if exact > 0 or signed:
        return
    found = f"{'the negative' if exact < 0 else 'the zero'} {describe(text)}"
    raise QuantityError(f"{wanted.wanted}, above zero", found, ways_above_zero[wanted, exact < 0])


ways_above_zero = {
    (Dimension.EMF, True): "for a battery the other way round, swap minus and plus",
    (Dimension.EMF, False): 'a battery without an emf is a bare wire: { wire = "bare", between = [...] }',
    (Dimension.RESISTANCE, True): "a resistance is never negative",
    (Dimension.RESISTANCE, False): 'for no resistance use a bare wire, '
    '{ wire = "bare", between = [...] }, or leave internal_resistance out',
    (Dimension.CAPACITANCE, True): "a capacitance is never negative",
    (Dimension.CAPACITANCE, False): "a capacitor without a capacitance is a gap: leave the part out",
    (Dimension.VOLTAGE, True): "", (Dimension.VOLTAGE, False): "",
    (Dimension.CURRENT, True): "", (Dimension.CURRENT, False): "",
}  # fmt: skip


def typeset(match: re.Match[str]) -> str:
    """The quantity as the author wrote it, in the signs of print."""
    unit = match["unit"].replace("ohm", "Ω").replace("u", "\N{MICRO SIGN}")
    whole, point, part = match["number"].lstrip("+").partition(".")
    digits = decimals(Fraction(match["number"])) if match["power"] else (whole or "0") + (point + part if part else "")
    return with_unit(digits.replace("-", MINUS), unit)
