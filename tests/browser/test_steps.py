"""A student works through an example on a phone: step by step, with the figure in sight and terms of their own."""

from __future__ import annotations

import json
from collections.abc import Iterator
from fractions import Fraction

import pytest
from selenium.webdriver import Chrome
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.select import Select
from selenium.webdriver.support.wait import WebDriverWait

import tests.browser.screen as screen
import tests.browser.student as phone
from tests.browser.student import FIVE, covered, find, find_all, lit, open_page, press, tap, touch

BILGE = "bilge-pump-two-banks"


@pytest.fixture
def student(browser: Chrome) -> Iterator[Chrome]:
    """A phone of 360 by 740 with touch, whose console stays empty."""
    screen.prefer(browser, "light")
    phone.hold(browser)
    screen.console(browser)
    yield browser
    assert screen.console(browser) == ()
    phone.let_go(browser)


def click(browser: Chrome, selector: str) -> None:
    browser.execute_script("arguments[0].click()", find(browser, selector))


def number_of_steps(browser: Chrome) -> int:
    return int(find(browser, ".step-count").text.rstrip(".").rpartition(" ")[2])


def newest(browser: Chrome) -> list[str]:
    """What hides the step opened last."""
    script = "return [...document.querySelectorAll('[data-section] :is(tr, li, p.equation).lit:not(.term)')].at(-1) ?? null"
    element = browser.execute_script(script)
    return covered(browser, element) if element else []


@pytest.mark.parametrize("name", FIVE)
def test_the_whole_walk_step_by_step(student: Chrome, host: str, name: str) -> None:
    """Every step opens in turn, is seen, lights its part; back closes them; leaving shows everything."""
    open_page(student, f"{host}examples/{name}/")
    before = student.execute_script("return document.querySelectorAll('[data-section] [hidden]').length")
    tap(student, find(student, ".step-start"))
    steps = number_of_steps(student)
    assert steps > 12
    unlit = []
    for number in range(1, steps + 1):
        prompt = find(student, ".step-prompt").text
        find(student, ".step-next").click()
        assert find(student, ".step-count").text == f"{number} of {steps}."
        assert newest(student) == [], prompt
        if not lit(student):
            unlit.append(prompt)
    # The set, its matrix, the table of parts, power and the second opinion are about the whole circuit.
    assert len(unlit) == 5, unlit
    assert student.execute_script("return document.querySelectorAll('[data-section] [hidden]').length") == before
    find(student, ".step-buttons :first-child").click()
    WebDriverWait(student, 5, 0.02).until(lambda _: find(student, ".step-count").text == f"{steps - 1} of {steps}.")
    find(student, ".step-buttons :last-child").click()
    assert not find(student, ".step-bar").is_displayed()
    assert find(student, ".figure-pin-button").text == "Pin the figure"
    assert "step=" not in student.current_url
    assert not lit(student)


def test_what_is_not_reached_is_hidden_and_counted(student: Chrome, host: str) -> None:
    """Headings stay and say how many steps are inside; nothing of a closed step can be found."""
    open_page(student, f"{host}examples/{BILGE}/?step=c")
    assert find(student, "li[data-junction=c]").is_displayed()
    assert not find(student, ".loop-walk").is_displayed()
    assert not any(row.is_displayed() for row in find_all(student, "table.answers tr"))
    assert find(student, "#loops").is_displayed()
    notes = [note.text for note in find_all(student, ".steps-inside")]
    assert notes[1] == "9 steps still closed"


@pytest.mark.parametrize("step", ["L1.1", "L1"])
def test_what_is_closed_is_not_drawn(student: Chrome, host: str, step: str) -> None:
    """No style shows what is hidden: the equations of loops that are still to be walked least of all."""
    open_page(student, f"{host}examples/link-wire/?step={step}")
    drawn = "return [...document.querySelectorAll('[data-section] [hidden]')].filter(each => getComputedStyle(each).display !== 'none').map(each => each.className)"
    assert student.execute_script(drawn) == []


def test_a_link_leads_to_its_step_and_a_reload_keeps_it(student: Chrome, host: str) -> None:
    """The step stands in the address by a name, and is in sight when the link is followed."""
    open_page(student, f"{host}examples/{BILGE}/?flip=I2&step=L1.2")
    row = find_all(student, "table.walk tbody tr")[1]
    assert row.is_displayed()
    assert covered(student, row) == []
    assert 0 < student.execute_script("return arguments[0].getBoundingClientRect().top", row) < 740
    assert lit(student) == {"E1", "I1", "L1"}
    student.refresh()
    phone.wait_for(student, ".step-bar:not([hidden])")
    assert student.current_url.endswith("?flip=I2&step=L1.2")


def is_stepping(student: Chrome) -> bool:
    """Whether the bar of the steps is there."""
    return any(bar.is_displayed() for bar in find_all(student, ".step-bar"))


def test_back_goes_one_step_back(student: Chrome, host: str) -> None:
    """Entering, each step and leaving are entries: Back takes them one by one, Forward brings them again, then the page is left."""
    open_page(student, f"{host}examples/{BILGE}/#loops")
    tap(student, find(student, ".step-start"))
    for _ in range(2):
        find(student, ".step-next").click()
    second = student.current_url
    find(student, ".step-buttons :last-child").click()

    def go(way: str) -> str:
        address = student.current_url
        getattr(student, way)()
        WebDriverWait(student, 5, 0.02).until(lambda _: student.current_url != address)
        return find(student, ".step-count").text.partition(" ")[0] if is_stepping(student) else ""

    assert [go("back") for _ in range(4)] == ["2", "1", "0", ""]
    assert student.current_url.endswith(f"{BILGE}/")
    assert student.execute_script("return document.activeElement.className") == "text-button step-start"
    assert [go("forward") for _ in range(3)] == ["0", "1", "2"]
    assert student.current_url == second
    WebDriverWait(student, 5, 0.02).until(lambda _: newest(student) == [])
    assert find(student, "live-example [role=status]").text.startswith("Step 2 of")
    student.refresh()
    phone.wait_for(student, ".step-bar:not([hidden])")
    assert go("back") == "1"
    for _ in range(2):
        go("back")
    student.back()
    WebDriverWait(student, 5, 0.02).until(lambda _: student.current_url.endswith("/answers.html"))


