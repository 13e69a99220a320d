"""Distances from least gaps: each column and each row as far along as it must be, and evenly between where it may."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil

from build_tools.figure.rails.sizes import grid

Gap = tuple[int, int, float]
"""From which column (or row) to which later one, and the least distance [px]."""


def least_extent(count: int, gaps: Iterable[Gap]) -> float:
    """The least distance from the first to the last [px], before rounding to the grid."""
    at = [0.0] * count
    for first, later, least in sorted(gaps):
        at[later] = max(at[later], at[first] + least)
    return max(at)


def spread(count: int, gaps: Iterable[Gap]) -> tuple[float, ...]:
    """Positions on the grid that keep every gap, halfway between the first and the last that do [px]."""
    whole = sorted((first, later, ceil(least / grid - 1e-6)) for first, later, least in gaps)
    early = [0] * count
    for first, later, least in whole:
        early[later] = max(early[later], early[first] + least)
    late = [max(early)] * count
    for first, later, least in sorted(whole, key=lambda gap: -gap[1]):
        late[first] = min(late[first], late[later] - least)
    return tuple(grid * ((one + other) // 2) for one, other in zip(early, late, strict=True))
