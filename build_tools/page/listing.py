"""The list of examples as HTML, and the figure of each as a file of its own."""

from __future__ import annotations

from dataclasses import dataclass
from xml.etree import ElementTree

from build_tools.page.writing import render

ElementTree.register_namespace("", "http://www.w3.org/2000/svg")


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


def render_shelves(shelves: tuple[Shelf, ...]) -> str:
    """Write the list. A shelf without a heading says the level of each example instead."""
    return render("catalogue.html.jinja", {"shelves": shelves})


def figure_size(figure: str) -> tuple[float, float]:
    """Width and height of a figure, from its `viewBox` [CSS px]."""
    _, _, width, height = figure.partition('viewBox="')[2].partition('"')[0].split()
    return float(width), float(height)


def figure_file(figure: str) -> str:
    """The figure as a file that stands alone: in a type of its own, without the names that only a page's scripts know."""
    root = ElementTree.fromstring(figure)
    for element in root.iter():
        for name in [name for name in element.attrib if name.startswith("data-")]:
            del element.attrib[name]
    root.set("font-family", "Arial, sans-serif")
    return ElementTree.tostring(root, encoding="unicode")