def test_a_whole_section_opens_at_its_beginning(student: Chrome, host: str) -> None:
    """However long it is: a reader begins where it begins, not at the last of it."""
    open_page(student, f"{host}examples/{BILGE}/?step=matrix-form")
    skip = find(student, ".step-buttons :nth-child(3)")
    assert skip.text == "Open section"
    skip.click()
    WebDriverWait(student, 5, 0.02).until(lambda _: "every-part" in student.current_url)
    row = find(student, "[data-section=currents] table tbody tr")
    assert covered(student, row) == []
    assert student.execute_script("return arguments[0].getBoundingClientRect().top", row) > 0


def test_the_bar_goes_back_as_the_browser_does(student: Chrome, host: str) -> None:
    """After a step back by the bar, the browser's Back goes back one more; where a link led here, there is no entry to go to."""
    open_page(student, f"{host}examples/{BILGE}/")
    tap(student, find(student, ".step-start"))
    for _ in range(2):
        find(student, ".step-next").click()

    def number_is(number: int) -> None:
        WebDriverWait(student, 5, 0.02).until(lambda _: find(student, ".step-count").text.startswith(f"{number} of"))

    find(student, ".step-buttons :first-child").click()
    number_is(1)
    student.back()
    number_is(0)
    open_page(student, f"{host}examples/{BILGE}/?step=L1.2")
    length = student.execute_script("return history.length")
    before = int(find(student, ".step-count").text.partition(" ")[0])
    find(student, ".step-buttons :first-child").click()
    number_is(before - 1)
    assert student.execute_script("return history.length") == length


def test_each_line_by_hand_asks_for_what_it_does(student: Chrome, host: str) -> None:
    """Which current is written, which is to go, what is left: the question before a line is about that line."""
    open_page(student, f"{host}examples/frost-bridge/?step=equation-set")
    asked = []
    while find(student, ".step-prompt").text.partition(". ")[2].startswith("Next") and "matrix" not in find(student, ".step-prompt").text:
        asked.append(find(student, ".step-prompt").text.partition(". ")[2])
        find(student, ".step-next").click()
    assert len(asked) == len(find_all(student, ".route-line")) == len(set(asked))
    assert asked[0] == "Next, from (2): write I3 with the other currents. With which signs?"
    assert asked[4] == "Next: eliminate I4 from (9) and (10). What would you multiply each by?"
    assert asked[-1] == "Next: (13) has I5 already. What is it with its unit?"


@pytest.mark.parametrize("asked", ["step=L9.9", "step=%3Cb%3E", "help=some", "help=__proto__"])
def test_unknown_steps_and_helps_are_ignored_with_a_note(student: Chrome, host: str, asked: str) -> None:
    """A malformed address shows the whole page and says so in one line."""
    open_page(student, f"{host}examples/{BILGE}/?{asked}")
    assert not is_stepping(student)
    assert find(student, "#circuit, table.answers").is_enabled()
    assert "does not have" in find(student, "live-example [role=status]").text
    assert not find_all(student, ".your-term")


def test_a_direction_turned_round_keeps_the_step(student: Chrome, host: str) -> None:
    """Choices may change while reading step by step: what was open stays open, and is written anew."""
    open_page(student, f"{host}examples/{BILGE}/?step=L1.2")
    student.execute_script("document.querySelector('live-example').change({flip: ['I1']})")
    row = find_all(student, "table.walk tbody tr")[1]
    assert "against the arrow" in row.text
    assert not find_all(student, "table.walk tbody tr")[2].is_displayed()
    assert len(find_all(student, ".term-key")) == len(find_all(student, "table.walk tbody tr"))


def test_steps_by_keyboard_alone(student: Chrome, host: str) -> None:
    """The focus stays on the button that was used, and goes on where it can do no more."""
    open_page(student, f"{host}examples/{BILGE}/")
    student.execute_script("document.querySelector('.step-start').focus()")
    press(student, Keys.ENTER)
    focused = "return document.activeElement.textContent"
    assert student.execute_script(focused) == "Open"
    press(student, Keys.ENTER, Keys.ENTER)
    assert find(student, ".step-count").text.startswith("2 of")
    phone.press_back(student)
    press(student, Keys.ENTER, Keys.ENTER)
    assert find(student, ".step-count").text.startswith("0 of")
    assert student.execute_script(focused) == "Open"


@pytest.mark.parametrize(("width", "height"), [(360, 740), (320, 640), (740, 360)])
def test_focus_is_never_covered(student: Chrome, host: str, width: int, height: int) -> None:
    """With the figure pinned and the steps open, the tab key leads to nothing that is hidden under either, both ways."""
    phone.hold(student, width, height)
    open_page(student, f"{host}examples/frost-bridge/?step=check-1")
    assert find_all(student, "figure-pin.stuck")
    student.execute_script(
        "document.querySelector('.example-facts').setAttribute('tabindex', '-1'); document.querySelector('.example-facts').focus()"
    )
    stops = []
    for at in range(75):
        press(student, Keys.TAB) if at < 45 else phone.press_back(student)
        stops.append(student.execute_script("return document.activeElement.className"))
        assert covered(student) == [], stops
    assert len(set(stops)) > 8


@pytest.mark.parametrize("name", FIVE)
def test_a_term_lights_its_part_and_says_why(student: Chrome, host: str, name: str) -> None:
    """Tapping terms of equations and rows of walks, for every loop; Escape puts the light out."""
    open_page(student, f"{host}examples/{name}/")
    for walk in find_all(student, ".loop-walk"):
        loop = walk.get_attribute("data-loop") or ""
        row = walk.find_elements("css selector", "tbody tr")[-1]
        tap(student, row)
        assert {loop, row.get_attribute("data-part")} <= lit(student)
        assert row.get_attribute("class") == "lit"
        term = walk.find_elements("css selector", ".equation .term")[0]
        tap(student, term)
        assert loop in lit(student)
        note = find(student, ".light-note p").text
        assert note.startswith("On loop ")
        assert note.endswith(("minus.", "plus."))
    press(student, Keys.ESCAPE)
    assert not lit(student)
    assert not find_all(student, ".light-note")


