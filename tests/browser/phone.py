"""A phone in the hand: a page at 360 by 740 px that is touched."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from selenium.webdriver import Chrome
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.wait import WebDriverWait

from tests.browser import screen

size = {"width": 360, "height": 740, "deviceScaleFactor": 1, "mobile": True}

watch_shifts = """
window.shifted = [];
new PerformanceObserver(list => {
  for (const entry of list.getEntries()) window.shifted.push(entry.value);
}).observe({type: 'layout-shift', buffered: true});
"""


@contextmanager
def held(browser: Chrome) -> Iterator[None]:
    """The browser as a phone that notes every shift of a page's layout; afterwards it is what it was."""
    browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)
    browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": True})
    watching = browser.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": watch_shifts})
    yield
    browser.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", watching)
    browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": False})
    browser.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})


def open_page(browser: Chrome, address: str) -> None:
    """Open an example, move it a little, as a thumb does, and wait until it is alive."""
    screen.leave(browser, address)
    browser.get(address)
    browser.execute_script("dispatchEvent(new Event('scroll'))")
    wait_until(
        browser,
        "document.querySelector('live-example')?.worked && document.querySelector('live-example').isWritten && !document.querySelector('[aria-busy]')",
    )


def wait_until(browser: Chrome, condition: str) -> None:
    """Wait for a condition of the page."""
    WebDriverWait(browser, 10, 0.02).until(lambda _: browser.execute_script(f"return Boolean({condition})"), condition)


def find(browser: Chrome, selector: str) -> WebElement:
    """The first element of a kind."""
    found: WebElement = browser.find_element("css selector", selector)
    return found


def tap(browser: Chrome, selector: str) -> None:
    """Touch the middle of an element, as soon as it is there, and wait until the whole page has followed."""
    WebDriverWait(browser, 10, 0.02).until(lambda _: browser.find_elements("css selector", selector), selector)
    # A thumb brings it there: a page that is held after a reload gives way to it.
    browser.execute_script("dispatchEvent(new Event('touchmove')); arguments[0].scrollIntoView({block: 'center'})", find(browser, selector))
    x, y = browser.execute_script(
        "const {x, y, width, height} = arguments[0].getBoundingClientRect(); return [x + width / 2, y + height / 2]",
        find(browser, selector),
    )
    clicks = browser.execute_script("return window.clicks ??= (addEventListener('click', () => (window.clicks += 1), true), 0)")
    browser.execute_cdp_cmd("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    browser.execute_cdp_cmd("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    wait_until(browser, f"window.clicks > {clicks}")
    settle(browser)


def press(browser: Chrome, selector: str) -> None:
    """Give an element the focus and press Enter."""
    browser.execute_script("arguments[0].focus()", find(browser, selector))
    for kind in ("keyDown", "keyUp"):
        key = {"type": kind, "key": "Enter", "code": "Enter", "windowsVirtualKeyCode": 13, "text": "\r" if kind == "keyDown" else ""}
        browser.execute_cdp_cmd("Input.dispatchKeyEvent", key)
    settle(browser)


def settle(browser: Chrome) -> None:
    """Wait until a touch has had its effect on the whole page."""
    painted = "const done = arguments[0]; requestAnimationFrame(() => setTimeout(done, 30))"
    browser.execute_async_script(painted)
    if browser.execute_script("return Boolean(document.querySelector('[aria-busy]'))"):
        wait_until(browser, "!document.querySelector('[aria-busy]')")
        browser.execute_async_script(painted)
    wait_until(browser, "document.querySelector('live-example').isWritten")


def said(browser: Chrome) -> str:
    """What the page said last."""
    return str(browser.execute_script("return document.querySelector('live-example [role=status]').textContent"))


def search(browser: Chrome) -> str:
    """The part of the address that carries the choices."""
    return str(browser.execute_script("return decodeURIComponent(location.search)"))


def section_text(browser: Chrome, section: str) -> str:
    """The text of a section without its controls and without white space."""
    return str(
        browser.execute_script(
            """const copy = document.querySelector(`[data-section="${arguments[0]}"]`).cloneNode(true);
            for (const added of copy.querySelectorAll('.live-button, .light-note, .second-opinion')) added.remove();
            return copy.textContent.replace(/\\s+/g, '')""",
            section,
        )
    )
