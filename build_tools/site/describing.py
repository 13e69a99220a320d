"""What theme and search learn of an example: the theme escapes nothing, and the search sees only the skeleton."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup, escape

from build_tools.circuit.numeral import SPACE
from build_tools.page.page import Page


def describe(page: Page) -> dict[str, object]:
    """An example's title, summary, topics and ideas, escaped."""
    return {
        "title": escape(page.title),
        "description": escape(page.summary),
        "tags": [escape(topic) for topic in dict.fromkeys((*page.topics, *page.ideas))],
    }


def with_search_text(page: Page) -> str:
    """The skeleton with the words by which the search finds an example, unseen on its page."""
    words = " · ".join([page.summary, *gather_values(page.values)])
    return page.markdown.replace("\n## ", Markup("\n<p hidden>{}</p>\n\n## ").format(words), 1)


def gather_values(values: Iterable[str]) -> list[str]:
    """The values of each unit, with the unit as it is shown and as it can be typed: 1, 4.7 kΩ · kohm."""
    numbers: dict[str, list[str]] = {}
    for value in values:
        number, _, unit = value.partition(SPACE)
        numbers.setdefault(unit, []).append(number)
    return [f"{', '.join(each)} {unit}" + (f" · {unit.replace('Ω', 'ohm')}" if "Ω" in unit else "") for unit, each in numbers.items()]
