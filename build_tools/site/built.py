"""A built site, read back from its folder: its pages, the ids on them, and the data they carry."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

gone_words = "This page was taken away; its address stays"
"""What a page says in place of one that was taken away (gone.html.jinja)."""
light_folders = ("embed",)
"""Folders whose pages stand for another page each, so that no record of their own is needed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltPage:
    """What a page of a built site has for those who link to it."""

    address: str
    """Below the site's root: examples/link-wire/, or empty for the home page."""
    ids: tuple[str, ...]
    """Of the elements in its article, in order."""
    leads_to: str
    """Where it leads on to at once; empty for a page that stays."""
    record: dict[str, Any] | None
    """The object of an example."""
    is_gone: bool = False
    """Whether it only says that what stood there was taken away."""


class PageReader(HTMLParser):
    """Finds ids, the way on, and the JSON block."""

    def __init__(self) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.leads_to = ""
        self.data = ""
        self._in_article = self._in_data = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """One element."""
        attributes = {name: value or "" for name, value in attrs}
        name = attributes.get("id", "")
        self._in_article = self._in_article or tag == "article"
        self._in_data = tag == "script" and name == "circuit"
        if tag == "meta" and attributes.get("http-equiv", "").lower() == "refresh":
            self.leads_to = attributes.get("content", "").partition("url=")[2]
        # The first heading's id follows the page's title and leads to where the page begins anyway.
        if self._in_article and name and tag not in ("script", "h1") and not name.startswith("__"):
            self.ids.append(name)

    def handle_endtag(self, tag: str) -> None:
        """The end of one."""
        self._in_article = self._in_article and tag != "article"
        self._in_data = False

    def handle_data(self, data: str) -> None:
        """Text between."""
        self.data += data if self._in_data else ""


def read_site(folder: Path) -> Iterator[BuiltPage]:
    """Every page of a built site, in the order of the addresses."""
    for path in sorted(folder.rglob("index.html")):
        address = path.parent.relative_to(folder).as_posix()
        if address.split("/")[0] not in light_folders:
            yield read_built_page(path.read_text(encoding="utf-8"), "" if address == "." else f"{address}/")


def read_built_page(text: str, address: str) -> BuiltPage:
    """One page."""
    reader = PageReader()
    reader.feed(text)
    reader.close()
    record = json.loads(reader.data) if reader.data else None
    return BuiltPage(
        address=address, ids=tuple(dict.fromkeys(reader.ids)), leads_to=reader.leads_to, record=record, is_gone=gone_words in text
    )
