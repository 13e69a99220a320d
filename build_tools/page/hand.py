"""The route by hand as the page tells it: for every line a sentence that names the lines it uses, and its formula."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from xml.etree.ElementTree import Element

from markupsafe import Markup

from build_tools.circuit.numeral import MINUS, is_terminating, plain
from build_tools.circuit.problem import listed
from build_tools.circuit.sentences import say
from build_tools.laws.hand_lines import Action, Line
from build_tools.laws.meaning import WorkedCircuit
from build_tools.page.mathml import about, equation, math, name, number, operator, quantity, row, term_sum, to_markup

TIMES = "\N{MULTIPLICATION SIGN}"


@dataclass(frozen=True, slots=True, kw_only=True)
class HandLine:
    """One line of the route."""

    number: int
    says: str
    """What is done, with the numbers of the lines it uses."""
    formulas: tuple[Markup, ...]
    """The line; before it the line as first written, where it is then divided."""
    is_answer: bool
    """Whether it gives a current that the question asks for."""


def view_route(worked: WorkedCircuit) -> tuple[HandLine, ...]:
    """The whole route in the page's units."""
    return tuple(
        HandLine(
            number=line.number,
            says=tell_line(line),
            formulas=tuple(to_markup(math(formula)) for formula in (*write_before(line), write_line(line, worked))),
            is_answer=line.action is Action.FIND and line.current in worked.route.asked,
        )
        for line in worked.route.lines
    )


def tell_line(line: Line) -> str:
    """The sentence of one line."""
    first, *rest = [say("hand.line", number=use) for use in line.uses]
    if line.action is Action.COMBINE:
        return say("hand.combine", combination=combination(line), divided=divided(line))
    if line.action is Action.INSERT:
        return say("hand.insert" if rest else "hand.in_order", first=first, lines=listed(rest), turned=turned(line), divided=divided(line))
    return say("hand.from_with" if rest else "hand.from", first=first, lines=listed(rest))


def combination(line: Line) -> str:
    """A combination of two lines, the added one first: 6 × (11) − (10)."""
    terms = sorted(zip(line.multipliers, line.uses, strict=True), key=lambda term: term[0] < 0)
    text = ""
    for multiplier, use in terms:
        sign = MINUS if multiplier < 0 else "+" if text else ""
        size = "" if abs(multiplier) == 1 else f"{abs(multiplier)} {TIMES} "
        text += f"{' ' if text else ''}{sign}{' ' if text else ''}{size}({use})"
    return text


def turned(line: Line) -> str:
    """Where the signs of the currents are not those of the equation, how they came to be the others."""
    if not line.is_turned:
        return ""
    return say("hand.across" if line.right else "hand.turned")


def divided(line: Line) -> str:
    """What is done to the line as first written."""
    scale = line.scale
    if scale == 1:
        return ""
    if scale.numerator == 1:
        return say("hand.times", times=scale.denominator)
    if is_terminating(scale):
        return say("hand.divided", divisor=plain(scale))
    return say("hand.times_and_divided", times=scale.denominator, divisor=scale.numerator)


def write_before(line: Line) -> tuple[Element, ...]:
    """The line before it is divided; nothing where it is not."""
    scale = line.scale
    if line.action not in (Action.INSERT, Action.COMBINE) or scale == 1:
        return ()
    terms = [(factor * scale, current) for current, factor in line.terms]
    return (equation(term_sum(terms), number(plain(line.right * scale))),)


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
