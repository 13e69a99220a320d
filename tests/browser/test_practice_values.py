"""Other values on a phone: every part of the page has them, and the link carries them."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from selenium.webdriver import Chrome

import tests.browser.phone as phone
import tests.browser.screen as screen
from build_tools.circuit.numeral import rounded
from build_tools.figure.description import long_description
from build_tools.laws.meaning import equation_text, to_units
from tests.browser.own_work import layout_of, sections, work_set, write_texts

pytestmark = pytest.mark.usefixtures("browser")

examples = ("neutral-wire", "frost-bridge", "bow-lamp", "alarm-capacitor", "jetty-lamps")
shown = "document.querySelector('.set-line')?.textContent.includes('set {}')"


@pytest.fixture(scope="module", autouse=True)
def phone_in_hand(browser: Chrome) -> Iterator[None]:
    """Every page of this file is on a phone."""
    with phone.held(browser):
        yield


def open_set(browser: Chrome, host: str, name: str, asked: str = "") -> None:
    """Open an example; with a set in its address, wait until the page has it."""
    phone.open_page(browser, f"{host}examples/{name}/{asked}")
    if "set=" in asked:
        phone.wait_until(browser, "document.querySelector('.set-line')")
        phone.settle(browser)


def come_near(browser: Chrome, field: str) -> None:
    """Scroll to the forms, and wait until they are there."""
    browser.execute_script("document.querySelector('#your-turn').scrollIntoView()")
    phone.wait_until(browser, f"document.querySelector('{field}')")


def page_texts(browser: Chrome) -> dict[str, str]:
    return {section: phone.section_text(browser, section) for section in sections}


def labels(browser: Chrome) -> dict[str, str]:
    """The label of every part of the figure, without spaces and without the equals sign behind the name."""
    script = "return [...document.querySelectorAll('.figure-frame .label')].map(e => [e.dataset.part, e.textContent])"
    # Where the label has two lines there is none.
    return {part: "".join(text.split()).replace(f"{part}=", part) for part, text in browser.execute_script(script)}


def expected_labels(name: str, number: int) -> dict[str, str]:
    """What they say with the values of a set."""
    found = {}
    for part in work_set(name, number).circuit.parts:
        value, inner = part.value, part.internal_resistance
        found[part.name] = "".join(f"{part.name}{value.shown if value else ''}{f'r={inner.shown}' if inner else ''}".split())
    return found


@pytest.mark.parametrize("name", examples)
def test_an_address_with_a_set_shows_its_values_everywhere(browser: Chrome, host: str, name: str) -> None:
    """Figure, its description in words and every section say what Python writes for these values."""
    screen.console(browser)
    open_set(browser, host, name, "?set=4")
    worked = work_set(name, 4)
    assert page_texts(browser) == write_texts(name, practice=4)
    assert labels(browser) == expected_labels(name, 4)
    words = browser.execute_script("return [...document.querySelectorAll('.in-words p')].map(e => e.textContent)")
    assert tuple(words) == long_description(worked.topology, layout_of(name))
    assert screen.console(browser) == ()


def test_new_values_back_again_and_a_link_that_carries_them(browser: Chrome, host: str) -> None:
    """By touch: the next set each time, the page's own values again; back, forward and a reload keep them; arrows turn as ever."""
    name = "frost-bridge"
    open_set(browser, host, name)
    phone.tap(browser, "[data-set=next]")
    phone.wait_until(browser, "location.search === '?set=1'")
    phone.settle(browser)
    assert phone.said(browser) == "Practice values, set 1 of 99: see the figure."
    assert phone.find(browser, ".set-now").text == "Set 1 of 99: see the figure."
    assert page_texts(browser) == write_texts(name, practice=1)
    phone.tap(browser, "[data-set=next]")
    phone.tap(browser, "[data-turn=I5]")
    assert phone.search(browser) == "?flip=I5&set=2"
    assert page_texts(browser) == write_texts(name, practice=2, flip=["I5"])
    browser.refresh()
    phone.wait_until(browser, shown.format(2))
    phone.settle(browser)
    assert page_texts(browser) == write_texts(name, practice=2, flip=["I5"])
    for asked, number in (("?set=2", 2), ("?set=1", 1), ("", 0)):
        browser.back()
        phone.wait_until(browser, f"location.search === '{asked}'")
        phone.settle(browser)
        assert page_texts(browser) == write_texts(name, practice=number)
    browser.forward()
    phone.wait_until(browser, "location.search === '?set=1'")
    phone.settle(browser)
    phone.tap(browser, "[data-set=own]")
    assert (phone.search(browser), page_texts(browser)) == ("", write_texts(name))
    assert phone.said(browser) == "The page has its own values again."
    assert not phone.find(browser, "[data-set=own]").is_displayed()
    assert browser.find_elements("css selector", ".set-line") == []


