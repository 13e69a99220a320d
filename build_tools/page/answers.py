"""What the page shows of the solution: the matrix, the answers with their meaning, parts and potentials, the checks."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from xml.etree.ElementTree import Element

from markupsafe import Markup

from build_tools.circuit.circuit import Kind
from build_tools.circuit.numeral import MINUS, SPACE, is_exact_when_rounded, plain, rounded, with_unit
from build_tools.circuit.sentences import say
from build_tools.figure.layout import Layout
from build_tools.figure.words import current_sentence
from build_tools.laws.equation import write_junction, write_loop
from build_tools.laws.meaning import WorkedCircuit, current_text, flows_as_assumed, to_units
from build_tools.laws.solution import PartState, Role
from build_tools.laws.unused import find_unused_loop
from build_tools.page.mathml import fraction, math, name, node, operator, quantity, to_markup
from build_tools.page.prose import set_text
from build_tools.page.setup import set_point
from build_tools.page.telling import tell


@dataclass(frozen=True, slots=True, kw_only=True)
class MatrixRow:
    """One row of A x = b."""

    number: int
    """Of its equation."""
    origin: str
    cells: tuple[str, ...]
    right: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MatrixView:
    """A x = b, labelled, as a formula, and as text to copy."""

    columns: tuple[Markup, ...]
    rows: tuple[MatrixRow, ...]
    symbols: Markup
    """A x = b."""
    formula: Markup
    numpy_text: str
    plain_text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CurrentRow:
    """One answer."""

    current: str
    name: Markup
    exact: Markup
    rounded: str
    sign: str
    """Whether it flows as assumed."""
    means: Markup
    is_asked: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """What happens in one part."""

    part: str
    name: Markup
    way: Markup
    """From which end to which the current and the voltage are counted."""
    current: str
    voltage: str
    power: str
    role: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SumCheck:
    """A sum that comes to zero."""

    says: Markup
    text: str
    """The sum, which may be broken before each of its signs."""
    exact: bool
    """Whether its numbers are written exactly, not rounded."""


def view_matrix(worked: WorkedCircuit) -> MatrixView:
    """The matrix form in the page's units."""
    written = worked.written
    matrix, right = written.matrix, written.right
    return MatrixView(
        columns=tuple(set_text(current, worked.topology) for current in written.unknowns),
        rows=tuple(
            MatrixRow(number=at, origin=say(f"equations.{each.rule}", name=each.origin), cells=tuple(map(plain, cells)), right=plain(entry))
            for at, (each, cells, entry) in enumerate(zip(written.equations, matrix, right, strict=True), 1)
        ),
        symbols=to_markup(
            math(node("mi", text="A", mathvariant="normal"), node("mspace", width="0.15em"), name("x"), operator("="), name("b"))
        ),
        formula=to_markup(
            math(
                bracketed([[fraction(value) for value in cells] for cells in matrix]),
                bracketed([[name(current)] for current in written.unknowns]),
                operator("="),
                bracketed([[fraction(value)] for value in right]),
                display=True,
            )
        ),
        numpy_text=numpy_text(matrix, right),
        plain_text="\n".join(
            " ".join(ascii_number(value) for value in (*cells, entry)) for cells, entry in zip(matrix, right, strict=True)
        ),
    )


def bracketed(cells: Sequence[Sequence[Element]]) -> Element:
    """A matrix; its brackets are drawn by the style sheet, the same in every font."""
    return node("mtable", *(node("mtr", *(node("mtd", cell) for cell in line)) for line in cells), class_="matrix")


def numpy_text(matrix: tuple[tuple[Fraction, ...], ...], right: tuple[Fraction, ...]) -> str:
    """The equation set as a NumPy expression that gives the currents."""
    rows = ",\n".join(f"     [{', '.join(map(ascii_number, cells))}]" for cells in matrix)
    return f"import numpy\nnumpy.linalg.solve(\n    [\n{rows}\n    ],\n    [{', '.join(map(ascii_number, right))}],\n)".replace(
        "\n     [", "\n        ["
    )


def ascii_number(value: Fraction) -> str:
    """A number as programs read it."""
    return plain(value).replace(MINUS, "-")


signs = {None: "no_current", True: "as_assumed", False: "opposite"}


def view_currents(worked: WorkedCircuit, layout: Layout | None) -> tuple[CurrentRow, ...]:
    """Every answer with its meaning in words of the figure."""
    units, topology = worked.units, worked.topology
    asked = set(worked.circuit.asked)
    rows = []
    for branch in topology.branches:
        value = worked.solution.currents[branch.current]
        here = to_units(value, units.current, units)
        means = current_sentence(branch, layout, current_text(abs(value), units), flows_as_assumed(value))
        rows.append(
            CurrentRow(
                current=branch.current,
                name=set_text(branch.current, topology),
                exact=to_markup(math(quantity(here, units.current))),
                rounded=with_unit(rounded(here), units.current),
                sign=say(f"currents.{signs[flows_as_assumed(value)]}"),
                means=set_text(means, topology),
                is_asked=any(step.part.name in asked for step in branch.steps),
            )
        )
    return tuple(rows)


def view_parts(worked: WorkedCircuit) -> tuple[PartRow, ...]:
    """What happens in every part, in the page's units."""
    units = worked.units
    return tuple(
        PartRow(
            part=state.part.name,
            name=set_text(state.part.name, worked.topology),
            way=tell("parts.way", start=set_point(state.part.start), end=set_point(state.part.end)),
            current=rounded(to_units(state.current, units.current, units)),
            voltage=say("parts.not_fixed") if state.voltage is None else rounded(to_units(state.voltage, units.voltage, units)),
            power=rounded(to_units(state.power, units.power, units)),
            role=say(f"role.{state.role}"),
        )
        for state in worked.solution.parts.values()
    )


