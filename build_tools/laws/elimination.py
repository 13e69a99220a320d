"""Exact elimination on fractions: the only linear algebra the laws need.

Rows are tuples of Fraction. Nothing is ever rounded, so "zero" and "independent" are facts, not thresholds.

Source: Gauss-Jordan elimination, as in any textbook of linear algebra; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

Row = tuple[Fraction, ...]


class IndependentRows:
    """Rows taken in one after the other, each either new or a combination of those before it."""

    def __init__(self) -> None:
        self._reduced: list[tuple[int, list[Fraction], dict[int, Fraction]]] = []
        self._count = 0

    def add(self, row: Sequence[Fraction | int]) -> dict[int, Fraction] | None:
        """Take a row in.

        Returns:
            None where the row is new; else how it follows from earlier rows: row = Σ factor × earlier row, by their
            numbers, counted from 0 in the order they were taken in (rows that were not new are counted too).
        """
        rest = [Fraction(value) for value in row]
        recipe: dict[int, Fraction] = {}
        for pivot, reduced, made_of in self._reduced:
            if factor := rest[pivot]:
                rest = [value - factor * other for value, other in zip(rest, reduced, strict=True)]
                for earlier, share in made_of.items():
                    recipe[earlier] = recipe.get(earlier, Fraction(0)) + factor * share
        number, self._count = self._count, self._count + 1
        head = next((column for column, value in enumerate(rest) if value), None)
        if head is None:
            return {earlier: share for earlier, share in recipe.items() if share}
        made_of = {number: 1 / rest[head]} | {earlier: -share / rest[head] for earlier, share in recipe.items() if share}
        self._reduced.append((head, [value / rest[head] for value in rest], made_of))
        return None


def rank(rows: Sequence[Sequence[Fraction | int]]) -> int:
    """How many of the rows are independent."""
    known = IndependentRows()
    return sum(known.add(row) is None for row in rows)


def solve(matrix: Sequence[Sequence[Fraction]], right: Sequence[Fraction]) -> Row:
    """The one x with A x = b.

    Args:
        matrix: A, of shape (unknowns, unknowns).
        right: b, of shape (unknowns,).

    Raises:
        ZeroDivisionError: where A is singular; circuits that would lead there are refused long before.
    """
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    for column in range(len(rows)):
        pivot = next((number for number in range(column, len(rows)) if rows[number][column]), None)
        if pivot is None:
            raise ZeroDivisionError("the equation set does not decide every current")
        rows[column], rows[pivot] = rows[pivot], rows[column]
        head = rows[column][column]
        rows[column] = [value / head for value in rows[column]]
        for number, row in enumerate(rows):
            if number != column and (factor := row[column]):
                rows[number] = [value - factor * other for value, other in zip(row, rows[column], strict=True)]
    return tuple(row[-1] for row in rows)
