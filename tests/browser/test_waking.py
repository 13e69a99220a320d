"""What a page fetches when: little to be read, the rest with the first sign of a hand, and no tap is lost."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from selenium.webdriver import Chrome
from selenium.webdriver.support.wait import WebDriverWait

import tests.browser.phone as phone
from tests.browser import screen
from tests.browser.phone import wait_until

EXAMPLE = "examples/frost-bridge/"
ARROW = ".figure-frame .arrow[data-current=I1] .head"

fetched = """
return performance.getEntriesByType('resource').map(entry => entry.name).filter(name => /\\/assets\\/.*\\.mjs/.test(name)).map(name => name.split('/').at(-1))
"""


@pytest.fixture
def hand(browser: Chrome, host: str) -> Iterator[Chrome]:
    """A phone whose network takes a while."""
    slow = {"offline": False, "latency": 150, "downloadThroughput": -1, "uploadThroughput": -1}
    with phone.held(browser):
        browser.execute_cdp_cmd("Network.enable", {})
        browser.execute_cdp_cmd("Network.setCacheDisabled", {"cacheDisabled": True})
        screen.leave(browser, host)
        browser.execute_cdp_cmd("Network.emulateNetworkConditions", slow)
        yield browser
        browser.execute_cdp_cmd("Network.emulateNetworkConditions", {**slow, "latency": 0})
        browser.execute_cdp_cmd("Network.setCacheDisabled", {"cacheDisabled": False})


def read(hand: Chrome, host: str) -> None:
    """Open the example and wait for what is there before any sign."""
    hand.get(f"{host}{EXAMPLE}")
    wait_until(hand, "document.querySelector('.figure-open')")


def be_offline(hand: Chrome, offline: bool) -> None:
    """Take the network away, or bring it back."""
    network = {"offline": offline, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1}
    hand.execute_cdp_cmd("Network.emulateNetworkConditions", network)


def test_who_only_reads_fetches_hardly_a_script(hand: Chrome, host: str) -> None:
    """The figure's viewer, and what would bring the others."""
    read(hand, host)
    assert sorted(hand.execute_script(fetched)) == ["figure-viewer.mjs", "main.mjs"]


@pytest.mark.parametrize(
    ("selector", "effect"),
    [
        (ARROW, "location.search === '?flip=I1'"),
        (".step-start", "location.search === '?step=start' && document.querySelector('.step-bar:not([hidden])')"),
        (".help-choice label:last-child", "location.search === '?help=all' && document.querySelector('.your-term')"),
        ("[data-do=copy]", "document.querySelector('live-example [role=status]').textContent.includes('opy')"),
        ("[data-set=next]", "location.search === '?set=1'"),
        (".figure-frame [data-part=R1] .hit", "document.querySelector('.figure-frame .part[data-part=R1].lit')"),
    ],
)
def test_a_tap_that_comes_first_is_not_lost(hand: Chrome, host: str, selector: str, effect: str) -> None:
    """It waits, visibly, for the element that answers it."""
    read(hand, host)
    assert not hand.execute_script("return customElements.get('live-example')")
    hand.execute_script(
        """const target = document.querySelector(arguments[0]);
        const {x, y, width, height} = target.getBoundingClientRect();
        const spot = {bubbles: true, cancelable: true, clientX: x + width / 2, clientY: y + height / 2};
        target.dispatchEvent(new MouseEvent('click', spot));""",
        selector,
    )
    assert hand.execute_script("return document.querySelectorAll('[aria-busy]').length") == 1
    wait_until(hand, effect)
    wait_until(hand, "!document.querySelector('[aria-busy]')")


def test_choices_in_the_address_need_no_sign(hand: Chrome, host: str) -> None:
    """A link with a turned arrow shows it turned."""
    hand.get(f"{host}{EXAMPLE}?flip=I1")
    wait_until(hand, "document.querySelector('.figure-frame .arrow.turned')")


def test_who_stays_gets_everything(hand: Chrome, host: str) -> None:
    """A screen reader may give no sign."""
    hand.get(f"{host}{EXAMPLE}")
    wait_until(hand, "document.querySelector('[data-turn]')")
    assert hand.execute_script("return window.shifted") == []


def test_a_tap_is_tried_again_after_the_network_failed(hand: Chrome, host: str) -> None:
    """Nothing has to be loaded anew by hand: where a browser asks for a script only once, the page is by itself."""
    read(hand, host)
    be_offline(hand, True)
    hand.execute_script("document.querySelector('[data-do=copy]').click()")
    wait_until(hand, "!document.querySelector('[aria-busy]')")
    be_offline(hand, False)
    tap_until_alive(hand)
    hand.execute_script("if (!customElements.get('step-reader')) document.querySelector('.step-start').click()")
    wait_until(hand, "document.querySelector('.step-bar:not([hidden])')")
    hand.get_log("browser")


def test_a_page_that_was_loaded_anew_in_vain_is_so_again(hand: Chrome, host: str) -> None:
    """A weak network loses one file of many, again and again: a page loads anew at a tap, though not at every one."""
    read(hand, host)
    hand.execute_script("window.isFirst = true")
    hand.execute_cdp_cmd("Network.setBlockedURLs", {"urls": ["*/live-example.mjs*"]})
    tap_until(hand, "!window.isFirst && document.readyState === 'complete'")
    wait_until(hand, "document.querySelector('.figure-open')")
    hand.execute_script("window.isSecond = true; document.querySelector('.step-start').click()")
    wait_until(hand, "!document.querySelector('[aria-busy]')")
    assert hand.execute_script("return window.isSecond")
    hand.execute_cdp_cmd("Network.setBlockedURLs", {"urls": []})
    tap_until_alive(hand)
    hand.get_log("browser")


def tap_until(hand: Chrome, condition: str) -> None:
    """Tap again and again, as a reader does; the network of the emulation comes back a moment after it was told to."""
    tap = "if (!document.querySelector('[aria-busy]')) document.querySelector('.step-start').click()"
    script = f"if ({condition}) return true; {tap}"
    WebDriverWait(hand, 15, 0.5).until(lambda _: hand.execute_script(script), condition)


def tap_until_alive(hand: Chrome) -> None:
    """What was loaded anew is alive in the end, and knows no more of it."""
    tap_until(hand, "customElements.get('live-example') && !history.state?.anew")