def test_loops_chosen_otherwise_stay_with_new_values(browser: Chrome, host: str) -> None:
    """A link may carry arrows, loops and a set together."""
    open_set(browser, host, "wire-across-the-bridge", "?set=7")
    phone.tap(browser, "loop-chooser summary")
    phone.wait_until(browser, "document.querySelector('[data-choose=turn]')")
    phone.tap(browser, "[data-choose=turn]")
    asked = phone.search(browser)
    walk = dict(pair.split("=") for pair in asked.removeprefix("?").split("&"))["walk"]
    assert page_texts(browser) == write_texts("wire-across-the-bridge", practice=7, walk=walk)


@pytest.mark.parametrize("name", ["frost-bridge", "jetty-lamps"])
def test_own_numbers_are_held_against_the_values_of_the_set(browser: Chrome, host: str, name: str) -> None:
    """The answers of the set are right, those of the original are not."""
    open_set(browser, host, name, "?set=3")
    come_near(browser, "check-numbers input")
    for number, is_right in ((3, True), (0, False)):
        worked = work_set(name, number)
        for current, value in worked.solution.currents.items():
            field = phone.find(browser, f"check-numbers input[name={current}]")
            field.clear()
            field.send_keys(rounded(to_units(value, worked.units.current, worked.units), 5))
        phone.tap(browser, "check-numbers button[type=submit]")
        phone.wait_until(browser, "document.querySelector('check-numbers [role=status]').textContent.length > 3")
        verdict = phone.find(browser, "check-numbers [role=status]").text
        assert verdict.startswith("Right") is is_right, verdict


def test_equations_are_held_against_the_values_of_the_set(browser: Chrome, host: str) -> None:
    """What is true for one set is not for the next, and the page says so."""
    open_set(browser, host, "bow-lamp", "?set=3")
    come_near(browser, "check-equation input")
    phone.find(browser, "check-equation input[name=equation]").send_keys(equation_text(work_set("bow-lamp", 3).written.equations[0]))
    phone.tap(browser, "check-equation button[type=submit]")
    phone.wait_until(browser, "document.querySelector('check-equation [role=status]').textContent.length > 3")
    assert "It is (1) of your set" in phone.find(browser, "check-equation").text
    phone.tap(browser, "[data-set=next]")
    assert "Not true any more" in phone.find(browser, "check-equation").text


@pytest.mark.parametrize("asked", ["0", "x", "100", "-1", "4.5", "04", "%00", "1e1"])
def test_a_set_that_there_is_not_is_said_quietly(browser: Chrome, host: str, asked: str) -> None:
    """The page is as printed, with a note in one line."""
    phone.open_page(browser, f"{host}examples/frost-bridge/?set={asked}")
    assert "which this page does not have" in phone.said(browser)
    assert page_texts(browser) == write_texts("frost-bridge")