def test_the_sentence_is_true_for_every_term(student: Chrome, host: str) -> None:
    """The sign that is explained is the sign that stands in the row."""
    open_page(student, f"{host}examples/three-banks/?flip=I1")
    for row in find_all(student, "table.walk tbody tr"):
        tap(student, row)
        sign = row.text.replace("\n", " ").split()
        assert any(word.startswith("+") for word in sign) == find(student, ".light-note p").text.endswith("plus.")


def test_what_is_said_out_of_sight_is_shown_for_a_moment(student: Chrome, host: str) -> None:
    """At the end of the screen where the hand is not; a screen reader is told once, and who goes by keyboard has nothing covered."""
    open_page(student, f"{host}examples/{BILGE}/")
    assert not find_all(student, ".glimpse")
    row = find(student, "[data-turn=I3]")
    for part, ends in ((0.25, "end"), (0.75, "start")):
        student.execute_script(
            "const {top} = arguments[0].getBoundingClientRect(); scrollBy(0, top - innerHeight * arguments[1])", row, part
        )
        box = row.rect
        touch(
            student,
            box["x"] + box["width"] / 2,
            student.execute_script("return arguments[0].getBoundingClientRect().top", row) + box["height"] / 2,
        )
        WebDriverWait(student, 5, 0.02).until(lambda _: find_all(student, ".glimpse"), "a glimpse")
        glimpse = find(student, ".glimpse")
        assert glimpse.text == find(student, "live-example [role=status]").text
        assert glimpse.get_attribute("aria-hidden") == "true"
        middle = student.execute_script("const {top, bottom} = arguments[0].getBoundingClientRect(); return (top + bottom) / 2", glimpse)
        assert (middle > 370) == (ends == "end")
        WebDriverWait(student, 8, 0.1).until(lambda _: not find_all(student, ".glimpse"), "it goes by itself")
        row = find(student, "[data-turn=I3]")
    student.execute_script("arguments[0].focus()", row)
    press(student, Keys.ENTER)
    WebDriverWait(student, 5, 0.02).until(lambda _: "flip" in student.current_url)
    assert not find_all(student, ".glimpse")


def test_a_part_of_the_figure_shows_its_terms(student: Chrome, host: str) -> None:
    """Tapping a body marks its terms in every equation and lists them; a second tap ends it; a list does the same."""
    open_page(student, f"{host}examples/{BILGE}/")
    body = find(student, ".part[data-part=E2] .body")
    tap(student, body)
    assert lit(student) == {"E2"}
    assert len(find_all(student, ".light-list li")) == 4
    assert len(find_all(student, "tr.lit")) == 4
    assert len(find_all(student, ".equation-set .term.lit")) >= 3
    tap(student, body)
    assert not find_all(student, ".lit")
    Select(find(student, ".light-chooser")).select_by_visible_text("R1")
    assert lit(student) == {"R1"}


def test_the_terms_of_a_part_follow_what_is_chosen(student: Chrome, host: str) -> None:
    """An arrow turned, a loop taken out: the list says what the rows say, and the part stays lit."""
    open_page(student, f"{host}examples/{BILGE}/")
    tap(student, find(student, ".part[data-part=E2] .body"))
    rows = """
    return [...document.querySelectorAll('table.walk tr.lit')].map(({cells: [, walked, term]}) => `${term.textContent}, ${walked.textContent}`)"""
    listed = "return [...document.querySelectorAll('.light-list li')].map(each => each.textContent.split(': ').slice(1).join(': '))"
    before = student.execute_script(listed)
    for change in ("{flip: ['I2']}", "{walk: [{start: 'b', through: ['E1', 'E2']}, {start: 'a', through: ['E1', 'R1']}]}"):
        student.execute_script(f"document.querySelector('live-example').change({change}, 'The change.')")
        WebDriverWait(student, 5, 0.02).until(lambda _: student.execute_script("return document.querySelector('live-example').isWritten"))
        assert student.execute_script(listed) == student.execute_script(rows) != before
        assert lit(student) == {"E2"}
        assert find(student, "live-example [role=status]").text == "The change."


def test_a_step_puts_out_what_was_tapped_before(student: Chrome, host: str) -> None:
    """What the step speaks of is lit, whatever was looked at before."""
    open_page(student, f"{host}examples/{BILGE}/?step=d")
    tap(student, find(student, ".part[data-part=R1] .body"))
    assert lit(student) == {"R1"}
    find(student, ".step-next").click()
    assert lit(student) == {"E1", "L1"}
    assert find(student, ".light-chooser").get_property("value") == ""


def test_rows_of_a_walk_by_keyboard(student: Chrome, host: str) -> None:
    """A table is one stop of the tab key; arrows go from row to row; Enter lights."""
    open_page(student, f"{host}examples/{BILGE}/")
    keys = find_all(student, ".loop-walk:nth-of-type(1) .term-key")
    assert [key.get_attribute("tabindex") for key in keys] == ["0", "-1", "-1", "-1"]
    student.execute_script("arguments[0].focus()", keys[0])
    press(student, Keys.ARROW_DOWN, Keys.ARROW_DOWN, Keys.ENTER)
    assert lit(student) == {"E2", "L1"}
    assert keys[2].get_attribute("aria-pressed") == "true"
    assert "plus to minus" in find(student, "live-example [role=status]").text


