"""Where everything stands: the geometry of a figure before any label is placed.

Spots are in CSS pixels at the figure's natural size, x to the right and y downwards, as in SVG.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import dist

from build_tools.circuit.circuit import Kind

same_length = 0.5
"""Legs whose lengths differ by less are taken as equally long [px]."""

Spot = tuple[float, float]
"""A place in the figure [px], y downwards."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """The geometry of one figure."""

    places: dict[str, Spot]
    """Where each point stands."""
    routes: dict[str, tuple[Spot, ...]]
    """For each part its way from start to end, both ends and every corner included."""
    lines: tuple[tuple[Spot, ...], ...]
    """Plain lines (points that are joined), each with both ends."""


def body_leg(route: tuple[Spot, ...], kind: Kind) -> int:
    """Say on which leg of its route a part's body sits: leg i runs from route[i] to route[i + 1].

    It is the longest leg. In a tie a battery takes the most vertical one, every other part the most horizontal one, and
    of legs that are equal in that too the first.
    """
    legs = list(pairwise(route))
    longest = max(dist(*leg) for leg in legs)
    tied = [number for number, leg in enumerate(legs) if dist(*leg) > longest - same_length]
    upright = [abs(legs[number][1][1] - legs[number][0][1]) for number in tied]
    wanted = max(upright) if kind is Kind.BATTERY else min(upright)
    return next(number for number, height in zip(tied, upright, strict=True) if abs(height - wanted) < same_length)
