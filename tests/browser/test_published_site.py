"""The site as its readers get it: below a sub-path, from a plain static server, with the content policy on."""

from __future__ import annotations

import json
import os
import shutil
import threading
import time
from collections.abc import Callable, Iterator
from functools import partial
from http.server import ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote, urldefrag, urljoin, urlsplit
from urllib.request import urlopen

import html5lib
import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from selenium.webdriver import Chrome
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.select import Select
from selenium.webdriver.support.wait import WebDriverWait

import tests.browser.screen as screen
from build_tools.__main__ import main
from build_tools.page.embed import embeds
from build_tools.pipeline import make_page
from tests.browser.conftest import Quiet
from tests.site.library import repository, write

pytestmark = pytest.mark.usefixtures("browser")
below = "school/circuits/"
old, renamed, removed = "heater-switch-open", "heater-before", "meters-on-the-heater"


class Guarded(Quiet):
    """A static server that sends the site's policy with every answer below it."""

    policy = ""

    def end_headers(self) -> None:
        """Add the header."""
        if self.path.startswith(f"/{below}"):
            self.send_header("Content-Security-Policy", self.policy)
        super().end_headers()


@pytest.fixture(scope="module")
def published(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a host: the project's site below a sub-path, in its second edition, with a file renamed and one taken away."""
    project, host = tmp_path_factory.mktemp("project"), tmp_path_factory.mktemp("host")
    shutil.copytree(repository / "docs", project / "docs", ignore=shutil.ignore_patterns("published.toml", "gone.toml"))
    shutil.copytree(repository / "circuits", project / "circuits")
    shutil.copy(repository / "mkdocs.yml", project)
    (project / "build_tools").symlink_to(repository / "build_tools")
    before, address = Path.cwd(), os.environ.get("SITE_URL")
    os.chdir(project)
    os.environ["SITE_URL"] = f"http://127.0.0.1:1/{below}"
    try:
        publish(project, host)
        assert main(["record", str(host / below)]) == 0
        circuit = project / f"circuits/{old}.toml"
        write(circuit.with_stem(renamed), f'formerly = ["{old}"]\n' + circuit.read_text(encoding="utf-8"))
        circuit.unlink()
        (project / f"circuits/{removed}.toml").unlink()
        write(project / "docs/gone.toml", f'["examples/{removed}/"]\nwhy = "The meters rusted."\ninstead = ["examples/bow-lamp/"]\n')
        publish(project, host)
    finally:
        os.chdir(before)
        os.environ.pop("SITE_URL")
        if address is not None:
            os.environ["SITE_URL"] = address
    return host


def publish(project: Path, host: Path) -> None:
    build(load_config(str(project / "mkdocs.yml"), strict=True, site_dir=str(host / below)))


@pytest.fixture(scope="module")
def root(published: Path) -> Iterator[str]:
    """Where the site stands."""
    Guarded.policy = (published / below / "policy.txt").read_text(encoding="utf-8").strip().partition(": ")[2]
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Guarded, directory=str(published)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/{below}"
    server.shutdown()
    server.server_close()


def until(browser: Chrome, true: Callable[[], object]) -> None:
    WebDriverWait(browser, 15, poll_frequency=0.05).until(lambda _: true())


def test_every_link_and_every_lead_is_followed_to_the_last(root: str, published: Path) -> None:
    """A crawler begins at the home page, the old addresses and the light pages; each answer is a page, each fragment an element."""
    index = json.loads((published / below / "examples.json").read_text(encoding="utf-8"))
    waiting = {
        root,
        *(f"{root}examples/{name}/" for name in (old, removed)),
        *(f"{root}embed/{name}/figure.html" for name in (old, removed)),
    }
    waiting |= {f"{root}embed/{example['address']}/{name}" for example in index["examples"] for name in embeds}
    waiting |= {root + section for example in index["examples"] for section in example["sections"]}
    seen: dict[str, frozenset[str]] = {}
    fragments: set[tuple[str, str, str]] = set()
    while waiting:
        address, fragment = urldefrag(waiting.pop())
        plain = address.partition("?")[0]
        fragments.add((plain, unquote(fragment), address))
        if plain in seen:
            continue
        with urlopen(plain) as answer:
            assert answer.status == 200, plain
            kind, body = answer.headers.get_content_type(), answer.read()
        seen[plain] = frozenset()
        if kind != "text/html":
            continue
        tree = html5lib.parse(body, treebuilder="etree", namespaceHTMLElements=False)
        seen[plain] = frozenset(element.get("id", "") for element in tree.iter())
        for element in tree.iter():
            ways = [element.get(name) for name in ("href", "src") if element.get(name)]
            if element.tag == "meta" and element.get("http-equiv") == "refresh":
                ways.append((element.get("content") or "").partition("url=")[2])
            for way in ways:
                target = urljoin(plain, way)
                if target.startswith(root) and not (element.tag == "link" and element.get("rel") == "canonical"):
                    waiting.add(target)
                elif urlsplit(target).netloc == urlsplit(root).netloc and urlsplit(target).scheme == "http":
                    pytest.fail(f"{plain} leads out of the sub-path: {way}")
    missing = {(plain, name) for plain, name, _ in fragments if name and not name.startswith("__") and name not in seen[plain]}
    assert not missing
    assert len(seen) > 150


@pytest.mark.parametrize(
    "path",
    ["", "examples/", "examples/link-wire/", "lessons/signs-in-a-loop/", "guide/linking/", f"examples/{removed}/", "embed/link-wire/"],
)
def test_the_policy_is_obeyed(browser: Chrome, root: str, path: str) -> None:
    """No page asks for anything that the policy forbids, and its scripts run."""
    screen.resize(browser, 1280)
    screen.console(browser)
    browser.get(root + path)
    time.sleep(0.3)
    assert [message for message in screen.console(browser) if "favicon" not in message] == []


def test_an_old_address_keeps_section_and_parameters(browser: Chrome, root: str) -> None:
    """The script takes along what stands after the address."""
    browser.get(f"{root}examples/{old}/?flip=I1#loops")
    until(browser, lambda: browser.current_url.endswith(f"examples/{renamed}/?flip=I1#loops"))


def test_an_old_address_leads_on_without_scripts(browser: Chrome, root: str) -> None:
    """With scripts off the page itself leads on."""
    browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
    try:
        browser.get(f"{root}examples/{old}/")
        until(browser, lambda: browser.current_url.endswith(f"examples/{renamed}/"))
    finally:
        browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})


