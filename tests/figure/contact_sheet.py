"""The contact sheet: every figure at the width of a phone's column, light and dark, in the site's own styles.

Run `python -m tests.figure.contact_sheet` and look at `.cache/contact-sheet.html`; the browser tests measure the same page.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from xml.etree import ElementTree
from xml.etree.ElementTree import Element, SubElement

from build_tools.figure.figure import Figure, draw_figure
from tests.figure.drawings import CROSSED, EVERY_KIND, WHEATSTONE, examples, figure_of, topology_of

styles = Path("docs/assets/stylesheets")
published = tuple(sorted(Path("tests/published/circuits").glob("*.toml")))
sheet = Path(".cache/contact-sheet.html")
layout = """
html { font-size: 20px; }
body { margin: 0; }
section { display: flex; flex-wrap: wrap; gap: 1rem; padding: 0 0.8rem 1rem; background: var(--paper); color: var(--ink); }
section > div { width: 328px; max-width: 100%; }
section p { margin: 0; font: 10px monospace; }
"""


@cache
def every_figure() -> dict[str, Figure]:
    """The figures of the examples, of the published circuits and of some that nobody should draw."""
    bodies = {"crossed": CROSSED, "every-kind": EVERY_KIND, "diagonals": WHEATSTONE}
    other = topology_of(EVERY_KIND)
    return {
        **{path.stem: figure_of(path) for path in (*examples, *published)},
        **{name: draw_figure(topology_of(text)) for name, text in bodies.items()},
        "other-customs": draw_figure(other, resistors="rectangle", batteries="several cells"),
    }


def write_sheet(target: Path, figures: Mapping[str, Figure], schemes: tuple[str, ...] = ("default", "slate")) -> Path:
    """Write the sheet, one section for each scheme."""
    ElementTree.register_namespace("", "http://www.w3.org/2000/svg")
    page = Element("html", lang="en")
    head, body = SubElement(page, "head"), SubElement(page, "body")
    SubElement(head, "meta", charset="utf-8")
    SubElement(head, "meta", name="viewport", content="width=device-width")
    for name in ("palette", "palette-dark", "paper", "figure", "print"):
        SubElement(head, "link", rel="stylesheet", href=(styles / f"{name}.css").resolve().as_uri())
    SubElement(head, "style").text = layout
    for scheme in schemes:
        section = SubElement(body, "section", {"class": "md-typeset", "data-md-color-scheme": scheme})
        for name, figure in figures.items():
            place = SubElement(section, "div", id=f"{name} {scheme}")
            SubElement(place, "p").text = f"{name} {figure.width} x {figure.height}"
            SubElement(place, "div", {"class": "figure-frame", "tabindex": "0"}).append(ElementTree.fromstring(figure.svg))
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text("<!doctype html>" + ElementTree.tostring(page, encoding="unicode", method="html"), encoding="utf-8")
    return target


if __name__ == "__main__":
    print(write_sheet(sheet, every_figure()))
