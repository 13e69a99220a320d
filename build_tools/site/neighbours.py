"""Parent, previous and next for the examples, which are no part of the site's navigation.

In the navigation each of them would cost every other page its line: the site would grow with the square of their number.
"""

from __future__ import annotations

from collections.abc import Sequence

from mkdocs.structure import StructureItem
from mkdocs.structure.nav import Section
from mkdocs.structure.pages import Page


def link_in_order(front: Page, examples: Sequence[Page]) -> None:
    """Lead from the list page through all examples and back, and hang them below the list page's section."""
    for before, after in zip((front, *examples), examples, strict=False):
        after.parent = front.parent
        after.previous_page = before
        before.next_page = after


def listed_below(front: Page) -> tuple[StructureItem, ...]:
    """What the navigation lists beside the list page, itself included; nothing where it stands in no section."""
    return tuple(front.parent.children) if isinstance(front.parent, Section) else ()


def show_in_section(front: Page, listed: Sequence[StructureItem], example: Page | None) -> None:
    """List the one example that is being written in its section: only there does a phone show its table of contents."""
    if isinstance(front.parent, Section):
        front.parent.children = [*listed, example] if example else [*listed]
