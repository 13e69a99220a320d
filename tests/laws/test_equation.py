"""Signs: the rules for terms as published, on every way a part can be passed."""

from __future__ import annotations

from fractions import Fraction

import pytest

from build_tools.laws.equation import Reason, write_equations
from build_tools.laws.meaning import equation_text
from build_tools.laws.survey import find_topology
from tests.circuit_of import circuit_of, worked

two_batteries = """
[parts]
E1 = {{ battery = "12 V", minus = "{minus}", plus = "{plus}", internal_resistance = "1 ohm" }}
R1 = {{ resistor = "5 ohm", between = ["{first}", "{second}"] }}
W1 = {{ wire = "bare", between = ["c", "d"] }}
R2 = {{ resistor = "2 ohm", between = ["d", "a"] }}

[currents]
I1 = {{ through = "R1", toward = "{toward}" }}

[loops]
L1 = {{ start = "a", through = ["E1", "R1", "W1", "R2"] }}
"""

# Signs along a loop: OpenStax, University Physics Volume 2, sec. 10.3; College Physics 2e, sec. 21.3 (both read).
# With the current's arrow −R I, against it +R I; minus to plus +emf, plus to minus −emf, whatever the current does.
signs = [
    ("a", "b", "b", "c", "c", [(12, Reason.MINUS_TO_PLUS), (-1, Reason.WITH_ARROW), (-5, Reason.WITH_ARROW), (0, Reason.NO_RESISTANCE), (-2, Reason.WITH_ARROW)]),
    ("a", "b", "c", "b", "b", [(12, Reason.MINUS_TO_PLUS), (1, Reason.AGAINST_ARROW), (5, Reason.AGAINST_ARROW), (0, Reason.NO_RESISTANCE), (2, Reason.AGAINST_ARROW)]),
    ("b", "a", "b", "c", "c", [(-12, Reason.PLUS_TO_MINUS), (-1, Reason.WITH_ARROW), (-5, Reason.WITH_ARROW), (0, Reason.NO_RESISTANCE), (-2, Reason.WITH_ARROW)]),
    ("b", "a", "b", "c", "b", [(-12, Reason.PLUS_TO_MINUS), (1, Reason.AGAINST_ARROW), (5, Reason.AGAINST_ARROW), (0, Reason.NO_RESISTANCE), (2, Reason.AGAINST_ARROW)]),
]  # fmt: skip


@pytest.mark.parametrize(("minus", "plus", "first", "second", "toward", "expected"), signs)
def test_terms_of_a_loop_have_the_published_signs(
    minus: str, plus: str, first: str, second: str, toward: str, expected: list[tuple[int, Reason]]
) -> None:
    """A resistance by the arrow, an emf by the poles, a bare wire not at all; an internal resistance is a resistance."""
    circuit = circuit_of(two_batteries.format(minus=minus, plus=plus, first=first, second=second, toward=toward))
    (equation,) = write_equations(find_topology(circuit)).equations

    assert [(term.factor, term.reason) for term in equation.terms] == expected


def test_what_enters_a_junction_counts_plus_and_what_leaves_counts_minus() -> None:
    """Common practice, no source: entering first, then leaving."""
    example = worked(
        '[parts]\nE1 = { battery = "12 V", minus = "a", plus = "b" }\nR1 = { resistor = "1 ohm", between = ["b", "c"] }\n'
        'R2 = { resistor = "2 ohm", between = ["c", "a"] }\nR3 = { resistor = "3 ohm", between = ["c", "a"] }\n'
        '[currents]\nI1 = { through = "R1", toward = "c" }\nI2 = { through = "R2", toward = "c" }\nI3 = { through = "R3", toward = "a" }\n'
    )

    assert equation_text(example.written.equations[0]) == "I1 + I2 − I3 = 0"


# Printed equation sets with their answers stand in tests/published; this is the text form on our pages.
def test_an_equation_is_written_in_the_pages_units_with_equal_currents_taken_together() -> None:
    """kΩ and mA leave no powers of ten; a positive sum of emfs stands first, a negative one last."""
    example = worked(
        '[parts]\nE1 = { battery = "9 V", minus = "a", plus = "b" }\nR1 = { resistor = "1.5 kohm", between = ["b", "c"] }\n'
        'R2 = { resistor = "500 ohm", between = ["c", "a"] }\n'
    )

    assert (example.units.voltage, example.units.resistance, example.units.current) == ("V", "kΩ", "mA")
    assert [equation_text(each) for each in example.written.equations] == ["9 − 2 I1 = 0"]


units = [
    (["2 ohm", "4 ohm"], ["12 V"], ("V", "Ω", "A")),
    (["150 ohm", "300 ohm"], ["24 V"], ("V", "Ω", "A")),
    (["1 kohm", "4.7 kohm"], ["5 V"], ("V", "kΩ", "mA")),
    (["500 ohm", "2 kohm"], ["20 V"], ("V", "kΩ", "mA")),
    (["10 ohm", "4.7 kohm"], ["5 V"], ("V", "Ω", "A")),
    (["470 kohm", "1 Mohm"], ["5 V"], ("V", "MΩ", "µA")),
    (["2 ohm", "4 ohm"], ["50 mV"], ("mV", "Ω", "mA")),
]


@pytest.mark.parametrize(("resistances", "emfs", "expected"), units)
def test_units_are_chosen_by_the_given_values(resistances: list[str], emfs: list[str], expected: tuple[str, str, str]) -> None:
    """One coherent choice: voltage is resistance times current, power is voltage times current."""
    points = "abcdefgh"
    lines = [f'E{n} = {{ battery = "{emf}", minus = "{points[n]}", plus = "{points[n + 1]}" }}' for n, emf in enumerate(emfs)]
    ends = points[len(emfs) : len(emfs) + len(resistances)] + "a"
    lines += [f'R{n} = {{ resistor = "{value}", between = ["{ends[n]}", "{ends[n + 1]}"] }}' for n, value in enumerate(resistances)]
    chosen = worked("[parts]\n" + "\n".join(lines)).units

    assert (chosen.voltage, chosen.resistance, chosen.current) == expected
    size = chosen.size
    assert size[chosen.voltage] == size[chosen.resistance] * size[chosen.current]
    assert size[chosen.power] == size[chosen.voltage] * size[chosen.current]
    assert all(isinstance(value, Fraction) for value in size.values())
