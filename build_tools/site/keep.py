"""Keep finished pages, and parts of them in lessons, between builds, by what they were made from.

A page is kept under a hash of its circuit file and of everything that turns such a file into a page. So nothing kept can
ever be stale, and there is no list of reasons to throw a page away. In memory for the rebuilds of `mkdocs serve`, on disk
for the next build.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterable
from dataclasses import asdict, fields
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path
from typing import Any

from build_tools.page.page import Page

drawing_packages = ("schemdraw", "jinja2", "numpy")


class Keep:
    """The pages of earlier builds in one folder, for one edition of the tool."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.edition = ""
        self.made = 0
        self._pages: dict[str, Page] = {}
        self._used: set[str] = set()

    def begin(self, edition: str) -> None:
        """Start a build with this edition of the tool: what other editions made is not found any more."""
        self.edition, self.made = edition, 0
        self._used.clear()

    def page(self, address: str, source: bytes, make: Callable[[], Page]) -> Page:
        """The page of this circuit file: a kept one, or else the one that `make` gives. What `make` raises is not kept."""
        key = self._key(address, source)
        page = self._pages.get(key) or read_page(self.folder / f"{key}.page")
        if page is None:
            page = make()
            self.made += 1
            write_sealed(self.folder / f"{key}.page", json.dumps(asdict(page), ensure_ascii=False))
        self._pages[key] = page
        return page

    def part(self, asked: str, source: bytes, make: Callable[[], str]) -> str:
        """What was asked for of this circuit file: a kept text, or else the one that `make` gives. What `make` raises is not kept."""
        path = self.folder / f"{self._key(asked, source)}.part"
        text = read_sealed(path)
        if text is None:
            text = make()
            write_sealed(path, text)
        return text

    def _key(self, name: str, source: bytes) -> str:
        key = sha256(b"\0".join((self.edition.encode(), name.encode(), source))).hexdigest()
        self._used.add(key)
        return key

    def sweep(self) -> None:
        """Throw away what the build that just ended did not use."""
        self._pages = {key: page for key, page in self._pages.items() if key in self._used}
        for path in (*self.folder.glob("*.page"), *self.folder.glob("*.part")):
            if path.stem not in self._used:
                path.unlink(missing_ok=True)


def edition_of(*fingerprints: str) -> str:
    """Name an edition of the tool: its own sources, and the packages whose output stands on a page."""
    return "\0".join((*fingerprints, *(f"{name} {version(name)}" for name in drawing_packages)))


def fingerprint(folder: Path, pattern: str) -> str:
    """Hash the files of a folder that match, by name and content."""
    return sha256(b"\0".join(_named(folder, sorted(folder.rglob(pattern))))).hexdigest()


def _named(folder: Path, paths: Iterable[Path]) -> Iterable[bytes]:
    for path in paths:
        yield path.relative_to(folder).as_posix().encode()
        yield path.read_bytes()


def read_page(path: Path) -> Page | None:
    """Read a kept page, or None where there is none or the file is damaged."""
    try:
        kept = json.loads(read_sealed(path) or "null")
        values: dict[str, Any] = {field.name: kept[field.name] for field in fields(Page)}
        values |= {name: tuple(value) for name, value in values.items() if isinstance(value, list)}
        return Page(**values)
    except (ValueError, KeyError, TypeError):
        return None


def read_sealed(path: Path) -> str | None:
    """The text of a file, or None where there is none or its seal does not fit."""
    try:
        seal, _, body = path.read_bytes().partition(b"\n")
        return body.decode() if sha256(body).hexdigest().encode() == seal else None
    except (OSError, ValueError):
        return None


def write_sealed(path: Path, text: str) -> None:
    """Keep a text on disk under its own seal. A disk that cannot take it costs time, never a build."""
    body = text.encode()
    unfinished = path.with_suffix(f".{os.getpid()}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        unfinished.write_bytes(sha256(body).hexdigest().encode() + b"\n" + body)
        unfinished.replace(path)
    except OSError:
        return
