"""What stands below an example: where to go from here, and the lines that put it into a lesson or another site."""

from __future__ import annotations

from collections.abc import Sequence

from build_tools.page.embed import check, embed_line
from build_tools.page.page import Page
from build_tools.page.rendering import render


def render_onward(page: Page, related: Sequence[tuple[str, Page]], *, site: str) -> str:
    """The block, with each related example after the word that says how it is related."""
    context: dict[str, object] = {
        "related": [(step, f"../{other.address}/", other.title) for step, other in related],
        "address": f"{site}examples/{page.address}/",
        "lesson_line": f"[:{page.address} figure:]",
        "embed_line": embed_line(page, "", site=site),
        "check_line": embed_line(page, check, site=site) if page.unknowns else "",
        "guide": "../../guide/linking/#elsewhere",
    }
    return render("onward.html.jinja", context)
