"""Better rows for larger nets: nodes change their row, one at a time, as long as that makes the drawing cheaper."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from build_tools.figure.rails.net import Rails
from build_tools.figure.rails.search import Columns, find_twins, levels_possible

most_work = 200_000
"""Columns tried for one circuit, all assignments of nodes to rows together."""
widest_layer = 150
"""Sets of placed edges that are followed up at a time."""


def improve_rails(starts: list[Rails]) -> list[Rails]:
    """Improve one drawing after the other until the work is used up; the cheapest first.

    From each, two rows become one or one node changes its row; the first change that makes the drawing cheaper is
    kept, and the search goes on from there.
    """
    work, found = most_work, []
    for start in starts:
        best, used = _improve(start, work)
        work -= used
        found.append(best)
    return sorted(found, key=lambda rails: (rails.cost, rails.row, rails.steps))


def _improve(start: Rails, work: int) -> tuple[Rails, int]:
    """The best drawing within reach, and the work it took."""
    net, twins = start.net, find_twins(start.net)
    best = replace(start, cost=Columns(net, start.row, twins, 0).price(start.steps))
    tried, used = {best.row}, 0
    changes = _changes(best.row)
    while used < work and (row := next(changes, None)):
        if row in tried or not levels_possible(net, row):
            continue
        tried.add(row)
        columns = Columns(net, row, twins, best.cost - 1e-6, widest_layer)
        better = columns.find()
        used += columns.work
        if better:
            best, changes = better[0], _changes(row)
    return best, used


def _changes(row: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Two neighbouring rows made one; then one node in another row."""
    rows = max(row) + 1
    for upper in range(rows - 1) if rows > 2 else ():
        yield tuple(place - (place > upper) for place in row)
    for node, place in enumerate(row):
        for other in sorted(range(rows), key=lambda other: abs(other - place)):
            changed = _packed((*row[:node], other, *row[node + 1 :]))
            if other != place and max(changed) > 0:
                yield changed


def _packed(row: tuple[int, ...]) -> tuple[int, ...]:
    """Without empty rows."""
    used = sorted(set(row))
    return tuple(used.index(place) for place in row)
