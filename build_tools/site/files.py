"""The files that a build adds to those of docs, without writing any of them to disk itself."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel

from build_tools.page.embed import embeds, write_embed
from build_tools.page.listing import figure_file
from build_tools.site.gone import gone_source
from build_tools.site.index import write_index
from build_tools.site.leads import gone_markdown, lead_files
from build_tools.site.library import Library, gone_file, record_file
from build_tools.site.scripts import find_modules, one_sheet, scripts


def add_files(files: Files, library: Library, config: MkDocsConfig) -> None:
    """Add the examples, what stands at old addresses, and the files for other sites; leave out what is ours alone."""
    for file in generate(library, config):
        files.append(file)
    for name in (record_file, gone_file):
        if own := files.get_file_from_path(name):
            files.remove(own)


def keep_pages(files: Files, library: Library, config: MkDocsConfig) -> None:
    """Let hand-written pages say what they said when the library was gathered: its parts fit those lines and no others."""
    for page in library.handwritten:
        if own := files.get_file_from_path(page.source):
            own.content_string = page.text
        else:
            files.append(File.generated(config, page.source, content=page.text))


def generate(library: Library, config: MkDocsConfig) -> Iterator[File]:
    """Every added file."""
    add = partial(File.generated, config)
    beside_nav = partial(add, inclusion=InclusionLevel.NOT_IN_NAV)
    for page in library.examples.values():
        yield add(example_source(page.address), content=page.markdown)
    for address, said in library.gone.items():
        yield beside_nav(gone_source(address), content=gone_markdown(said.title))
    yield add("examples.json", content=write_index(library.examples.values()))
    if sheets := config.extra["sheets"]:
        yield add(one_sheet, content="".join(Path(config.docs_dir, sheet).read_text(encoding="utf-8") for sheet in sheets))


def write_beside(library: Library, config: MkDocsConfig) -> None:
    """Write what stands beside the finished pages, one file after the other: together they would fill the memory."""
    made: set[str] = set()
    main = Path(config.docs_dir) / scripts / "embed.mjs"
    modules = [f"{scripts}/{module}" for module in find_modules(main)] if main.is_file() else []
    for path, content in stand_beside(library, config.site_url or "", modules):
        folder, _, name = f"{config.site_dir}/{path}".rpartition("/")
        if folder not in made:
            os.makedirs(folder, exist_ok=True)
            made.add(folder)
        with open(f"{folder}/{name}", "wb") as file:
            file.write(content.encode())


def stand_beside(library: Library, site: str, modules: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Figures as files, light pages for other sites, and pages that lead on: path and content of each."""
    for address, page in library.examples.items():
        yield f"{address}figure.svg", figure_file(page.figure)
        for name in embeds:
            yield f"embed/{page.address}/{name or 'index.html'}", write_embed(page, name, site=site, modules=modules)
    yield from lead_files(library, site)


def example_source(address: str) -> str:
    """The source that an example stands in for."""
    return f"examples/{address}.md"
