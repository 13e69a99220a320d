"""Whole-number rows for work by hand, and the cheapest way to eliminate all of them down to one current.

A row says Σ factor × current = right, in whole numbers without a common factor, first factor positive. Effort is
counted the way a hand feels it: digits × digits for a product, one for a sum. Rows the last line never uses cost
nothing, since they are never written.

Source: the order "junctions first" and the measure of effort were found by trial on published circuits; no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

widest_full_search = 3
"""With more currents than this only the cheapest combination is tried at each turn."""
widest_comparison = 5
"""With more currents than this the combinations are not even compared: the column in the fewest rows goes first."""


@dataclass(frozen=True, slots=True)
class Row:
    """One whole-number equation; how it came about is in `parents`, `multipliers` and `scale`."""

    factors: tuple[int, ...]
    """For each kept current its factor."""
    right: int
    parents: tuple[Row, ...] = ()
    """The two rows it was combined from; none for a row taken from a loop."""
    multipliers: tuple[int, ...] = ()
    """row × scale = Σ multiplier × parent."""
    scale: Fraction = Fraction(1)
    """What the row as first written was divided by."""
    effort: int = 0
    """What it cost to make it from its parents."""

    @property
    def size(self) -> int:
        """How large its numbers are; decides between ways of equal effort."""
        return sum(map(abs, self.factors)) + abs(self.right)


def tidy(factors: Sequence[Fraction | int], right: Fraction | int) -> tuple[tuple[int, ...], int, Fraction]:
    """Bring an equation to whole numbers without a common factor, first factor positive; with what it was divided by."""
    numbers = [Fraction(value) for value in (*factors, right)]
    above = gcd(*(value.numerator for value in numbers)) or 1
    below = lcm(*(value.denominator for value in numbers))
    first = next((value for value in numbers if value), Fraction(1))
    scale = Fraction(above, below) * (1 if first > 0 else -1)
    whole = tuple(int(value / scale) for value in numbers)
    return whole[:-1], whole[-1], scale


def combine(one: Row, other: Row, column: int) -> Row:
    """Eliminate one current from two rows that both hold it."""
    a, b = one.factors[column], other.factors[column]
    common = gcd(a, b) * (1 if b > 0 else -1)
    m, n = b // common, -a // common
    raw = [m * x + n * y for x, y in zip((*one.factors, one.right), (*other.factors, other.right), strict=True)]
    factors, right, scale = tidy(raw[:-1], raw[-1])
    effort = product_effort(m, one) + product_effort(n, other) + len(raw)
    return Row(factors, right, (one, other), (m, n), scale, effort)


def product_effort(multiplier: int, row: Row) -> int:
    """What it costs to multiply a row."""
    if abs(multiplier) == 1:
        return 0
    return sum(digits(multiplier) * digits(value) for value in (*row.factors, row.right) if value)


def digits(number: int) -> int:
    """How many digits a number has, zeros at its end left out."""
    return len(str(abs(number)).rstrip("0")) or 1


@dataclass(frozen=True, slots=True)
class Elimination:
    """A way down to one current: rows in the order of writing, and the row each other current is found from."""

    last: Row
    """The row that holds only the target current."""
    pivots: tuple[tuple[int, Row], ...]
    """For each eliminated current, in order, the row that still holds it."""

    @property
    def rows(self) -> tuple[Row, ...]:
        """The rows that the last one needs, parents before children."""
        return ancestry(self.last)

    @property
    def effort(self) -> tuple[int, int]:
        """Effort of all rows that are needed; then the size of their numbers."""
        return sum(row.effort for row in self.rows), sum(row.size for row in self.rows)


def ancestry(last: Row) -> tuple[Row, ...]:
    """A row and all it was made from, parents before children, each once."""
    order: dict[int, Row] = {}

    def visit(row: Row) -> None:
        for parent in row.parents:
            visit(parent)
        order.setdefault(id(row), row)

    visit(last)
    return tuple(order.values())


def eliminate(rows: tuple[Row, ...], target: int) -> Elimination:
    """The cheapest way found from independent rows to one that holds only the target column."""
    return min(find_eliminations(rows, target, ()), key=lambda way: way.effort)


def find_eliminations(rows: tuple[Row, ...], target: int, pivots: tuple[tuple[int, Row], ...]) -> Iterator[Elimination]:
    """All ways worth trying."""
    done = next((row for row in rows if [bool(f) for f in row.factors] == [c == target for c in range(len(row.factors))]), None)
    if done is not None:
        yield Elimination(done, (*pivots, *match_pivots(rows, done, target)))
        return
    for column, pivot in find_turns(rows, target):
        yield from find_eliminations(strike_out(rows, column, pivot), target, (*pivots, (column, pivot)))


def find_turns(rows: tuple[Row, ...], target: int) -> list[tuple[int, Row]]:
    """The combinations to try next: a column to eliminate, and the row to do it with."""
    columns = [column for column in range(len(rows[0].factors)) if column != target]
    if len(rows) > widest_comparison:
        held = {column: holders for column in columns if (holders := [row for row in rows if row.factors[column]])}
        column = min(held, key=lambda column: len(held[column]))
        return [(column, min(held[column], key=lambda row: row.size))]
    turns = [(column, pivot) for column in columns for pivot in rows if pivot.factors[column]]
    return turns if len(rows) <= widest_full_search else [min(turns, key=lambda turn: turn_effort(rows, *turn))]


def strike_out(rows: tuple[Row, ...], column: int, pivot: Row) -> tuple[Row, ...]:
    """The rows left when one current is eliminated with the help of one of them."""
    others = [row for row in rows if row is not pivot]
    return tuple(combine(row, pivot, column) if row.factors[column] else row for row in others)


def turn_effort(rows: tuple[Row, ...], column: int, pivot: Row) -> tuple[int, int]:
    """What one turn costs, and how large its numbers get."""
    made = strike_out(rows, column, pivot)
    return sum(row.effort for row in made if pivot in row.parents), sum(row.size for row in made)


def match_pivots(rows: tuple[Row, ...], done: Row, target: int) -> Iterator[tuple[int, Row]]:
    """For currents that the way to the target did not need, the rows from which they are found once it is known."""
    left = tuple(row for row in rows if row is not done)
    known = {target}
    while left:
        pivot = min(left, key=lambda row: len(open_in(row, known)))
        column, *others = open_in(pivot, known)
        yield column, pivot
        if others:
            left = strike_out(left, column, pivot)
        else:
            known.add(column)
            left = tuple(row for row in left if row is not pivot)


def open_in(row: Row, known: set[int]) -> list[int]:
    """The columns of a row that are not known yet."""
    return [column for column, factor in enumerate(row.factors) if factor and column not in known]
