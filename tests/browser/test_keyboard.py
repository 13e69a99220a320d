"""A page by keys alone: what the tab key reaches, where the focus is after each control, what the contents mark."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from selenium.webdriver import Chrome
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.wait import WebDriverWait

import tests.browser.screen as screen
import tests.browser.student as phone
from tests.browser.student import find, open_page, press

focused = "return document.activeElement.closest('article') ? 'article' : document.activeElement.className"


@pytest.fixture
def student(browser: Chrome) -> Iterator[Chrome]:
    """A phone with a keyboard."""
    phone.hold(browser)
    yield browser
    phone.let_go(browser)


def stops_before_the_article(browser: Chrome) -> list[str]:
    """What the tab key stops at, in turn, before it comes to the text; twelve stops at the most."""
    stops: list[str] = []
    for _ in range(12):
        press(browser, Keys.TAB)
        stop = browser.execute_script(focused)
        if stop == "article":
            break
        stops.append(stop)
    return stops


@pytest.mark.parametrize("path", ["examples/link-wire/", "examples/", "guide/circuit-file/", "lessons/signs-in-a-loop/"])
def test_a_few_stops_lead_to_the_text(student: Chrome, host: str, path: str) -> None:
    """The way past everything comes first and leads there; the closed drawer is no stop."""
    student.get(host + path)
    first, *others = stops_before_the_article(student)
    assert first.startswith("md-skip")
    assert len(others) <= 4
    screen.leave(student, host)
    student.get(host + path)
    press(student, Keys.TAB, Keys.ENTER, Keys.TAB)
    assert student.execute_script(focused) == "article"


def test_the_drawer_opens_by_keys(student: Chrome, host: str) -> None:
    """Enter opens it, then the contents of the page in it; only what can be seen is a stop."""
    open_page(student, f"{host}examples/link-wire/")
    student.execute_script("document.querySelector('.masthead-drawer').focus()")
    press(student, Keys.ENTER)
    student.execute_script("document.querySelector('.md-sidebar--primary .md-nav__link[for=__toc]').focus()")
    press(student, Keys.ENTER)
    seen = []
    for _ in range(4):
        press(student, Keys.TAB)
        seen.append(
            student.execute_script(
                "return document.activeElement.checkVisibility({visibilityProperty: true}) && document.activeElement.hash"
            )
        )
    assert seen[1:] == ["#question", "#directions", "#junctions"]
    behind = "return [...document.querySelectorAll('.md-content, .md-footer')].map(each => each.inert)"
    assert student.execute_script(behind) == [True, True]
    student.execute_script("document.querySelector('#__drawer').click()")
    assert student.execute_script(behind) == [False, False]


controls = [
    ("", "[data-turn=I2]", "[data-turn=I2]"),
    ("", "[data-leave-out=c]", "li.left-out[data-junction=c]"),
    ("", "[data-set=next]", "[data-set=next]"),
    ("?flip=I1&set=3", "[data-do=again]", "[data-do=copy]"),
    ("?flip=I1", "[data-do=again]", "[data-do=copy]"),
    ("?set=3", "[data-set=own]", "[data-set=next]"),
    ("?set=3", "[data-set=help]", "[data-set=next]"),
    ("", "[data-choose=turn]", "[data-choose=turn]"),
    ("", "[data-choose=start]", "[data-choose=start]"),
    ("", "[data-choose=out]", "[data-choose=in]"),
    ("", "[data-choose=in]", "[data-choose=out]"),
    ("", "[data-choose=show]", "[data-choose=show]"),
    ("", "[data-choose=walk]", "[data-choose=next]"),
    ("?help=first", ".your-term .quiet-button", ".your-term select"),
    ("?help=first", ".help-closed .quiet-button", "#equations"),
    ("", ".figure-pin-button", ".figure-pin-button"),
    ("", ".step-start", ".step-next"),
    ("?step=start", ".step-next", ".step-next"),
]


@pytest.mark.parametrize(("asked", "pressed", "then"), controls)
def test_a_control_leaves_the_focus_where_reading_goes_on(student: Chrome, host: str, asked: str, pressed: str, then: str) -> None:
    """On the control that does the same now, or on what took its place; never nowhere."""
    open_page(student, f"{host}examples/link-wire/{asked}")
    if "choose" in pressed:
        student.execute_script("document.querySelector('loop-chooser').scrollIntoView()")
        phone.wait_for(student, "loop-chooser:defined")
        student.execute_script("document.querySelector('loop-chooser details').open = true")
    phone.wait_for(student, pressed)
    student.execute_script("arguments[0].scrollIntoView({block: 'center'}); arguments[0].focus()", find(student, pressed))
    press(student, Keys.ENTER)
    student.execute_async_script("const done = arguments[0]; requestAnimationFrame(() => setTimeout(done, 100))")
    assert student.execute_script("return document.activeElement.matches(arguments[0])", then)
    assert phone.covered(student) == []


def test_the_contents_mark_the_section_that_a_link_leads_to(browser: Chrome, host: str) -> None:
    """Beside the text of a wide screen, for headings of both sizes."""
    screen.resize(browser, 1280)
    for path, names in (
        ("examples/link-wire/", ("loops", "matrix", "junctions")),
        ("guide/circuit-file/", ("parts", "short-circuit", "names")),
    ):
        browser.get(host + path)
        for name in names:
            find(browser, f".md-sidebar--secondary a[href$='#{name}']").click()
            phone.wait_for(browser, f".md-sidebar--secondary .md-nav__link--active[href$='#{name}']")


def test_what_is_marked_as_changed_crosses_no_ink(student: Chrome, host: str) -> None:
    """A line in a text would run through the denominators of its fractions, one below a minus would make it an equals sign."""
    open_page(student, f"{host}examples/neutral-wire/?set=1")
    phone.wait_for(student, "mfrac")
    student.execute_script("document.querySelector('[data-turn=I1]').click()")
    phone.wait_for(student, ".changed mfrac")
    marks = """
    return [...document.querySelectorAll('.changed')].map(each => {
      const {textDecorationLine, backgroundColor, boxShadow} = getComputedStyle(each);
      return [textDecorationLine, backgroundColor !== 'rgba(0, 0, 0, 0)', (boxShadow === 'none') === each.matches('.changed .changed, mo')];
    })"""
    assert all(mark == ["none", True, True] for mark in student.execute_script(marks))


def test_the_button_that_copies_covers_no_code(student: Chrome, host: str) -> None:
    """It stands below the last line, in every guide."""
    covers = """
    return [...document.querySelectorAll('pre > code')].filter(code => {
      const text = document.createRange();
      text.selectNodeContents(code);
      return text.getBoundingClientRect().bottom > code.parentElement.querySelector('button').getBoundingClientRect().top;
    }).map(code => code.textContent.slice(0, 40))"""
    for page in ("circuit-file", "lessons", "linking", "publishing"):
        student.get(f"{host}guide/{page}/")
        phone.wait_for(student, "pre button")
        assert student.execute_script(covers) == [], page


def test_a_figure_is_a_stop_only_where_it_scrolls(student: Chrome, host: str) -> None:
    """Where all of it is shown there is nothing to do for the keys; pinned and cut, the arrow keys move it."""
    open_page(student, f"{host}examples/neutral-wire/")
    stop = "return document.querySelector('.figure-frame').tabIndex"
    WebDriverWait(student, 5, 0.02).until(lambda _: student.execute_script(stop) == -1)
    phone.hold(student, 360, 560)
    student.execute_script("document.querySelector('.figure-pin-button').click(); document.querySelector('#loops').scrollIntoView()")
    phone.wait_for(student, "figure-pin.stuck.cut")
    assert student.execute_script(stop) == 0


def test_under_the_figure_a_line_leads_to_the_ways_of_working(student: Chrome, host: str) -> None:
    """Before the solution is met: step by step, or terms left to the reader."""
    open_page(student, f"{host}examples/bilge-pump-two-banks/")
    lower = "return document.querySelector('a[href=\"#ways\"]').getBoundingClientRect().top - document.querySelector('.example-figure').getBoundingClientRect().bottom"
    assert 0 <= student.execute_script(lower) < 40
    student.execute_script("document.querySelector('a[href=\"#ways\"]').focus()")
    press(student, Keys.ENTER)
    assert 0 < student.execute_script("return document.querySelector('.step-start').getBoundingClientRect().top") < 300
    press(student, Keys.TAB)
    assert student.execute_script("return document.activeElement.className").startswith("text-button step-start")
