"""Axe finds no barrier in any state of a page, light and dark; targets are large enough for a finger."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from importlib.resources import files

import pytest
from selenium.webdriver import Chrome
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.wait import WebDriverWait

import tests.browser.screen as screen
import tests.browser.student as phone
from build_tools.page.embed import check, embeds
from tests.browser.student import find, find_all, open_page, tap, wait_for

run_axe = """
const done = arguments[0];
const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
axe.run(document, {runOnly: {type: 'tag', values: tags}}).then(found => done(found.violations.map(
  each => `${each.id}: ${each.help}: ${each.nodes.slice(0, 3).map(node => node.html.slice(0, 120)).join(' | ')}`)));
"""

small_targets = """
const wanted = 'button, select, summary, input:not([type=radio]), label:has(input[type=radio]), .figure-button';
return [...document.querySelectorAll(`article :is(${wanted})`)]
  .filter(each => each.checkVisibility() && each.getBoundingClientRect().height < 43.5)
  .map(each => `${each.className || each.tagName} ${each.textContent.slice(0, 30)}: ${each.getBoundingClientRect().height}`);
"""


def full_screen(browser: Chrome) -> None:
    find_all(browser, ".figure-tools .figure-button")[-1].click()


def light_term(browser: Chrome) -> None:
    tap(browser, find_all(browser, ".loop-walk > .equation .term")[1])


def light_part(browser: Chrome) -> None:
    tap(browser, find(browser, ".figure-frame .part .body"))


def read_on(browser: Chrome) -> None:
    tap(browser, find(browser, ".step-start"))
    for _ in range(4):
        find(browser, ".step-next").click()


def answer_wrongly(browser: Chrome) -> None:
    for field in find_all(browser, ".your-term select"):
        phone.choose(field, "+")
    for field in find_all(browser, ".your-rule select"):
        phone.choose(field, "loop rule")


def open_words(browser: Chrome) -> None:
    for summary in find_all(browser, "summary"):
        browser.execute_script("arguments[0].click()", summary)


def settle(browser: Chrome) -> None:
    """Formulas are measured a moment after the page has been painted; what lies under the masthead is no small target."""
    browser.execute_async_script("scrollTo(0, 0); setTimeout(arguments[0], 250)")


def nothing(_: Chrome) -> None:
    """The page as it comes."""


states: dict[str, tuple[str, Callable[[Chrome], None]]] = {
    "worked": ("", nothing),
    "every fold open": ("", open_words),
    "turned round": ("?flip=I1&leave-out=d", nothing),
    "a term lit": ("", light_term),
    "a part lit": ("", light_part),
    "stepping": ("", read_on),
    "last step": ("?step=check-4", nothing),
    "fading": ("?help=first", answer_wrongly),
    "all yours": ("?help=all", nothing),
    "stepping and fading": ("?step=L1.2&help=all", nothing),
    "full screen": ("", full_screen),
}


@pytest.fixture
def student(browser: Chrome) -> Iterator[Chrome]:
    """A phone with touch."""
    phone.hold(browser)
    yield browser
    screen.prefer(browser, "light")
    phone.let_go(browser)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("state", states)
def test_axe_finds_nothing(student: Chrome, host: str, state: str, scheme: str) -> None:
    """No rule of WCAG 2.2 AA that a program can check is broken, and nothing that axe holds for good practice."""
    asked, act = states[state]
    screen.prefer(student, scheme)
    open_page(student, f"{host}examples/bilge-pump-two-banks/{asked}")
    act(student)
    settle(student)
    student.execute_script(files("selenium_axe_python").joinpath("axe-core/axe.min.js").read_text(encoding="utf-8"))
    assert student.execute_async_script(run_axe) == []


@pytest.mark.parametrize("state", states)
def test_targets_are_large_enough_for_a_finger(student: Chrome, host: str, state: str) -> None:
    """Whatever can be pressed in an example is at least 44 px high on a touch screen."""
    asked, act = states[state]
    open_page(student, f"{host}examples/bilge-pump-two-banks/{asked}")
    act(student)
    assert student.execute_script(small_targets) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("state", states)
def test_text_stays_readable_in_every_state(student: Chrome, host: str, state: str, scheme: str) -> None:
    """Contrast of at least 4.5 to 1, also for what is lit, wrong or closed."""
    asked, act = states[state]
    screen.prefer(student, scheme)
    open_page(student, f"{host}examples/bilge-pump-two-banks/{asked}")
    act(student)
    faint = [each for each in screen.faint_texts(student) if each[0] not in {"Back", "Read it step by step"}]
    assert faint == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("name", embeds)
def test_light_pages_are_open_to_everyone(student: Chrome, host: str, name: str, scheme: str) -> None:
    """In a frame of another site as well: axe finds nothing, also after a verdict; targets are large enough."""
    screen.prefer(student, scheme)
    student.get(f"{host}embed/link-wire/{name}")
    if name == check:
        WebDriverWait(student, 5, 0.02).until(lambda seen: find_all(seen, "check-numbers form"))
        find(student, "[name=equation]").send_keys("I1 = I2 - I3" + Keys.ENTER)
        WebDriverWait(student, 5, 0.02).until(lambda seen: find(seen, "check-equation .verdict").text)
        open_words(student)
        assert student.execute_script(small_targets.replace("article", "main")) == []
    student.execute_script(files("selenium_axe_python").joinpath("axe-core/axe.min.js").read_text(encoding="utf-8"))
    # The headings of the page around the frame are that page's own.
    found = student.execute_async_script(run_axe)
    assert [each for each in found if not each.startswith("page-has-heading-one")] == []
    assert screen.faint_texts(student) == []


def test_the_frame_of_a_check_has_room_for_a_verdict(student: Chrome, host: str) -> None:
    """In the size of the line to copy nothing is scrolled once a verdict shows."""
    student.get(f"{host}examples/link-wire/")
    wait_for(student, ".use code")
    lines = student.execute_script("return [...document.querySelectorAll('.use code')].map(each => each.textContent)")
    width, height = map(int, re.findall(r'(?:width|height)="(\d+)"', next(line for line in lines if check in line)))
    student.execute_cdp_cmd(
        "Emulation.setDeviceMetricsOverride", {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False}
    )
    student.get(f"{host}embed/link-wire/{check}")
    WebDriverWait(student, 5, 0.02).until(lambda seen: find_all(seen, "check-numbers form"))
    find(student, "[name=equation]").send_keys("I1 = I2 - I3" + Keys.ENTER)
    WebDriverWait(student, 5, 0.02).until(lambda seen: find(seen, "check-equation .verdict").text)
    assert student.execute_script("return document.documentElement.scrollHeight") <= height
