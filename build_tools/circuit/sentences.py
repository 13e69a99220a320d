"""The sentences of a page, read from the files that the page's scripts read too.

A file is a JavaScript module that exports one JSON object. A sentence has its places in braces; where a count decides
between two of them, their keys end in `.one` and `.many`.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

folder = Path(__file__).parents[2] / "docs/assets/javascripts"
files = "*sentences.mjs"
"""One for each part of a page that fetches its scripts by itself."""

exported = "export default "
"""What stands before the object in a module of data."""


def read_data(module: str) -> Any:
    """The object that a module of data exports."""
    return json.loads(module.removeprefix(exported).rstrip().removesuffix(";"))


@cache
def read_sentences() -> Mapping[str, str]:
    """Every sentence by its key."""
    said: dict[str, str] = {}
    for path in sorted(folder.glob(files)):
        said |= read_data(path.read_text(encoding="utf-8"))
    return MappingProxyType(said)


def find_sentence(key: str, count: object) -> str:
    """The sentence with its places still open; a count chooses between one and many."""
    ending = "" if count is None else ".one" if count == 1 else ".many"
    return read_sentences()[key + ending]


def say(key: str, **values: object) -> str:
    """A sentence with its places filled; a value named `count` chooses between one and many."""
    return find_sentence(key, values.get("count")).format(**values)
