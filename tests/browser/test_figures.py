"""Figures measured in a real browser: no text touches another text, a line, a body or the border, in several fonts."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest
from selenium.webdriver import Chrome

from build_tools.figure.figure import draw_figure
from tests.figure.drawings import CROSSED, EVERY_KIND, WHEATSTONE, example, examples, figure_of, topology_of

published = tuple(sorted(Path("tests/published/circuits").glob("*.toml")))

measure = """
const faults = [];
const inside = (box, x, y, r) => x + r > box.left && x - r < box.right && y + r > box.top && y - r < box.bottom;
function trace(shape) {
  const matrix = shape.getScreenCTM(), length = shape.getTotalLength(), spots = [];
  for (let at = 0; at <= length; at += 1.5) {
    const spot = shape.getPointAtLength(at).matrixTransform(matrix);
    spots.push([spot.x, spot.y]);
  }
  return spots;
}
for (const svg of document.querySelectorAll('svg')) {
  const name = svg.parentElement.id, frame = svg.getBoundingClientRect();
  const owner = element => element.closest('g[data-part], g[data-junction], g[data-point], g[data-current], g[data-loop]') || element;
  const say = element => `${owner(element).getAttribute('class')} ${Object.values(owner(element).dataset || {})[0]}`;
  const texts = [...svg.querySelectorAll('text')].map(text => [text, text.getBoundingClientRect()]);
  for (const [text, box] of texts) {
    if (box.left < frame.left || box.top < frame.top || box.right > frame.right || box.bottom > frame.bottom) faults.push(`${name}: ${say(text)} beyond the border`);
    for (const [other, beside] of texts) {
      if (owner(other) === owner(text)) continue;
      if (box.left < beside.right && beside.left < box.right && box.top < beside.bottom && beside.top < box.bottom) faults.push(`${name}: ${say(text)} on ${say(other)}`);
    }
  }
  const shapes = [...svg.querySelectorAll('path:not(.hit), circle')].map(shape => [shape, trace(shape)]);
  for (const [shape, spots] of shapes) {
    for (const [text, box] of texts) {
      if (owner(text) === owner(shape)) continue;
      if (spots.some(([x, y]) => inside(box, x, y, 1))) faults.push(`${name}: ${say(text)} on ${say(shape)}`);
    }
    for (const [other, others] of shapes) {
      if (owner(other) === owner(shape) || !['loop', 'polarity'].includes(owner(shape).getAttribute('class'))) continue;
      if (others.some(([x, y]) => spots.some(([u, v]) => Math.hypot(x - u, y - v) < 2.5))) faults.push(`${name}: ${say(shape)} on ${say(other)}`);
    }
  }
}
return [...new Set(faults)];
"""


def write_page(folder: Path, font: str) -> Path:
    """A page with every figure that the tests know, in one font."""
    page = ElementTree.Element("html")
    ElementTree.SubElement(ElementTree.SubElement(page, "head"), "meta", charset="utf-8")
    body = ElementTree.SubElement(page, "body", style=f"font-family: {font}")
    figures = {path.stem: figure_of(path) for path in examples}
    figures |= {path.stem: draw_figure(example(path)) for path in published}
    figures |= {str(number): draw_figure(topology_of(text)) for number, text in enumerate((CROSSED, EVERY_KIND, WHEATSTONE))}
    ElementTree.register_namespace("", "http://www.w3.org/2000/svg")
    for name, figure in figures.items():
        ElementTree.SubElement(body, "div", id=name).append(ElementTree.fromstring(figure.svg))
    target = folder / "figures.html"
    target.write_text("<!doctype html>" + ElementTree.tostring(page, encoding="unicode", method="html"), encoding="utf-8")
    return target


@pytest.mark.parametrize("font", ["Liberation Sans", "DejaVu Sans", "Liberation Serif", "DejaVu Serif"])
def test_nothing_touches_anything_in_the_browser(browser: Chrome, tmp_path: Path, font: str) -> None:
    """Real boxes of texts and real points of lines, in narrow and in wide fonts."""
    browser.get(write_page(tmp_path, font).as_uri())
    assert browser.execute_script(measure) == []
