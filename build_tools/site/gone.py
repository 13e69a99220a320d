"""Examples and pages that were taken away on purpose: their addresses stay, and say what happened and where to go.

["examples/old-lamp/"]
why = "The old lamp was taken down."
instead = ["examples/bow-lamp/", "ideas/signs/"]
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from build_tools.circuit.problem import did_you_mean

keys = ("title", "why", "instead")


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
    try:
        table = tomllib.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return {}
    except (OSError, ValueError) as error:
        raise FaultyGone(f"{path}: expected TOML, got “{error}”") from error
    if faults := [f"{path}: {address}: {fault}" for address, entry in table.items() for fault in find_faults(address, entry)]:
        raise FaultyGone("\n".join(faults))
    return {address: read_entry(f"{path}: {address}", address, entry) for address, entry in table.items()}


def gone_source(address: str) -> str:
    """The source that a page for an address would have."""
    return f"{address.rstrip('/')}.md"


def find_faults(address: str, entry: object) -> list[str]:
    """What is wrong with one entry."""
    if not isinstance(entry, dict):
        return [f'expected a section ["{address}"] with a line why = "...", got something else']
    faults = [] if address.endswith("/") else ['expected an address that ends in "/", such as examples/old-lamp/']
    faults += [
        f"expected title, why or instead, got the unknown key {key}\n    {did_you_mean(key, keys)}".rstrip()
        for key in entry
        if key not in keys
    ]
    if not isinstance(entry.get("why"), str) or not entry["why"].strip():
        faults.append('expected a line why = "..." that tells readers what happened, got none')
    if not isinstance(entry.get("title", ""), str):
        faults.append("title: expected a text in quotes")
    instead = entry.get("instead", [])
    if not isinstance(instead, list) or not all(isinstance(other, str) for other in instead):
        faults.append('instead: expected a list of addresses such as ["examples/bow-lamp/"]')
    return faults


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
