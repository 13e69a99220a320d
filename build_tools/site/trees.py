"""Pieces of the theme's pages as plain data, for the script that puts them in: scripts set texts and attributes, never markup."""

from __future__ import annotations

from html.parser import HTMLParser
from typing import TypeAlias

Tree: TypeAlias = "str | dict[str, str] | list[Tree]"
"""A text; or a list of a tag, its attributes, and what stands in the element."""

empty = frozenset({"input", "link", "meta", "br", "hr", "img"})
"""Elements that nothing stands in, and that are not closed."""
as_drawn = {"viewbox": "viewBox"}
"""Names of attributes that drawings write with capitals, which HTML does not tell apart."""


class Reader(HTMLParser):
    """Reads HTML of the theme, which closes what it opens."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[list[Tree]] = [[]]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin an element in the one that is open."""
        element: list[Tree] = [tag, {as_drawn.get(name, name): value or "" for name, value in attrs}]
        self.open[-1].append(element)
        if tag not in empty:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An element of a drawing that closes itself."""
        self.handle_starttag(tag, attrs)
        self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        """Close the element that is open."""
        if tag not in empty:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        """A text; white space between elements is none."""
        if data.strip():
            self.open[-1].append(data.strip())


def read_trees(html: str) -> list[Tree]:
    """The elements of a piece of HTML, one after the other."""
    reader = Reader()
    reader.feed(html)
    reader.close()
    return reader.open[0]
