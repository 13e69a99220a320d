"""Where everything stands: the geometry of a figure before any label is placed.

Spots are in CSS pixels at the figure's natural size, x to the right and y downwards, as in SVG.
"""

from __future__ import annotations

from dataclasses import dataclass

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
