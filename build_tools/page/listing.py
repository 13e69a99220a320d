"""The list of examples as HTML, and the figure of each as a file of its own."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from build_tools.page.rendering import render

names_for_scripts = re.compile(r' data-[\w-]+="[^"]*"')


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One example in a list. All texts are plain, not escaped."""

    href: str
    """Its address, as seen from the page with the list."""
    title: str
    summary: str
    level: str
    topics: tuple[str, ...]
    unknowns: int
    kinds: tuple[str, ...]
    """The kinds of part it has."""
    asked_kinds: tuple[str, ...]
    """The kinds of the parts it asks for."""
    width: float
    """Of its figure [CSS px]."""
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """Examples that stand together."""

    title: str
    """Empty for a shelf without a heading."""
    id: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One thing by which the list can be narrowed."""

    name: str
    """As it stands in the address."""
    label: str
    all: str
    """What is chosen where nothing is."""
    options: tuple[tuple[str, str], ...]
    """Each value with the text that shows it."""


def find_choices(shelves: tuple[Shelf, ...]) -> tuple[Choice, ...]:
    """What the list can be narrowed by: nothing that would leave nothing."""
    entries = [entry for shelf in shelves for entry in shelf.entries]

    def words(values: Iterable[str]) -> tuple[tuple[str, str], ...]:
        return tuple((value, value) for value in dict.fromkeys(values))

    topics = sorted((topic for entry in entries for topic in entry.topics), key=str.casefold)
    unknowns = tuple((str(count), str(count)) for count in sorted({entry.unknowns for entry in entries}))
    return (
        Choice(name="topic", label="Topic", all="any topic", options=words(topics)),
        Choice(name="level", label="Level", all="any level", options=words(entry.level for entry in entries)),
        Choice(name="unknowns", label="Unknown currents", all="any number", options=unknowns),
        Choice(name="part", label="With a", all="any part", options=words(sorted(kind for entry in entries for kind in entry.kinds))),
        Choice(
            name="asked",
            label="Asks for",
            all="any current",
            options=words(sorted(kind for entry in entries for kind in entry.asked_kinds)),
        ),
    )


def render_catalogue(shelves: tuple[Shelf, ...]) -> str:
    """The whole list with the form that narrows it."""
    return render("catalogue-filter.html.jinja", {"shelves": shelves, "choices": find_choices(shelves)})


def render_shelves(shelves: tuple[Shelf, ...]) -> str:
    """Write the list. A shelf without a heading says the level of each example instead."""
    return render("catalogue.html.jinja", {"shelves": shelves})


def figure_size(figure: str) -> tuple[float, float]:
    """Width and height of a figure, from its `viewBox` [CSS px]."""
    _, _, width, height = figure.partition('viewBox="')[2].partition('"')[0].split()
    return float(width), float(height)


def figure_file(figure: str) -> str:
    """The figure as a file that stands alone: in a type of its own, without the names that only a page's scripts know."""
    # The figure is as ElementTree wrote it: quotes in its texts are escaped, so that only attributes can look like one.
    return names_for_scripts.sub("", figure).replace("<svg ", '<svg font-family="Arial, sans-serif" ', 1)
