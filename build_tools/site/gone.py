"""Examples and pages that were taken away on purpose: their addresses stay, and say what happened and where to go.

["examples/old-lamp/"]
why = "The old lamp was taken down."
instead = ["examples/bow-lamp/", "ideas/signs/"]
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from build_tools.circuit.problem import CircuitError, Problem, describe, did_you_mean
from build_tools.circuit.report import find_line, write_report
from build_tools.circuit.source import read_source

keys = ("title", "why", "instead")
why_line = 'for instance: why = "The old lamp was taken down."'


class FaultyGone(Exception):
    """The file cannot be used; its text is the whole report."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gone:
    """One address whose page is no more."""

    place: str
    """Where it is said: docs/gone.toml: examples/old-lamp/."""
    title: str
    why: str
    """Plain text."""
    instead: tuple[str, ...]
    """Addresses that help instead."""


def read_gone(path: Path) -> Mapping[str, Gone]:
    """Every address that is said to be gone; none where the file does not exist.

    Raises:
        FaultyGone: with every fault of the file.
    """
    shown = f"{path.parent.name}/{path.name}"
    source = None
    try:
        if not path.exists():
            return {}
        source = read_source(path, shown)
        if faults := [fault for address, entry in source.table.items() for fault in find_faults(address, entry)]:
            raise CircuitError(faults)
    except CircuitError as error:
        raise FaultyGone(write_report(shown, error, source)) from error
    lines = {address: find_line(said_at(address), source)[0] for address in source.table}
    return {address: read_entry(f"{shown}:{lines[address]}: {address}", address, entry) for address, entry in source.table.items()}


def gone_source(address: str) -> str:
    """The source that a page for an address would have."""
    return f"{address.rstrip('/')}.md"


def find_faults(address: str, entry: object) -> Iterator[Problem]:
    """What is wrong with one entry."""
    if not isinstance(entry, dict):
        yield said_at(
            address, expected=f'a section ["{address}"] with a line why', found=describe(entry), way_out=f'["{address}"]   {why_line}'
        )
        return
    if not address.endswith("/"):
        yield said_at(address, expected='an address that ends in "/"', found=describe(address), way_out=f'write ["{address}/"]')
    for key in entry:
        if key not in keys:
            way_out = did_you_mean(key, keys)
            yield said_at(address, key, expected="title, why or instead", found=f"the unknown key {key}", way_out=way_out, at_key=True)
    why = entry.get("why")
    if not isinstance(why, str) or not why.strip(" .…"):
        at = ("why",) if "why" in entry else ()
        found = describe(why) if at else "none"
        yield said_at(address, *at, expected="a line why that tells readers what happened", found=found, way_out=why_line)
    if not isinstance(entry.get("title", ""), str):
        yield said_at(address, "title", expected="a text in quotes", found=describe(entry["title"]))
    instead = entry.get("instead", [])
    if not isinstance(instead, list) or not all(isinstance(other, str) for other in instead):
        yield said_at(address, "instead", expected='a list of addresses such as ["examples/bow-lamp/"]', found=describe(instead))


def said_at(address: str, *key: str, expected: str = "", found: str = "", way_out: str = "", at_key: bool = False) -> Problem:
    """A fault of an entry, or of one of its keys."""
    return Problem(where=(address, *key), expected=expected, found=found, way_out=way_out, at_key=at_key or not key)


def read_entry(place: str, address: str, entry: dict[str, object]) -> Gone:
    """One sound entry."""
    name = address.rstrip("/").rpartition("/")[2].replace("-", " ")
    instead = entry.get("instead", [])
    return Gone(
        place=place,
        title=str(entry.get("title") or name[:1].upper() + name[1:]),
        why=str(entry["why"]).strip(),
        instead=tuple(instead) if isinstance(instead, list) else (),
    )
