"""A student checks equations and numbers of their own, on a phone with its keyboard up, as they would type them."""

from __future__ import annotations

import json
from collections.abc import Iterator
from importlib.resources import files
from typing import Any

import pytest
from selenium.webdriver import Chrome
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.ui import WebDriverWait

from tests.browser.screen import console, leave, prefer

axe = files("selenium_axe_python").joinpath("axe-core/axe.min.js")
equation_form, numbers_form = "check-equation form", "check-numbers form"

watch_script = """
const status = document.querySelector(arguments[0] + ' [role=status]');
window.said = [];
new MutationObserver(() => window.said.push(status.textContent)).observe(status, {childList: true, subtree: true, characterData: true});
"""

covered_script = """
const {top, bottom} = document.querySelector(arguments[0] + ' [role=status]').getBoundingClientRect();
const header = document.querySelector('.md-header').getBoundingClientRect().bottom;
return {above: Math.round(header - top), below: Math.round(bottom - innerHeight)};
"""

axe_script = """
const done = arguments[0];
axe.run({include: ['check-equation', 'check-numbers']}, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice']})
  .then(found => done(found.violations.map(each => each.id + ': ' + each.nodes.map(node => node.html).join(' '))));
"""

lesson_script = """
const lesson = document.createElement('div');
lesson.className = 'part';
const data = document.createElement('script');
Object.assign(data, {type: 'application/json', className: 'circuit-data', textContent: arguments[1]});
data.dataset.flip = 'I1';
lesson.append(data, document.createElement('check-' + arguments[0]));
document.querySelector('article').append(lesson);
const name = {equation: 'CheckEquation', numbers: 'CheckNumbers'}[arguments[0]];
import(`/assets/javascripts/elements/check-${arguments[0]}.mjs`).then(made => customElements.define('check-' + arguments[0], made[name]));
"""


@pytest.fixture
def phone(browser: Chrome) -> Iterator[Chrome]:
    """A phone of 360 px by 740 px that is touched; afterwards a desk again."""
    show(browser, 740)
    browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": True})
    yield browser
    browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": False})
    browser.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": 1})
    browser.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})


def show(browser: Chrome, height: int) -> None:
    """Leave this much of the phone's height to the page: 370 px is half of it, with the keyboard up."""
    size = {"width": 360, "height": height, "deviceScaleFactor": 1, "mobile": True}
    browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)


def visit(browser: Chrome, host: str, example: str = "link-wire", choices: str = "") -> None:
    """Open the last section of an example and wait until its fields are there."""
    leave(browser, host)
    console(browser)
    browser.get(f"{host}examples/{example}/{choices}#your-turn")
    WebDriverWait(browser, 10, 0.02).until(lambda seen: seen.find_elements(By.NAME, "equation") and seen.find_elements(By.NAME, "I1"))


def verdict(browser: Chrome, form: str) -> WebElement:
    """Where a form says its verdict."""
    return browser.find_element(By.CSS_SELECTOR, f"{form} [role=status]")


def try_equation(browser: Chrome, typed: str) -> str:
    """Type an equation, send it with the keyboard's own key, and read the verdict."""
    field = browser.find_element(By.NAME, "equation")
    field.clear()
    browser.execute_script(watch_script, equation_form)
    field.send_keys(typed, Keys.ENTER)
    WebDriverWait(browser, 5, 0.02).until(lambda seen: seen.execute_script("return window.said.length"))
    return verdict(browser, equation_form).text


def try_numbers(browser: Chrome, **typed: str) -> str:
    """Type these currents, and no others, and read the verdict."""
    fields = browser.find_elements(By.CSS_SELECTOR, f"{numbers_form} input")
    for field in fields:
        field.clear()
        field.send_keys(typed.get(field.get_attribute("name") or "", ""))
    browser.execute_script(watch_script, numbers_form)
    fields[-1].send_keys(Keys.ENTER)
    WebDriverWait(browser, 5, 0.02).until(lambda seen: seen.execute_script("return window.said.length"))
    return verdict(browser, numbers_form).text


