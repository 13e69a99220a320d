"""Parts of an example as they stand in lessons and embeds: which there are, and what is taken from a finished page."""

from __future__ import annotations

import json
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from markupsafe import Markup

from build_tools.figure.layout import Layout


class PartKind(StrEnum):
    """What a lesson may show of an example; each is the word that asks for it."""

    FIGURE = "figure"
    EQUATIONS = "equations"
    LOOP = "loop"
    ANSWERS = "answers"
    CURRENT = "current"
    CHECK = "check"
    CARD = "card"


takes_a_name = (PartKind.LOOP, PartKind.CURRENT)
"""Those that are asked for with the name of a loop or a current."""

section_of = {
    PartKind.FIGURE: "question",
    PartKind.EQUATIONS: "equations",
    PartKind.LOOP: "loops",
    PartKind.ANSWERS: "currents",
    PartKind.CURRENT: "currents",
    PartKind.CHECK: "your-turn",
    PartKind.CARD: "",
}
"""The section of the example's page that a part comes from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Where a part comes from, for the line below it."""

    href: str
    """The example's page, with the choices made and the section."""
    title: str
    summary: str


def inner(block: str) -> Markup:
    """What stands in a JSON block."""
    return Markup(block.partition(">")[2].rpartition("<")[0])


def read_layout(block: str) -> Layout:
    """The geometry of a figure, from the JSON block that its page carries."""
    kept: dict[str, Any] = json.loads(inner(block))
    return Layout(
        places={name: (x, y) for name, (x, y) in kept["places"].items()},
        routes={name: tuple((x, y) for x, y in route) for name, route in kept["routes"].items()},
        lines=tuple(tuple((x, y) for x, y in line) for line in kept["lines"]),
    )
