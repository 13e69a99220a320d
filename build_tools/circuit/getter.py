"""Small typed getters for an untrusted table, each noting what is wrong with the path to it.

A getter never raises: it notes a problem and gives a harmless value, so that all faults of a file come in one report.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from typing import Any

from build_tools.circuit.circuit import Place
from build_tools.circuit.problem import KeyPath, Problem, describe, did_you_mean, listed, shorten
from build_tools.circuit.quantity import Dimension, Quantity, QuantityError, parse_quantity

name_pattern = re.compile(r"[A-Za-z][A-Za-z0-9]{0,5}")
name_rule = "a letter, then up to five letters or digits"
longest_text = 2000
largest_coordinate = 1000


class Getter:
    """Typed reading of one file's table; `problems` grows as faults are found."""

    def __init__(self) -> None:
        self.problems: list[Problem] = []

    def note(self, where: KeyPath, expected: str, found: str, way_out: str = "", *, at_key: bool = False) -> None:
        """Note a fault and go on."""
        self.problems.append(Problem(where=where, expected=expected, found=found, way_out=way_out, at_key=at_key))

    def known_keys(self, table: dict[str, Any], where: KeyPath, known: Iterable[str], what: str) -> None:
        """Note every key that is not one of those known."""
        for key in table:
            if key not in (allowed := tuple(known)):
                way_out = did_you_mean(key, allowed) or f"the keys here are {listed(allowed)}"
                self.note((*where, key), what, f'the unknown key "{key}"', way_out, at_key=True)

    def table(self, value: object, where: KeyPath, expected: str) -> dict[str, Any]:
        """A table, or an empty one where something else stands."""
        if isinstance(value, dict):
            return value
        self.note(where, expected, describe(value))
        return {}

    def items(self, value: object, where: KeyPath, expected: str) -> list[Any]:
        """A list, or an empty one where something else stands."""
        if isinstance(value, list):
            return value
        way_out = f'write a list: ["{shorten(value, 20)}"]' if isinstance(value, str) else ""
        self.note(where, expected, describe(value), way_out)
        return []

    def text(self, value: object, where: KeyPath, expected: str) -> str:
        """A text that says something and is not endless."""
        if not isinstance(value, str) or not value.strip():
            self.note(where, expected, describe(value))
        elif len(value) > longest_text:
            self.note(where, f"{expected} of at most {longest_text} letters", f"{len(value)} letters")
        else:
            return value.strip()
        return ""

    def name(self, value: object, where: KeyPath, what: str, *, at_key: bool = False) -> str:
        """A name after the rule of names."""
        if isinstance(value, str) and name_pattern.fullmatch(value):
            return value
        self.note(where, f"{what}, {name_rule}", describe(value), at_key=at_key)
        return ""

    def one_of(self, value: object, where: KeyPath, choices: Iterable[str], what: str) -> str:
        """One of a few words or names, or empty."""
        known = tuple(choices)
        if isinstance(value, str) and value in known:
            return value
        near = did_you_mean(value, known) if isinstance(value, str) else ""
        said = near or not known or len(known) > 12 or all(re.search(rf"\b{re.escape(word)}\b", what) for word in known)
        few = "" if said else f"there {'is' if len(known) == 1 else 'are'} {listed(known)}"
        self.note(where, what, describe(value), near or few)
        return ""

    def names(self, value: object, where: KeyPath, choices: Iterable[str], what: str) -> tuple[str, ...]:
        """A list of names, each one of those known, none twice."""
        known = tuple(choices)
        members = self.items(value, where, f"a list of names, each {what}")
        found = [self.one_of(member, (*where, str(index)), known, what) for index, member in enumerate(members)]
        for index, name in enumerate(found):
            if name and name in found[:index]:
                self.note((*where, str(index)), "each name once", f'"{name}" again')
        return tuple(dict.fromkeys(filter(None, found)))

    def quantity(self, value: object, where: KeyPath, wanted: Dimension) -> Quantity | None:
        """A quantity above zero, or nothing where the text is none."""
        try:
            return parse_quantity(value, wanted)
        except QuantityError as error:
            self.note(where, error.expected, error.found, error.way_out)
            return None

    def place(self, value: object, where: KeyPath) -> Place | None:
        """A pair of grid coordinates."""
        pair = [self.coordinate(number) for number in value] if isinstance(value, list) else []
        if len(pair) == 2 and pair[0] is not None and pair[1] is not None:
            return pair[0], pair[1]
        self.note(where, f"a place [x, y], two numbers from -{largest_coordinate} to {largest_coordinate}", describe_place(value))
        return None

    @staticmethod
    def coordinate(value: object) -> Fraction | None:
        """One grid coordinate, or nothing where it is none."""
        if isinstance(value, bool) or not isinstance(value, int | Decimal):
            return None
        if isinstance(value, Decimal) and (not value.is_finite() or (value and abs(value.adjusted()) > 6)):
            return None
        exact = Fraction(value)
        return exact if abs(exact) <= largest_coordinate else None


def describe_place(value: object) -> str:
    """What stands where a place should: short lists are shown as they are."""
    if isinstance(value, list) and len(value) <= 4:
        return "[" + ", ".join(str(number) if isinstance(number, int | Decimal) else describe(number) for number in value)[:80] + "]"
    return describe(value)
