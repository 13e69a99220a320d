"""What a student typed is not lost however fast the page is left; keys and sums fit a narrow phone."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from selenium.webdriver import Chrome
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import WebDriverWait

from tests.browser.test_check import phone as phone
from tests.browser.test_check import try_equation, visit

ways_out: dict[str, Callable[[Chrome], object]] = {
    "reload": lambda browser: browser.refresh(),
    "an arrow turned, reload": lambda browser: (
        browser.execute_script("document.querySelector('[data-arrow=I1]').click()"),
        # The entry is made when the arrow has been painted; no hand is faster.
        WebDriverWait(browser, 5, 0.02).until(lambda seen: "flip=I1" in seen.current_url),
        browser.refresh(),
    ),
    "a link of the page, reload": lambda browser: (browser.execute_script("location.hash = 'loops'"), browser.refresh()),
}

lines_script = """
return [...document.querySelectorAll('#checks ~ .checks .equation, [data-section=checks] .equation')].map(sum => {
  const range = document.createRange();
  const [text] = sum.childNodes;
  const lines = [];
  let last = null;
  for (let at = 0; at < text.length; at += 1) {
    range.setStart(text, at);
    range.setEnd(text, at + 1);
    const {top} = range.getBoundingClientRect();
    if (last !== null && top > last + 5) lines.push(text.data.slice(at).trimStart()[0]);
    last = Math.max(last ?? top, top);
  }
  return [sum.scrollWidth - sum.clientWidth, lines.join('')];
});
"""


@pytest.mark.parametrize("leave", ways_out.values(), ids=ways_out)
def test_what_was_just_typed_is_there_after_the_page_was_left(phone: Chrome, host: str, leave: Callable[[Chrome], object]) -> None:
    """Nobody waited, left the field or checked: as a phone's keyboard types, with `input` and no `change`."""
    visit(phone, host)
    for name in ("I2", "equation"):
        phone.execute_script("document.getElementsByName(arguments[0])[0].focus()", name)
        for letter in "4.02":
            phone.execute_cdp_cmd("Input.insertText", {"text": letter})
    leave(phone)
    assert typed_in(phone) == ["4.02", "4.02"]


def test_a_form_that_came_late_takes_what_the_entry_before_had(phone: Chrome, host: str) -> None:
    """Reload at the top, a link, and back, before the forms were there: they do not write nothing over it."""
    visit(phone, host)
    phone.execute_script("document.getElementsByName('I2')[0].focus()")
    phone.execute_cdp_cmd("Input.insertText", {"text": "4.02"})
    phone.execute_script("document.activeElement.blur(); history.pushState(null, '', '#loops')")
    phone.execute_script("const old = document.querySelector('check-numbers'); old.replaceWith(old.cloneNode())")
    assert typed_in(phone)[0] == ""
    phone.back()
    WebDriverWait(phone, 5, 0.02).until(lambda _: typed_in(phone)[0] == "4.02")
    phone.refresh()
    assert typed_in(phone)[0] == "4.02"


def test_who_comes_back_by_a_link_may_go_on(phone: Chrome, host: str) -> None:
    """With the arrows, the set, the fields and the terms as they were left; the page as printed until then."""
    visit(phone, host, "three-banks")
    phone.execute_script("document.querySelector('[data-turn=I2]').click()")
    WebDriverWait(phone, 5, 0.02).until(lambda seen: "flip=I2" in seen.current_url)
    try_equation(phone, "12 - 3 I1 - I2 - 6 = 0")
    phone.execute_script("document.getElementsByName('I2')[0].focus()")
    phone.execute_cdp_cmd("Input.insertText", {"text": "4.02"})
    phone.get(f"{host}ideas/signs/")
    visit(phone, host, "three-banks")
    assert typed_in(phone)[0] == ""
    assert "flip" not in phone.current_url
    link = phone.find_element(By.CSS_SELECTOR, "live-example [role=status] a")
    assert link.text == "go on where you stopped"
    phone.execute_script("arguments[0].click()", link)
    WebDriverWait(phone, 5, 0.02).until(lambda seen: "flip=I2" in seen.current_url)
    phone.execute_script("document.querySelector('#your-turn').scrollIntoView()")
    WebDriverWait(phone, 5, 0.02).until(lambda seen: typed_in(seen)[0] == "4.02")
    WebDriverWait(phone, 5, 0.02).until(lambda seen: "12 - 3 I1 - I2 - 6 = 0" in seen.find_element(By.CSS_SELECTOR, ".my-set").text)


def test_where_nothing_was_typed_nothing_is_offered(phone: Chrome, host: str) -> None:
    """Neither on a page that was only read, nor on another one than that where somebody worked."""
    visit(phone, host, "three-banks")
    phone.execute_script("document.getElementsByName('I2')[0].focus()")
    phone.execute_cdp_cmd("Input.insertText", {"text": "4.02"})
    phone.execute_script("sessionStorage.removeItem('work /examples/bow-lamp/')")
    visit(phone, host, "bow-lamp")
    visit(phone, host, "bow-lamp")
    assert not phone.find_elements(By.CSS_SELECTOR, "live-example [role=status] a")


