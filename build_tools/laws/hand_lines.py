"""Writing a plan for work by hand down: numbered lines, each naming the lines it uses, and none that nothing needs.

What is worth doing is decided in `by_hand.py`; here it is only told, in the order of doing.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from build_tools.laws.equation import Equation, EquationSet
from build_tools.laws.hand_rows import Elimination, Row, ancestry, open_in


class Action(StrEnum):
    """What one line does."""

    EXPRESS = "express"
    """A junction equation gives one current by others."""
    INSERT = "insert"
    """Expressions go into a loop equation (or it is only put in order)."""
    COMBINE = "combine"
    """Two lines give one without a current that both hold."""
    FIND = "find"
    """A line gives the value of a current."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One numbered line: Σ factor × current = right."""

    number: int
    action: Action
    uses: tuple[int, ...]
    """The numbers of the lines it uses: (1) and on are the equations of the set."""
    multipliers: tuple[int, ...] = ()
    """For a combination the factor of each line used."""
    current: str = ""
    """The current that is expressed or found."""
    terms: tuple[tuple[str, Fraction], ...]
    """For an expression its right side, for a value nothing, else the left side."""
    right: Fraction
    scale: Fraction = Fraction(1)
    """What the line as first written was divided by; never negative."""
    is_turned: bool = False
    """Whether every current has the other sign than in the loop equation."""


Forms = dict[str, dict[str, int]]
"""For each current how it is written with kept ones."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Expression:
    """One current, written with others by one junction equation."""

    current: str
    equation: int
    """Its number in the set, counted from 0."""
    helpers: tuple[str, ...]
    """Currents expressed before, that were put in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """One choice of kept currents, worked through."""

    kept: tuple[str, ...]
    forms: Forms
    expressions: tuple[Expression, ...]
    loops: tuple[tuple[int, Row], ...]
    """For each loop equation its number in the set, counted from 0, and its row."""
    way: Elimination
    target: int
    effort: tuple[int, int]


class Writer:
    """Writes a plan down line by line, each line only when something needs it."""

    def __init__(self, equations: EquationSet, plan: Plan) -> None:
        self.equations, self.plan = equations, plan
        self.next_number = len(equations.equations) + 1
        self.written: list[Line] = []
        self.number_of: dict[object, int] = {}
        """The line of each expression (by its current), row (by identity) and value (by ("value", current))."""
        self.values: dict[str, Fraction] = {}

    def lines(self, asked: tuple[str, ...]) -> list[Line]:
        """Every line up to the last asked current."""
        plan = self.plan
        for _, row in plan.loops:
            if any(row is needed for needed in plan.way.rows):
                self.express_for(row)
        for row in plan.way.rows:
            self.write_row(row)
        self.find_from(plan.way.last, plan.target)
        for current in asked:
            self.find(current)
        return self.written

    def add(self, key: object, action: Action, **said: object) -> None:
        """Write one line and remember its number."""
        self.number_of[key] = self.next_number
        self.written.append(Line(number=self.next_number, action=action, **said))  # type: ignore[arg-type]
        self.next_number += 1

    def express_for(self, row: Row) -> None:
        """Write the expressions that a loop equation needs."""
        for current in self.loop_of(row)[1].factors:
            self.express(current)

    def loop_of(self, row: Row) -> tuple[int, Equation]:
        """The loop equation a first row comes from, with its number in the set counted from 0."""
        number = next(number for number, first in self.plan.loops if first is row)
        return number, self.equations.equations[number]

    def express(self, current: str) -> None:
        """Write one current with kept ones, helpers first."""
        made = next((each for each in self.plan.expressions if each.current == current), None)
        if made is None or current in self.number_of:
            return
        for helper in made.helpers:
            self.express(helper)
        uses = (made.equation + 1, *(self.number_of[helper] for helper in made.helpers))
        self.add(current, Action.EXPRESS, uses=uses, current=current, terms=self.in_order(self.plan.forms[current]), right=Fraction(0))

    def in_order(self, factors: dict[str, int]) -> tuple[tuple[str, Fraction], ...]:
        """Terms in the order of the unknowns."""
        return tuple((current, Fraction(factors[current])) for current in self.equations.unknowns if factors.get(current))

    def write_row(self, row: Row) -> None:
        """Write a row with kept currents, from a loop or from two rows."""
        if id(row) in self.number_of:
            return
        terms = tuple((current, Fraction(factor)) for current, factor in zip(self.plan.kept, row.factors, strict=True) if factor)
        said: dict[str, object] = {"terms": terms, "right": Fraction(row.right), "scale": abs(row.scale)}
        if row.parents:
            sign = 1 if row.scale > 0 else -1
            multipliers = tuple(sign * multiplier for multiplier in row.multipliers)
            uses = tuple(self.number_of[id(parent)] for parent in row.parents)
            self.add(id(row), Action.COMBINE, uses=uses, multipliers=multipliers, **said)
        else:
            number, equation = self.loop_of(row)
            self.express_for(row)
            helpers = tuple(self.number_of[current] for current in equation.factors if current in self.number_of)
            self.add(id(row), Action.INSERT, uses=(number + 1, *helpers), is_turned=row.scale < 0, **said)

    def find(self, current: str) -> None:
        """Find one current, with whatever must be found before it."""
        if current in self.values:
            return
        if current not in self.plan.kept:
            self.express(current)
            form = self.plan.forms[current]
            for kept in form:
                self.find(kept)
            value = sum((share * self.values[kept] for kept, share in form.items()), Fraction(0))
            self.conclude(current, value, (self.number_of[current], *self.found(form)))
            return
        row = next(row for column, row in self.plan.way.pivots if self.plan.kept[column] == current)
        for written in ancestry(row):
            self.write_row(written)
        self.find_from(row, self.plan.kept.index(current))

    def find_from(self, row: Row, column: int) -> None:
        """Find a kept current from a row, the others in it first."""
        kept = self.plan.kept
        others = {kept[other]: row.factors[other] for other in open_in(row, {column})}
        for other in others:
            self.find(other)
        rest = Fraction(row.right) - sum((factor * self.values[other] for other, factor in others.items()), Fraction(0))
        self.conclude(kept[column], rest / row.factors[column], (self.number_of[id(row)], *self.found(others)))

    def found(self, currents: dict[str, int]) -> tuple[int, ...]:
        """The lines in which currents were found."""
        return tuple(self.number_of["value", current] for current in currents)

    def conclude(self, current: str, value: Fraction, uses: tuple[int, ...]) -> None:
        """Write down the value of a current."""
        self.values[current] = value
        self.add(("value", current), Action.FIND, uses=uses, current=current, terms=(), right=value)
