"""The page alive on a phone: directions turned round, equations chosen, and links that carry all of it."""

from __future__ import annotations

from collections.abc import Iterator
from urllib.parse import quote, urlsplit

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from selenium.webdriver import Chrome

import tests.browser.phone as phone
import tests.browser.screen as screen
from tests.browser.own_work import sections, work_example, write_texts

pytestmark = pytest.mark.usefixtures("browser")

keys = ("flip", "leave-out", "walk", "set", "step", "help")
examples = ("neutral-wire", "frost-bridge", "link-wire", "pontoon-lamps", "bow-lamp")


@pytest.fixture(scope="module", autouse=True)
def phone_in_hand(browser: Chrome) -> Iterator[None]:
    """Every page of this file is on a phone."""
    with phone.held(browser):
        yield


@pytest.fixture
def open_example(browser: Chrome, host: str, request: pytest.FixtureRequest) -> Iterator[None]:
    """The example of a test, the frost bridge unless it has a name; afterwards the console is empty and nobody else was asked."""
    name = request.getfixturevalue("name") if "name" in request.fixturenames else "frost-bridge"
    screen.console(browser)
    screen.requests(browser)
    phone.open_page(browser, f"{host}examples/{name}/")
    yield
    assert screen.console(browser) == ()
    assert {urlsplit(address).netloc for address in screen.requests(browser)} <= {urlsplit(host).netloc, ""}


def page_texts(browser: Chrome) -> dict[str, str]:
    return {section: phone.section_text(browser, section) for section in sections}


@pytest.mark.parametrize("name", examples)
@pytest.mark.usefixtures("open_example")
def test_a_tap_on_an_arrow_turns_everything_that_depends_on_it(browser: Chrome, name: str) -> None:
    """The page then says word for word what Python writes with the direction turned round; the parts stay as they were."""
    current = work_example(name).topology.branches[-1].current
    before = page_texts(browser)
    assert before == write_texts(name)
    physics = parts_table(browser)
    phone.tap(browser, f".figure-frame .arrow[data-current={current}] .head")
    assert phone.search(browser) == f"?flip={current}"
    assert page_texts(browser) == write_texts(name, flip=[current])
    assert parts_table(browser) == physics
    assert f"{current} turned round: it now runs" in phone.said(browser)
    assert "turned" in (phone.find(browser, f".arrow[data-current={current}]").get_attribute("class") or "")


def parts_table(browser: Chrome) -> str:
    script = "return [...document.querySelectorAll('table.parts, table.potentials')].map(e => e.textContent).join()"
    return str(browser.execute_script(script))


@pytest.mark.parametrize(("name", "part"), [("bus-bar", "E1"), ("bus-bar", "E2"), ("three-banks", "E2"), ("pontoon-lamps", "R4")])
@pytest.mark.usefixtures("open_example")
def test_a_tap_on_a_symbol_means_its_part(browser: Chrome, name: str, part: str) -> None:
    """Between the plates of a battery too, though an arrow is near."""
    assert name in browser.current_url
    phone.tap(browser, f".figure-frame [data-part={part}] .body")
    assert phone.search(browser) == ""
    assert browser.find_elements("css selector", f".figure-frame .part.lit[data-part={part}]")


@pytest.mark.parametrize("selector", [".figure-frame .arrow[data-current={}] .head", "[data-turn={}]"])
@pytest.mark.usefixtures("open_example")
def test_only_what_the_last_turn_changed_is_marked(browser: Chrome, selector: str) -> None:
    """One turn after another, well within the time for which marks are shown: rows and terms of the other current are not marked."""
    marked = """return [...new Set([...document.querySelectorAll('[data-section=directions] .changed, [data-section=loops] .term.changed')]
      .map(each => each.closest('[data-current]').dataset.current))]"""
    for current in ("I1", "I2"):
        phone.tap(browser, selector.format(current))
        assert browser.execute_script(marked) == [current]