def typed_in(browser: Chrome) -> list[str]:
    """What stands in the second field for a current and in that for an equation, once they are there."""
    browser.execute_script("document.querySelector('#your-turn').scrollIntoView()")
    WebDriverWait(browser, 10, 0.02).until(lambda seen: seen.find_elements(By.NAME, "I2") and seen.find_elements(By.NAME, "equation"))
    return [str(browser.find_element(By.NAME, name).get_property("value")) for name in ("I2", "equation")]


@pytest.mark.parametrize("width", [320, 360])
@pytest.mark.parametrize("example", ["dinghy-charge", "link-wire", "frost-bridge", "neutral-wire"])
def test_no_key_stands_alone(phone: Chrome, host: str, example: str, width: int) -> None:
    """Every row of keys is full but the last, which misses one for each other row at most; every key is large enough for a thumb."""
    phone.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {"width": width, "height": 740, "deviceScaleFactor": 1, "mobile": True})
    visit(phone, host, example)
    keys = phone.execute_script("return [...document.querySelectorAll('.keys button')].map(key => key.getBoundingClientRect().toJSON())")
    tops = [key["top"] for key in keys]
    rows = [tops.count(top) for top in dict.fromkeys(tops)]
    assert rows[0] * len(rows) - sum(rows) < len(rows), rows
    assert len(set(rows[:-1])) <= 1
    assert min(min(key["width"], key["height"]) for key in keys) >= 44


@pytest.mark.parametrize("choices", ["", "?set=3"])
def test_a_long_check_sum_is_broken_before_a_sign(phone: Chrome, host: str, choices: str) -> None:
    """No digit is cut and none is parted from its sign, on the page as built and with the long numbers of a set."""
    visit(phone, host, "neutral-wire", choices)
    phone.execute_script("document.querySelector('#checks').scrollIntoView()")
    sums = phone.execute_script(lines_script)
    assert len(sums) == 2
    assert all(over <= 0 for over, _ in sums)
    assert set("".join(lines for _, lines in sums)) <= set("+−")
    assert bool(choices) == bool("".join(lines for _, lines in sums))


def test_what_was_typed_comes_along_where_no_form_has_read_it(phone: Chrome, host: str) -> None:
    """Reloaded at the top, a link of the page, and only then down to the form."""
    visit(phone, host)
    phone.execute_script("document.getElementsByName('I2')[0].focus()")
    phone.execute_cdp_cmd("Input.insertText", {"text": "4.02"})
    phone.execute_script("document.activeElement.blur(); scrollTo(0, 0)")
    phone.refresh()
    phone.execute_script("scrollTo(0, 0); document.querySelector('a[href=\"#directions\"]').click()")
    phone.execute_script("document.querySelector('#your-turn').scrollIntoView()")
    assert typed_in(phone)[0] == "4.02"


def test_a_set_is_there_again_after_a_link_with_other_values(phone: Chrome, host: str) -> None:
    """A link to a set of practice values, opened in the same tab, begins without a set; going back brings the old one again."""
    visit(phone, host, "three-banks")
    submit(phone, "equation", "I1 + I2 + I3 = 0")
    phone.get(f"{host}examples/three-banks/?set=3#your-turn")
    typed_in(phone)
    assert not phone.find_elements(By.CSS_SELECTOR, ".my-set li")
    phone.back()
    typed_in(phone)
    WebDriverWait(phone, 5, 0.02).until(lambda seen: len(seen.find_elements(By.CSS_SELECTOR, ".my-set li")) == 1)


def test_equations_of_earlier_values_are_not_held_against_numbers(phone: Chrome, host: str) -> None:
    """With other values a set is not true any more: it goes at one tap, and old numbers are not said to fit the student's equations."""
    visit(phone, host, "three-banks")
    for equation in ("I1 + I2 + I3 = 0", "12 - 3 I1 + I2 - 6 = 0", "6 - I2 + 2 I3 - 13 = 0"):
        submit(phone, "equation", equation)
    own = phone.find_element(By.CLASS_NAME, "my-set")
    assert len(own.find_elements(By.CSS_SELECTOR, "li")) == 3
    for name, value in (("I1", "1"), ("I2", "-3"), ("I3", "2")):
        phone.find_element(By.NAME, name).send_keys(value)
    phone.execute_script("document.querySelector('[data-set]').click()")
    WebDriverWait(phone, 5, 0.02).until(lambda _: own.text.count("Not true any more") == 2, "two that are not true")
    status = "check-numbers [role=status]"
    assert phone.find_element(By.CSS_SELECTOR, status).text.startswith("The circuit has other values now")
    phone.find_element(By.CSS_SELECTOR, "check-numbers [type=submit]").click()
    WebDriverWait(phone, 5, 0.02).until(lambda _: "other values" not in phone.find_element(By.CSS_SELECTOR, status).text)
    assert "fit your equations" not in phone.find_element(By.CSS_SELECTOR, status).text
    phone.execute_script("document.querySelector('[data-remove=untrue]').click()")
    WebDriverWait(phone, 5, 0.02).until(lambda _: len(own.find_elements(By.CSS_SELECTOR, "li")) == 1)
    assert own.find_element(By.CSS_SELECTOR, ".as-typed").text == "I1 + I2 + I3 = 0"


