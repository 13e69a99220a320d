"""The pages that people wrote: their addresses, old addresses and ids, known before anything is published."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path

from markdown import Markdown
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import get_files, set_exclusions
from mkdocs.utils.meta import get_data

from build_tools.site.addresses import Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class HandWritten:
    """One Markdown page of docs."""

    source: str
    """Below docs: ideas/signs.md."""
    shown: str
    """As its author knows it: docs/ideas/signs.md."""
    address: str
    """ideas/signs/, or empty for the home page."""
    text: str
    """The whole file."""
    formerly: tuple[str, ...]
    """Addresses that it had before."""


def read_handwritten(config: MkDocsConfig) -> tuple[HandWritten, ...]:
    """Every hand-written page that will be published, in the order of their sources."""
    files = get_files(config)
    set_exclusions(files, config)
    folder = Path(config.docs_dir).name
    return tuple(
        read_page(file.src_uri, f"{folder}/{file.src_uri}", "" if file.url in (".", "./") else file.url, file.content_string)
        for file in sorted(files.documentation_pages(), key=lambda file: file.src_uri)
    )


def read_page(source: str, shown: str, address: str, text: str) -> HandWritten:
    """One page, with the old addresses that its front matter names."""
    _, meta = get_data(text)
    said = meta.get("formerly", [])
    old = said if isinstance(said, list) else [said]
    formerly = tuple(f"{str(name).strip('/')}/" for name in old)
    return HandWritten(source=source, shown=shown, address=address, text=text, formerly=formerly)


def stand(page: HandWritten, recorded: Collection[str], config: MkDocsConfig) -> Standing:
    """The page as one that stands; its ids are looked for only where links to it are on record."""
    is_recorded = not {page.address, *page.formerly}.isdisjoint(recorded)
    return Standing(source=page.shown, ids=find_ids(page.text, config) if is_recorded else (), formerly=page.formerly)


def find_ids(text: str, config: MkDocsConfig) -> frozenset[str]:
    """The ids that the page will have."""
    configs: Mapping[str, dict[str, object]] = config.mdx_configs or {}
    body, _ = get_data(text)
    written = Markdown(extensions=config.markdown_extensions, extension_configs=dict(configs)).convert(body)
    return frozenset(re.findall(r'\b(?:id|name)="([^"]+)"', written))
