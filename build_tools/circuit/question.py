"""The question of an example: Markdown that is shown on several pages."""

from __future__ import annotations

import re

from build_tools.circuit.getter import Getter
from build_tools.circuit.problem import describe

link = re.compile(r"\]\(\s*<?(?P<to>[^)\s>]+)")
stands_anywhere = re.compile(r"#|[a-zA-Z][a-zA-Z0-9+.-]*:")


def read_question(get: Getter, value: object) -> str:
    """The question, with every link noted that would lead to different places from different pages."""
    text = get.text(value, ("question",), "a question in quotes")
    for found in link.finditer(text):
        if not stands_anywhere.match(found["to"]):
            way_out = "the question stands on several pages, also on other sites, and a link must lead to one place from all of them"
            get.note(("question",), "links that begin with https://, or with # for a section", describe(found["to"]), way_out)
    return text


def own_links(question: str) -> tuple[str, ...]:
    """The ids of its own page that a question links to."""
    return tuple(found["to"][1:] for found in link.finditer(question) if found["to"][:1] == "#" != found["to"])
