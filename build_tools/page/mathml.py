"""MathML for equations, names and numbers, built as a tree and never as text.

Every term carries what it is about in `data-` attributes, so that scripts and style sheets can light it.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from xml.etree.ElementTree import Element, tostring

from markupsafe import Markup

from build_tools.circuit.numeral import MINUS, SPACE, is_terminating, plain, rounded
from build_tools.figure.lettering import name_runs

Node = Element


def to_markup(node: Node) -> Markup:
    """The tree as markup, safe by construction."""
    return Markup(tostring(node, encoding="unicode"))


def node(tag: str, *children: Node, text: str = "", **attributes: str) -> Node:
    """One element; underscores in attribute names stand for hyphens."""
    made = Element(tag, {key.rstrip("_").replace("_", "-"): value for key, value in attributes.items() if value})
    made.text = text or None
    made.extend(children)
    return made


def math(*children: Node, display: bool = False) -> Node:
    """A whole formula."""
    return node("math", *children, display="block" if display else "")


def row(*children: Node, **attributes: str) -> Node:
    """Formula parts side by side."""
    return node("mrow", *children, **attributes)


def operator(sign: str) -> Node:
    """A sign between terms, or before the first: where a row begins with it, it belongs to what follows."""
    return node("mo", text=sign)


def number(text: str) -> Node:
    """A number as written; its minus is part of it."""
    if text.startswith(MINUS):
        return row(operator(MINUS), node("mn", text=text[1:]))
    return node("mn", text=text)


def name(text: str) -> Node:
    """A name: its letter italic, the rest an upright subscript."""
    first, *rest = name_runs(text)
    if not rest:
        return node("mi", text=first.text)
    below = rest[0].text
    return node("msub", node("mi", text=first.text), node("mn" if below.isdigit() else "mtext", text=below))


def fraction(value: Fraction) -> Node:
    """An exact number: a terminating decimal, or a fraction with its sign before it."""
    if is_terminating(value):
        return number(plain(value))
    upright = node("mfrac", node("mn", text=str(abs(value.numerator))), node("mn", text=str(value.denominator)))
    return row(operator(MINUS), upright) if value < 0 else upright


def unit(text: str) -> Node:
    """A unit, upright, with its space before it."""
    return node("mtext", text=SPACE + text)


def quantity(value: Fraction, symbol: str) -> Node:
    """An exact value with its unit."""
    return row(fraction(value), unit(symbol))


def about(value: Fraction, symbol: str, figures: int = 3) -> Node:
    """A rounded value with its unit."""
    return row(number(rounded(value, figures)), unit(symbol))


def product(factor: Fraction, current: str) -> Node:
    """A term without its sign: 4 I1, or I1 alone where the factor is 1; a plain number where there is no current."""
    if not current:
        return number(plain(abs(factor)))
    if abs(factor) == 1:
        return name(current)
    return row(fraction(abs(factor)), node("mspace", width="0.2em"), name(current))


def term_sum(terms: Iterable[tuple[Fraction, str]], **attributes: str) -> Node:
    """A sum of terms with their signs: 12 − 4 I1 + I2; 0 where there is none."""
    total = row(**attributes)
    for factor, current in terms:
        if len(total) or factor < 0:
            total.append(operator(MINUS if factor < 0 else "+"))
        total.append(row(product(factor, current), class_="term", data_current=current))
    if not len(total):
        total.append(node("mn", text="0"))
    return total


def equation(left: Node, right: Node) -> Node:
    """Left equals right."""
    return row(left, operator("="), right)