tries = (
    ("I1=I2+I3", "True: the junction rule at c.", ""),
    ("12,8 - 0,2 i1 - 6*i2 = 0", "True: the loop rule round L1, walked E1, R1.", ""),
    ("12.8 - 0.2 I1 + 6 I2 = 0", "Not true. You go through R1 along I2, so the potential drops there: − 6 I2, not + 6 I2.", "#loop-3"),
    ("12.8 = 6 I2", "Not true. The internal resistance of E1 lies on this loop too: + 0.2 I1 is missing on the right side of your equation.", "#loop-3"),
    ("12.8 - 0.2 I1 = 6 I2 = 0", "One equation at a time: here is a second equals sign.", ""),
)


@pytest.mark.parametrize(("typed", "says", "way"), tries)
def test_a_verdict_is_in_view_above_the_keyboard_and_said_once(phone: Chrome, host: str, typed: str, says: str, way: str) -> None:
    """Half the screen is under the keyboard: the whole verdict is seen, changes once, and links to the step that explains it."""
    visit(phone, host)
    show(phone, 370)
    assert try_equation(phone, typed).startswith(says)
    covered = phone.execute_script(covered_script, equation_form)
    assert covered["above"] <= 0, covered
    assert covered["below"] <= 0, covered
    assert phone.execute_script("return window.said.length") == 1
    links = [link.get_attribute("href") for link in verdict(phone, equation_form).find_elements(By.TAG_NAME, "a")]
    assert [link[link.index("#") :] for link in links if link] == ([way] if way else [])
    assert console(phone) == ()


def test_two_alternatives_are_both_named_and_both_in_view(phone: Chrome, host: str) -> None:
    """The longest verdict of the example still stands between the header and the keyboard."""
    visit(phone, host)
    show(phone, 370)
    assert try_equation(phone, "12.8-0.2*I1-6*I2-4*I4=0").startswith("Not true. It may be one of two things.")
    covered = phone.execute_script(covered_script, equation_form)
    assert covered["above"] <= 0, covered
    assert covered["below"] <= 0, covered


def test_the_spot_that_cannot_be_read_is_marked_and_markup_stays_text(phone: Chrome, host: str) -> None:
    """What was typed is shown as it was typed, with the spot marked, in the text and in the field."""
    visit(phone, host)
    hostile = '12 = 4 I1 + <img src=x onerror="window.harmed = 1">'
    try_equation(phone, hostile)
    assert verdict(phone, equation_form).find_element(By.TAG_NAME, "mark").text == "<"
    assert phone.execute_script("return document.querySelector('[name=equation]').selectionStart") == hostile.index("<")
    try_numbers(phone, I1=hostile, I2="<script>window.harmed = 1</script>")
    assert not phone.find_elements(By.CSS_SELECTOR, ".verdict :is(img, script)")
    assert phone.execute_script("return window.harmed") is None
    assert console(phone) == ()


def test_keys_type_where_the_cursor_stands_and_leave_the_keyboard_up(phone: Chrome, host: str) -> None:
    """The row of keys types currents and signs; each is at least 44 px wide and high, and the field keeps the focus."""
    visit(phone, host)
    field = phone.find_element(By.NAME, "equation")
    field.click()
    for key in ("I1", "=", "I2", "+", "I3"):
        phone.find_element(By.CSS_SELECTOR, f'[data-key="{key}"]').click()
    assert field.get_attribute("value") == "I1 = I2 + I3"
    assert phone.switch_to.active_element == field
    sizes = phone.execute_script("return [...document.querySelectorAll('.keys button')].map(key => [key.offsetWidth, key.offsetHeight])")
    assert min(side for size in sizes for side in size) >= 44
    assert phone.execute_script("return document.documentElement.scrollWidth") == 360
    field.send_keys(Keys.ENTER)
    WebDriverWait(phone, 5, 0.02).until(lambda seen: verdict(seen, equation_form).text)
    assert verdict(phone, equation_form).text.startswith("True: the junction rule at c.")


