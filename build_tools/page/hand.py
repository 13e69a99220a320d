"""The route by hand as the page tells it: for every line a sentence that names the lines it uses, and its formula."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from xml.etree.ElementTree import Element

from markupsafe import Markup

from build_tools.circuit.numeral import MINUS, is_terminating, plain
from build_tools.circuit.problem import listed
from build_tools.laws.by_hand import Action, Line
from build_tools.laws.meaning import WorkedCircuit
from build_tools.page.mathml import about, equation, fraction, math, name, number, operator, quantity, row, term_sum, to_markup

TIMES = "\N{MULTIPLICATION SIGN}"


@dataclass(frozen=True, slots=True, kw_only=True)
class HandLine:
    """One line of the route."""

    number: int
    action: str
    says: str
    """What is done, with the numbers of the lines it uses."""
    before: Markup
    """The line as first written, where it is then divided; else empty."""
    formula: Markup
    is_answer: bool
    """Whether it gives a current that the question asks for."""


def view_route(worked: WorkedCircuit) -> tuple[HandLine, ...]:
    """The whole route in the page's units."""
    return tuple(
        HandLine(
            number=line.number,
            action=line.action.value,
            says=say(line),
            before=write_before(line),
            formula=to_markup(math(write_line(line, worked))),
            is_answer=line.action is Action.FIND and line.current in worked.route.asked,
        )
        for line in worked.route.lines
    )


def say(line: Line) -> str:
    """The sentence of one line."""
    refs = [f"({use})" for use in line.uses]
    first, rest = refs[0], refs[1:]
    if line.action is Action.COMBINE:
        return "Eliminate: " + combination(line) + divided(line)
    if line.action is Action.INSERT:
        start = f"{listed(rest)} put into {first}" if rest else f"{first} put in order"
        return start + divided(line)
    start = f"From {first}"
    return f"{start} with {listed(rest)}" if rest else start


def combination(line: Line) -> str:
    """A combination of two lines, the added one first: 6 × (11) − (10)."""
    terms = sorted(zip(line.multipliers, line.uses, strict=True), key=lambda term: term[0] < 0)
    text = ""
    for multiplier, use in terms:
        sign = MINUS if multiplier < 0 else "+" if text else ""
        size = "" if abs(multiplier) == 1 else f"{abs(multiplier)} {TIMES} "
        text += f"{' ' if text else ''}{sign}{' ' if text else ''}{size}({use})"
    return text


def divided(line: Line) -> str:
    """What is done to the line as first written."""
    scale = line.scale
    if scale == 1:
        return ""
    if scale.numerator == 1:
        return f", times {scale.denominator}"
    return f", divided by {plain(scale)}" if is_terminating(scale) else f", times {scale.denominator} and divided by {scale.numerator}"


def write_before(line: Line) -> Markup:
    """The line before it is divided; empty where it is not."""
    scale = line.scale
    if line.action not in (Action.INSERT, Action.COMBINE) or scale == 1:
        return Markup()
    terms = [(factor * scale, current) for current, factor in line.terms]
    return to_markup(math(equation(term_sum(terms), number(plain(line.right * scale)))))


def write_line(line: Line, worked: WorkedCircuit) -> Element:
    """The formula of one line."""
    terms = [(factor, current) for current, factor in line.terms]
    if line.action is Action.EXPRESS:
        return equation(name(line.current), term_sum(terms))
    if line.action is Action.FIND:
        return write_value(line.current, line.right, worked.units.current)
    return equation(term_sum(terms), number(plain(line.right)))


def write_value(current: str, value: Fraction, unit: str) -> Element:
    """A current's value: exact, and rounded where it does not end by itself."""
    exact = equation(name(current), quantity(value, unit))
    return exact if is_terminating(value) else row(exact, operator("≈"), about(value, unit))