def shown(browser: Chrome) -> list[str]:
    return [
        entry.get_attribute("data-level") or ""
        for entry in browser.find_elements(By.CSS_SELECTOR, ".catalogue-entry")
        if entry.is_displayed()
    ]


def test_the_list_narrows_and_its_address_keeps_the_choice(browser: Chrome, root: str) -> None:
    """On a phone: choose, reload, come back by the address, show all."""
    screen.resize(browser, 360)
    browser.get(f"{root}examples/")
    everything = len(shown(browser))
    Select(browser.find_element(By.NAME, "level")).select_by_value("core")
    Select(browser.find_element(By.NAME, "part")).select_by_value("bare wire")
    until(browser, lambda: "part=bare+wire" in browser.current_url)
    few = shown(browser)
    assert set(few) == {"core"}
    assert 0 < len(few) < everything
    assert browser.find_element(By.CSS_SELECTOR, "example-filter [role=status]").text == f"{len(few)} of {everything} examples"
    address = browser.current_url
    assert "level=core" in address
    assert "part=bare+wire" in address
    browser.get(root)
    browser.get(address)
    until(browser, lambda: shown(browser) == few)
    browser.find_element(By.CSS_SELECTOR, "example-filter [type=reset]").click()
    until(browser, lambda: len(shown(browser)) == everything)
    assert "?" not in browser.current_url


def test_a_choice_before_the_script_is_there_holds(browser: Chrome, root: str) -> None:
    """On a slow network a reader may be quicker than the script."""
    browser.execute_cdp_cmd("Network.enable", {})
    browser.execute_cdp_cmd("Network.setBlockedURLs", {"urls": ["*example-filter.mjs"]})
    browser.get(f"{root}examples/")
    everything = len(shown(browser))
    Select(browser.find_element(By.NAME, "level")).select_by_value("core")
    browser.execute_cdp_cmd("Network.setBlockedURLs", {"urls": []})
    browser.execute_script(
        "import('../assets/javascripts/elements/example-filter.mjs?again').then(made => customElements.define('example-filter', made.ExampleFilter))"
    )
    until(browser, lambda: 0 < len(shown(browser)) < everything)
    assert set(shown(browser)) == {"core"}
    # That a script could not be fetched is no complaint of the next page.
    browser.get(root)
    browser.get_log("browser")


def test_an_unknown_choice_in_the_address_is_passed_over(browser: Chrome, root: str) -> None:
    """A broken value shows everything."""
    browser.get(f"{root}examples/?level=impossible&topic=%3Cb%3E")
    assert len(set(shown(browser))) == 3


def test_the_list_is_whole_without_scripts(browser: Chrome, root: str) -> None:
    """No form that could do nothing; every example is there."""
    browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
    try:
        browser.get(f"{root}examples/")
        assert not browser.find_element(By.CSS_SELECTOR, ".filter-form").is_displayed()
        assert len(browser.find_elements(By.CSS_SELECTOR, ".catalogue-entry")) == len(list((repository / "circuits").glob("*.toml"))) - 1
    finally:
        browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})


