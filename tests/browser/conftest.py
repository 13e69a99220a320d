"""A real Chromium on the built site. Where there is none, its tests are left out; on CI that is a failure."""

from __future__ import annotations

import os
import re
import subprocess
import threading
from collections.abc import Iterator
from contextlib import suppress
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from shutil import which

import pytest
from selenium.common.exceptions import WebDriverException
from selenium.webdriver import Chrome, ChromeOptions, ChromeService
from selenium.webdriver.support.wait import WebDriverWait

from tests.site.library import build_whole_site

here = Path(__file__).parent
chromium = which("chromium") or which("chromium-browser") or which("google-chrome")
shell = which("chromium-headless-shell")
"""The same browser without windows: it opens a page with a third of the work. Never needed."""
driver = which("chromedriver")
no_chromium = "browser tests left out: no Chromium with chromedriver found (on Debian: apt install chromium chromium-driver)"
flags = (
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--hide-scrollbars",
)


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave the browser tests out where no browser is, but never silently on CI."""
    if (chromium and driver) or os.environ.get("CI") == "true":
        return
    left_out = [item for item in items if here in item.path.parents]
    items[:] = [item for item in items if item not in left_out]
    config.hook.pytest_deselected(items=left_out)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say in one line what was left out, and how to get it."""
    if not (chromium and driver) and os.environ.get("CI") != "true":
        terminalreporter.write_line(no_chromium)


class Quiet(SimpleHTTPRequestHandler):
    """A static server that prints nothing."""

    def log_message(self, format: str, *args: object) -> None:
        """Print nothing."""


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The project's own site, built strictly."""
    return build_whole_site(tmp_path_factory.mktemp("site"))


@pytest.fixture(scope="session")
def host(site: Path) -> Iterator[str]:
    """Where a plain static server shows the site."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()


def version_of(program: str) -> str:
    """A program's version, as it prints it: a driver drives its own only."""
    printed = subprocess.run([program, "--version"], capture_output=True, text=True, check=False).stdout
    return next(iter(re.findall(r"\d+(?:\.\d+)+", printed)), "")


class Patient(Chrome):
    """A browser that is back when a page is whole: now and then its driver comes back before."""

    def get(self, url: str) -> None:
        """Open a page."""
        super().get(url)
        self.wait_for_all()

    def refresh(self) -> None:
        """Open the page anew."""
        super().refresh()
        self.wait_for_all()

    def wait_for_all(self) -> None:
        """Wait for the end of loading."""
        WebDriverWait(self, 10, 0.02).until(lambda _: self.execute_script("return document.readyState === 'complete'"))

    def quit(self) -> None:
        """End the browser: around one without windows Debian has a script, and only that is ended by the driver."""
        with suppress(WebDriverException):
            self.execute_cdp_cmd("Browser.close", {})
        super().quit()


@pytest.fixture(scope="session")
def browser() -> Iterator[Chrome]:
    """A Chromium without a window, which records its requests and its console."""
    if not (chromium and driver):
        pytest.fail(no_chromium.replace("left out", "cannot run"))
    options = ChromeOptions()
    options.binary_location = shell if shell and version_of(shell) == version_of(driver) else chromium
    options.set_capability("goog:loggingPrefs", {"performance": "ALL", "browser": "ALL"})
    for flag in flags:
        options.add_argument(flag)
    running = Patient(options=options, service=ChromeService(driver))
    yield running
    running.quit()