@pytest.mark.parametrize("name", examples)
@pytest.mark.usefixtures("open_example")
def test_the_row_of_a_current_turns_it_too(browser: Chrome, name: str) -> None:
    """By keyboard, with the focus kept; once more, and the page is as printed."""
    button = f"[data-turn={work_example(name).topology.branches[0].current}]"
    phone.press(browser, button)
    assert page_texts(browser) == write_texts(name, flip=[work_example(name).topology.branches[0].current])
    assert browser.execute_script(f"return document.activeElement.matches('{button}')")
    assert browser.execute_script("return document.querySelectorAll('.changed').length") > 1
    phone.press(browser, button)
    assert phone.search(browser) == ""
    assert page_texts(browser) == write_texts(name)


@pytest.mark.parametrize("name", ["neutral-wire", "frost-bridge"])
@pytest.mark.usefixtures("open_example")
def test_another_junction_is_left_out(browser: Chrome, name: str) -> None:
    """The page then writes the set that Python writes."""
    junction = next(junction.name for junction in work_example(name).topology.junctions if junction.used)
    phone.tap(browser, f"[data-leave-out={junction}]")
    assert phone.search(browser) == f"?leave-out={junction}"
    assert page_texts(browser) == write_texts(name, leave_out=junction)
    phone.tap(browser, "[data-do=again]")
    assert page_texts(browser) == write_texts(name)


@pytest.mark.parametrize("name", ["frost-bridge", "neutral-wire"])
@pytest.mark.usefixtures("open_example")
def test_loops_walked_otherwise_say_the_same(browser: Chrome, name: str) -> None:
    """A loop walked the other way and begun elsewhere: the page follows, and the address carries it."""
    phone.tap(browser, "loop-chooser summary")
    phone.tap(browser, "[data-choose=turn]")
    phone.tap(browser, "[data-choose=start]")
    chosen = phone.search(browser)
    assert chosen.startswith("?walk=")
    assert page_texts(browser) == write_texts(name, walk=chosen.removeprefix("?walk="))


@pytest.mark.parametrize("name", ["frost-bridge", "link-wire"])
@pytest.mark.usefixtures("open_example")
def test_an_insufficient_set_says_why_there_is_no_answer(browser: Chrome, name: str) -> None:
    """A loop taken out: no answer yet, and what is missing; another one taken in: the answer is there again."""
    phone.tap(browser, "loop-chooser summary")
    phone.tap(browser, "[data-choose=out]")
    assert "add one loop more that says something new" in phone.said(browser)
    for section in ("by-hand", "currents", "checks"):
        assert phone.section_text(browser, section).startswith("Thereisnoansweryet")
    phone.tap(browser, ".loop-list .note.new ~ .live-tools [data-choose=in]")
    assert page_texts(browser) == write_texts(name, walk=phone.search(browser).removeprefix("?walk="))


@pytest.mark.parametrize("name", ["frost-bridge"])
@pytest.mark.usefixtures("open_example")
def test_a_loop_too_many_says_what_it_repeats(browser: Chrome, name: str) -> None:
    """One loop more than are needed is a sum of others: the page says of which before and afterwards, and taking one of them out helps."""
    phone.tap(browser, "loop-chooser summary")
    note = phone.find(browser, "[data-walk] .note").text
    assert note == "Follows from L1, L2 and L3, so beside those it says nothing new."
    phone.tap(browser, "[data-walk] [data-choose=in]")
    note = phone.find(browser, "[data-choice=L4] .note").text
    assert note == "Does not count, for it follows from L1, L2 and L3: remove one of those, or this one."
    told = "L4 is in the set now, but does not count: its equation is L1 + L2 + L3. Remove one of those, and it counts."
    assert (phone.said(browser), seen_beside(browser, "[data-choice=L4]")) == (told, told)
    assert "L4" in browser.execute_script("return document.querySelector('.set-repeats').closest('.loop-walk').dataset.loop")
    assert phone.section_text(browser, "currents") == write_texts(name)["currents"]
    phone.tap(browser, "[data-choice=L2] [data-choose=out]")
    assert phone.said(browser).startswith("L2 is out of the set. This set suffices")
    assert not browser.find_elements("css selector", "[data-choice] .note:not(ul + .note)")