def test_the_figure_is_pinned_small_and_the_text_stands_still(student: Chrome, host: str) -> None:
    """Pinned from below: all of it, small, its type still 12 px high; what is read moves only to be clear of it; one tap takes it down."""
    open_page(student, f"{host}examples/neutral-wire/")
    tap(student, find_all(student, ".loop-walk > .equation .term")[0])
    place, button = find(student, ".light-note"), find(student, ".light-note button")
    top = "return arguments[0].getBoundingClientRect().top"
    student.execute_script("arguments[0].scrollIntoView({block: 'center'})", button)
    before = student.execute_script(top, place)
    tap(student, button)
    assert 0 <= student.execute_script(top, place) - before < 64
    box = student.execute_script("return document.querySelector('figure-viewer').getBoundingClientRect().toJSON()")
    assert box["height"] <= 0.42 * 740 + 1
    assert student.execute_script(
        "const {scrollHeight, clientHeight} = document.querySelector('.figure-frame'); return scrollHeight <= clientHeight"
    )
    assert screen.smallest_figure_text(student) >= 11.9
    assert covered(student, place) == []
    height = student.execute_script("return document.documentElement.scrollHeight")
    before = student.execute_script(top, place)
    find(student, ".figure-pin-button").click()
    assert not find_all(student, "figure-pin.stuck")
    assert student.execute_script(top, place) == before
    assert student.execute_script("return document.documentElement.scrollHeight") <= height


@pytest.mark.parametrize("height", [520, 560, 600])
def test_what_is_cut_ends_between_two_rows(student: Chrome, host: str, height: int) -> None:
    """On a low screen the pinned figure is cut, but no part and no label is; a line says that there is more."""
    phone.hold(student, 360, height)
    open_page(student, f"{host}examples/neutral-wire/")
    student.execute_script("document.querySelector('.figure-pin-button').click(); document.querySelector('#loops').scrollIntoView()")
    phone.wait_for(student, "figure-pin.stuck.cut")
    crossing = """
    const frame = document.querySelector('.figure-frame'), end = frame.getBoundingClientRect().bottom - 1;
    return [...frame.querySelectorAll('.body, .label')].map(each => each.getBoundingClientRect())
      .filter(({top, bottom}) => top < end - 1 && bottom > end + 1).length"""
    assert student.execute_script(crossing) == 0
    assert student.execute_script("return getComputedStyle(document.querySelector('.figure-frame')).borderBottomStyle") == "dashed"
    assert screen.smallest_figure_text(student) >= 10.9


def test_a_pinned_figure_stays_pinned_after_a_reload(student: Chrome, host: str) -> None:
    """Where the reader has pinned it by hand, and until it is taken down."""
    open_page(student, f"{host}examples/frost-bridge/")
    tap(student, find(student, ".figure-pin-button"))
    student.execute_script("document.querySelector('#loops').scrollIntoView()")
    phone.wait_for(student, "figure-pin.stuck")
    # A link within the page makes an entry of the history of its own.
    student.execute_script("document.querySelector('a.live-button[href=\"#own-work\"]').click()")
    student.refresh()
    student.execute_script("dispatchEvent(new Event('scroll'))")
    phone.wait_for(student, "figure-pin.stuck")
    tap(student, find(student, ".figure-pin-button"))
    assert not find_all(student, "figure-pin.stuck")


def test_a_figure_pinned_beside_a_term_stays_so_too(student: Chrome, host: str) -> None:
    """The button in the note is a hand's as well."""
    open_page(student, f"{host}examples/three-banks/")
    tap(student, find_all(student, ".loop-walk > .equation .term")[0])
    tap(student, find(student, ".light-note button"))
    student.refresh()
    student.execute_script("document.querySelector('#loops').scrollIntoView()")
    phone.wait_for(student, "figure-pin.stuck")


@pytest.mark.parametrize(
    ("asked", "place"), [("?flip=I2&help=all", "loop-L2"), ("?flip=I2&set=1&help=all", "other-values"), ("?help=first", "junction-1")]
)
def test_a_reload_leads_back_to_where_the_reader_was(student: Chrome, host: str, asked: str, place: str) -> None:
    """Fields and closed sections give the page another height than the browser remembers, and come bit by bit."""
    open_page(student, f"{host}examples/{BILGE}/{asked}")
    phone.wait_for(student, ".your-term")
    student.execute_script("document.getElementById(arguments[0]).scrollIntoView({block: 'start'}); scrollBy(0, -90)", place)
    WebDriverWait(student, 5, 0.02).until(lambda _: student.execute_script("return history.state?.place?.id") == place)
    where = "return Math.round(document.getElementById(arguments[0]).getBoundingClientRect().top)"
    before = student.execute_script(where, place)
    student.refresh()
    phone.wait_for(student, ".your-term")
    WebDriverWait(student, 3, 0.02).until(lambda _: abs(student.execute_script(where, place) - before) < 4)
    student.execute_async_script("setTimeout(arguments[0], 500)")
    assert abs(student.execute_script(where, place) - before) < 4


def test_an_unpinned_figure_stays_down_after_a_reload(student: Chrome, host: str) -> None:
    """Step by step pins the figure, unless the reader has taken it down."""
    open_page(student, f"{host}examples/{BILGE}/?step=L1.2")
    find(student, ".figure-pin-button").click()
    student.refresh()
    phone.wait_for(student, ".step-bar:not([hidden])")
    phone.wait_for(student, ".figure-pin-button")
    assert find(student, ".figure-pin-button").text == "Pin the figure"
    find(student, ".step-next").click()
    assert not find_all(student, "figure-pin.stuck")


def test_what_is_said_is_not_under_the_pinned_figure(student: Chrome, host: str) -> None:
    """The answer to Copy link, and the equation that came in the place of another, stand below it."""
    open_page(student, f"{host}examples/three-banks/")
    find(student, ".figure-pin-button").click()
    for button, said in (("[data-do=copy]", ".live-says"), ("[data-leave-out]", "li[data-junction]")):
        student.execute_script("document.querySelector('#loops').scrollIntoView()")
        phone.wait_for(student, "figure-pin.stuck")
        edge = "return document.querySelector('figure-viewer').getBoundingClientRect().bottom"
        top = "return document.querySelector(arguments[0]).getBoundingClientRect().top"
        student.execute_script("scrollBy(0, arguments[0])", student.execute_script(top, button) - student.execute_script(edge) - 8)
        student.execute_script("document.querySelector(arguments[0]).click()", button)
        assert student.execute_script(top, said) >= student.execute_script(edge)


