"""A site that is built beside the one that stands, and takes its place only when all is well.

MkDocs empties the site folder before it has looked at the first link. A build that ends with a fault, or under
`--strict` with a warning, would leave half a site where a whole one was; so it never touches that one.
"""

from __future__ import annotations

import logging
import shutil
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.utils import CountHandler, clean_directory

log = logging.getLogger("mkdocs.plugins.worked-circuits")


class Standby:
    """The folder in which a site is built, and the one that it is for."""

    def __init__(self, config: MkDocsConfig) -> None:
        """From here on the build writes into a folder of its own, and what it warns of is counted."""
        self.config = config
        self.site = Path(config.site_dir).resolve()
        self.folder = self.site.with_name(f".{self.site.name}.unfinished")
        self.warnings = CountHandler(level=logging.WARNING)
        logging.getLogger("mkdocs").addHandler(self.warnings)
        config.site_dir = str(self.folder)

    def finish(self) -> None:
        """Put the new site in the place of the old one, unless the build is strict and has warned of something."""
        if self.config.strict and self.warnings.get_counts():
            log.info("%s stays as it was", self.site.name)
        else:
            clean_directory(str(self.site))
            self.site.mkdir(parents=True, exist_ok=True)
            for path in self.folder.iterdir():
                shutil.move(path, self.site / path.name)
        self.leave()

    def leave(self) -> None:
        """End the build: nothing is left beside the site."""
        logging.getLogger("mkdocs").removeHandler(self.warnings)
        shutil.rmtree(self.folder, ignore_errors=True)
        self.config.site_dir = str(self.site)
