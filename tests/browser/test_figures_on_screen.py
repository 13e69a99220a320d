"""The contact sheet in a real browser: readable on a phone, light and dark, in forced colours and on paper."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from selenium.webdriver import Chrome

import tests.browser.screen as screen
from build_tools.figure.figure import Figure, draw_figure
from tests.figure.contact_sheet import every_figure, sheet, write_sheet
from tests.figure.drawings import topology_of

LONG = "\n".join(
    [
        "[points]",
        *(f"p{number} = [{2 * number}, 0]\nq{number} = [{2 * number}, 2]" for number in range(7)),
        "[parts]",
        'E1 = { battery = "12.6 V", minus = "p0", plus = "q0" }',
        *(f'R{number} = {{ resistor = "470 ohm", between = ["p{number}", "q{number}"] }}' for number in range(1, 7)),
        *(f'W{number} = {{ wire = "bare", between = ["q{number - 1}", "q{number}"] }}' for number in range(1, 7)),
        "[drawing]",
        "joined = [",
        *(f'["p{number - 1}", "p{number}"],' for number in range(1, 7)),
        "]",
    ]
)
"""Wider than any phone."""

sizes_script = """
const faults = [];
for (const svg of document.querySelectorAll('.circuit-figure')) {
  const scale = svg.getScreenCTM().a, frame = svg.parentElement, name = frame.parentElement.id;
  for (const text of svg.querySelectorAll('text, tspan')) {
    if (!text.textContent.trim()) continue;
    const size = parseFloat(getComputedStyle(text).fontSize) * scale;
    if (size < (text.hasAttribute('font-size') ? 9.95 : 11.95)) faults.push(`${name}: ${text.textContent} is ${size.toFixed(1)} px high`);
  }
  const box = svg.getBoundingClientRect();
  if (box.width > frame.clientWidth + 1 && frame.scrollWidth < box.width - 1) faults.push(`${name}: cut off`);
  if (box.width > frame.clientWidth + 1 && frame.tabIndex !== 0) faults.push(`${name}: its frame cannot be reached by keyboard`);
  if (box.left < frame.getBoundingClientRect().left - 1) faults.push(`${name}: begins outside its frame`);
}
return [...new Set(faults)];
"""

faint_script = """
const canvas = document.createElement('canvas').getContext('2d', {willReadFrequently: true});
const known = new Map();
function light(colour) {
  if (!known.has(colour)) {
    canvas.clearRect(0, 0, 1, 1); canvas.fillStyle = colour; canvas.fillRect(0, 0, 1, 1);
    const part = x => (x /= 255) <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4;
    const [r, g, b] = canvas.getImageData(0, 0, 1, 1).data;
    known.set(colour, 0.2126 * part(r) + 0.7152 * part(g) + 0.0722 * part(b));
  }
  return known.get(colour);
}
const faults = new Set(), seen = new Set();
for (const section of document.querySelectorAll('section')) {
  const ground = light(getComputedStyle(section).backgroundColor);
  for (const shape of section.querySelectorAll('.circuit-figure :is(text, path:not(.hit), circle)')) {
    const style = getComputedStyle(shape);
    const ink = light(style.stroke === 'none' ? style.fill : style.stroke);
    const [low, high] = [ground, ink].sort((x, y) => x - y), contrast = (high + 0.05) / (low + 0.05);
    seen.add(contrast.toFixed(1));
    const least = shape.tagName === 'text' ? 4.5 : 3;
    if (contrast < least) faults.add(`${shape.tagName} in ${section.dataset.mdColorScheme}: ${contrast.toFixed(2)}`);
  }
}
return [[...faults], [...seen]];
"""

lit_script = """
for (const [number, group] of [...document.querySelectorAll('.circuit-figure g[class]')].entries()) {
  if (['part', 'label', 'polarity', 'arrow', 'loop', 'junction', 'point'].includes(group.getAttribute('class'))) group.classList.add('lit');
}
"""

weight_script = """
const looks = selector => {
  const style = getComputedStyle(document.querySelector(selector));
  return [style.stroke === 'none' ? 0 : parseFloat(style.strokeWidth), style.color];
};
const shapes = {
  part: '.part .lead', label: '.label text', polarity: '.polarity .plus',
  arrow: '.arrow .head', loop: '.loop .ring', junction: '.junction .dot',
};
return Object.entries(shapes).map(([kind, shape]) => [kind, ...looks('.circuit-figure ' + shape)]);
"""


@pytest.fixture(scope="module")
def figures() -> dict[str, Figure]:
    """Every figure, and one that fits no phone."""
    return {**every_figure(), "long": draw_figure(topology_of(LONG))}


@pytest.fixture
def page(browser: Chrome, figures: dict[str, Figure]) -> Iterator[Path]:
    """The contact sheet, left behind where it can be looked at; the browser as it was afterwards."""
    yield write_sheet(sheet, figures).resolve()
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "", "features": []})
    screen.resize(browser, 1280)


def emulate(browser: Chrome, media: str = "", **features: str) -> None:
    """Make the browser believe in another medium."""
    asked = [{"name": name.replace("_", "-"), "value": value} for name, value in features.items()]
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": media, "features": asked})


def test_text_on_a_phone_is_large_enough_and_nothing_is_cut_off(browser: Chrome, page: Path, figures: dict[str, Figure]) -> None:
    """At 360 px text is 12 px or more, subscripts 10; what is too wide for that scrolls in its own frame, never the page."""
    screen.resize(browser, 360)
    browser.get(page.as_uri())
    assert figures["long"].width > 500
    assert browser.execute_script(sizes_script) == []
    assert browser.execute_script("return document.documentElement.scrollWidth") <= 360


def test_measure_sees_small_text_and_cut_edges(browser: Chrome, page: Path) -> None:
    """The measure itself: without the least width, and with a frame that hides what is too wide, it complains."""
    screen.resize(browser, 360)
    browser.get(page.as_uri())
    browser.execute_script("for (const svg of document.querySelectorAll('svg')) svg.style.minWidth = '0'")
    assert any("px high" in fault for fault in browser.execute_script(sizes_script))
    browser.execute_script("for (const svg of document.querySelectorAll('svg')) svg.style.cssText = 'position: relative; left: -30px'")
    assert any("outside" in fault for fault in browser.execute_script(sizes_script))


def test_a_figure_that_scrolls_shows_its_edges(browser: Chrome, page: Path) -> None:
    """The shade at an edge goes away where the figure ends: the frame's paper moves with the figure, its shade does not."""
    screen.resize(browser, 360)
    browser.get(page.as_uri())
    frame = "document.getElementById('long default').lastElementChild"
    attachments = browser.execute_script(f"return getComputedStyle({frame}).backgroundAttachment")
    assert attachments == "local, local, scroll, scroll"
    assert browser.execute_script(f"return {frame}.scrollWidth > {frame}.clientWidth")