@pytest.mark.usefixtures("open_example")
def test_a_loop_that_is_not_printed_has_its_mark_too(browser: Chrome, host: str) -> None:
    """It takes a free ring inside it, dashed, which the chooser explains; it turns with the loop; a tap on it lights the whole walk."""
    phone.open_page(browser, f"{host}examples/frost-bridge/?walk=a.E1.R1.R3_c.R2.R5.R1_a.E1.R2.R4")
    chosen = "document.querySelectorAll('.figure-frame .loop:not(.not-chosen)')"
    rings = f"return [...{chosen}].map(e => [e.textContent, e.classList.contains('lent')])"
    assert browser.execute_script(rings) == [["L1", False], ["L2", False], ["L4", True]]
    lit = "return [...new Set([...document.querySelectorAll('.figure-frame .lit:not(.joined)')].map(e => e.dataset.part ?? e.dataset.loop))].sort().join()"
    lines = "return [...document.querySelectorAll('.joined.lit')].map(({dataset}) => dataset.point + dataset.to).sort().join()"
    phone.tap(browser, ".figure-frame .loop.lent .ring")
    assert browser.execute_script(lit) == "E1,L4,R2,R4"
    assert browser.execute_script(lines) == "ag,bc,cd,gh"
    assert phone.said(browser).startswith("L4: clockwise from a")
    phone.tap(browser, "loop-chooser summary")
    note = "The dashed ring in the figure stands for L4, but not in its place: tap it, and the whole way lights up."
    phone.wait_until(browser, "document.querySelector('.loop-list + .note')")
    assert phone.find(browser, ".loop-list + .note").text == note
    phone.tap(browser, "[data-choice=L4] [data-choose=turn]")
    assert "turned" in (phone.find(browser, ".loop.lent").get_attribute("class") or "")
    phone.tap(browser, "[data-choice=L2] [data-choose=show]")
    assert browser.execute_script(lit) == "L2,R1,R2,R5"
    assert browser.execute_script(lines) == "cd"
    phone.tap(browser, "[data-choice=L2] [data-choose=out]")
    assert browser.execute_script("return [...document.querySelectorAll('.loop-walk')].map(e => e.dataset.loop).join()") == "L1,L4"


@pytest.mark.usefixtures("open_example")
def test_a_loop_is_lit_all_round_where_the_tool_drew_one_junction_in_two_places(browser: Chrome, host: str) -> None:
    """Also the plain line between two dots of one name; a loop that does not pass there leaves it dark."""
    phone.open_page(browser, f"{host}examples/pontoon-lamps/")
    phone.tap(browser, "loop-chooser summary")
    lines = "return document.querySelectorAll('.joined.lit').length"
    for loop, lit in (("L2", 1), ("L1", 0), ("L3", 0)):
        phone.tap(browser, f"[data-choice={loop}] [data-choose=show]")
        assert browser.execute_script(lines) == lit, loop


@pytest.mark.parametrize("above", [120, 190, 400])
@pytest.mark.usefixtures("open_example")
def test_a_walk_begins_with_what_to_do_in_sight(browser: Chrome, above: int) -> None:
    """The figure that comes to the top of the screen does not cover it, wherever the button stood."""
    phone.tap(browser, "loop-chooser summary")
    browser.execute_script(
        "const button = document.querySelector('[data-choose=walk]'); scrollBy(0, button.getBoundingClientRect().top - arguments[0]); button.focus(); button.click()",
        above,
    )
    phone.wait_until(browser, "document.querySelector('figure-pin.stuck') && document.querySelector('.own-walk [data-choose=next]')")
    phone.settle(browser)
    covered = "document.querySelector('figure-pin.stuck figure-viewer').getBoundingClientRect().bottom"
    assert browser.execute_script(f"return document.querySelector('.own-walk p').getBoundingClientRect().top >= {covered}")
    assert browser.execute_script("return document.querySelector('.own-walk .walk-so-far').getBoundingClientRect().bottom < innerHeight")


