"""A real `mkdocs serve`: the author saves, the page follows."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

import pytest

from tests.site.library import lamp, write

patience = 40
"""Longest wait for anything to show [s]; on an idle machine each takes about one."""


class Server:
    """One running `mkdocs serve` and what it printed."""

    def __init__(self, library: Path) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.address = f"127.0.0.1:{free.getsockname()[1]}"
        self.printed = library / "printed.txt"
        command = [sys.executable, "-m", "mkdocs", "serve", "--strict", "-f", "mkdocs.yml", "-a", self.address]
        self.process = subprocess.Popen(
            command, cwd=library, stdout=self.printed.open("wb"), stderr=subprocess.STDOUT, env=os.environ | {"PYTHONUNBUFFERED": "1"}
        )

    def page(self, path: str) -> str:
        try:
            with urlopen(f"http://{self.address}/{path}", timeout=5) as answer:
                return str(answer.read().decode())
        except (URLError, OSError):
            return ""

    def log(self) -> str:
        return self.printed.read_text(encoding="utf-8", errors="replace")

    def until(self, shown: Callable[[], bool]) -> None:
        end = time.monotonic() + patience
        while not shown():
            assert self.process.poll() is None, f"the server ended:\n{self.log()}"
            assert time.monotonic() < end, f"waited too long:\n{self.log()}"
            time.sleep(0.1)


@pytest.fixture
def server(library: Path) -> Iterator[Server]:
    settings = library / "mkdocs.yml"
    write(settings, settings.read_text(encoding="utf-8") + "watch: [circuits]\n")
    running = Server(library)
    try:
        yield running
    finally:
        running.process.terminate()
        running.process.wait(timeout=20)


def test_saving_a_circuit_changes_its_page_and_a_faulty_one_costs_nothing(library: Path, server: Server) -> None:
    """Save: the page follows. A fault: its report, and the old page stays. Mended: the page follows again."""
    path, lives = library / "circuits/porch-lamp.toml", "examples/porch-lamp/"
    server.until(lambda: "The porch lamp" in server.page(lives))
    write(path, lamp.replace("porch lamp", "stair lamp"))
    server.until(lambda: "The stair lamp" in server.page(lives))
    assert "2 circuits, 1 of them worked anew" in server.log()

    write(path, lamp.replace("4 ohm", "4 volt"))
    server.until(lambda: "circuits/porch-lamp.toml:13: parts.R1.resistor" in server.log())
    server.until(lambda: "pages stay as they were" in server.log())
    assert "The stair lamp" in server.page(lives)
    assert "Traceback" not in server.log()

    write(path, lamp.replace("porch lamp", "dock lamp"))
    server.until(lambda: "The dock lamp" in server.page(lives))


def test_a_new_circuit_appears_and_a_deleted_one_goes(library: Path, server: Server) -> None:
    """Files may come and go while the server runs."""
    server.until(lambda: "The porch lamp" in server.page("examples/"))
    write(library / "circuits/attic-lamp.toml", lamp.replace("porch lamp", "attic lamp"))
    server.until(lambda: "The attic lamp" in server.page("examples/attic-lamp/"))
    (library / "circuits/attic-lamp.toml").unlink()
    server.until(lambda: "The attic lamp" not in server.page("examples/") and "The porch lamp" in server.page("examples/"))


def test_a_slip_in_a_lesson_costs_nothing(library: Path, server: Server) -> None:
    """A line more that asks for what there is not, a lesson that goes while there is a fault: the report, and every page stays."""
    page, lesson = library / "docs/index.md", library / "docs/lesson.md"
    write(lesson, "# Lesson\n\n[:porch-lamp current I1:]\n")
    server.until(lambda: "<h1" in server.page("lesson/") and "[:porch" not in server.page("lesson/"))
    text = page.read_text(encoding="utf-8")
    write(page, "Changed.\n\n" + text)
    server.until(lambda: "Changed." in server.page(""))
    write(lesson, "# Lesson\n\n[:porch-lamp current I1:]\n\n[:porch-lamp figur:]\n")
    server.until(lambda: "docs/lesson.md:5" in server.log() and "pages stay as they were" in server.log())
    write(page, "Too soon.\n\n" + text)
    server.until(lambda: server.log().count("pages stay as they were") == 2)
    assert "[:porch" not in server.page("lesson/")
    assert "Changed." in server.page("")
    assert "Traceback" not in server.log()
    write(lesson, "# Lesson, mended\n\n[:porch-lamp current I1:]\n")
    server.until(lambda: "mended" in server.page("lesson/"))
    assert "Too soon." in server.page("")