def test_the_set_counts_what_is_independent_and_says_what_is_not(phone: Chrome, host: str) -> None:
    """True equations gather; one that says nothing new is told from which it follows; a hint comes only when asked."""
    visit(phone, host)
    for typed in ("12.8 - 0.2 I1 - 6 I2 = 0", "6 I2 = 4 I4", "12.8 = 0.2 I1 + 4 I4", "I1 = I2"):
        try_equation(phone, typed)
    own = phone.find_element(By.CLASS_NAME, "my-set")
    assert "2 of the 5 independent equations" in own.text
    assert "(3) says nothing new: (3) = (1) + (2)." in own.text
    assert "E2" not in own.text
    own.find_element(By.CLASS_NAME, "hint").click()
    WebDriverWait(phone, 5, 0.02).until(lambda seen: seen.find_element(By.CLASS_NAME, "hint-text").text)
    assert own.find_element(By.CLASS_NAME, "hint-text").text == "E2 is in none of your equations yet. Walk a loop through it."
    own.find_element(By.CSS_SELECTOR, "[data-remove='2']").click()
    WebDriverWait(phone, 5, 0.02).until(lambda _: "(3)" not in own.text)
    assert "2 of the 5 independent equations" in own.text
    assert "nothing new" not in own.text


def test_a_whole_set_needs_no_hint(phone: Chrome, host: str) -> None:
    """The page's own equations, typed as they are printed, are enough."""
    visit(phone, host)
    for typed in printed(phone)["equations"]:
        assert try_equation(phone, typed["text"]).startswith("True:")
    own = phone.find_element(By.CLASS_NAME, "my-set")
    assert "Enough: 5 independent equations for 5 unknowns." in own.text
    assert not own.find_element(By.CLASS_NAME, "hint").is_displayed()


def printed(browser: Chrome) -> dict[str, Any]:
    """The data of the page that is open."""
    return dict(json.loads(browser.execute_script("return document.getElementById('circuit').textContent")))


def test_the_numbers_of_the_page_are_right_also_against_turned_arrows(phone: Chrome, host: str) -> None:
    """Fields are named after the currents; with an arrow turned, in words too, the number with the other sign is right."""
    visit(phone, host)
    values = {current["name"]: f"{current['value']:.4g} A" for current in printed(phone)["currents"]}
    assert [field.get_attribute("name") for field in phone.find_elements(By.CSS_SELECTOR, f"{numbers_form} input")] == list(values)
    assert try_numbers(phone, **values) == "Right: every law holds."
    assert "from a to b, up" in phone.find_element(By.CSS_SELECTOR, f"{numbers_form} .way").text
    phone.find_element(By.CSS_SELECTOR, "[data-arrow=I1]").click()
    WebDriverWait(phone, 5, 0.02).until(lambda seen: "flip=I1" in seen.current_url, "the entry, which follows the paint")
    assert "from b to a, down" in phone.find_element(By.CSS_SELECTOR, f"{numbers_form} .way").text
    assert verdict(phone, numbers_form).text.startswith("The arrow of I1 is turned")
    assert try_numbers(phone, **values).count("I1 has the right size.") == 1
    assert try_numbers(phone, **(values | {"I1": "−" + values["I1"]})).startswith("Right: every law holds.")


numbers: tuple[tuple[dict[str, str], str], ...] = (
    ({"I3": "2"}, "Right. The other currents are still open, if you want to check them too."),
    ({"I3": "5.1"}, "I3 is not that. Type the other currents too, and the laws show where."),
    (
        {"I1": "4.00", "I2": "2.00", "I3": "2.50", "I4": "3.00", "I5": "1.00"},
        "Your numbers do not fit the junction rule at c: 0.500 A more leave",
    ),
    ({"I1": "4,06", "I2": "2", "I3": "2", "I4": "3", "I5": "1"}, "Close: I1 is off by 1.5 %."),
    ({"I1": "4 mA", "I2": "2 mA", "I3": "2 mA", "I4": "3 mA", "I5": "1 mA"}, "I1, I2, I3, I4, I5: that would be right in A"),
    ({"I2": "two"}, "I2: Type a number with its unit, for instance 0.42 A."),
    ({}, "Type a number with its unit, for instance 0.42 A."),
)


