"""What the page room hands on: one example, ready for the site."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass, field

from build_tools.circuit.problem import did_you_mean, listed

sections = (
    ("question", "Question"),
    ("directions", "Directions"),
    ("junctions", "Junctions"),
    ("loops", "Loops"),
    ("equations", "Equation set"),
    ("by-hand", "By hand"),
    ("matrix", "Matrix form"),
    ("currents", "Currents"),
    ("checks", "Checks"),
    ("your-turn", "Your turn"),
)
"""The sections of a page in order: the id that lessons link to, and the heading. To add one, add it here and a template."""


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
    question: str
    """Markdown, not trusted."""
    asked: tuple[str, ...]
    """The parts whose current is asked for; empty: all of them."""
    kinds: tuple[str, ...]
    """The kinds of part it has, each once."""
    asked_kinds: tuple[str, ...]
    """The kinds of the parts asked for, each once."""
    values: tuple[str, ...]
    """The values of its parts as the page shows them, each once: 4.7 kΩ."""
    ideas: tuple[str, ...]
    """What can be learned from it, in a few words each."""
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
    parts: dict[str, str] = field(default_factory=dict)
    """The parts that light pages for other sites show, as HTML."""
    sizes: dict[str, list[int]] = field(default_factory=dict)
    """Width and height of each light page [CSS px]."""


def ids_of(page: Page) -> frozenset[str]:
    """The ids on an example's page."""
    headings = re.findall(r"\{ #([\w-]+)", page.markdown)
    blocks = (text for name, text in page.blocks.items() if name != "record")
    return frozenset(headings).union(*(re.findall(r' id="([^"]+)"', text) for text in blocks))


def tell_ids(name: str, ids: Collection[str]) -> str:
    """The way out for an id that is not on a page: those of its kind that are, or the one that was meant."""
    kind = re.escape(re.split(r"[-_\d]", name)[0])
    by_name, by_number = ([each for each in ids if re.fullmatch(f"{kind}-{rest}", each)] for rest in (r"(?!\d)\w+", r"\d+"))
    alike = sorted(by_name or by_number, key=lambda each: (len(each), each))
    there = f"there {'is' if len(alike) == 1 else 'are'} {listed([f'#{each}' for each in alike])}"
    return there if alike else did_you_mean(f"#{name}", [f"#{each}" for each in sorted(ids)])
