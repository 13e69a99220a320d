"""A student at a phone: its size, real touches, keys, and what is where on its screen."""

from __future__ import annotations

from selenium.webdriver import ActionChains, Chrome
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.select import Select
from selenium.webdriver.support.wait import WebDriverWait

from tests.browser import screen

FIVE = ("bilge-pump-two-banks", "frost-bridge", "link-wire", "three-banks", "neutral-wire")
"""Batteries with internal resistance, kΩ and mA, a bare wire, three loops of batteries, and the largest one."""

covered_script = """
const element = arguments[0] ?? document.activeElement;
const box = element.getBoundingClientRect();
const covers = [...document.querySelectorAll('figure-pin.stuck > figure-viewer, .step-bar:not([hidden]), .md-header')];
const free = innerHeight - covers.reduce((sum, cover) => sum + cover.getBoundingClientRect().height, 0);
return covers.filter(cover => !cover.contains(element) && !element.contains(cover)).filter(cover => {
  const over = cover.getBoundingClientRect();
  if (box.height > free && over.top > box.top + 44) return false; // Its beginning can be seen; all of it never could.
  return box.width && box.left < over.right - 1 && over.left < box.right - 1 && box.top < over.bottom - 1 && over.top < box.bottom - 1;
}).map(cover => `${element.tagName}.${element.className} ${element.textContent.slice(0, 30)} under ${cover.className || cover.tagName}`);
"""

shift_script = """
const done = arguments[0];
new PerformanceObserver(list => done(list.getEntries().reduce((sum, entry) => sum + (entry.hadRecentInput ? 0 : entry.value), 0)))
  .observe({type: 'layout-shift', buffered: true});
setTimeout(() => done(0), 500);
"""


def hold(browser: Chrome, width: int = 360, height: int = 740) -> None:
    """Make the screen a phone's, with touch."""
    size = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": True}
    browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)
    browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": True})


def let_go(browser: Chrome) -> None:
    """No touch any more."""
    browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": False})


def open_page(browser: Chrome, address: str) -> None:
    """Open an example, move it a little, as a thumb does, and wait until its scripts are there."""
    screen.leave(browser, address)
    browser.get(address)
    browser.execute_script("dispatchEvent(new Event('scroll'))")
    wait_for(browser, ".figure-pin-button")
    wait_until_calm(browser)


def wait_until_calm(browser: Chrome) -> None:
    """Wait while a tap waits for its scripts."""
    WebDriverWait(browser, 10, 0.02).until(lambda _: not find_all(browser, "[aria-busy]"), "scripts for a tap")


def wait_for(browser: Chrome, selector: str) -> None:
    """Wait until there is such an element."""
    WebDriverWait(browser, 10, 0.02).until(lambda _: find_all(browser, selector), selector)


def find(browser: Chrome, selector: str) -> WebElement:
    """The first element of a selector."""
    return browser.find_element(By.CSS_SELECTOR, selector)


def find_all(browser: Chrome, selector: str) -> list[WebElement]:
    """Every element of a selector."""
    return browser.find_elements(By.CSS_SELECTOR, selector)


def tap(browser: Chrome, element: WebElement) -> None:
    """A finger on the middle of an element, brought into sight first."""
    browser.execute_script("arguments[0].scrollIntoView({block: 'center', inline: 'center'})", element)
    spot = browser.execute_script(
        "const {x, y, width, height} = arguments[0].getBoundingClientRect(); return [x + width / 2, y + height / 2]", element
    )
    clicks = browser.execute_script("return window.clicks ??= (addEventListener('click', () => (window.clicks += 1), true), 0)")
    touch(browser, *spot)
    WebDriverWait(browser, 10, 0.02).until(lambda _: browser.execute_script(f"return window.clicks > {clicks}"), "a click")
    wait_until_calm(browser)


def touch(browser: Chrome, x: float, y: float) -> None:
    """A finger on a spot of the screen [CSS px]."""
    browser.execute_cdp_cmd("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    browser.execute_cdp_cmd("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def press(browser: Chrome, *keys: str) -> None:
    """Keys, one after the other, wherever the focus is."""
    for key in keys:
        ActionChains(browser).send_keys(key).perform()
    wait_until_calm(browser)


def press_back(browser: Chrome) -> None:
    """The tab key, backwards."""
    ActionChains(browser).key_down(Keys.SHIFT).send_keys(Keys.TAB).key_up(Keys.SHIFT).perform()


def covered(browser: Chrome, element: WebElement | None = None) -> list[str]:
    """What covers an element, or else what has the focus."""
    return list(browser.execute_script(covered_script, element))


def lit(browser: Chrome) -> set[str]:
    """The names that are lit in the figure."""
    script = "return [...document.querySelectorAll('.figure-frame svg .lit')].map(each => Object.values(each.dataset)[0])"
    return set(browser.execute_script(script))


def shift(browser: Chrome) -> float:
    """How much of the page moved by itself since it was opened; 0 where nothing did."""
    return float(browser.execute_async_script(shift_script))


def sideways(browser: Chrome) -> int:
    """How far the page sticks out of the screen [CSS px]."""
    # A phone's layout grows with what sticks out; the screen does not.
    return int(browser.execute_script("return document.documentElement.scrollWidth - Math.round(visualViewport.width)"))


def enlarge(browser: Chrome) -> None:
    """Text of twice the size, as the reader's browser would have it."""
    browser.execute_script("document.documentElement.style.fontSize = '250%'; dispatchEvent(new Event('resize'))")


def choose(field: WebElement, text: str) -> None:
    """Choose from a list, where it is one that has this choice."""
    if text in [option.text for option in field.find_elements(By.TAG_NAME, "option")]:
        Select(field).select_by_visible_text(text)