@pytest.mark.parametrize(
    ("at", "part"), [("L2", "[data-section=equations] tbody, [data-section=equations] p"), ("I3", "[data-section=currents] h3")]
)
def test_what_a_step_opens_begins_in_sight(student: Chrome, host: str, at: str, part: str) -> None:
    """Also where it is a whole section: its first line stands high in the free room."""
    open_page(student, f"{host}examples/{BILGE}/?step={at}")
    find(student, ".step-next").click()
    low = "return document.querySelector(arguments[0]).getBoundingClientRect().top - document.querySelector('figure-viewer').getBoundingClientRect().bottom"
    assert 0 <= student.execute_script(low, part) < 100


def test_the_figure_goes_back_to_its_place(student: Chrome, host: str) -> None:
    """Scrolled up to where it belongs, the pinned figure is itself again; scrolled on, it stays in sight."""
    open_page(student, f"{host}examples/{BILGE}/")
    find(student, ".figure-pin-button").click()
    assert not find_all(student, "figure-pin.stuck")
    student.execute_script("document.querySelector('#loops').scrollIntoView()")
    phone.wait_for(student, "figure-pin.stuck")
    assert covered(student, find(student, "#loops")) == []
    student.execute_script("scrollTo(0, 0)")
    phone.wait_for(student, "figure-pin:not(.stuck)")


def test_in_landscape_the_figure_stands_beside_the_text(student: Chrome, host: str) -> None:
    """On a low screen it takes no height, and the text keeps to what is left."""
    phone.hold(student, 740, 360)
    open_page(student, f"{host}examples/{BILGE}/?step=L1.2")
    box = student.execute_script("return document.querySelector('figure-viewer').getBoundingClientRect().toJSON()")
    text = student.execute_script("return document.querySelector('.loop-walk').getBoundingClientRect().toJSON()")
    assert box["left"] >= text["right"]
    assert box["right"] == 740
    assert screen.smallest_figure_text(student) >= 11.9
    assert phone.sideways(student) <= 0


def test_a_pinned_figure_shows_what_the_step_speaks_of(student: Chrome, host: str) -> None:
    """Where it is larger than its frame: the lit part is in the frame, at every step."""
    phone.hold(student, 320, 560)
    open_page(student, f"{host}examples/neutral-wire/?step=L1.1")
    hidden = """
    const frame = document.querySelector('figure-pin.stuck .figure-frame'), room = frame.getBoundingClientRect();
    const middle = ({top, bottom}) => (top + bottom) / 2;
    if (frame.scrollHeight <= frame.clientHeight) return ['all of it is shown'];
    return [...frame.querySelectorAll('.part.lit')].filter(each => {
      const at = middle(each.getBoundingClientRect());
      return at < room.top || at > room.bottom;
    }).map(each => each.dataset.part);"""
    for _ in range(8):
        assert student.execute_script(hidden) == []
        find(student, ".step-next").click()


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("asked", ["", "?step=L1.2", "?help=all", "?step=L1&help=first"])
def test_nothing_sticks_out_on_a_narrow_screen(student: Chrome, host: str, asked: str, large: bool) -> None:
    """At 320 px, also with text of twice the size, the page does not scroll sideways and the steps leave room to read."""
    phone.hold(student, 320, 640)
    open_page(student, f"{host}examples/{BILGE}/{asked}")
    if large:
        phone.enlarge(student)
    assert phone.sideways(student) <= 0
    if "step" in asked:
        phone.wait_for(student, "figure-pin.stuck")
        bar = student.execute_script("return document.querySelector('.step-bar').getBoundingClientRect().top")
        pin = student.execute_script("return document.querySelector('figure-viewer').getBoundingClientRect().bottom")
        assert bar - pin > (60 if large else 150)


def test_a_step_left_to_the_reader_keeps_its_place(student: Chrome, host: str) -> None:
    """Its equation is not shown yet, so nothing is scrolled to that is nowhere: the last row stays in sight."""
    open_page(student, f"{host}examples/{BILGE}/?help=first&step=L1.4")
    phone.wait_for(student, "figure-pin.stuck")
    find(student, ".step-next").click()
    assert "step=L1&" in f"{student.current_url}&"
    top, bottom, start, end = student.execute_script(
        """const {top, bottom} = document.querySelector('.loop-walk .table-frame').getBoundingClientRect();
        const above = document.querySelector('figure-viewer').getBoundingClientRect().bottom;
        return [top, bottom, above, document.querySelector('.step-bar').getBoundingClientRect().top]"""
    )
    assert top < end
    assert bottom > start


def fill(row: WebElement, sign: str, size: str) -> None:
    """Fill in one term as a student would."""
    Select(row.find_element("css selector", "select")).select_by_value("-" if sign == "\N{MINUS SIGN}" else sign)
    if sign != "0":
        row.find_element("css selector", "input").send_keys(size, Keys.TAB)


def test_a_wrong_sign_is_explained_and_not_given_away(student: Chrome, host: str) -> None:
    """One sentence with the reason; the term stays open; the right one with a decimal comma stands."""
    open_page(student, f"{host}examples/{BILGE}/?help=first")
    emf, internal = find_all(student, ".loop-walk:nth-of-type(1) .your-term")
    Select(internal.find_element("css selector", "select")).select_by_visible_text("+")
    says = internal.find_element("css selector", ".feedback").text
    assert says == "Not yet. You go through r of E1 along I1, so the potential drops there."
    assert find(student, "live-example [role=status]").text == says
    assert internal.find_element("css selector", "select[aria-invalid=true]")
    internal.find_element("css selector", "input").send_keys("0,1", Keys.TAB)
    assert [each.tag_name for each in internal.find_elements("css selector", "[aria-invalid=true]")] == ["select"]
    Select(internal.find_element("css selector", "select")).select_by_visible_text("\N{MINUS SIGN}")
    assert len(find_all(student, ".loop-walk:nth-of-type(1) .your-term")) == 1
    fill(emf, "+", "126")
    assert "the emf of E1 in V" in emf.find_element("css selector", ".feedback").text
    assert "12.6" not in emf.text


