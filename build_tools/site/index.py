"""examples.json: every example of the site, for programs. Its form is told in examples.schema.json; keys are never taken away."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from build_tools.page.page import Page, sections


def write_index(pages: Iterable[Page]) -> str:
    """The whole file; examples in the order of their addresses, so that a change is one line of difference."""
    entries = [json.dumps(write_entry(page), ensure_ascii=False) for page in sorted(pages, key=lambda page: page.address)]
    return '{"$schema": "examples.schema.json", "version": 1, "examples": [\n' + ",\n".join(entries) + "\n]}\n"


def write_entry(page: Page) -> dict[str, Any]:
    """One example."""
    return {
        "address": page.address,
        "page": f"examples/{page.address}/",
        "title": page.title,
        "question": page.question,
        "level": page.level,
        "topics": list(page.topics),
        "asked": list(page.asked),
        "unknowns": page.unknowns,
        "kinds": list(page.kinds),
        "sections": [f"examples/{page.address}/#{name}" for name, _ in sections],
    }
