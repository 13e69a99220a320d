"""Figures measured in a real browser: no text touches another text, a line, a body or the border, in several fonts."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest
from selenium.webdriver import Chrome

from tests.figure.contact_sheet import every_figure
from tests.figure.drawings import examples

measure = """
const faults = new Set();
const meet = (one, other, margin = 0) => one.left < other.right + margin && other.left < one.right + margin
  && one.top < other.bottom + margin && other.top < one.bottom + margin;
const inside = (box, [x, y]) => x + 1 > box.left && x - 1 < box.right && y + 1 > box.top && y - 1 < box.bottom;
function trace(shape) {
  const matrix = shape.getScreenCTM(), length = shape.getTotalLength(), spots = [];
  for (let at = 0; at <= length; at += 1.5) {
    const spot = shape.getPointAtLength(at).matrixTransform(matrix);
    spots.push([spot.x, spot.y]);
  }
  return spots;
}
const named = 'g[data-part], g[data-junction], g[data-point], g[data-current], g[data-loop]';
const owner = element => element.closest(named) || element;
const say = element => `${owner(element).getAttribute('class')} ${Object.values(owner(element).dataset)[0]}`;
for (const svg of document.querySelectorAll('svg')) {
  const tell = (one, other) => faults.add(`${svg.parentElement.id}: ${say(one)} on ${say(other)}`);
  const frame = svg.getBoundingClientRect();
  const boxed = element => ({element, group: owner(element), box: element.getBoundingClientRect()});
  const texts = [...svg.querySelectorAll('text')].map(boxed);
  const shapes = [...svg.querySelectorAll('path:not(.hit), circle')].map(boxed);
  for (const shape of shapes) shape.spots = trace(shape.element);
  for (const text of texts) {
    const {left, top, right, bottom} = text.box;
    if (left < frame.left || top < frame.top || right > frame.right || bottom > frame.bottom) tell(text.element, svg);
    for (const other of texts) if (other.group !== text.group && meet(text.box, other.box)) tell(text.element, other.element);
    for (const shape of shapes) {
      if (shape.group === text.group || !meet(text.box, shape.box, 2)) continue;
      if (shape.spots.some(spot => inside(text.box, spot))) tell(text.element, shape.element);
    }
  }
  for (const mark of shapes.filter(each => ['loop', 'polarity'].includes(each.group.getAttribute('class')))) {
    for (const shape of shapes) {
      if (shape.group === mark.group || !meet(mark.box, shape.box, 3)) continue;
      const near = ([x, y]) => mark.spots.some(([u, v]) => Math.hypot(x - u, y - v) < 2.5);
      if (shape.spots.some(near)) tell(mark.element, shape.element);
    }
  }
}
return [...faults];
"""


def write_page(folder: Path, font: str) -> Path:
    """A page with every figure that the tests know, in one font."""
    page = ElementTree.Element("html")
    ElementTree.SubElement(ElementTree.SubElement(page, "head"), "meta", charset="utf-8")
    body = ElementTree.SubElement(page, "body", style=f"font-family: {font}")
    ElementTree.register_namespace("", "http://www.w3.org/2000/svg")
    for name, figure in every_figure().items():
        ElementTree.SubElement(body, "div", id=name).append(ElementTree.fromstring(figure.svg))
    target = folder / "figures.html"
    target.write_text("<!doctype html>" + ElementTree.tostring(page, encoding="unicode", method="html"), encoding="utf-8")
    return target


@pytest.mark.parametrize("font", ["Liberation Sans", "DejaVu Sans", "Liberation Serif", "DejaVu Serif"])
def test_nothing_touches_anything_in_the_browser(browser: Chrome, tmp_path: Path, font: str) -> None:
    """Real boxes of texts and real points of lines, in narrow and in wide fonts."""
    browser.get(write_page(tmp_path, font).as_uri())
    assert browser.execute_script("return document.querySelectorAll('svg').length") > len(examples)
    assert browser.execute_script(measure) == []


def test_measure_sees_what_touches(browser: Chrome, tmp_path: Path) -> None:
    """The measure itself: letters made larger do touch."""
    browser.get(write_page(tmp_path, "DejaVu Sans").as_uri())
    browser.execute_script("for (const svg of document.querySelectorAll('svg')) svg.setAttribute('font-size', '22')")
    faults = browser.execute_script(measure)
    for kind in ("on label", "on part", "on loop", "on circuit-figure"):
        assert any(kind in fault for fault in faults), kind