@pytest.mark.parametrize(
    ("size", "says"),
    [
        ("3000", "Not yet. Look at the prefix: the equations of this page are in kΩ."),
        ("3 Ω", "Not yet. Look at the prefix: the equations of this page are in kΩ."),
        ("3 V", "Not yet. The unit is wrong: the size is a resistance, in kΩ."),
        ("-3", "The sign has a field of its own; here goes the size alone."),
        ("three", "Write the size as a number, such as 4.7, 4,7 or 4.7 kΩ."),
        ("3/0", "Write the size as a number, such as 4.7, 4,7 or 4.7 kΩ."),
        ("3 times", "Write the size as a number, such as 4.7, 4,7 or 4.7 kΩ."),
        ("4", "Not yet. The size is what stands before I1: the resistance of R1 in kΩ."),
        ("4 kΩ", "Not yet. The size is what stands before I1: the resistance of R1 in kΩ."),
    ],
)
def test_a_wrong_size_is_explained(student: Chrome, host: str, size: str, says: str) -> None:
    """Prefixes, signs, words and other numbers, each by what is wrong with it."""
    open_page(student, f"{host}examples/frost-bridge/?help=all")
    row = find(student, ".loop-walk tr[data-part=R1] .your-term")
    sign = "+" if "rise" in hidden_text(student, "tr[data-part=R1] td[data-withheld]") else "\N{MINUS SIGN}"
    fill(row, sign, size)
    assert row.find_element("css selector", ".feedback").text == says


def test_a_wrong_internal_resistance_is_called_that(student: Chrome, host: str) -> None:
    """The size of its term is the battery's r, not its emf."""
    open_page(student, f"{host}examples/{BILGE}/?help=all")
    row = find_all(student, ".loop-walk:nth-of-type(1) .your-term")[1]
    fill(row, "\N{MINUS SIGN}", "12.6")
    says = row.find_element("css selector", ".feedback").text
    assert says == "Not yet. The size is what stands before I1: the internal resistance r of E1 in Ω."


@pytest.mark.parametrize(("part", "size"), [("R1", "3 kΩ"), ("R1", "3k"), ("R1", "6/2"), ("R1", "6000/2 ohm"), ("R1", "3000 ohm"), ("E1", "9 V"), ("E1", "9000mV")])
def test_a_size_may_have_its_unit(student: Chrome, host: str, part: str, size: str) -> None:
    """Written in the page's unit or another one, the term stands."""
    open_page(student, f"{host}examples/frost-bridge/?help=all")
    assert find(student, ".your-term input").get_attribute("placeholder") == "size"
    row = find(student, f".loop-walk tr[data-part={part}] .your-term")
    fill(row, "+" if "rise" in hidden_text(student, f"tr[data-part={part}] td[data-withheld]") else "\N{MINUS SIGN}", size)
    assert find(student, "live-example [role=status]").text.startswith("Right.")


def test_who_fills_in_a_second_time_may_begin_anew(student: Chrome, host: str) -> None:
    """Where all stands already it is said, after a reload too; one button empties the fields, and a reload leaves them empty."""
    open_page(student, f"{host}examples/bow-lamp/?help=first")
    while shows := [each for each in find_all(student, ".your-term button") if each.is_displayed()]:
        student.execute_script("arguments[0].click()", shows[0])
    student.refresh()
    phone.wait_for(student, ".help-says")
    assert find(student, ".help-says").text == "Every term that is yours stands already. Empty my terms"
    student.execute_script("document.querySelector('.help-says button').click()")
    assert find_all(student, ".your-term select")
    assert "Begin with" in find(student, "live-example [role=status]").text
    assert student.execute_script("return document.activeElement.matches('.your-term select')")
    student.refresh()
    phone.wait_for(student, ".your-term select")


@pytest.mark.parametrize("sign", ["+", "\N{MINUS SIGN}", "0"])
def test_nothing_has_either_sign(student: Chrome, host: str, sign: str) -> None:
    """The term of a bare wire stands as plus nothing, as minus nothing, and as no change of potential."""
    open_page(student, f"{host}examples/link-wire/?help=all")
    fill(find(student, ".loop-walk tr[data-part=W1] .your-term"), sign, "0")
    assert find(student, "live-example [role=status]").text.startswith("Right.")


def test_a_sign_is_judged_when_the_keys_have_come_to_it(student: Chrome, host: str) -> None:
    """On the way through the list nothing is said; leaving it says it in words, and so does Enter."""
    open_page(student, f"{host}examples/{BILGE}/?help=all")
    rows = find_all(student, ".loop-walk:nth-of-type(1) .your-term")
    for row, keys, told in (
        (rows[0], (Keys.ARROW_DOWN, Keys.ARROW_DOWN, Keys.TAB), "Not yet. You go through E1 from minus to plus"),
        (rows[1], (Keys.ARROW_DOWN, Keys.ENTER), "Not yet. You go through r of E1 along I1"),
        (rows[1], (Keys.ARROW_DOWN, Keys.ENTER), "The sign is right. Now the size, without sign."),
    ):
        said = row.find_element("css selector", ".feedback").text
        student.execute_script("arguments[0].focus()", row.find_element("css selector", "select"))
        for key in keys:
            assert row.find_element("css selector", ".feedback").text == said
            press(student, key)
        feedback = row.find_element("css selector", ".feedback")
        WebDriverWait(student, 2, 0.02).until(lambda _, feedback=feedback, told=told: feedback.text.startswith(told), told)


