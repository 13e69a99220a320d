"""The list of examples as HTML, and the figure of each as a file of its own."""

from __future__ import annotations

from dataclasses import dataclass
from xml.etree import ElementTree

from build_tools.page.writing import render

svg = "http://www.w3.org/2000/svg"
ElementTree.register_namespace("", svg)


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
    _, _, width, height = ElementTree.fromstring(figure).attrib["viewBox"].replace(",", " ").split()
    return float(width), float(height)


def figure_file(figure: str) -> str:
    """The figure as a file that stands alone: black ink, and nothing that only the page's scripts and styles know."""
    root = ElementTree.fromstring(figure)
    width, height = figure_size(figure)
    for element in root.iter():
        for name in [name for name in element.attrib if name.startswith("data-")]:
            del element.attrib[name]
        if not element.tag.startswith("{"):
            element.tag = f"{{{svg}}}{element.tag}"
    root.attrib |= {"width": f"{width:g}", "height": f"{height:g}", "color": "#000", "font-family": "Arial, sans-serif"}
    return ElementTree.tostring(root, encoding="unicode")
