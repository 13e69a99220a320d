"""Old addresses of an example: `formerly = ["old-name"]` keeps a renamed file's links alive."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence

from build_tools.circuit.getter import Getter
from build_tools.circuit.problem import Problem, describe

address_pattern = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,79}")
address_rule = "letters, digits, hyphens, with no other signs"


def read_formerly(get: Getter, value: object, address: str) -> tuple[str, ...]:
    """The old addresses that a file names: each an address, each once, none the file's own."""
    names: list[str] = []
    for index, name in enumerate(get.items(value, ("formerly",), 'a list of old addresses such as ["old-name"]')):
        where = ("formerly", str(index))
        if not isinstance(name, str) or not address_pattern.fullmatch(name):
            get.note(where, f"an old address of {address_rule}", describe(name), way_out_of(name))
        elif name.lower() in (known.lower() for known in names):
            get.note(where, "each old address once", f'"{name}" again')
        elif name.lower() == address.lower():
            get.note(where, "an address that the file had before", f'"{name}", which it has now', "take it out of the list")
        else:
            names.append(name)
    return tuple(names)


def way_out_of(name: object) -> str:
    """The likely slip: a whole path, or the name of the file, where its stem was meant."""
    if not isinstance(name, str):
        return ""
    stem = name.removesuffix(".toml").strip("/").rpartition("/")[2]
    return f'write "{stem}"' if address_pattern.fullmatch(stem) else ""


def refuse_taken(formerly: Sequence[str], addresses: Collection[str]) -> Iterator[Problem]:
    """An old address leads to one example, so no circuit may stand there now.

    Args:
        formerly: the old addresses of one file.
        addresses: those of all circuits, in small letters.
    """
    for index, name in enumerate(formerly):
        if name.lower() in addresses:
            found, way_out = f'"{name}", which is a circuit', f"rename circuits/{name}.toml, or take it out of the list"
            yield Problem(where=("formerly", str(index)), expected="an old address that no circuit has now", found=found, way_out=way_out)


def refuse_claimed(formerly: Sequence[str], claims: dict[str, str], path: str) -> Iterator[Problem]:
    """Two files cannot both have been at one address; `claims` holds the file of each address seen so far, and grows."""
    for index, name in enumerate(formerly):
        owner = claims.setdefault(name.lower(), path)
        if owner != path:
            found = f'"{name}", which {owner} names too'
            yield Problem(where=("formerly", str(index)), expected="an old address of this file alone", found=found)