@pytest.mark.parametrize(("name", "speaks"), [("frost-bridge", True), ("bow-lamp", False), ("idle-wire", True), ("three-banks", True)])
def test_numbers_of_the_question_are_told_apart(browser: Chrome, host: str, name: str, speaks: bool) -> None:
    """Where title or question hold a number, or tell of a current that rests, one line says whose they are; on paper too."""
    open_set(browser, host, name, "?set=5")
    line = phone.find(browser, ".set-line").text
    assert line.startswith("Practice values, set 5 of 99: see the figure.")
    assert ("speak of the original" in line) is speaks
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    assert phone.find(browser, ".set-line").is_displayed()
    assert not phone.find(browser, ".other-values").is_displayed()
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})


def test_all_of_it_can_be_left_to_the_reader(browser: Chrome, host: str) -> None:
    """With a set on, one tap makes every term the reader's own; there is no such offer without."""
    open_set(browser, host, "bow-lamp")
    assert not phone.find(browser, "[data-set=help]").is_displayed()
    phone.tap(browser, "[data-set=next]")
    phone.wait_until(browser, shown.format(1))
    phone.tap(browser, "[data-set=help]")
    assert phone.search(browser) == "?set=1&help=all"
    assert phone.find(browser, "[name=help][value=all]").is_selected()
    assert not phone.find(browser, "[data-set=help]").is_displayed()
    assert phone.find(browser, ".set-now").text.endswith("What follows from them stays closed until they are right.")


def test_labels_stay_in_their_places(browser: Chrome, host: str) -> None:
    """No label of any set is wider than the author's: each stays inside the box it was placed in."""
    script = "return [...document.querySelectorAll('.figure-frame .label')].map(e => e.getBBox().width)"
    open_set(browser, host, "neutral-wire")
    before = browser.execute_script(script)
    phone.tap(browser, "[data-set=next]")
    phone.wait_until(browser, shown.format(1))
    for _ in range(8):
        now = browser.execute_script(script)
        assert all(new <= old + 0.5 for new, old in zip(now, before, strict=True))
        phone.tap(browser, "[data-set=next]")


@pytest.mark.parametrize("name", ["frost-bridge", "bow-lamp", "neutral-wire", "three-banks"])
def test_nothing_moves_when_an_address_brings_its_values(browser: Chrome, host: str, name: str) -> None:
    """There is room for the line that says which set it is."""
    open_set(browser, host, name, "?set=5")
    assert phone.find(browser, ".set-line").is_displayed()
    assert browser.execute_script("return window.shifted") == []


@pytest.mark.parametrize("name", ["three-banks", "neutral-wire"])
def test_the_line_about_the_set_covers_no_value(browser: Chrome, host: str, name: str) -> None:
    """However many lines it takes, the figure begins below it."""
    open_set(browser, host, name, "?set=3")
    below = "return document.querySelector('.figure-frame').getBoundingClientRect().top - document.querySelector('.set-line').getBoundingClientRect().bottom"
    assert browser.execute_script(below) >= 0


def test_a_tap_before_the_values_are_there_keeps_the_set(browser: Chrome, host: str) -> None:
    """On a slow network: the arrow turns at once, the address keeps all of it, and so does the page when the values come."""
    name = "frost-bridge"
    slow = {"offline": False, "latency": 500, "downloadThroughput": -1, "uploadThroughput": -1}
    browser.execute_cdp_cmd("Network.setCacheDisabled", {"cacheDisabled": True})
    browser.execute_cdp_cmd("Network.emulateNetworkConditions", slow)
    phone.open_page(browser, f"{host}examples/{name}/?flip=I1&set=4")
    phone.tap(browser, "[data-turn=I2]")
    came_late = not browser.find_elements("css selector", ".set-line")
    browser.execute_cdp_cmd("Network.emulateNetworkConditions", {**slow, "latency": 0})
    browser.execute_cdp_cmd("Network.setCacheDisabled", {"cacheDisabled": False})
    assert came_late
    assert phone.search(browser) == "?flip=I1.I2&set=4"
    phone.wait_until(browser, shown.format(4))
    phone.settle(browser)
    assert page_texts(browser) == write_texts(name, practice=4, flip=["I1", "I2"])
    assert phone.search(browser) == "?flip=I1.I2&set=4"