@pytest.mark.usefixtures("open_example")
def test_a_loop_walked_by_tapping_parts(browser: Chrome) -> None:
    """Part after part in the figure, one of them wrong, one taken back; the closed loop is taken into the set."""
    phone.tap(browser, "loop-chooser summary")
    phone.tap(browser, "[data-choose=walk]")
    for part, answer in (
        ("E1", "Tap the next part: it decides which way round you go"),
        ("R1", "The walk stands at e"),
        ("R4", "R4 does not join on there"),
        ("R5", "The walk stands at f"),
        ("R4", "The loop is closed"),
    ):
        phone.tap(browser, f".figure-frame .part[data-part={part}] .body path")
        assert answer in phone.said(browser), part
    phone.tap(browser, "[data-choose=back]")
    assert "The walk stands at f" in phone.said(browser)
    phone.tap(browser, ".figure-frame .part[data-part=R2] .body path")
    assert phone.said(browser).startswith("R2 would lead back to a point that you have passed.")
    phone.press(browser, "[data-choose=next][data-part-name=R4]")
    phone.tap(browser, "[data-choose=done]")
    assert phone.search(browser).endswith("_a.E1.R1.R5.R4")
    assert phone.said(browser).startswith("L6 is in the set now, but does not count")
    assert seen_beside(browser, ".own-walk") == phone.said(browser)


@pytest.mark.usefixtures("open_example")
def test_a_reload_keeps_the_chooser_and_the_walk(browser: Chrome) -> None:
    """The panel is open as it was, the walk stands where it stood, lit with the plain lines on its way; closed it stays closed."""
    phone.tap(browser, "loop-chooser summary")
    phone.tap(browser, "[data-choose=walk]")
    for part in ("R3", "E1", "R2"):
        phone.press(browser, f"[data-choose=next][data-part-name={part}]")
    told, lit = phone.find(browser, ".walk-so-far").text, browser.execute_script(lit_marks)
    assert sorted(lit) == ["E1", "R2", "R3", "ag", "bc", "cd"]
    browser.refresh()
    come_near_the_chooser(browser)
    assert phone.find(browser, ".walk-so-far").text == told
    assert browser.execute_script(lit_marks) == lit
    phone.tap(browser, "loop-chooser summary")
    browser.refresh()
    come_near_the_chooser(browser)
    assert not phone.find(browser, "loop-chooser details").get_attribute("open")


def come_near_the_chooser(browser: Chrome) -> None:
    """Bring it into sight, and wait until it works."""
    browser.execute_script("document.querySelector('loop-chooser').scrollIntoView()")
    phone.wait_until(browser, "document.querySelector('loop-chooser .own-walk')")


lit_marks = "return [...document.querySelectorAll('.figure-frame .lit:not(.label, .polarity)')].map(({dataset: {part, point, to}}) => part ?? point + to)"


@pytest.mark.usefixtures("open_example")
def test_a_loop_outside_the_set_can_be_shown(browser: Chrome) -> None:
    """Before it is added, so that a reader knows what it is."""
    phone.tap(browser, "loop-chooser summary")
    phone.tap(browser, "[data-other=L4] [data-choose=show]")
    assert sorted(browser.execute_script(lit_marks)) == ["E1", "R2", "R4", "ag", "bc", "cd", "gh"]
    assert phone.search(browser) == ""


@pytest.mark.parametrize(
    ("parts", "told"),
    [
        (("R1", "R3", "E1"), "This is L1, already in the set."),
        (("R3", "R1", "E1"), "L1 is now walked the other way: every term of its equation changes sign, so it still says the same."),
        (("E1", "R2", "R4"), "L4 is in the set now: clockwise from a"),
    ],
)
@pytest.mark.usefixtures("open_example")
def test_what_comes_of_a_walk_is_said_where_it_ends(browser: Chrome, host: str, parts: tuple[str, ...], told: str) -> None:
    """A loop of the set again, the same one the other way, a new one: one line below the thumb; back takes the line away with the loop."""
    phone.open_page(browser, f"{host}examples/frost-bridge/?walk=a.E1.R1.R3_e.R5.R4.R3")
    before = phone.search(browser)
    phone.tap(browser, "loop-chooser summary")
    phone.tap(browser, "[data-choose=walk]")
    for part in parts:
        phone.press(browser, f"[data-choose=next][data-part-name={part}]")
    phone.tap(browser, "[data-choose=done]")
    assert seen_beside(browser, ".own-walk").startswith(told)
    assert phone.said(browser).startswith(told)
    assert browser.execute_script("return document.activeElement.dataset.choose") == "walk"
    if phone.search(browser) == before:
        return
    browser.back()
    phone.wait_until(browser, "!document.querySelector('.chooser-says')")