def view_potentials(worked: WorkedCircuit) -> tuple[tuple[Markup, str], ...]:
    """Every place with its potential in the page's unit; points that plain lines join stand together."""
    units = worked.units
    places: dict[str, tuple[list[Markup], Fraction | None]] = {}
    for point, value in worked.solution.potentials.items():
        points, _ = places.setdefault(worked.topology.node[point], ([], value))
        points.append(set_point(point))
    return tuple(
        (Markup(", ").join(points), say("parts.not_fixed") if value is None else rounded(to_units(value, units.voltage, units)))
        for points, value in places.values()
    )


def view_readings(worked: WorkedCircuit) -> tuple[Markup, ...]:
    """What meters read, and the charge of capacitors."""
    topology = worked.topology
    return tuple(set_text(text, topology) for state in worked.solution.parts.values() for text in say_reading(state, worked))


def say_reading(state: PartState, worked: WorkedCircuit) -> Iterable[str]:
    """The sentence of one meter or capacitor."""
    part, units = state.part, worked.units
    said = {"name": part.name, "start": part.start, "end": part.end}
    if part.kind is Kind.AMMETER:
        yield say("readings.ammeter", current=current_text(state.current, units), **said)
    if part.kind not in (Kind.VOLTMETER, Kind.CAPACITOR):
        return
    if state.voltage is None:
        yield say(f"readings.{part.kind}_unfixed", **said)
        return
    across = with_unit(rounded(to_units(state.voltage, units.voltage, units)), units.voltage)
    charge = "" if state.charge is None else charge_text(abs(state.charge))
    yield say(f"readings.{part.kind}", voltage=across, charge=charge, **said)


def charge_text(charge: Fraction) -> str:
    """A charge in the unit in which it reads best."""
    for unit, size in (("C", 1), ("mC", 10**3), ("µC", 10**6), ("nC", 10**9)):
        if charge * size >= 1 or not charge:
            return with_unit(rounded(charge * size), unit)
    return with_unit(rounded(charge * 10**12), "pC")


def view_batteries(worked: WorkedCircuit) -> tuple[Markup, ...]:
    """Which batteries give power and which are charged."""
    units = worked.units
    said = []
    for state in worked.solution.parts.values():
        if state.part.kind is not Kind.BATTERY:
            continue
        power = with_unit(rounded(to_units(abs(state.power), units.power, units)), units.power)
        current = current_text(abs(state.current), units)
        key = "giving_and_taking" if state.role is Role.GIVING and state.power >= 0 else state.role.value
        text = say(f"batteries.{key}", name=state.part.name, current=current, power=power)
        said.append(set_text(text, worked.topology))
    return tuple(said)


def view_sums(worked: WorkedCircuit) -> tuple[SumCheck, ...]:
    """The junctions left out, and one loop that is not in the set."""
    topology, units = worked.topology, worked.units
    currents = worked.solution.currents
    checks = []
    for junction in topology.junctions:
        if junction.used:
            continue
        terms = write_junction(junction, topology.branches).terms
        values = [(term.factor, to_units(term.factor * currents[term.current], units.current, units)) for term in terms]
        said = tell("checks.junction", name=set_point(junction.name), unit=units.current)
        checks.append(check_sum(said, values))
    if loop := find_unused_loop(topology):
        terms = write_loop(loop, topology).terms
        drops = [(term.factor, term.factor * currents.get(term.current, Fraction(1))) for term in terms if term.factor]
        values = [(factor, to_units(drop, units.voltage, units)) for factor, drop in drops]
        parts = ", ".join(step.part.name for step in loop.steps)
        said = set_text(say("checks.loop", parts=parts, start=loop.start, unit=units.voltage), topology)
        checks.append(check_sum(said, values))
    return tuple(checks)


def check_sum(says: Markup, values: Sequence[tuple[Fraction, Fraction]]) -> SumCheck:
    """A sum that is zero, from each term's factor and value; long numbers are rounded to five figures, and then it says so.

    A value of zero has the sign that the rule gives its term.
    """
    exact = all(is_exact_when_rounded(value, 5) for _, value in values)
    terms = []
    for at, (factor, value) in enumerate(values):
        sign = MINUS if (value or factor) < 0 else "+"
        before = sign + SPACE if at else sign.replace("+", "")
        terms.append(before + (plain(abs(value)) if exact else rounded(abs(value), 5)))
    return SumCheck(says=says, text=f"{' '.join(terms)}{SPACE}{'=' if exact else '≈'}{SPACE}0", exact=exact)


def power_sums(worked: WorkedCircuit) -> tuple[str, str]:
    """Power given and power taken up, with unit."""
    units = worked.units
    powers = [to_units(state.power, units.power, units) for state in worked.solution.parts.values()]
    given, taken = -sum(p for p in powers if p < 0), sum(p for p in powers if p > 0)
    return with_unit(rounded(Fraction(given)), units.power), with_unit(rounded(Fraction(taken)), units.power)


def difference_bound(difference: float) -> str:
    """What the distance of numpy's answer stays below, in words."""
    bounds = ((1e-9, "billionth"), (1e-6, "millionth"))
    return say(f"checks.{next((word for bound, word in bounds if difference < bound), 'thousandth')}")


def difference_text(difference: float, unit: str = "A") -> str:
    """The distance of numpy's answer, as a power of ten."""
    if not difference:
        return f"0{SPACE}{unit}"
    size, power = f"{difference:.0e}".split("e")
    raised = str(int(power)).translate(str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹"))
    return f"{size}{SPACE}×{SPACE}10{raised}{SPACE}{unit}"
