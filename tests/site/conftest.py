"""A small library to publish as often as a test likes, and the whole site, built once."""

from __future__ import annotations

import logging
from collections.abc import Callable
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from tests.site.library import build_whole_site, write_library

Publish = Callable[[Path], str]


@pytest.fixture
def library(tmp_path: Path) -> Path:
    """The folder of a small library."""
    write_library(tmp_path)
    return tmp_path


@pytest.fixture
def publish(caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch) -> Publish:
    """Build a library as `mkdocs build --strict` does and give what was logged; SystemExit where that fails."""

    def run(folder: Path) -> str:
        caplog.clear()
        monkeypatch.chdir(folder)
        with caplog.at_level(logging.INFO, logger="mkdocs"):
            config = load_config(str(folder / "mkdocs.yml"), strict=True)
            config.plugins.on_startup(command="build", dirty=False)
            build(config)
        return caplog.text

    return run


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The project's own site."""
    return build_whole_site(tmp_path_factory.mktemp("site"))
