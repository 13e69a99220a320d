"""The order of the examples, and the two lists of them: all, and the ones to start with."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from build_tools.circuit.reading import levels
from build_tools.page.listing import Entry, Shelf, figure_size
from build_tools.page.page import Page


def in_order(pages: Iterable[Page]) -> tuple[Page, ...]:
    """Sort examples from easy to hard: by level, then by number of unknowns, then by title."""
    return tuple(sorted(pages, key=lambda page: (level_rank(page), page.unknowns, page.title.casefold(), page.address)))


def level_rank(page: Page) -> int:
    """How hard the level is; one that the table does not know stands last."""
    return levels.index(page.level) if page.level in levels else len(levels)


def all_shelves(ordered: Sequence[Page]) -> tuple[Shelf, ...]:
    """All examples, one shelf for each level that has any; for the page above the examples."""
    return tuple(
        Shelf(title=level.capitalize(), id=level.replace(" ", "-"), entries=tuple(entry(page, "") for page in pages))
        for level, pages in groupby(ordered, key=lambda page: page.level)
    )


def first_shelf(ordered: Sequence[Page]) -> tuple[Shelf, ...]:
    """The easiest example of each level, on one shelf; for the home page."""
    easiest = {page.level: page for page in reversed(ordered)}
    return (Shelf(title="", id="", entries=tuple(entry(page, "examples/") for page in in_order(easiest.values()))),)


def entry(page: Page, folder: str) -> Entry:
    """What a list shows of a page, where `folder` leads from the list to the examples."""
    width, height = figure_size(page.figure)
    return Entry(
        href=f"{folder}{page.address}/",
        title=page.title,
        summary=page.summary,
        level=page.level,
        topics=page.topics,
        unknowns=page.unknowns,
        kinds=page.kinds,
        asked_kinds=page.asked_kinds,
        width=width,
        height=height,
    )
