"""Lines of a lesson that ask for a part of an example.

    [:link-wire figure:]
    [:link-wire loop L2 flip=I1.I3:]

First the example, then what of it, then the choices a reader could make on its page, written as in its address.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from build_tools.circuit.problem import Problem, describe, did_you_mean, listed
from build_tools.page.parts import PartKind, takes_a_name

asking = re.compile(r"\[:(?P<asked>[^\[\]\n]*?):\]")
code_span = re.compile(r"(?<!`)(`+)(?!`).*?(?<!`)\1(?!`)")
fence = re.compile(r"^[ \t>]*(`{3,}|~{3,})")
options = ("flip", "leave-out", "walk")
example_of_use = "[:link-wire figure flip=I1:]"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """Where something is asked for."""

    line: int
    """Counted from 1."""
    column: int
    """Counted from 1."""
    text: str
    """The whole line."""
    start: int
    """In the text of the page."""
    end: int
    asked: str
    """What stands between the marks."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One part, asked for in words that can be understood; whether they are true is seen later."""

    example: str
    kind: PartKind
    name: str = ""
    """Of a loop or a current."""
    flip: tuple[str, ...] = ()
    leave_out: str = ""
    walk: str = ""
    """As it stands in an address."""

    @property
    def query(self) -> str:
        """The choices as the address of the example's page carries them."""
        chosen = {"flip": ".".join(self.flip), "leave-out": self.leave_out, "walk": self.walk}
        text = "&".join(f"{key}={value}" for key, value in chosen.items() if value)
        return f"?{text}" if text else ""


def find_spots(text: str) -> Iterator[Spot]:
    """Every place where a page asks for a part; code is passed over."""
    for spot, found in find_marked(text, asking):
        yield replace(spot, asked=found["asked"].strip())


def find_unfinished(text: str) -> Iterator[Problem]:
    """What was meant to ask for a part and would stand on the page as it is."""
    kinds = "|".join(PartKind)
    for spot, _ in find_marked(text, re.compile(rf"\[:(?![^\[\]\n]*:\])|^\s*\[[\w-]+ +(?:{kinds})\b[^\[\]\n]*\]\s*$")):
        yield fault(spot, f"a line such as {example_of_use}, with both colons", describe(spot.text[spot.column - 1 :].strip()))


def find_marked(text: str, pattern: re.Pattern[str]) -> Iterator[tuple[Spot, re.Match[str]]]:
    """Every place of a page that has a pattern, line by line; code is passed over."""
    open_fence, at = "", 0
    for number, line in enumerate(text.split("\n"), 1):
        marks = found[1] if (found := fence.match(line)) else ""
        if open_fence:
            open_fence = "" if marks.startswith(open_fence) else open_fence
        elif marks:
            open_fence = marks
        else:
            clear = code_span.sub(lambda code: " " * len(code[0]), line)
            for match in pattern.finditer(clear):
                spot = Spot(line=number, column=match.start() + 1, text=line, start=at + match.start(), end=at + match.end(), asked="")
                yield spot, match
        at += len(line) + 1


def read_asked(spot: Spot) -> Asked | Problem:
    """What is asked for, or what is wrong with the words."""
    example, *words = spot.asked.split() or [""]
    if not example or not words:
        return fault(spot, f"an example and a part of it, such as {example_of_use}", describe(spot.asked))
    kind, *rest = words
    if kind not in list(PartKind):
        kinds = list(map(str, PartKind))
        return fault(spot, f"a part: {listed(kinds, 'or')}", describe(kind), did_you_mean(kind, kinds))
    asked = Asked(example=example, kind=PartKind(kind))
    if asked.kind in takes_a_name:
        if not rest or "=" in rest[0]:
            return fault(spot, f"the name of a {kind} after “{kind}”", "none")
        asked = replace(asked, name=rest.pop(0))
    return read_options(spot, asked, rest)


def read_options(spot: Spot, asked: Asked, words: list[str]) -> Asked | Problem:
    """The same with the choices that follow."""
    for word in words:
        key, equals, value = word.partition("=")
        if not equals or not value:
            return fault(spot, "choices such as flip=I1.I3", describe(word), "write them without spaces: key=value")
        if key not in options:
            return fault(spot, f"a choice: {listed(options, 'or')}", describe(key), did_you_mean(key, options))
        if key == "flip" and "," in value:
            return fault(
                spot, "choices such as flip=I1.I3", describe(word), f"put dots between: {'.'.join(value.replace(',', ' ').split())}"
            )
        if key == "flip":
            asked = replace(asked, flip=tuple(dict.fromkeys(value.split("."))))
        elif key == "leave-out":
            asked = replace(asked, leave_out=value)
        else:
            asked = replace(asked, walk=value)
    return asked


def fault(spot: Spot, expected: str, found: str, way_out: str = "") -> Problem:
    """What is wrong at a spot."""
    return Problem(where=(), expected=expected, found=found, way_out=way_out, line=spot.line, column=spot.column, text=spot.text)
