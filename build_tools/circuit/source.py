"""The text of a circuit file: read with care, taken apart as TOML, and able to say where each key stands.

Takes a path; gives a `CircuitSource`, whose `table` is still untrusted; refuses, in one line each, a folder, an
unreadable or oversized file, text that is not UTF-8, and text that is not TOML.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

from build_tools.circuit.position import Position, find_positions
from build_tools.circuit.problem import CircuitError, KeyPath, Problem, find_near
from build_tools.circuit.slip import find_slip

largest_file = 200_000
"""Bytes; a hundred times a long circuit file."""


@dataclass(frozen=True)
class CircuitSource:
    """One circuit file as read."""

    path: str
    """As it is shown in reports: circuits/name.toml."""
    address: str
    """The file's stem."""
    text: str
    """The whole text, with line feeds only and no byte-order mark."""
    table: dict[str, Any]
    """What the TOML says; not trusted yet. Decimal fractions are exact."""
    positions: dict[KeyPath, Position]
    """Where each key and its value stand."""


def read_source(path: Path, shown: str = "") -> CircuitSource:
    """Read a circuit file.

    Raises:
        CircuitError: with one problem, where the file cannot be read or is not TOML. No source is left then, so the
            problem carries its own line.
    """
    text = read_text(path)
    try:
        return CircuitSource(shown or str(path), path.stem, text, parse_toml(text), find_positions(text))
    except RecursionError as error:
        raise refusal("a circuit file", "brackets nested far too deep") from error


def read_text(path: Path) -> str:
    """The text of a file, with line feeds only and no byte-order mark."""
    if path.is_dir():
        raise refusal("a circuit file", "a folder", f"name a file in it, or check the whole folder: check {path}")
    if not path.exists():
        raise refusal("a circuit file", "no file of that name", find_meant(path))
    if not path.is_file():
        raise refusal("a circuit file", "something that is not a file")
    try:
        raw = path.open("rb").read(largest_file + 1)
    except OSError as error:
        raise refusal("a file that can be read", f"the answer “{(error.strerror or 'no access').lower()}”") from error
    if len(raw) > largest_file:
        raise refusal(f"at most {largest_file // 1000} kB", "a larger file", "a circuit file is a page or two of text")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise refusal("text in UTF-8", f"the byte 0x{raw[error.start]:02x}", "save the file as UTF-8", line) from error
    return text.replace("\r\n", "\n")


def find_meant(path: Path) -> str:
    """Offer the circuit file that is called nearly as a path that leads nowhere."""
    there = {each.stem: each for folder in (path.parent, Path("circuits")) for each in folder.glob("*.toml")}
    near = find_near(path.stem, there)
    return f"did you mean {there[near]}?" if near else ""


def parse_toml(text: str) -> dict[str, Any]:
    """What the text says as TOML."""
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except ValueError as error:
        raise CircuitError([find_slip(str(error), text)]) from error


def refusal(expected: str, found: str, way_out: str = "", line: int = 0) -> CircuitError:
    """A fault of the file as a whole, or of a line that cannot be shown."""
    return CircuitError([Problem(where=(), expected=expected, found=found, way_out=way_out, line=line)])
