"""Small questions to a running browser."""

from __future__ import annotations

import json
from pathlib import Path
from urllib.parse import urljoin

from selenium.webdriver import Chrome

contrast_script = """
const canvas = document.createElement('canvas').getContext('2d', {willReadFrequently: true});
function rgba(colour) {
  canvas.clearRect(0, 0, 1, 1); canvas.fillStyle = colour; canvas.fillRect(0, 0, 1, 1);
  return [...canvas.getImageData(0, 0, 1, 1).data];
}
function light([r, g, b]) {
  const part = x => (x /= 255) <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4;
  return 0.2126 * part(r) + 0.7152 * part(g) + 0.0722 * part(b);
}
function ground(element) {
  for (let e = element; e; e = e.parentElement) {
    const colour = rgba(getComputedStyle(e).backgroundColor);
    if (colour[3] > 250) return colour;
  }
  return [255, 255, 255, 255];
}
const faint = [];
for (const element of document.querySelectorAll('body *')) {
  const text = [...element.childNodes].filter(n => n.nodeType === 3).map(n => n.data).join('').trim();
  if (!text || !element.checkVisibility({opacityProperty: true, visibilityProperty: true})) continue;
  if (['SCRIPT', 'STYLE', 'OPTION'].includes(element.tagName) || element.closest('.headerlink')) continue;
  const style = getComputedStyle(element);
  const ink = rgba(element.namespaceURI.endsWith('svg') ? style.fill : style.color);
  const [a, b] = [light(ink), light(ground(element))].sort((x, y) => y - x);
  if (ink[3] < 250 || (a + 0.05) / (b + 0.05) < 4.5) faint.push([text.slice(0, 40), style.color, ((a + 0.05) / (b + 0.05)).toFixed(2)]);
}
return faint;
"""

figure_text_script = """
const sizes = [...document.querySelectorAll('.circuit-figure text')].map(text => {
  const scale = text.getScreenCTM();
  return parseFloat(getComputedStyle(text).fontSize) * Math.hypot(scale.a, scale.b);
});
return sizes.length ? Math.min(...sizes) : 0;
"""


def resize(browser: Chrome, width: int) -> None:
    """Make the window a phone or a desk, by its width [CSS px]."""
    size = {"width": width, "height": 800, "deviceScaleFactor": 1, "mobile": width < 700}
    browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)


def leave(browser: Chrome, host: str) -> None:
    """To a page without scripts of the same host: for every other host a browser starts a process anew, which takes a second."""
    browser.get(urljoin(host, "/embed/link-wire/answers.html"))


def prefer(browser: Chrome, scheme: str) -> None:
    """Let the device prefer light or dark."""
    features = [{"name": "prefers-color-scheme", "value": scheme}]
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": features})


def requests(browser: Chrome) -> tuple[str, ...]:
    """The addresses asked for since the last call."""
    events = [json.loads(entry["message"])["message"] for entry in browser.get_log("performance")]
    return tuple(event["params"]["request"]["url"] for event in events if event["method"] == "Network.requestWillBeSent")


def console(browser: Chrome) -> tuple[str, ...]:
    """What the console said since the last call."""
    return tuple(entry["message"] for entry in browser.get_log("browser"))


def an_example(site: Path) -> str:
    """The path of one example, always the same one, that has an example after it."""
    listed = (site / "examples/index.html").read_text(encoding="utf-8")
    address = listed.split('class="catalogue-link" href="', 1)[1].split('"', 1)[0]
    return f"examples/{address}"


def faint_texts(browser: Chrome) -> list[list[str]]:
    """Visible texts whose contrast with their ground is below 4.5 to 1."""
    return list(browser.execute_script(contrast_script))


def smallest_figure_text(browser: Chrome) -> float:
    """Height of the smallest type in the page's figures [CSS px]; 0 where there is none."""
    return float(browser.execute_script(figure_text_script))
