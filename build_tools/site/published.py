"""The record of everything that was ever published: page addresses, and the ids of what stands on each page.

It is one file in docs, written by `python -m build_tools record` after publishing: never by hand, never by a build. It
only grows. A build that would lose an address in it is refused.
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterable, Mapping
from pathlib import Path

from build_tools.circuit.report import write_problem
from build_tools.circuit.slip import find_slip
from build_tools.site.built import BuiltPage

Ids = Mapping[str, tuple[str, ...]]
"""For each address the ids on its page."""

head = """\
# Every address that was ever published: a page, and the ids on it that a link may name.
# Written by `python -m build_tools record` after publishing. Never change it by hand: links elsewhere rely on it.

"""


back = "take the file as it was from your history: it is never written by hand"


class UnreadableRecord(Exception):
    """The record is there and cannot be read; building on without it would lose addresses unseen."""


def read_published(path: Path) -> Ids:
    """The record; empty where nothing was recorded yet.

    Raises:
        UnreadableRecord: with the place and the reason.
    """
    shown = f"{path.parent.name}/{path.name}"
    try:
        text = path.read_text(encoding="utf-8")
        pages = tomllib.loads(text).get("pages", {})
    except FileNotFoundError:
        return {}
    except (OSError, UnicodeDecodeError) as error:
        raise UnreadableRecord(f"{shown}: expected the record of published addresses, got “{error}”\n    {back}") from error
    except ValueError as error:
        slip = find_slip(str(error), text)
        raise UnreadableRecord(f"{write_problem(shown, slip.line, slip.column, slip, None)}\n    {back}") from error
    if not isinstance(pages, dict) or not all(is_ids(ids) for ids in pages.values()):
        raise UnreadableRecord(f"{shown}: expected a list of ids for each address, got something else\n    {back}")
    return {address: tuple(ids) for address, ids in pages.items()}


def is_ids(value: object) -> bool:
    """Whether a value of the record is a list of ids."""
    return isinstance(value, list) and all(isinstance(name, str) for name in value)


def add_site(recorded: Ids, pages: Iterable[BuiltPage]) -> dict[str, tuple[str, ...]]:
    """The record with a published site added; nothing is ever taken out."""
    grown = dict(recorded)
    for page in pages:
        grown[page.address] = tuple(dict.fromkeys((*grown.get(page.address, ()), *page.ids)))
    return grown


def write_published(path: Path, recorded: Ids) -> None:
    """Write the record, sorted, one page to a line, so that its history can be read."""
    lines = [f"{json.dumps(address)} = {json.dumps(ids)}" for address, ids in sorted(recorded.items())]
    unfinished = path.with_suffix(".unfinished")
    unfinished.write_text(head + "[pages]\n" + "\n".join(lines) + "\n", encoding="utf-8")
    unfinished.replace(path)