def seen_beside(browser: Chrome, place: str) -> str:
    """What the chooser says of the last choice, if that is on the screen."""
    line = phone.find(browser, f"{place} .chooser-says")
    top, bottom = browser.execute_script("const {top, bottom} = arguments[0].getBoundingClientRect(); return [top, bottom]", line)
    assert 0 < top < bottom < phone.size["height"]
    return str(browser.execute_script("return arguments[0].textContent", line))


@pytest.mark.parametrize("name", ["frost-bridge"])
@pytest.mark.usefixtures("open_example")
def test_back_forward_and_reload_keep_what_was_chosen(browser: Chrome, name: str) -> None:
    """Every choice is one step back; a reload shows the same page; start again takes all of it back."""
    phone.tap(browser, "[data-turn=I1]")
    phone.tap(browser, "[data-leave-out=e]")
    both = write_texts(name, flip=["I1"], leave_out="e")
    assert page_texts(browser) == both
    browser.back()
    phone.wait_until(browser, "location.search === '?flip=I1'")
    phone.settle(browser)
    assert page_texts(browser) == write_texts(name, flip=["I1"])
    browser.forward()
    phone.wait_until(browser, "location.search.includes('leave-out')")
    phone.settle(browser)
    assert page_texts(browser) == both
    browser.refresh()
    phone.wait_until(browser, "document.querySelector('live-example')?.worked")
    assert page_texts(browser) == both
    phone.tap(browser, "[data-do=again]")
    assert (phone.search(browser), page_texts(browser)) == ("", write_texts(name))


@pytest.mark.usefixtures("open_example")
def test_copy_link_gives_what_is_on_the_screen(browser: Chrome) -> None:
    """The address goes to the clipboard, without the section it led to; where the browser refuses, it stands selected in a field."""
    browser.execute_script("location.hash = 'loops'")
    phone.tap(browser, "[data-turn=I2]")
    phone.wait_until(browser, "location.search")
    link = browser.current_url
    assert link.endswith("?flip=I2")
    browser.execute_script("location.hash = 'loops'")
    browser.execute_script(
        "Object.defineProperty(navigator, 'clipboard', {configurable: true, value: {writeText: async text => { window.copied = text }}})"
    )
    phone.tap(browser, "[data-do=copy]")
    assert browser.execute_script("return window.copied") == link
    assert phone.said(browser) == "The link to exactly this page is copied, without what you typed."
    browser.execute_script("Object.defineProperty(navigator, 'clipboard', {configurable: true, value: undefined})")
    phone.tap(browser, "[data-do=copy]")
    assert browser.execute_script("return getSelection().toString() || document.activeElement.value") == link


def test_the_figure_in_words_follows(browser: Chrome, host: str) -> None:
    """A turned current and the loops of the set, also by an address; as printed again, the printed sentences are there."""
    words = "return [...document.querySelectorAll('.in-words p')].filter(each => !each.hidden).map(each => each.textContent)"
    phone.open_page(browser, f"{host}examples/pontoon-lamps/")
    printed = browser.execute_script(words)
    phone.open_page(browser, f"{host}examples/pontoon-lamps/?flip=I1&walk=a.E1.R1.R2_a.E1.R1.R3.R4")
    chosen = browser.execute_script(words)
    assert [line for line in printed if line.startswith("Current I1 is assumed from a to c: up")]
    assert [line for line in chosen if line.startswith("Current I1 ")] == [
        "Current I1 is assumed from c to a: to the left through R1, then down through E1."
    ]
    assert [line.partition(",")[0] for line in chosen if line.startswith("Loop")] == ["Loop L1", "Loop L4"]
    phone.tap(browser, "[data-do=again]")
    assert browser.execute_script(words) == printed


