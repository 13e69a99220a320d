"""Quantities and numbers: exact in, typeset out."""

from __future__ import annotations

from fractions import Fraction

import pytest

from build_tools.circuit.numeral import is_terminating, plain, rounded
from build_tools.circuit.quantity import Dimension, QuantityError, parse_quantity, units

read = [
    ("12 V", Dimension.EMF, Fraction(12), "12 V"),
    ("1.5 V", Dimension.EMF, Fraction(3, 2), "1.5 V"),
    ("250 mV", Dimension.EMF, Fraction(1, 4), "250 mV"),
    ("1.2 kV", Dimension.EMF, Fraction(1200), "1.2 kV"),
    ("4.7 kohm", Dimension.RESISTANCE, Fraction(4700), "4.7 kΩ"),
    ("4.7 kΩ", Dimension.RESISTANCE, Fraction(4700), "4.7 kΩ"),
    ("4.7 k\N{OHM SIGN}", Dimension.RESISTANCE, Fraction(4700), "4.7 kΩ"),
    ("10 mohm", Dimension.RESISTANCE, Fraction(1, 100), "10 mΩ"),
    ("2 Mohm", Dimension.RESISTANCE, Fraction(2_000_000), "2 MΩ"),
    (".5 ohm", Dimension.RESISTANCE, Fraction(1, 2), "0.5 Ω"),
    ("2.2e3 ohm", Dimension.RESISTANCE, Fraction(2200), "2200 Ω"),
    ("0.1 ohm", Dimension.RESISTANCE, Fraction(1, 10), "0.1 Ω"),
    ("10 uF", Dimension.CAPACITANCE, Fraction(1, 100_000), "10 µF"),
    ("10 \N{MICRO SIGN}F", Dimension.CAPACITANCE, Fraction(1, 100_000), "10 µF"),
    ("10 \N{GREEK SMALL LETTER MU}F", Dimension.CAPACITANCE, Fraction(1, 100_000), "10 µF"),
    ("47 pF", Dimension.CAPACITANCE, Fraction(47, 10**12), "47 pF"),
    ("350 uA", Dimension.CURRENT, Fraction(35, 100_000), "350 µA"),
]


@pytest.mark.parametrize(("text", "wanted", "exact", "shown"), read)
def test_a_quantity_is_read_exactly_and_shown_as_the_author_wrote_it(text: str, wanted: Dimension, exact: Fraction, shown: str) -> None:
    """No digit is lost, `u` and `µ`, `ohm` and `Ω` are the same, and a no-break space stands before the unit."""
    quantity = parse_quantity(text, wanted)

    assert quantity.exact == exact
    assert quantity.shown == shown.replace(" ", "\N{NO-BREAK SPACE}")


def test_a_given_current_may_be_negative_or_zero() -> None:
    """Signs are refused only where they make no sense."""
    assert parse_quantity("-2 A", Dimension.CURRENT, signed=True).exact == -2
    assert parse_quantity("\N{MINUS SIGN}2 A", Dimension.CURRENT, signed=True).exact == -2
    with pytest.raises(QuantityError, match="above zero"):
        parse_quantity("-2 A", Dimension.CURRENT)


@pytest.mark.parametrize(
    "text",
    ["", " ", "V", "12", "12 ", "1 2 V", "12 V V", "0x10 V", "1_000 V", "١٢ V", "12 V\n\n13 V", "+-1 V", "1e V", "--1 V", "9" * 500 + " V"],
)
def test_what_is_no_quantity_is_refused(text: str) -> None:
    """Nothing is guessed from half a quantity."""
    with pytest.raises(QuantityError):
        parse_quantity(text, Dimension.EMF)


def test_units_are_those_of_the_format() -> None:
    """The format names these units and no others."""
    assert set(units) == {
        "V", "mV", "kV", "ohm", "mohm", "kohm", "Mohm", "A", "mA", "uA", "F", "mF", "uF", "nF", "pF",
    }  # fmt: skip


# Rounding to three figures of the published bridge current 68/725 A: Kuphaldt, Lessons In Electric Circuits I, ch. 10.
numbers = [
    (Fraction(68, 725), "68/725", "0.0938"),
    (Fraction(-4, 3), "−4/3", "−1.33"),
    (Fraction(12), "12", "12.0"),
    (Fraction(0), "0", "0"),
    (Fraction(5, 2), "2.5", "2.50"),
    (Fraction(-1, 1000), "−0.001", "−0.00100"),
    (Fraction(9996, 10000), "0.9996", "1.00"),
    (Fraction(9995, 1000), "9.995", "10.0"),
    (Fraction(1234567), "1234567", "1230000"),
    (Fraction(1, 2**20), "1/1048576", "0.000000954"),
    (Fraction(10**15 + 1), "1000000000000001", "1000000000000000"),
]


@pytest.mark.parametrize(("number", "exact", "three"), numbers)
def test_numbers_are_written_exactly_and_to_three_figures(number: Fraction, exact: str, three: str) -> None:
    """A true minus sign, a zero before the point, halves away from zero, never a power of ten."""
    assert plain(number) == exact
    assert rounded(number) == three


def test_only_twos_and_fives_below_the_line_give_a_decimal_with_an_end() -> None:
    """1/40 ends, 1/30 does not."""
    assert is_terminating(Fraction(1, 40))
    assert not is_terminating(Fraction(1, 30))
