"""The plugin: all circuits are worked first, then their pages go to the site generator, stage by stage."""

from __future__ import annotations

import logging
import sys
from pathlib import Path
from typing import Any, Literal

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import Files
from mkdocs.structure.pages import Page as SitePage

from build_tools import pipeline
from build_tools.circuit import sentences
from build_tools.circuit.reading import battery_shapes, resistor_shapes
from build_tools.page.page import Page
from build_tools.page.rendering import keep_translated
from build_tools.site.anchors import know_anchors
from build_tools.site.blocks import Blocks
from build_tools.site.describing import describe, with_search_text
from build_tools.site.files import add_files, example_source, keep_pages, write_beside
from build_tools.site.keep import Keep, edition_of, fingerprint
from build_tools.site.lessons import Workshop, leave_places
from build_tools.site.library import FaultyLibrary, Library, gather
from build_tools.site.neighbours import link_in_order, listed_below, show_in_section
from build_tools.site.policy import ForeignScript, Policy
from build_tools.site.scripts import join_styles, lighten_assets
from build_tools.site.searching import thin_index
from build_tools.site.standby import Standby
from build_tools.site.trees import read_trees

log = logging.getLogger("mkdocs.plugins.worked-circuits")

tool = Path(pipeline.__file__).parent
list_page = "examples/index.md"


class Settings(Config):  # type: ignore[no-untyped-call]
    """What mkdocs.yml may say about the plugin."""

    circuits = config_options.Dir(default="circuits", exists=True)
    """The folder of circuit files."""
    keep = config_options.Dir(default=".cache")
    """The folder for finished pages, so that the next build need not make them again."""
    resistors = config_options.Choice(resistor_shapes, default="zigzag")
    """How resistors are drawn."""
    batteries = config_options.Choice(battery_shapes, default="one cell")
    """How batteries are drawn."""