@pytest.mark.parametrize(("typed", "says"), numbers)
def test_what_is_said_of_numbers_is_in_view_above_the_keyboard(phone: Chrome, host: str, typed: dict[str, str], says: str) -> None:
    """One number or all: what can honestly be said is said, and seen."""
    visit(phone, host)
    show(phone, 370)
    assert says in try_numbers(phone, **typed)
    covered = phone.execute_script(covered_script, numbers_form)
    assert covered["above"] <= 0, covered
    assert covered["below"] <= 0, covered
    assert console(phone) == ()


def test_an_arrow_that_is_turned_makes_old_equations_untrue_and_says_why(phone: Chrome, host: str) -> None:
    """The set is judged again when an arrow turns, and once more when it turns back."""
    visit(phone, host)
    try_equation(phone, "I1 = I2 + I3")
    own = phone.find_element(By.CLASS_NAME, "my-set")
    for says in ("Not true any more: an arrow or a value has changed since.", "1 of the 5 independent equations"):
        phone.find_element(By.CSS_SELECTOR, "[data-arrow=I1]").click()
        WebDriverWait(phone, 5, 0.02).until(lambda _, said=says: said in own.text)


def test_loops_are_called_as_the_reader_chose_them(phone: Chrome, host: str) -> None:
    """With other loops on the page, a verdict names those, and links to where they stand."""
    visit(phone, host, choices="?walk=d.E1.W1.R2_c.R1.W1.R2_e.R2.E2")
    assert try_equation(phone, "12.8 - 0.2 I1 + 4 I4 = 0").splitlines()[0].startswith("Not true. You go through R2 along I4")
    [link] = verdict(phone, equation_form).find_elements(By.TAG_NAME, "a")
    assert (link.text, (link.get_attribute("href") or "").split("#")[1]) == ("loop L4", "loop-3")


def test_every_link_of_a_verdict_leads_somewhere(phone: Chrome, host: str) -> None:
    """Whatever is said, the step it sends to is on the page."""
    visit(phone, host)
    for typed in ("I1 = 7", "I1 = I2 - I3", "6 I2 = 4 I3", "12.8 = 0.2 I1 + 6000 I2", "0.6 - 0.2 I1 - 0.2 I5 = 0"):
        try_equation(phone, typed)
        for link in verdict(phone, equation_form).find_elements(By.TAG_NAME, "a"):
            assert phone.find_elements(By.ID, (link.get_attribute("href") or "").split("#")[1]), typed


def test_what_is_typed_survives_a_reload_and_back(phone: Chrome, host: str) -> None:
    """Set, equation and numbers are there again, without their verdicts; the address is as it was, and what is stored goes with the tab."""
    visit(phone, host)
    address = phone.current_url
    try_equation(phone, "I1 = I2 + I3")
    try_equation(phone, "12.8 = 6 I2")
    try_numbers(phone, I1="4.5", I3="2 A")
    phone.execute_script("document.querySelector(arguments[0]).click()", f"{equation_form} .verdict a")
    for go in (phone.refresh, lambda: leave_and_come_back(phone, host), phone.back):
        go()
        come_near(phone)
        typed = [phone.find_element(By.NAME, name).get_attribute("value") for name in ("equation", "I1", "I2", "I3")]
        assert typed == ["12.8 = 6 I2", "4.5", "", "2 A"]
        assert phone.find_element(By.CSS_SELECTOR, ".set .as-typed").text == "I1 = I2 + I3"
    phone.refresh()
    come_near(phone)
    assert verdict(phone, equation_form).text == verdict(phone, numbers_form).text == ""
    assert phone.current_url == address
    assert "4.5" not in phone.execute_script("return JSON.stringify([localStorage, document.cookie])")


