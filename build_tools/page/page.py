"""What the page room hands on: one example, ready for the site."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One worked example. All of it is plain data, so that it can be kept between builds as JSON."""

    address: str
    """The last part of its address: examples/ADDRESS/."""
    title: str
    """Plain text, not escaped."""
    summary: str
    """One sentence of plain text, not escaped."""
    level: str
    topics: tuple[str, ...]
    unknowns: int
    """How many currents the equation set has."""
    formerly: tuple[str, ...]
    """Old addresses that lead on to it."""
    markdown: str
    """Headings and prose, and a line `<div data-block="NAME"></div>` where each block goes."""
    blocks: dict[str, str]
    """For each block its finished HTML."""
    figure: str
    """The figure as one `<svg>` element, for the list of examples."""