@pytest.mark.parametrize(
    ("typed", "address"),
    [
        ("4.7 kΩ", "examples/alarm-line"),
        ("4.7 kohm", "examples/alarm-line"),
        ("20 kohm", "examples/voltmeter-that-joins-in"),
        ("12.8 V", "examples/link-wire"),
        ("three batteries", "examples/three-banks"),
        ("minus sign", "examples/frost-bridge"),
        ("bare wire", "lessons/wire-with-a-current"),
        ("sign", "lessons/signs-in-a-loop"),
        ("junction rule", "lessons/wire-with-a-current"),
        ("internal resistance", "lessons/signs-in-a-loop"),
        ("file renamed", "guide/linking"),
    ],
)
def test_the_search_finds_values_topics_and_ideas(browser: Chrome, root: str, typed: str, address: str) -> None:
    """Among the results stands the page that has it, and no result shows rubble of equations."""
    screen.resize(browser, 1280)
    browser.get(root)
    browser.find_element(By.CSS_SELECTOR, ".md-search__input").send_keys(typed)
    links: list[str] = []

    def found() -> bool:
        links[:] = browser.execute_script("return [...document.querySelectorAll('.md-search-result__link')].map(link => link.href)")
        return any(f"/{address}/" in link for link in links)

    until(browser, found)
    texts = browser.execute_script("return [...document.querySelectorAll('.md-search-result__article')].map(each => each.innerText)")
    assert not [text for text in texts if "data-" in text or "<m" in text]


@pytest.mark.parametrize(
    ("scheme", "line_from_end"), [("light", 1), ("dark", 1), ("light", 2), ("dark", 3), ("light", 4), ("dark", 5), ("light", 6)]
)
def test_an_embed_follows_its_host(browser: Chrome, root: str, published: Path, scheme: str, line_from_end: int) -> None:
    """The copied line shows the whole part, in the light or dark of the page around it, and stores nothing."""
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": []})
    browser.get(f"{root}examples/link-wire/")
    line = browser.execute_script("return [...document.querySelectorAll('.use code')].at(-arguments[0]).textContent", line_from_end)
    line = line.replace("http://127.0.0.1:1/", "/")
    write(
        published / f"host-{scheme}.html",
        f'<!doctype html><html style="color-scheme: {scheme}"><meta charset="utf-8"><link rel="icon" href="data:,"><body>{line}',
    )
    browser.get(root.removesuffix(below) + f"host-{scheme}.html")
    browser.execute_script("localStorage.clear(); sessionStorage.clear()")
    browser.refresh()
    frame = browser.find_element(By.TAG_NAME, "iframe")
    browser.switch_to.frame(frame)
    try:
        until(browser, lambda: browser.execute_script("return document.readyState") == "complete")
        ground = browser.execute_script("return getComputedStyle(document.body).backgroundColor")
        assert ground == {"light": "rgb(251, 248, 241)", "dark": "rgb(26, 23, 20)"}[scheme]
        assert browser.execute_script(
            "return document.documentElement.scrollHeight <= innerHeight && document.documentElement.scrollWidth <= innerWidth"
        )
        assert browser.execute_script("return document.cookie + localStorage.length + sessionStorage.length") == "00"
    finally:
        browser.switch_to.default_content()


def test_own_work_is_checked_in_another_page(browser: Chrome, root: str) -> None:
    """On the light page: a turned arrow holds for figure and both forms, links open beside the other page, nothing is stored."""
    browser.get(f"{root}embed/link-wire/check.html")
    until(browser, lambda: browser.find_elements(By.CSS_SELECTOR, "check-numbers form"))
    browser.find_element(By.CSS_SELECTOR, "[data-arrow=I1]").click()
    assert browser.find_elements(By.CSS_SELECTOR, ".arrow.turned[data-current=I1]")

    def answer(typed: str) -> str:
        field = browser.find_element(By.NAME, "equation")
        field.clear()
        field.send_keys(typed + Keys.ENTER)
        until(browser, lambda: browser.find_element(By.CSS_SELECTOR, "check-equation .verdict").text)
        return browser.find_element(By.CSS_SELECTOR, "check-equation .verdict").text

    assert answer("12.8 + 0.2 I1 - 6 I2 = 0").startswith("True: ")
    assert "not" in answer("12.8 - 0.2 I1 - 6 I2 = 0")
    assert browser.find_element(By.TAG_NAME, "base").get_attribute("target") == "_blank"
    link = browser.find_element(By.CSS_SELECTOR, "check-equation .see a").get_attribute("href") or ""
    assert link.startswith(f"{root}examples/link-wire/?flip=I1#loop-")
    assert not [entry for entry in browser.get_log("browser") if entry["level"] in ("SEVERE", "WARNING")]
    assert browser.execute_script("return document.cookie + localStorage.length + sessionStorage.length") == "00"


@pytest.mark.parametrize("address", ["link-wire", "neutral-wire", "idle-wire", "alarm-capacitor", "bow-lamp"])
def test_frames_are_as_large_as_what_they_show(browser: Chrome, root: str, address: str) -> None:
    """Nothing is cut off or scrolls, and little is left empty; a check has room for a verdict."""
    page = make_page(repository / f"circuits/{address}.toml")
    for name in embeds:
        width, height = page.sizes[name]
        view = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False}
        browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", view)
        browser.get(f"{root}embed/{address}/{name}")
        if name == "check.html":
            until(browser, lambda: browser.find_elements(By.CSS_SELECTOR, "check-numbers form"))
        needed = browser.execute_script("return document.body.getBoundingClientRect().height")
        assert needed <= height, name
        assert height - needed <= (350 if name == "check.html" else 200), name
        assert browser.execute_script("return document.documentElement.scrollWidth") <= width, name