@pytest.mark.parametrize("lit", [False, True])
@pytest.mark.parametrize(
    "features",
    [{}, {"forced_colors": "active", "prefers_color_scheme": "dark"}, {"forced_colors": "active", "prefers_color_scheme": "light"}],
)
def test_ink_stands_out_from_its_ground(browser: Chrome, page: Path, features: dict[str, str], lit: bool) -> None:
    """Letters at least 4.5 to 1, lines at least 3 to 1: light, dark and with colours forced, lit or not."""
    emulate(browser, **features)
    browser.get(page.as_uri())
    if lit:
        browser.execute_script(lit_script)
    faults, seen = browser.execute_script(faint_script)
    assert faults == []
    assert seen


@pytest.mark.parametrize("features", [{}, {"forced_colors": "active"}])
def test_what_is_lit_differs_by_weight_and_by_colour(browser: Chrome, page: Path, features: dict[str, str]) -> None:
    """Every kind of thing grows heavier when it is lit, also where colours are forced."""
    emulate(browser, **features)
    browser.get(page.as_uri())
    plain = {kind: (weight, colour) for kind, weight, colour in browser.execute_script(weight_script)}
    browser.execute_script(lit_script)
    for kind, weight, colour in browser.execute_script(weight_script):
        assert weight >= plain[kind][0] + 0.7, kind
        assert colour != plain[kind][1], kind


def test_letters_keep_their_places_when_they_are_lit(browser: Chrome, page: Path) -> None:
    """A lit name is heavier and not wider, so nothing can touch that did not touch before."""
    browser.get(page.as_uri())
    widths = "return [...document.querySelectorAll('.label text')].map(text => text.getComputedTextLength())"
    before = browser.execute_script(widths)
    browser.execute_script(lit_script)
    assert browser.execute_script(widths) == before


def test_on_paper_figures_are_black_on_white(browser: Chrome, page: Path) -> None:
    """Printed from dark paper too, and never wider than the paper's column of 178 mm."""
    screen.resize(browser, 673)
    emulate(browser, media="print")
    browser.get(page.as_uri())
    colours = "return [...new Set([...document.querySelectorAll('.circuit-figure')].map(svg => getComputedStyle(svg).color))]"
    widest = "return Math.max(...[...document.querySelectorAll('.circuit-figure')].map(svg => svg.getBoundingClientRect().width))"
    papers = "return [...new Set([...document.querySelectorAll('section')].map(each => getComputedStyle(each).backgroundColor))]"
    assert browser.execute_script(colours) == ["rgb(0, 0, 0)"]
    assert browser.execute_script(papers) == ["rgb(255, 255, 255)"]
    assert browser.execute_script(widest) <= 673