class WorkedCircuits(BasePlugin[Settings]):  # type: ignore[no-untyped-call]
    """Publishes every circuit file as a page. The stages stand in the order in which MkDocs runs them."""

    def __init__(self) -> None:
        self.serving = False
        self.dirty = False
        self.stands_still = False
        self.standby: Standby | None = None
        self.running = fingerprint(tool, "*.py")
        self.kept: Keep | None = None
        self.workshop: Workshop | None = None
        self.policy: Policy | None = None
        self.library = Library()

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Begin with nothing in memory. A plugin that has this stage is kept by MkDocs between the rebuilds of `serve`."""
        self.serving, self.dirty = command == "serve", dirty
        self.kept, self.workshop, self.library = None, None, Library()

    def on_config(self, config: MkDocsConfig, **_: Any) -> None:
        """Let the theme's inline scripts be the same on every page, so that one policy fits all.

        Our style sheets are joined. A whole site is built beside the one that stands.
        """
        config.extra.setdefault("scope", "/")
        join_styles(config)
        self.standby = None if self.serving or self.dirty else Standby(config)

    def on_pre_build(self, *, config: MkDocsConfig, **_: Any) -> None:
        """Work all circuits and settle all addresses, before anything is written."""
        self.stands_still = False
        try:
            self.library = gather(*self.work_all(), config)
            if self.kept:
                self.kept.sweep()
        except (pipeline.FaultyCircuits, FaultyLibrary) as report:
            if not (self.serving and self.library.examples):
                raise PluginError(f"nothing is published while there are faults\n{report}") from None
            self.stands_still = True
            print(f"\n{report}\n\nUntil that is mended, the pages stay as they were.\n", file=sys.stderr)

    def work_all(self) -> tuple[tuple[Page, ...], Workshop]:
        """Every circuit as a page, each kept one as it is; and who makes parts of them for lessons."""
        if fingerprint(tool, "*.py") != self.running:
            log.info("build_tools has changed: stop mkdocs serve and start it again to use what is new")
        customs = {"resistors": self.config.resistors, "batteries": self.config.batteries}
        folder = as_typed(self.config.circuits)
        self.kept = self.kept or Keep(Path(self.config.keep))
        self.workshop = self.workshop or Workshop(circuits=folder, keep=self.kept, customs=customs)
        self.kept.begin(
            edition_of(self.running, fingerprint(tool, "*.jinja"), fingerprint(sentences.folder, sentences.files), *customs.values())
        )
        pages = pipeline.work_folder(folder, keep=self.kept, **customs)
        log.info("%d circuits, %d of them worked anew", len(pages), self.kept.made)
        return pages, self.workshop

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add each example and everything else that is made, without writing any of it to disk."""
        add_files(files, self.library, config)
        if self.stands_still:
            keep_pages(files, self.library, config)
        return files

    def on_page_markdown(self, markdown: str, *, page: SitePage, **_: Any) -> str:
        """Tell theme and search what an example is about; leave places for the parts that a lesson shows."""
        example = self.library.examples.get(page.url)
        if example is None:
            return leave_places(markdown) if page.file.src_uri in self.library.lessons else markdown
        page.meta = describe(example)
        return with_search_text(example)

    def on_env(self, env: Any, *, files: Files, config: MkDocsConfig, **_: Any) -> None:
        """Give the examples, which stand outside the navigation, their parent, previous and next page.

        The theme's templates get what they ask for.
        """
        env.filters["trees"] = read_trees
        keep_translated(Path(self.config.keep), env)
        self.blocks = Blocks(self.library, config.site_url or "")
        self.front = site_page(files, list_page)
        self.listed = listed_below(self.front)
        know_anchors(self.library, files)
        link_in_order(self.front, [site_page(files, example_source(page.address)) for page in self.library.examples.values()])

    def on_post_template(self, output: str, *, template_name: str, **_: Any) -> str:
        """Learn the theme's own scripts. `serve` adds one of its own to every page, so there the policy is left out."""
        if template_name != "404.html" or self.serving:
            return output
        self.policy = Policy(output)
        return self.policy.apply(output)

    def on_page_context(self, _context: Any, *, page: SitePage, **_: Any) -> None:
        """Show an example in the navigation of its own page."""
        show_in_section(self.front, self.listed, page if page.url in self.library.examples else None)

    def on_post_page(self, output: str, *, page: SitePage, **_: Any) -> str:
        """Put the finished blocks where the skeleton left their places."""
        try:
            filled = self.blocks.fill(output, page.url, page.file.src_uri)
            return self.policy.apply(filled) if self.policy else filled
        except KeyError as missing:
            raise PluginError(f"{page.file.src_uri}: there is no block {missing}") from None
        except ForeignScript as found:
            raise PluginError(f"{page.file.src_uri}: expected no inline script, got “{found}”; put it into a file") from None

    def on_post_build(self, *, config: MkDocsConfig, **_: Any) -> None:
        """Write what stands beside the pages, make search index and scripts light, and write the content policy down for the host."""
        write_beside(self.library, config)
        examples = self.library.examples.values()
        thin_index(Path(config.site_dir), sorted({topic for page in examples for topic in (*page.topics, *page.ideas)}))
        lighten_assets(Path(config.site_dir))
        if self.policy:
            (Path(config.site_dir) / "policy.txt").write_text(f"Content-Security-Policy: {self.policy.text}\n", encoding="utf-8")
        if self.standby:
            self.standby.finish()

    def on_build_error(self, **_: Any) -> None:
        """What was built before stays as it is."""
        if self.standby:
            self.standby.leave()


def as_typed(folder: str) -> Path:
    """The folder as an author below it would type it: faults are to read `circuits/name.toml:12`."""
    path = Path(folder)
    return path.relative_to(Path.cwd()) if path.is_relative_to(Path.cwd()) else path


def site_page(files: Files, source: str) -> SitePage:
    """The site's page for this source, which must be there."""
    file = files.get_file_from_path(source)
    if file is None or file.page is None:
        raise PluginError(f"docs/{source} is missing: the list of examples stands there")
    return file.page
