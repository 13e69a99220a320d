"""Sentences as markup: the light marks in them become elements, and what fills their places stays as it is set."""

from __future__ import annotations

import re

from markupsafe import Markup, escape

from build_tools.circuit.sentences import find_sentence

marks = (
    (re.compile(r"\*\*(.+?)\*\*"), r"<strong>\1</strong>"),
    (re.compile(r"\*(.+?)\*"), r"<em>\1</em>"),
    (re.compile(r"\[(.+?)\]\((#[\w-]+)\)"), r'<a href="\2">\1</a>'),
)
"""`**strong**`, `*stressed*` and `[a section](#id)`: all that a sentence may carry."""


def tell(key: str, **values: object) -> Markup:
    """A sentence with its places filled, as safe markup: values are escaped unless they are markup already."""
    text = str(escape(find_sentence(key, values.get("count"))))
    for mark, element in marks:
        text = mark.sub(element, text)
    return Markup(text).format(**values)
