"""Everything that the next build publishes, gathered and checked before MkDocs empties the site folder."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig

from build_tools.page.page import Page, ids_of
from build_tools.site.addresses import LostAddresses, Settled, Standing, find_successor, settle
from build_tools.site.catalogue import all_shelves, in_order
from build_tools.site.gone import FaultyGone, Gone, read_gone
from build_tools.site.handwritten import HandWritten, read_handwritten, stand
from build_tools.site.lessons import Lesson, Workshop, write_lessons
from build_tools.site.links import find_broken_links
from build_tools.site.published import Ids, UnreadableRecord, read_published

record_file = "published.toml"
gone_file = "gone.toml"
list_address = "examples/"


class FaultyLibrary(Exception):
    """Pages that cannot be published as they are; its text is the whole report."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Library:
    """What a build publishes."""

    examples: Mapping[str, Page] = field(default_factory=dict)
    """Each example by its address, easiest first."""
    handwritten: tuple[HandWritten, ...] = ()
    gone: Mapping[str, Gone] = field(default_factory=dict)
    settled: Settled = field(default_factory=Settled)
    lessons: Mapping[str, Lesson] = field(default_factory=dict)
    """The parts of each page that shows some, by its source."""
    titles: Mapping[str, str] = field(default_factory=dict)
    """The title of each page that others lead to, by address."""


def gather(pages: Sequence[Page], workshop: Workshop, config: MkDocsConfig) -> Library:
    """Everything, settled.

    Raises:
        FaultyLibrary: with every fault of every page and every address that would be lost.
    """
    docs = Path(config.docs_dir)
    examples = {f"examples/{page.address}/": page for page in in_order(pages)}
    handwritten = read_handwritten(config)
    workshop.examples, workshop.gone, workshop.successors = examples, {}, {}
    recorded: Ids = {}
    unsettled: list[str] = []
    try:
        recorded, workshop.gone = read_published(docs / record_file), read_gone(docs / gone_file)
        standing = find_standing(examples, handwritten, recorded, config)
        workshop.successors = {address: find_successor(address, standing, recorded) for address in recorded if address not in standing}
        settled = settle(recorded, standing, workshop.gone)
    except (UnreadableRecord, FaultyGone, LostAddresses) as report:
        unsettled.append(str(report))
    lessons, reports = write_lessons(handwritten, workshop)
    known = {address: known_ids(page, recorded) for address, page in examples.items()}
    reports += (*find_broken_links(handwritten, known, workshop, config), *unsettled)
    if reports:
        raise FaultyLibrary("\n".join(reports))
    titles = {page.address: title_of(page) for page in handwritten} | {address: page.title for address, page in examples.items()}
    return Library(examples=examples, handwritten=handwritten, gone=workshop.gone, settled=settled, lessons=lessons, titles=titles)


def find_standing(
    examples: Mapping[str, Page], handwritten: Sequence[HandWritten], recorded: Mapping[str, tuple[str, ...]], config: MkDocsConfig
) -> dict[str, Standing]:
    """Every page of the next build, by address."""
    standing = {page.address: stand(page, recorded, config) for page in handwritten}
    if list_address in standing:
        shelves = [shelf.id for shelf in all_shelves(tuple(examples.values()))]
        own = standing[list_address]
        standing[list_address] = Standing(source=own.source, ids=(*own.ids, *shelves), formerly=own.formerly, is_made=True)
    return standing | {
        address: Standing(
            source=f"circuits/{page.address}.toml",
            ids=ids_of(page) if not {address, *(f"examples/{old}/" for old in page.formerly)}.isdisjoint(recorded) else (),
            formerly=tuple(f"examples/{old}/" for old in page.formerly),
            is_example=True,
            is_made=True,
        )
        for address, page in examples.items()
    }


def known_ids(page: Page, recorded: Ids) -> frozenset[str]:
    """The ids that links to an example may name: those on its page, and those on record, which are never lost."""
    return ids_of(page).union(*(recorded.get(f"examples/{name}/", ()) for name in (page.address, *page.formerly)))


def title_of(page: HandWritten) -> str:
    """The title that a hand-written page gives itself, else its address."""
    found = re.search(r"^title:\s*(.+)$", page.text.partition("\n---")[0], re.M) if page.text.startswith("---") else None
    found = found or re.search(r"^# (.+?)(?: \{.*\})?$", page.text, re.M)
    return found[1].strip() if found else page.address or "Home"
