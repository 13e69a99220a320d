"""What is put into the finished pages: the skeletons that the site generator saw leave places for it."""

from __future__ import annotations

import re

from build_tools.page.listing import render_catalogue, render_shelves
from build_tools.page.onward import render_onward
from build_tools.page.page import Page
from build_tools.site.catalogue import all_shelves, first_shelf
from build_tools.site.leads import gone_block, keep_anchors
from build_tools.site.lessons import fill_places
from build_tools.site.library import Library, list_address
from build_tools.site.related import find_related

place = re.compile(r'<div data-block="([\w-]+)"></div>')
as_written = re.compile(r"(<(pre|script|textarea)\b.*?</\2>)", re.S)
indent = re.compile(r"[ \t]*\n[ \t\n]*")
for_search = " data-search-exclude"
"""What only the search plugin reads."""


class Blocks:
    """The finished blocks of one build, by page."""

    def __init__(self, library: Library, site: str) -> None:
        self.library, self.site = library, site
        ordered = tuple(library.examples.values())
        self.related = find_related(ordered)
        self.lists = {"examples": render_catalogue(all_shelves(ordered)), "first-examples": render_shelves(first_shelf(ordered))}

    def of_page(self, address: str) -> dict[str, str]:
        """The blocks of one page."""
        if page := self.library.examples.get(address):
            return self.with_anchors(page.blocks | {"onward": self.onward(page)}, address, "question")
        if said := self.library.gone.get(address):
            return {"gone": gone_block(address, said, self.library)}
        return self.with_anchors(self.lists, address, "examples") if address == list_address else self.lists

    def onward(self, page: Page) -> str:
        """What stands below an example: related ones, and how to use it elsewhere."""
        return render_onward(page, self.related[page.address], site=self.site)

    def with_anchors(self, blocks: dict[str, str], address: str, first: str) -> dict[str, str]:
        """The blocks with the ids that must not be lost."""
        names = self.library.settled.anchors.get(address, ())
        return keep_anchors(blocks, names, first) if names else blocks

    def fill(self, output: str, address: str, source: str) -> str:
        """The page with its blocks, and a lesson's parts, in their places.

        Raises:
            KeyError: with the name of a block that there is none of.
        """
        blocks = self.of_page(address)
        filled = place.sub(lambda found: blocks[found[1]], without_indents(output.replace(for_search, "")))
        lesson = self.library.lessons.get(source)
        return fill_places(filled, lesson) if lesson else filled


def without_indents(html: str) -> str:
    """The theme's page without its indents and empty lines, but where white space is shown or hashed."""
    pieces = as_written.split(html)
    return "".join(indent.sub("\n", piece) if at % 3 == 0 else piece for at, piece in enumerate(pieces) if at % 3 < 2)
