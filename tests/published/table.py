"""The published values as data: what values.toml, equations.toml, resistances.toml and numbers.toml say."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

folder = Path(__file__).parent
circuits = folder / "circuits"

unit_sizes = {
    "V": Fraction(1), "A": Fraction(1), "mA": Fraction(1, 1000), "W": Fraction(1), "mW": Fraction(1, 1000),
    "ohm": Fraction(1), "kohm": Fraction(1000), "Mohm": Fraction(10**6),
    "mC": Fraction(1, 1000), "uC": Fraction(1, 10**6), "": Fraction(1),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Stated:
    """One value that a source states about a circuit."""

    address: str
    ask: dict[str, Any]
    """What is stated: the row without the value."""
    text: str
    """The value as printed, or as it would be."""
    value: Fraction
    """That value in the SI unit."""
    half_unit: Fraction
    """Half a unit of its last decimal, in the SI unit."""
    exact: Fraction
    """What is right, in the SI unit."""
    slip: str
    """Why the printed value is not right; empty where it is."""

    def __str__(self) -> str:
        asked = " ".join(f"{key} {value}" for key, value in self.ask.items())
        return f"{self.address}: {asked} = {self.text}"

    def agrees_with(self, number: Fraction) -> bool:
        """Whether the number is within half a unit of the last decimal."""
        return abs(number - self.value) <= self.half_unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """One published circuit with all its values."""

    address: str
    source: str
    status: str
    given: dict[str, Any]
    stated: tuple[Stated, ...]

    @property
    def path(self) -> Path:
        """Its circuit file."""
        return circuits / f"{self.address}.toml"


def load(name: str) -> dict[str, Any]:
    """One of the tables."""
    return tomllib.loads((folder / name).read_text(encoding="utf-8"))


def read_published() -> tuple[Published, ...]:
    """Every published circuit."""
    return tuple(
        Published(
            address=row["address"],
            source=row["source"],
            status=row["status"],
            given=row.get("given", {}),
            stated=tuple(read_stated(row["address"], stated) for stated in row["stated"]),
        )
        for row in load("values.toml")["circuit"]
    )


def read_stated(address: str, row: dict[str, Any]) -> Stated:
    """One row of `stated`."""
    text = row.get("printed") or row["follows"]
    value, size, half_unit = read_printed(text)
    ask = {key: item for key, item in row.items() if key not in ("printed", "follows", "exact", "slip")}
    return Stated(
        address=address, ask=ask, text=text, value=value, half_unit=half_unit, exact=Fraction(row["exact"]) * size, slip=row.get("slip", "")
    )  # fmt: skip


def read_printed(text: str) -> tuple[Fraction, Fraction, Fraction]:
    """A printed value as (value, size of its unit, half a unit of its last decimal), all in the SI unit."""
    number, _, unit = text.partition(" ")
    size = unit_sizes[unit]
    decimals = len(number.partition(".")[2])
    return Fraction(number) * size, size, Fraction(1, 2 * 10**decimals) * size