def test_a_junction_by_keys_goes_from_term_to_term(student: Chrome, host: str) -> None:
    """A wrong sign gets a hint that does not give the right one away; a sign that stands hands the focus on to the next one."""
    open_page(student, f"{host}examples/{BILGE}/?help=all")
    item = find(student, "li[data-junction]:not(.left-out)")
    first = item.find_element("css selector", ".your-term select")
    current = (first.get_attribute("aria-label") or "").rpartition(" ")[2]
    example = json.loads(find(student, "#circuit").get_attribute("textContent") or "{}")
    enters = {branch["current"]: branch["to"] for branch in example["branches"]}[current] == item.get_attribute("data-junction")
    student.execute_script("arguments[0].focus()", first)
    hint = f"Not yet. Look at the arrow of {current} at junction c: what enters counts plus, what leaves counts minus."
    wrong, right = ((Keys.ARROW_DOWN,) * 2, Keys.ARROW_UP) if enters else ((Keys.ARROW_DOWN,), Keys.ARROW_DOWN)
    press(student, *wrong, Keys.ENTER)
    assert item.find_element("css selector", ".your-term .feedback").text == hint
    press(student, right, Keys.TAB)
    WebDriverWait(student, 2, 0.02).until(lambda _: "Right." in item.text)
    assert student.execute_script("return document.activeElement.matches('.your-term select')")


def test_what_is_lit_no_longer_is_said_to_be_so(student: Chrome, host: str) -> None:
    """A second tap puts the light out, and the line that told of it goes."""
    open_page(student, f"{host}examples/{BILGE}/")
    part = find(student, ".figure-frame .part[data-part=E1] .body path")
    for told in ("E1 is lit in the figure", "Nothing is lit any more."):
        tap(student, part)
        assert told in find(student, "live-example [role=status]").text
    assert not lit(student)


def hidden_text(browser: Chrome, selector: str) -> str:
    return str(find(browser, selector).get_attribute("textContent"))


@pytest.mark.parametrize("name", FIVE)
def test_all_terms_filled_in_open_the_rest(student: Chrome, host: str, name: str) -> None:
    """Every junction and every loop by the student's own hand, from the data of the page; then nothing is closed."""
    open_page(student, f"{host}examples/{name}/?help=all")
    assert not find(student, "[data-section=equations]").is_displayed()
    for select in find_all(student, ".your-rule select"):
        Select(select).select_by_index(1)
    fill_junctions(student)
    fill_loops(student)
    assert not find_all(student, "[data-withheld]")
    assert find(student, "[data-section=equations]").is_displayed()
    assert find(student, "live-example [role=status]").text.endswith("The rest of the page is open.")


def fill_junctions(student: Chrome) -> None:
    example = json.loads(find(student, "#circuit").get_attribute("textContent") or "{}")
    ends = {branch["current"]: branch["to"] for branch in example["branches"]}
    for item in find_all(student, "li[data-junction]:not(.left-out)"):
        while fields := item.find_elements("css selector", ".your-term select"):
            current = (fields[0].get_attribute("aria-label") or "").rpartition(" ")[2]
            Select(fields[0]).select_by_visible_text("+" if ends[current] == item.get_attribute("data-junction") else "\N{MINUS SIGN}")


def fill_loops(student: Chrome) -> None:
    for row in find_all(student, "table.walk tbody tr"):
        term = row.find_element("css selector", "td.number").get_attribute("textContent") or ""
        digits = "".join(each for each in term.split("I")[0] if each in "0123456789./")
        size = row.find_elements("css selector", "mfrac mn")
        if len(size) == 2:
            digits = "/".join(each.get_attribute("textContent") or "" for each in size)
        value = Fraction(digits or "1")
        sign = "\N{MINUS SIGN}" if "\N{MINUS SIGN}" in term else "+" if value else "0"
        fill(row.find_element("css selector", ".your-term"), sign, format(float(value), "g"))


def test_a_level_of_help_says_where_it_begins(student: Chrome, host: str) -> None:
    """Right below the choice, with a link to the first term that is the reader's; step by step only where that can be seen."""
    phone.hold(student, 320, 640)
    open_page(student, f"{host}examples/{BILGE}/")
    tap(student, find_all(student, ".help-choice label")[2])
    says = find(student, ".help-says")
    assert says.text.endswith("Begin with junction c.")
    assert says.text == find(student, "live-example [role=status]").text
    assert covered(student, says) == []
    assert 0 < student.execute_script("return arguments[0].getBoundingClientRect().bottom", says) < 640
    find(student, ".help-says a").click()
    assert student.current_url.endswith("?help=all#junction-1")
    assert 0 < student.execute_script("return document.querySelector('.your-rule').getBoundingClientRect().top") < 640
    tap(student, find_all(student, ".help-choice label")[0])
    assert not find_all(student, ".help-says")


def test_back_and_forward_go_through_the_levels_of_help(student: Chrome, host: str) -> None:
    """Each level is one step back, as every other choice is."""
    open_page(student, f"{host}examples/{BILGE}/")
    for label in find_all(student, ".help-choice label")[1:]:
        tap(student, label)
    for go, asked in ((student.back, "?help=first"), (student.back, ""), (student.forward, "?help=first")):
        go()
        WebDriverWait(student, 5, 0.02).until(lambda _, asked=asked: student.execute_script("return location.search") == asked)
        assert find(student, "[name=help]:checked").get_attribute("value") == asked.removeprefix("?help=")
        assert bool(find_all(student, ".your-term")) is bool(asked)


def test_a_term_can_be_shown_and_the_rest_opened_anyway(student: Chrome, host: str) -> None:
    """Nobody is locked out: one term is shown for the asking, a section is opened for the asking, and the level changed."""
    open_page(student, f"{host}examples/{BILGE}/?help=first")
    tap(student, find(student, ".loop-walk .your-term .quiet-button"))
    assert "from minus to plus" in find(student, "table.walk tbody tr").text
    assert student.execute_script("return document.activeElement.tagName") in {"SELECT", "INPUT"}
    tap(student, find(student, ".help-closed button"))
    assert find(student, "[data-section=equations]").is_displayed()
    assert not find(student, "[data-section=matrix]").is_displayed()
    tap(student, find_all(student, ".help-choice input")[0])
    assert not find_all(student, "[data-withheld], .your-term, .help-closed")
    assert "help=" not in student.current_url


