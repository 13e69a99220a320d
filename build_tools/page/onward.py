"""What stands below an example: where to go from here, and the lines that put it into a lesson or another site."""

from __future__ import annotations

from collections.abc import Sequence

from build_tools.page.embed import check, embed_line
from build_tools.page.page import Page
from build_tools.page.rendering import render

offered = {
    "": "On a page of another site:",
    "figure.html": "Its figure:",
    "equations.html": "Its equation set:",
    "loops.html": "Its loops:",
    "answers.html": "Its answers:",
    check: "A check of own work:",
}
"""What is offered for other sites, by its address below embed/NAME/, and the words above the line to copy."""

still = ("", "figure.html")
"""What there is also where no current flows."""


def render_onward(page: Page, related: Sequence[tuple[str, Page]], *, site: str) -> str:
    """The block, with each related example after the word that says how it is related."""
    context: dict[str, object] = {
        "related": [(step, f"../{other.address}/", other.title) for step, other in related],
        "topics": page.topics,
        "address": f"{site}examples/{page.address}/",
        "lesson_line": f"[:{page.address} figure:]",
        "embed_lines": [(said, embed_line(page, name, site=site)) for name, said in offered.items() if page.unknowns or name in still],
        "guide": "../../guide/linking/#elsewhere",
    }
    return render("onward.html.jinja", context)
