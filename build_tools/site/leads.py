"""What stands at the addresses of old: a page that leads on, or one that says what was taken away."""

from __future__ import annotations

import re
from collections.abc import Iterator

from build_tools.page.embed import embeds
from build_tools.page.listing import figure_file
from build_tools.page.standalone import render_anchor, render_gone, render_lead, way
from build_tools.site.addresses import home_of
from build_tools.site.gone import Gone
from build_tools.site.library import Library


def lead_files(library: Library, site: str) -> Iterator[tuple[str, str]]:
    """Path and content of every page that leads on, and of the figures that stood beside them."""
    for old, new in library.settled.leads.items():
        yield f"{old}index.html", render_lead(old, new, title=library.titles.get(new, new), site=site)
        if page := library.examples.get(new):
            yield f"{old}figure.svg", figure_file(page.figure)
            yield from lead_embeds(old, embed_address(new), page.title, site)
    for address, said in library.gone.items():
        if address.startswith("examples/"):
            yield from lead_embeds(address, address, said.title, site)


def lead_embeds(old: str, new: str, title: str, site: str) -> Iterator[tuple[str, str]]:
    """The light pages of an old address lead on to those of the new one, or to what says that it is gone."""
    for name in embeds:
        here, there = f"{embed_address(old)}{name}", f"{new}{name}" if new.startswith("embed/") else new
        yield f"{here}{'' if name else 'index.html'}", render_lead(here, there, title=title, site=site)


def embed_address(example: str) -> str:
    """Where the light pages of an example stand."""
    return f"embed/{example.removeprefix('examples/')}"


def gone_markdown(title: str) -> str:
    """The skeleton of a page that says what was taken away; the search passes it over."""
    return f'---\nsearch: {{exclude: true}}\n---\n\n# {escape_markdown(title)}\n\n<div data-block="gone"></div>\n'


def escape_markdown(text: str) -> str:
    """Plain text for a Markdown heading."""
    return re.sub(r"([\\`*_{}\[\]<>#+!|&-])", r"\\\1", " ".join(text.split()))


def gone_block(address: str, said: Gone, library: Library) -> str:
    """What such a page says."""
    instead = tuple(
        (way(address, page) + (f"#{part}" if part else ""), library.titles.get(page, page))
        for page, _, part in (other.partition("#") for other in said.instead)
    )
    return render_gone(said.title, said.why, instead)


def keep_anchors(blocks: dict[str, str], names: tuple[str, ...], first: str) -> dict[str, str]:
    """The blocks with ids that nothing bears any more, each at the head of its section, or of the block `first`."""
    kept = dict(blocks)
    for name in names:
        block = home if (home := home_of(name)) in kept else first
        kept[block] = render_anchor(name) + kept[block]
    return kept