def test_what_was_filled_in_outlasts_other_choices(student: Chrome, host: str) -> None:
    """A direction turned round asks again only for the terms that it changes."""
    open_page(student, f"{host}examples/{BILGE}/?help=all")
    fill(find(student, ".loop-walk .your-term"), "+", "12.6")
    student.execute_script("document.querySelector('live-example').change({flip: ['I2']})")
    assert "12.6" in find(student, "table.walk tbody tr").text
    assert len(find_all(student, "section.loop-walk:nth-of-type(1) .your-term")) == 3


def test_a_size_outlasts_a_direction_turned_round(student: Chrome, host: str) -> None:
    """The sign is asked for again, the size is not."""
    open_page(student, f"{host}examples/{BILGE}/?help=all")
    fill(find_all(student, ".loop-walk:nth-of-type(1) .your-term")[1], "\N{MINUS SIGN}", "0.1")
    student.execute_script("document.querySelector('live-example').change({flip: ['I1']})")
    row = find_all(student, ".loop-walk:nth-of-type(1) .your-term")[1]
    values = [row.find_element("css selector", each).get_property("value") for each in ("select", "input")]
    assert values == ["", "0.1"]


def test_what_was_filled_in_outlasts_a_reload(student: Chrome, host: str) -> None:
    """Terms that stand, a choice that is wrong and a size without its sign are there again, at either level."""
    open_page(student, f"{host}examples/{BILGE}/?help=all")
    fill(find(student, ".loop-walk .your-term"), "+", "12.6")
    fill(find(student, ".loop-walk .your-term"), "+", "7")
    for asked in ("all", "first"):
        assert "12.6" in find(student, "table.walk tbody tr").text
        row = find(student, ".loop-walk .your-term")
        assert [row.find_element("css selector", each).get_property("value") for each in ("select", "input")] == ["+", "7"]
        count = find(student, ".help-closed").text
        student.refresh()
        phone.wait_for(student, ".your-term")
        assert find(student, ".help-closed").text == count
        row = find(student, ".loop-walk .your-term")
        assert row.find_element("css selector", ".feedback").text.startswith("Not yet.")
        assert row.find_elements("css selector", "[aria-invalid]")
        if asked == "all":
            tap(student, find(student, ".help-choice label:nth-of-type(2)"))


def test_a_size_that_was_not_left_outlasts_a_reload(student: Chrome, host: str) -> None:
    """Nothing is said of it yet; once the field is left, it is."""
    open_page(student, f"{host}examples/{BILGE}/?help=all")
    Select(find(student, ".loop-walk .your-term select")).select_by_visible_text("+")
    find(student, ".loop-walk .your-term input").send_keys("12")
    student.refresh()
    phone.wait_for(student, ".loop-walk .your-term")
    field = find(student, ".loop-walk .your-term input")
    assert field.get_property("value") == "12"
    field.send_keys(".6", Keys.TAB)
    assert find(student, "live-example [role=status]").text.startswith("Right.")


def test_a_heading_says_what_the_fields_take(student: Chrome, host: str) -> None:
    """As long as there are fields in the walk; then it is the worked table again."""
    open_page(student, f"{host}examples/{BILGE}/?help=all")
    headings = "return [...document.querySelectorAll('table.walk')].map(each => [...each.tHead.rows[0].cells].filter(cell => cell.checkVisibility()).map(cell => cell.textContent).join())"
    assert set(student.execute_script(headings)) == {"Part,Sign and size of the term"}
    while buttons := find_all(student, ".loop-walk:nth-of-type(1) .your-term .quiet-button"):
        tap(student, buttons[0])
    first, *others = student.execute_script(headings)
    assert first == "Part,Walked,Term"
    assert set(others) == {"Part,Sign and size of the term"}


@pytest.mark.parametrize("flip", ["", "&flip=I1.I2.I3"])
def test_blanks_at_a_junction_do_not_tell_what_enters(student: Chrome, host: str, flip: str) -> None:
    """They come in the order of the currents, and the first of them are the reader's."""
    for asked, count in (("all", 3), ("first", 2)):
        open_page(student, f"{host}examples/{BILGE}/?help={asked}{flip}")
        phone.wait_for(student, "li[data-junction] .your-term select")
        selects = find_all(student, "li[data-junction]:not(.left-out) .your-term select")
        assert [(each.get_attribute("aria-label") or "").rpartition(" ")[2] for each in selects] == ["I1", "I2", "I3"][:count]


def test_what_is_closed_names_the_next_term_and_leads_to_it(student: Chrome, host: str) -> None:
    """The last one too; the link goes to its field."""
    open_page(student, f"{host}examples/{BILGE}/?help=first")
    while (buttons := find_all(student, ".your-term .quiet-button"))[1:]:
        tap(student, buttons[0])
    says = find(student, ".help-closed p")
    assert says.text == "Opens with your last term: r of E2, loop L2."
    tap(student, says.find_element("css selector", "a"))
    assert student.execute_script("return document.activeElement === document.querySelector('.your-term select')")
    assert covered(student) == []


def test_a_term_left_open_is_not_given_away_by_its_light(student: Chrome, host: str) -> None:
    """Tapping a row that is still to be filled in lights its part, and says nothing of its sign."""
    open_page(student, f"{host}examples/{BILGE}/?help=all&step=L1.2")
    assert "drop" not in find(student, "live-example [role=status]").text
    tap(student, find(student, "table.walk tbody tr .term-key"))
    assert "E1" in lit(student)
    assert "sign" not in find(student, ".light-note").text
    assert not find_all(student, ".light-list li")
