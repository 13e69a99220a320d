"""What only a real browser can tell about the pages."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from selenium.webdriver import Chrome
from selenium.webdriver.common.by import By
from selenium.webdriver.support.wait import WebDriverWait

import tests.browser.screen as screen

pytestmark = pytest.mark.usefixtures("browser")


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """One page as a narrow phone saw it."""

    path: str
    width: int
    """Of the page with all that sticks out [CSS px]."""
    hosts: frozenset[str]
    """Whom it asked for anything."""
    complaints: tuple[str, ...]
    """What the console said."""


@pytest.fixture(scope="module")
def visits(browser: Chrome, host: str, site: Path) -> tuple[Visit, ...]:
    """Every page of the site on a phone 320 px wide."""
    screen.resize(browser, 320)
    screen.requests(browser)
    paths = [path.parent.relative_to(site).as_posix() for path in sorted(site.rglob("index.html"))]
    return tuple(visit(browser, host, "" if path == "." else f"{path}/") for path in paths)


def visit(browser: Chrome, host: str, path: str) -> Visit:
    browser.get(host + path)
    width = browser.execute_script("return document.documentElement.scrollWidth")
    hosts = frozenset(urlsplit(address).netloc for address in screen.requests(browser))
    return Visit(path=path, width=width, hosts=hosts, complaints=screen.console(browser))


def test_no_page_scrolls_sideways(visits: tuple[Visit, ...]) -> None:
    """At 320 px every page fits; what is wider scrolls in a frame of its own."""
    assert not {visit.path: visit.width for visit in visits if visit.width > 320}


def test_no_page_asks_another_host(visits: tuple[Visit, ...], host: str) -> None:
    """Whatever a page loads comes from where the page comes from."""
    assert {name for visit in visits for name in visit.hosts} <= {urlsplit(host).netloc, ""}


def test_the_console_stays_empty(visits: tuple[Visit, ...]) -> None:
    """No page has anything to complain about."""
    assert not {visit.path: visit.complaints for visit in visits if visit.complaints}


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_text_can_be_read_on_its_ground(browser: Chrome, host: str, site: Path, scheme: str, width: int) -> None:
    """Contrast of at least 4.5 to 1 for every text, in both schemes."""
    screen.resize(browser, width)
    screen.prefer(browser, scheme)
    for path in ("", "examples/", screen.an_example(site), "ideas/signs/", "guide/"):
        browser.get(host + path)
        assert browser.execute_script("return document.body.dataset.mdColorScheme") == {"light": "default", "dark": "slate"}[scheme]
        assert not screen.faint_texts(browser), path
    screen.prefer(browser, "light")


def test_figure_text_is_never_too_small(browser: Chrome, host: str, site: Path) -> None:
    """On a phone of 360 px a figure shrinks, or scrolls in its frame, but its text stays at 12 px or more."""
    screen.resize(browser, 360)
    for figure in sorted((site / "examples").glob("*/index.html")):
        browser.get(f"{host}examples/{figure.parent.name}/")
        assert screen.smallest_figure_text(browser) >= 11.9, figure.parent.name


def test_a_phone_reaches_every_section_from_the_drawer(browser: Chrome, host: str, site: Path) -> None:
    """The drawer of an example opens at its own table of contents."""
    screen.resize(browser, 360)
    browser.get(host + screen.an_example(site))
    browser.find_element(By.CSS_SELECTOR, "label.masthead-drawer").click()
    browser.find_element(By.CSS_SELECTOR, ".md-sidebar--primary label[for='__toc']").click()
    link = browser.find_element(By.CSS_SELECTOR, ".md-sidebar--primary a[href$='#by-hand']")
    WebDriverWait(browser, 5, 0.02).until(lambda _: link.is_displayed())
    link.click()
    assert browser.current_url.endswith("#by-hand")


def test_turning_pages_keeps_the_data_of_the_page(browser: Chrome, host: str, site: Path) -> None:
    """After instant navigation to the next example its own data stand on the page."""
    screen.resize(browser, 1280)
    browser.get(host + screen.an_example(site))
    follow = browser.find_element(By.CSS_SELECTOR, "a.turn-page-on")
    wanted = urlsplit(follow.get_attribute("href") or "").path
    browser.execute_script("arguments[0].click()", follow)
    WebDriverWait(browser, 5, 0.02).until(lambda _: urlsplit(browser.current_url).path == wanted)
    WebDriverWait(browser, 5, 0.02).until(
        lambda _: (
            json.loads(browser.find_element(By.ID, "circuit").get_attribute("textContent") or "{}").get("address")
            == wanted.rstrip("/").rpartition("/")[2]
        )
    )


def test_search_finds_an_example_by_its_topic(browser: Chrome, host: str) -> None:
    """Typing a topic lists examples that have it. Who does not search fetches neither worker nor index."""
    screen.resize(browser, 1280)
    browser.get(host)
    names = "return performance.getEntriesByType('resource').map(entry => entry.name)"
    WebDriverWait(browser, 10, 0.02).until(
        lambda _: any(name.endswith("search-later.js") for name in browser.execute_script(names)), "the search"
    )
    fetched = browser.execute_script(names)
    assert not [name for name in fetched if "search_index" in name or "/search." in name]
    browser.find_element(By.CSS_SELECTOR, ".md-search__input").send_keys("bare wire")
    found = WebDriverWait(browser, 10, 0.02).until(
        lambda _: [a.get_attribute("href") or "" for a in browser.find_elements(By.CSS_SELECTOR, ".md-search-result__link")]
    )
    assert [address for address in found if "/examples/" in address]


def test_paper_has_no_controls_and_keeps_together_what_is_one(browser: Chrome, host: str) -> None:
    """Printed with scripts on: no button, no line for lessons; a loop stays with its equation, rows are low."""
    browser.get(f"{host}examples/neutral-wire/")
    WebDriverWait(browser, 10, 0.02).until(lambda seen: seen.find_elements("css selector", "[data-turn]"))
    browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": True})
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    controls = "document.querySelectorAll('article :is(button:not(.term-key), select, input, details.use)')"
    shown = f"return [...{controls}].filter(e => e.checkVisibility()).length"
    whole = "return ['.loop-walk', '.route-line', 'table.parts tr'].map(e => getComputedStyle(document.querySelector(e)).breakInside)"
    assert browser.execute_script(shown) == 0
    assert browser.execute_script(whole) == ["avoid"] * 3
    assert browser.execute_script("return document.querySelector('table.walk tbody tr').getBoundingClientRect().height") < 40
    browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": False})
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})


@pytest.mark.parametrize("name", ["frost-bridge", "neutral-wire"])
def test_what_is_too_wide_shows_where_it_goes_on(browser: Chrome, host: str, name: str) -> None:
    """At 320 px the matrix of six unknowns fits; what does not has a shade at its edge."""
    screen.resize(browser, 320)
    browser.get(f"{host}examples/{name}/")
    frames = browser.execute_script(
        "return [...document.querySelectorAll('.formula-frame, .table-frame')].filter(e => e.checkVisibility())"
        ".map(e => [e.className, e.scrollWidth > e.clientWidth, getComputedStyle(e).backgroundAttachment])"
    )
    assert {attachment for _, _, attachment in frames} == {"local, local, scroll, scroll"}
    assert [wide for kind, wide, _ in frames if kind == "formula-frame"] == [name == "neutral-wire"]