def test_an_arrow_turned_beside_a_number_says_what_becomes_of_its_sign(phone: Chrome, host: str) -> None:
    """Where a number is typed; an empty field has no sign to change."""
    visit(phone, host, "three-banks")
    phone.find_element(By.NAME, "I2").send_keys("-3")
    calm = "return document.querySelector('live-example').isWritten && !document.querySelector('[aria-busy]')"
    for name, told in (("I1", ""), ("I2", "The arrow of I2 is turned.")):
        WebDriverWait(phone, 5, 0.02).until(lambda seen: seen.execute_script(calm), "a page at rest")
        phone.execute_script(f"document.querySelector('check-numbers [data-arrow={name}]').click()")
        WebDriverWait(phone, 5, 0.02).until(
            lambda seen, name=name: seen.find_elements(By.CSS_SELECTOR, f"check-numbers [data-arrow={name}][aria-pressed=true]")
        )
        assert phone.find_element(By.CSS_SELECTOR, "check-numbers [role=status]").text.partition(" If")[0] == told


def test_an_arrow_turned_beside_a_number_is_told_below_the_figure_too(phone: Chrome, host: str) -> None:
    """Nothing that was said before stays there, nor is it shown again over the numbers."""
    visit(phone, host, "three-banks")
    phone.execute_script("document.querySelector('check-numbers [data-arrow=I2]').click()")
    said = "return document.querySelector('live-example [role=status]').textContent"
    WebDriverWait(phone, 5, 0.02).until(lambda seen: seen.execute_script(said).startswith("I2 turned round: it now runs from c to e"))
    WebDriverWait(phone, 5, 0.02).until(lambda seen: "flip=I2" in seen.current_url)
    assert not phone.find_elements(By.CLASS_NAME, "glimpse")


def test_arrows_beside_numbers_follow_also_when_somebody_has_looked(phone: Chrome, host: str) -> None:
    """The laws may be written down for the new directions before the page has told of them."""
    visit(phone, host, "three-banks")
    phone.execute_script(
        "document.querySelector('live-example').change({flip: ['I1']}); document.querySelector('check-numbers').source.place()"
    )
    pressed = "check-numbers [data-arrow=I1][aria-pressed=true]"
    WebDriverWait(phone, 5, 0.02).until(lambda seen: seen.find_elements(By.CSS_SELECTOR, pressed), pressed)


def test_who_begins_far_down_need_not_wait(phone: Chrome, host: str) -> None:
    """Opened at its end the page brings its forms at once, with a sign in their place until then, and nothing moves."""
    visit(phone, host)
    phone.refresh()
    start = phone.execute_script("return performance.timeOrigin")
    WebDriverWait(phone, 10, 0.02).until(lambda seen: seen.find_elements(By.CSS_SELECTOR, "check-numbers form"))
    assert phone.execute_script("return Date.now()") - start < 3000
    phone.execute_script("document.querySelector('check-numbers').replaceChildren()")
    assert phone.execute_script("return getComputedStyle(document.querySelector('check-numbers'), '::before').content") == '"…"'


def submit(browser: Chrome, name: str, typed: str) -> None:
    """Type into a field, check, and wait for what is said."""
    browser.find_element(By.NAME, name).send_keys(typed, Keys.ENTER)
    WebDriverWait(browser, 5, 0.02).until(lambda seen: seen.find_element(By.CSS_SELECTOR, f"check-{name} [role=status]").text)


def test_a_name_beside_a_field_is_no_button(phone: Chrome, host: str) -> None:
    """A finger that misses the field puts no note into the form."""
    phone.get(f"{host}examples/pontoon-lamps/")
    phone.execute_script("document.querySelector('#own-work').scrollIntoView()")
    WebDriverWait(phone, 10, 0.02).until(
        lambda _: phone.find_elements("css selector", "check-numbers .way .name[data-part]"), "the numbers"
    )
    WebDriverWait(phone, 10, 0.02).until(
        lambda _: phone.execute_script("return Boolean(customElements.get('lit-terms'))"), "what lights terms"
    )
    phone.execute_script("document.querySelector('check-numbers .way .name[data-part]').click()")
    assert not phone.find_elements("css selector", ".light-note")
