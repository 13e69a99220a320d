"""Where each key of a TOML text stands, so that a fault can be shown at its line.

Python's own reader gives the values but not their places. This walk only ever sees text which that reader has accepted,
so it need not judge anything: it skips strings and brackets and notes the keys.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from build_tools.circuit.problem import KeyPath


@dataclass(frozen=True, slots=True)
class Position:
    """A place in the text: offsets of the key and of its value."""

    key: int
    value: int


blank = re.compile(r"(?:[ \t\n]|#[^\n]*)*")
string = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}' r"|'''.*?'{3,5}" r'|"(?:[^"\\\n]|\\.)*"' r"|'[^'\n]*'",
    re.DOTALL,
)
bare_key = re.compile(r"[A-Za-z0-9_-]+")
bare_value = re.compile(r"[^,\]}\n#]+")


def find_positions(text: str) -> dict[KeyPath, Position]:
    """The position of every key in a TOML text that is known to be right; elements of lists count as "0", "1", ..."""
    walk = Walk(text)
    walk.document()
    return walk.positions


def find_again(text: str) -> tuple[KeyPath, int, int] | None:
    """For a text whose last pair has a name for the second time: the name, where it stands again, and where first."""
    walk = Walk(text)
    walk.document()
    path, again = walk.last
    for length in range(len(path), 0, -1):
        first = walk.positions[path[:length]].key
        if first != again and text[first] != "[":
            return path[:length], again, first
    return None


class Walk:
    """One walk through a text; `at` is the offset reached, `last` the pair that was walked last and its offset."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.positions: dict[KeyPath, Position] = {}
        self.last: tuple[KeyPath, int] = ((), 0)

    def document(self) -> None:
        """Walk through tables and pairs up to the end."""
        table: KeyPath = ()
        while self.skip(blank) and self.at < len(self.text):
            if self.text[self.at] == "[":
                start = self.at
                self.at += 1 + self.text.startswith("[[", self.at)
                table = self.key()
                self.positions.setdefault(table, Position(start, start))
                self.at = self.text.find("]", self.at)
                self.at += 1 + self.text.startswith("]]", self.at)
            else:
                self.pair(table)

    def pair(self, table: KeyPath) -> None:
        """Walk through `key = value` and note where both stand."""
        start = self.at
        path = table + self.key()
        self.at += 1  # the equals sign
        self.skip(blank)
        for length in range(len(table) + 1, len(path) + 1):
            self.positions.setdefault(path[:length], Position(start, self.at))
        self.value(path)
        self.last = path, start

    def key(self) -> KeyPath:
        """Walk through a key, dotted or not, and the blanks round it."""
        names: list[str] = []
        while True:
            self.skip(blank)
            quoted = string.match(self.text, self.at)
            match = quoted or bare_key.match(self.text, self.at)
            assert match, "the TOML reader accepted a key that is none"
            names.append(match[0][1:-1] if quoted else match[0])
            self.at = match.end()
            self.skip(blank)
            if not self.text.startswith(".", self.at):
                return tuple(names)
            self.at += 1

    def value(self, path: KeyPath) -> None:
        """Walk through a value and note what stands in it."""
        if self.text[self.at] == "[":
            self.members(path, "]", keyed=False)
        elif self.text[self.at] == "{":
            self.members(path, "}", keyed=True)
        else:
            self.skip(string) or self.skip(bare_value)

    def members(self, path: KeyPath, closing: str, *, keyed: bool) -> None:
        """Walk through the members of a list or an inline table."""
        self.at += 1
        count = 0
        while self.skip(blank) and self.at < len(self.text) and not self.text.startswith(closing, self.at):
            if keyed:
                self.pair(path)
            else:
                self.positions[(*path, str(count))] = Position(self.at, self.at)
                self.value((*path, str(count)))
            count += 1
            self.skip(blank)
            self.at += self.text.startswith(",", self.at)
        self.at += 1

    def skip(self, kind: re.Pattern[str]) -> bool:
        """Walk past one token, and say whether it was there."""
        match = kind.match(self.text, self.at)
        self.at = match.end() if match else self.at
        return match is not None