def test_what_is_typed_goes_along_with_a_choice(phone: Chrome, host: str) -> None:
    """An arrow that is turned makes a new entry; a reload of it, and of the one before, still has the numbers."""
    visit(phone, host)
    try_numbers(phone, I1="4.5")
    phone.find_element(By.CSS_SELECTOR, "[data-arrow=I1]").click()
    WebDriverWait(phone, 5, 0.02).until(lambda seen: "flip=I1" in seen.current_url, "the entry, which follows the paint")
    phone.refresh()
    assert currents_of(phone) == ["4.5", ""]
    phone.find_element(By.NAME, "I2").send_keys("7")
    WebDriverWait(phone, 5, 0.02).until(lambda seen: seen.execute_script("return history.state.typed['check-numbers 0'].I2") == "7")
    for way in (phone.refresh, phone.back, phone.refresh):
        way()
        assert currents_of(phone) == ["4.5", "7"]


def currents_of(browser: Chrome) -> list[str | None]:
    """What stands in the first two fields, once they are there."""
    WebDriverWait(browser, 10, 0.02).until(lambda seen: seen.find_elements(By.NAME, "I1"))
    return [browser.find_element(By.NAME, name).get_attribute("value") for name in ("I1", "I2")]


def come_near(browser: Chrome) -> None:
    """Scroll to the forms, and wait until the work in them is there again."""
    browser.execute_script("document.querySelector('#your-turn').scrollIntoView()")
    WebDriverWait(browser, 10, 0.02).until(
        lambda seen: seen.find_elements(By.CSS_SELECTOR, ".set .as-typed") and seen.find_elements(By.NAME, "I1")
    )


def leave_and_come_back(browser: Chrome, host: str) -> None:
    """To another page of the site, and back."""
    browser.get(host)
    browser.back()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_forms_and_verdicts_are_accessible(phone: Chrome, host: str, scheme: str) -> None:
    """Axe finds nothing, in light and in dark, with verdicts, a set and a faulty field on the screen."""
    visit(phone, host)
    prefer(phone, scheme)
    for typed in ("I1 = I2 + I3", "I2 + I3 = I1", "12.8 = 0.2 I1 + 4 I4 ?"):
        try_equation(phone, typed)
    try_numbers(phone, I1="two")
    phone.execute_script(axe.read_text(encoding="utf-8"))
    found = phone.execute_async_script(axe_script)
    prefer(phone, "light")
    assert found == []


def test_without_scripts_the_text_of_the_section_stands_alone(phone: Chrome, host: str) -> None:
    """No field shows that could not answer."""
    phone.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
    phone.get(f"{host}examples/link-wire/")
    try:
        assert not phone.find_element(By.TAG_NAME, "check-equation").is_displayed()
        assert "try it on paper" in phone.find_element(By.TAG_NAME, "article").text
    finally:
        phone.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})


@pytest.mark.parametrize("kind", ["equation", "numbers"])
def test_a_check_in_a_lesson_has_its_own_circuit_and_directions(phone: Chrome, host: str, kind: str) -> None:
    """With data of its own a check works on any page, with the arrows that the lesson gives, and links to the example."""
    visit(phone, host)
    data = json.dumps(printed(phone))
    phone.get(host)
    phone.execute_script(lesson_script, kind, data)
    WebDriverWait(phone, 5, 0.02).until(lambda seen: seen.find_elements(By.CSS_SELECTOR, f"check-{kind} form"))
    if kind == "equation":
        assert try_equation(phone, "I2 + I3 + I1 = 0").startswith("True: the junction rule at c.")
        try_equation(phone, "I1 = I2 + I3")
        link = verdict(phone, equation_form).find_element(By.TAG_NAME, "a").get_attribute("href") or ""
        assert link.endswith("/examples/link-wire/?flip=I1#junction-1")
    else:
        assert try_numbers(phone, I1="-4", I2="2", I3="2", I4="3", I5="1").startswith("Right: every law holds.")
        phone.find_element(By.CSS_SELECTOR, "[data-arrow=I1]").click()
        assert try_numbers(phone, I1="4", I2="2", I3="2", I4="3", I5="1") == "Right: every law holds."
    assert console(phone) == ()
