"""A figure full screen: by button, keyboard, mouse and two fingers, and back to where the reader was."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from selenium.webdriver import Chrome
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.wait import WebDriverWait

import tests.browser.screen as screen


@pytest.fixture
def opened(browser: Chrome, host: str, site: Path) -> Iterator[Chrome]:
    """An example on a phone, its figure full screen."""
    screen.resize(browser, 360)
    screen.console(browser)
    browser.get(host + screen.an_example(site))
    WebDriverWait(browser, 10, 0.02).until(lambda _: browser.find_elements(By.CSS_SELECTOR, ".figure-tools"), "the figure's tools")
    browser.execute_script("document.querySelector('.figure-tools').scrollIntoView({block: 'center'})")
    browser.find_element(By.CSS_SELECTOR, ".figure-open").click()
    yield browser
    screen.resize(browser, 1280)


def scale(browser: Chrome) -> float:
    """How large the figure is, as told [%]."""
    return float(browser.find_element(By.CSS_SELECTOR, ".figure-scale").text.rstrip("% \u00a0"))


def press(browser: Chrome, name: str) -> None:
    """Press one of the buttons of the bar."""
    next(each for each in browser.find_elements(By.CSS_SELECTOR, ".figure-bar button") if each.text == name).click()


def touch(browser: Chrome, kind: str, *spots: tuple[float, float]) -> None:
    """Fingers on the screen."""
    points = [{"x": x, "y": y, "id": number} for number, (x, y) in enumerate(spots)]
    browser.execute_cdp_cmd("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})


def test_it_fills_the_screen_with_the_whole_figure(opened: Chrome) -> None:
    """The dialog covers the screen, and nothing of the figure is outside."""
    box = opened.execute_script("return document.querySelector('.figure-dialog').getBoundingClientRect().toJSON()")
    assert (box["left"], box["top"], box["width"], box["height"]) == (0, 0, 360, 800)
    inside = """
    const figure = document.querySelector('.figure-stage svg').getBoundingClientRect();
    const stage = document.querySelector('.figure-stage').getBoundingClientRect();
    return figure.left >= stage.left && figure.right <= stage.right && figure.top >= stage.top && figure.bottom <= stage.bottom"""
    assert opened.execute_script(inside)
    wide = opened.execute_script("return document.querySelector('.figure-stage svg').getBoundingClientRect().width")
    own = opened.execute_script("return Number(document.querySelector('.figure-frame svg').getAttribute('width'))")
    assert scale(opened) == pytest.approx(100 * wide / own, abs=1)
    assert wide >= opened.execute_script("return document.querySelector('.figure-frame svg').getBoundingClientRect().width")


def test_back_closes_it_and_does_no_more(opened: Chrome) -> None:
    """Behind it the page stays as it is; closed otherwise, it leaves no entry behind."""
    state = "return [document.querySelector('.figure-dialog').open, location.search, Boolean(history.state?.full)]"
    example = "document.querySelector('live-example')"
    WebDriverWait(opened, 10, 0.02).until(lambda _: opened.execute_script(f"return {example}.worked && {example}.isWritten"))
    press(opened, "Close")
    WebDriverWait(opened, 5, 0.02).until(lambda _: opened.execute_script(state) == [False, "", False])
    opened.execute_script(f"{example}.change({{flip: [{example}.worked.topology.branches[0].current]}})")
    WebDriverWait(opened, 5, 0.02).until(lambda _: opened.execute_script("return location.search"))
    chosen = opened.execute_script("return location.search")
    opened.find_element(By.CSS_SELECTOR, ".figure-open").click()
    opened.back()
    WebDriverWait(opened, 5, 0.02).until(lambda _: opened.execute_script(state) == [False, chosen, False])
    opened.back()
    WebDriverWait(opened, 5, 0.02).until(lambda _: opened.execute_script(state) == [False, "", False])


def test_an_arrow_turns_in_it_and_on_the_page(opened: Chrome) -> None:
    """A tap near an arrow does what it does on the page, and stays when the dialog closes; what is lit stays lit."""
    arrow = "document.querySelector('.figure-stage .arrow')"
    WebDriverWait(opened, 10, 0.02).until(lambda _: opened.execute_script("return document.querySelector('live-example').worked"))
    spot = opened.execute_script(
        f"const {{x, y, width, height}} = {arrow}.querySelector('.head').getBoundingClientRect(); return [x + width / 2, y + height / 2]"
    )
    opened.execute_script("document.querySelector('lit-terms').lightPart(document.querySelector('.figure-frame .part').dataset.part)")
    touch(opened, "touchStart", tuple(spot))
    touch(opened, "touchEnd")
    turned = f"return {arrow}.matches('.turned') && document.querySelector('.figure-frame .arrow').matches('.turned') && Boolean(document.querySelector('.figure-stage .part.lit'))"
    WebDriverWait(opened, 5, 0.02).until(lambda _: opened.execute_script(turned))
    press(opened, "Close")
    assert opened.execute_script("return location.search").startswith("?flip=")
    assert opened.execute_script("return [history.state.full ?? null, location.search.length > 6]") == [None, True]
    for move, search in ((opened.back, ""), (opened.forward, opened.execute_script("return location.search"))):
        move()
        WebDriverWait(opened, 5, 0.02).until(
            lambda _, search=search: opened.execute_script("return [location.search, Boolean(history.state?.full)]") == [search, False]
        )
        assert opened.execute_script(
            f"return document.querySelector('.figure-frame .arrow').matches('.turned') === {str(bool(search)).lower()}"
        )


def test_buttons_and_keys_enlarge_it(opened: Chrome) -> None:
    """Larger, Smaller and Whole do what plus, minus and 0 do."""
    press(opened, "Whole")
    whole = scale(opened)
    stage = opened.find_element(By.CSS_SELECTOR, ".figure-stage")
    for larger, smaller, back in (
        (lambda: press(opened, "Larger"), lambda: press(opened, "Smaller"), lambda: press(opened, "Whole")),
        (lambda: stage.send_keys("+"), lambda: stage.send_keys("-"), lambda: stage.send_keys("0")),
    ):
        larger()
        larger()
        twice = scale(opened)
        assert twice == pytest.approx(whole * 1.25**2, abs=2)
        smaller()
        assert whole < scale(opened) < twice
        back()
        assert scale(opened) == whole


def test_two_fingers_enlarge_it_and_one_moves_it(opened: Chrome) -> None:
    """Fingers twice as far apart make it about twice as large; then a finger drags it along."""
    whole = scale(opened)
    touch(opened, "touchStart", (140, 400), (220, 400))
    for step in range(1, 9):
        touch(opened, "touchMove", (140 - 5 * step, 400), (220 + 5 * step, 400))
    touch(opened, "touchEnd")
    assert scale(opened) == pytest.approx(2 * whole, rel=0.1)
    before = opened.execute_script("return document.querySelector('.figure-stage').scrollLeft")
    touch(opened, "touchStart", (200, 400))
    touch(opened, "touchMove", (160, 400))
    touch(opened, "touchEnd")
    assert opened.execute_script("return document.querySelector('.figure-stage').scrollLeft") == pytest.approx(before + 40, abs=2)


def test_escape_and_close_lead_back(opened: Chrome) -> None:
    """Either way the dialog is gone and the button that opened it has the focus."""
    focused = "return [document.querySelector('.figure-dialog').open, document.activeElement.textContent]"
    opened.find_element(By.CSS_SELECTOR, ".figure-stage").send_keys(Keys.ESCAPE)
    assert opened.execute_script(focused) == [False, "Full screen"]
    WebDriverWait(opened, 5, 0.02).until(lambda _: not opened.execute_script("return history.state?.full"))
    opened.find_element(By.CSS_SELECTOR, ".figure-open").click()
    press(opened, "Close")
    assert opened.execute_script(focused) == [False, "Full screen"]


@pytest.mark.usefixtures("opened")
def test_closed_it_is_where_it_was_opened(browser: Chrome, host: str, site: Path) -> None:
    """Also where the address named a section far down the page."""
    browser.get(f"{host}{screen.an_example(site)}#your-turn")
    WebDriverWait(browser, 10, 0.02).until(lambda _: browser.find_elements(By.CSS_SELECTOR, ".figure-tools"), "the figure's tools")
    browser.execute_script("document.querySelector('.figure-tools').scrollIntoView({block: 'center'})")
    stand = "return [Math.round(scrollY), document.querySelector('.figure-dialog').open, Boolean(history.state?.full)]"
    before = browser.execute_script(stand)
    browser.find_element(By.CSS_SELECTOR, ".figure-open").click()
    press(browser, "Close")
    WebDriverWait(browser, 5, 0.02).until(lambda _: not browser.execute_script("return history.state?.full"))
    browser.execute_async_script("requestAnimationFrame(() => setTimeout(arguments[0], 50))")
    assert browser.execute_script(stand) == before


def test_targets_are_large_enough_and_nothing_is_complained_of(opened: Chrome) -> None:
    """Every button is 44 px or more either way, in one row even on a narrow phone."""
    boxes = opened.execute_script(
        "return [...document.querySelectorAll('.figure-bar button, .figure-open')].map(each => each.getBoundingClientRect().toJSON())"
    )
    assert len(boxes) == 5
    assert all(box["width"] >= 44 and box["height"] >= 44 for box in boxes)
    assert len({round(box["top"]) for box in boxes if box["top"] < 200}) == 1
    assert screen.console(opened) == ()
