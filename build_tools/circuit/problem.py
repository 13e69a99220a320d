"""What is wrong with a circuit file: one `Problem` per fault, and the error that carries all of them.

A problem names the key it is about, what was expected there, what was found, and a way out. It knows nothing of lines:
`source.py` adds the line and the caret when the report is written.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from build_tools.circuit.circuit import Circuit

nearness = 0.7
"""How alike a word and a guess must be; less, and a guess would lead to the opposite (on, open) as often as to the right one."""

type_words = {str: "text", bool: "true or false", int: "a number", float: "a number", list: "a list", dict: "a table"}

KeyPath = tuple[str, ...]
"""The way to a value in the file, outermost key first: ("parts", "R1", "resistor")."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One fault of one file."""

    where: KeyPath
    """The key at fault; empty where the file as a whole is meant."""
    expected: str
    """What would have been right, as a noun phrase."""
    found: str
    """What stands there instead, as a noun phrase."""
    way_out: str = ""
    """A sentence that gets the author on; empty where `expected` says it all."""
    at_key: bool = False
    """Whether the key itself is at fault, not its value."""
    line: int = 0
    """The line where no key can name the place (a file that is not TOML); else 0."""
    column: int = 0
    """The column, counted from 1, that goes with `line`; else 0."""
    text: str = ""
    """The line as it stands, where it goes with `line`."""
    comes_first: bool = False
    """Whether it is told before all others, wherever it stands: what would be dangerous to try."""

    def __str__(self) -> str:
        where = ".".join(self.where) or "file"
        return f"{where}: expected {self.expected}, got {self.found}" + (f"; {self.way_out}" if self.way_out else "")


class CircuitError(Exception):
    """A circuit that cannot be used. Whoever catches it has every fault of it in `problems`, never only the first.

    `circuit` is the circuit all the same, where the faults leave its parts and their ends as the author wrote them.
    """

    def __init__(self, problems: Iterable[Problem], circuit: Circuit | None = None) -> None:
        self.problems, self.circuit = tuple(problems), circuit
        super().__init__("\n".join(map(str, self.problems)))


def find_near(word: str, known: Iterable[str]) -> str:
    """The nearest known word, or nothing where none is near."""
    lowered = {name.lower(): name for name in known}
    near = get_close_matches(word.lower(), lowered, n=1, cutoff=nearness)
    return lowered[near[0]] if near else ""


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Offer the nearest known word as a question, or nothing where none is near."""
    near = find_near(word, known)
    return f'did you mean "{near}"?' if near else ""


def is_misspelt(table: Iterable[str], key: str) -> bool:
    """Whether a key is missing because another one, reported already, was meant to be it."""
    return key not in table and any(did_you_mean(other, [key]) for other in table)


def describe(value: object) -> str:
    """Name a value of the file in the author's words: text in quotes, anything else by what it is."""
    if isinstance(value, str):
        return f'"{shorten(value)}"'
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list | dict):
        word = type_words[type(value)]
        return f"an empty {word.split()[-1]}" if not value else word
    if value is None:
        return "nothing"
    return f"the bare value {shorten(str(value))}"


def shorten(text: str, limit: int = 60) -> str:
    """Cut text for a message, so that a fault never floods the screen."""
    shown = "".join(letter if letter.isprintable() else "·" for letter in text[: limit + 1])
    return shown if len(shown) <= limit else shown[:limit] + "…"


def listed(names: Sequence[str], last: str = "and") -> str:
    """Write names as a sentence does: "E1", "E1 and W1", "E1, R2 and W1"."""
    return f" {last} ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))
