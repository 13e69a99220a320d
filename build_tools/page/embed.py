"""Light pages for other sites: an example or one part of it, without furniture, as large as what it shows.

Their sizes are known when they are written, since type and rows are fixed by a style sheet of their own.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from html import unescape
from math import ceil

from build_tools.figure.lettering import text_width
from build_tools.page.page import Page
from build_tools.page.rendering import render
from build_tools.page.standalone import way

whole = ("figure", "equations", "answers")
"""What the embed of a whole example shows."""
check = "check.html"
embeds = {
    "": whole,
    "figure.html": ("figure",),
    "equations.html": ("equations",),
    "loops.html": ("loop",),
    "answers.html": ("answers",),
    check: ("figure", "check"),
}
"""Below embed/NAME/ each address with the parts that it shows."""

named = {
    "figure.html": "figure",
    "equations.html": "equations",
    "loops.html": "loops",
    "answers.html": "answers",
    check: "check of own work",
}
"""What a part is called in the title of its frame."""

sheets = {"figure": ("figure",), "check": ("check",)}
"""The style sheets of a part; the others have formulas."""

edge = 12
"""Around everything, as in embed.css [px]."""
line_height = 24
row_height = 36
narrowest = 320
text_size = 16.0
form_height = {"first": 860, "row": 80, "keys": 47}
"""What the two forms of a check need: in any case, for each current, for each row of keys [px]. The first leaves room for one verdict."""
loose = 1.04
"""What serif type of the reader's own may need beyond the estimate."""


def part_html(page: Page, kind: str) -> str:
    """One part of a page; its figure stands there once already."""
    return render("embed-figure.html.jinja", {"figure": page.figure}).strip() if kind == "figure" else page.parts[kind]


def parts_shown(page: Page, name: str) -> tuple[str, ...]:
    """The parts that an address shows of this example: where no current flows there is nothing to check."""
    return tuple(kind for kind in embeds[name] if page.unknowns or kind != "check")


def measure(page: Page, name: str) -> tuple[int, int]:
    """Width and height that an embed needs [CSS px]."""
    html = {kind: part_html(page, kind) for kind in parts_shown(page, name) if kind != "check"}
    width = max(narrowest, *(natural_width(text) for text in html.values())) + 2 * edge
    height = sum(natural_height(text, width - 2 * edge) + edge for text in html.values())
    forms = check_height(page, width - 2 * edge) if "check" in parts_shown(page, name) else 0
    return width, height + forms + 2 * edge + 2 * line_height


def check_height(page: Page, width: int) -> int:
    """The two forms, with a verdict below one of them."""
    keys = ceil((page.unknowns + 9) / (width // 47))
    return form_height["first"] + page.unknowns * form_height["row"] + keys * form_height["keys"]


def natural_width(html: str) -> int:
    """The widest thing that is not broken into lines: the drawing, or a row of a table, or a formula."""
    drawn = [float(found) for found in re.findall(r'<svg[^>]* width="([\d.]+)"', html)]
    if drawn:
        return ceil(max(drawn))
    rows = [sum(row) + 16 * len(row) for row in table_rows(html)]
    formulas = [wide(found) + 48 for found in re.findall(r'<p class="equation">(.*?)</p>', html, re.S)]
    return ceil(max([0, *rows, *formulas]))


def table_rows(html: str) -> list[list[float]]:
    """For each row of each table the widths that its columns need."""
    made = []
    for table in re.findall(r"<table.*?</table>", html, re.S):
        rows = [
            [wide(cell) for cell in re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row, re.S)] for row in re.findall(r"<tr.*?</tr>", table, re.S)
        ]
        made.append([max(row[column] for row in rows if column < len(row)) for column in range(max(map(len, rows)))])
    return made


def natural_height(html: str, width: int) -> int:
    """Drawing, rows and lines, one below the other."""
    drawn = sum(float(found) for found in re.findall(r'<svg[^>]* height="([\d.]+)"', html))
    if drawn:
        return ceil(drawn)
    formulas = len(re.findall(r'<p class="equation">', html))
    texts = re.findall(r'<(?:li|p)(?: class="(?:part-walk|part-units)")?>(.*?)</(?:li|p)>', html, re.S)
    lines = sum(count_lines(plain(text), width - 20) for text in texts)
    tables = len(re.findall(r"<table", html))
    return (len(re.findall(r"<tr", html)) + formulas) * row_height + lines * line_height + (tables + len(texts) + formulas) * 6


def count_lines(text: str, width: float) -> int:
    """How many lines a text takes, broken between words."""
    lines, used = 1, 0.0
    for word in text.split(" "):
        room = text_width(f"{word} ", text_size)
        lines, used = (lines + 1, room) if used and used + room > width else (lines, used + room)
    return lines


def wide(html: str) -> float:
    """The width of a formula or a cell."""
    return text_width(plain(html), text_size) * loose


def plain(html: str) -> str:
    """The text of some HTML, with room about its signs."""
    return unescape(re.sub(r"<[^>]*>", "", html.replace("<mo>", " ").replace("</mo>", " "))).strip()


def write_embed(page: Page, name: str, *, site: str = "", modules: Sequence[str] = ()) -> str:
    """The light page of an example or of one part of it.

    Args:
        page: the example.
        name: which of its light pages.
        site: where the site is published; empty where that is not known.
        modules: the scripts that a check starts with, the one that loads the others first.
    """
    here, there = f"embed/{page.address}/{name}", f"examples/{page.address}/"
    part = name.removesuffix(".html")
    section = {"figure": "question", "answers": "currents", "check": "your-turn"}.get(part, part)
    kinds = parts_shown(page, name)
    context: dict[str, object] = {
        "title": page.title,
        "part": part,
        "parts": [part_html(page, kind) for kind in kinds],
        "sheets": [*sorted({sheet for kind in kinds for sheet in sheets.get(kind, ("mathematics",))}), "embed"],
        "modules": modules if "check" in kinds else (),
        "href": way(here, there) + (f"#{section}" if section else ""),
        "canonical": f"{site}{there}" if site else way(here, there),
        "root": way(here, ""),
    }
    return render("embed.html.jinja", context)


def embed_line(page: Page, name: str, *, site: str) -> str:
    """The line to copy into another site's page."""
    width, height = page.sizes[name]
    title = page.title + (f": {named[name]}" if name in named else "")
    context: dict[str, object] = {"address": f"{site}embed/{page.address}/{name}", "title": title, "width": width, "height": height}
    return render("embed-line.html.jinja", context).strip()