def test_back_takes_a_choice_back_where_the_reader_is(browser: Chrome, host: str) -> None:
    """Also on a page that was opened at a section: Back does not lead there."""
    phone.open_page(browser, f"{host}examples/three-banks/#your-turn")
    phone.tap(browser, "[data-turn=I2]")
    phone.wait_until(browser, "location.search")
    here = browser.execute_script("return document.querySelector('[data-turn=I2]').getBoundingClientRect().top")
    browser.back()
    phone.wait_until(browser, "!location.search")
    phone.settle(browser)
    assert abs(browser.execute_script("return document.querySelector('[data-turn=I2]').getBoundingClientRect().top") - here) < 5


malformed = st.tuples(st.sampled_from(keys), st.text(max_size=30)).filter(lambda pair: pair[0] != "set" or not pair[1].isdecimal())
"""A key with anything after it; the number of a set would be well formed."""


@given(broken=st.lists(malformed, max_size=4))
@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
def test_a_malformed_address_does_no_harm(browser: Chrome, host: str, broken: list[tuple[str, str]]) -> None:
    """Whatever stands in it, the page is as printed, and the console stays empty."""
    asked = "&".join(f"{key}={quote(value)}" for key, value in broken)
    screen.console(browser)
    phone.open_page(browser, f"{host}examples/frost-bridge/?{asked}")
    assert phone.section_text(browser, "equations") == write_texts("frost-bridge")["equations"]
    assert screen.console(browser) == ()


@pytest.mark.parametrize(
    ("asked", "note"),
    [
        ("flip=I9", "I9, which is no current"),
        ("leave-out=zz", "zz, which is no junction"),
        ("walk=a.E1.R4", "a.E1.R4, which is no closed way"),
        ("flip=%FF%00<img src=x onerror=alert(1)>", "which is no current"),
        ("walk=__proto__.constructor_a", "which is no closed way"),
    ],
)
def test_what_an_address_gets_wrong_is_said_once(browser: Chrome, host: str, asked: str, note: str) -> None:
    """In one quiet line, as text."""
    phone.open_page(browser, f"{host}examples/frost-bridge/?{asked}")
    assert note in phone.said(browser)
    assert page_texts(browser) == write_texts("frost-bridge")


@pytest.mark.parametrize("name", examples)
@pytest.mark.parametrize("spot", ["", "#directions", "#loops"])
def test_nothing_moves_when_the_scripts_start(browser: Chrome, host: str, name: str, spot: str) -> None:
    """No layout shift from the first paint on, at the top and further down."""
    phone.open_page(browser, f"{host}examples/{name}/{spot}")
    phone.settle(browser)
    assert browser.execute_script("return window.shifted") == []


def test_the_words_of_a_row_button_stand_apart(browser: Chrome, host: str) -> None:
    """The spaces beside the name of a current are there to be seen."""
    phone.open_page(browser, f"{host}examples/link-wire/")
    browser.execute_script("document.querySelector('[data-turn=I1]').scrollIntoView()")
    phone.settle(browser)
    assert browser.execute_script("return document.querySelector('[data-turn=I1]').innerText") == "Turn I1 round"


def test_an_arrow_on_a_walk_means_the_part_below_it(browser: Chrome, host: str) -> None:
    """The arrow in the middle of a bare wire does not stand in the way, and does not turn."""
    phone.open_page(browser, f"{host}examples/link-wire/")
    phone.tap(browser, ".loop-choice summary")
    phone.tap(browser, "[data-choose=walk]")
    phone.tap(browser, ".figure-frame .arrow[data-current=I3] .head")
    assert phone.said(browser).startswith("You begin with W1.")
    assert phone.search(browser) == ""


def test_a_loop_that_repeats_others_says_so_in_the_list(browser: Chrome, host: str) -> None:
    """It is listed with the set, but not as a part of what counts."""
    phone.open_page(browser, f"{host}examples/link-wire/")
    phone.tap(browser, ".loop-choice summary")
    phone.tap(browser, "[data-walk] [data-choose=in]")
    notes = [each.text for each in browser.find_elements("css selector", "[data-choice] .note")]
    assert notes == ["Does not count, for it follows from L1 and L2: remove one of those, or this one."]
