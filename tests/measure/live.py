"""What the living page costs: bytes of our scripts and styles, time to use on a slow network, time from tap to paint.

    python -m tests.measure.live                     three examples
    python -m tests.measure.live neutral-wire 1      these examples, the processor slowed so many times

It needs Chromium with chromedriver, and a quiet machine: on a busy one the times are of the other programs. It prints
figures and asserts nothing.
"""

from __future__ import annotations

import gzip
import os
import re
import sys
import threading
from collections.abc import Sequence
from functools import partial
from http.server import ThreadingHTTPServer
from io import BytesIO
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, sleep
from typing import BinaryIO

from selenium.webdriver import Chrome, ChromeOptions, ChromeService

import tests.browser.phone as phone
from build_tools.site.scripts import at_any_time, at_start, find_modules
from tests.browser.conftest import Quiet, chromium, driver, flags
from tests.site.library import build_whole_site

networks = {
    "400 kbit/s and 400 ms": (400, 50_000, 1),
    "1.6 Mbit/s and 150 ms, processor slowed 4 times": (150, 200_000, 4),
}
"""Slow phone networks: to and fro [ms], how much comes through [bytes/s], and how slow the phone is."""

fast_network = {"offline": False, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1}

watch_taps = """
window.taps = [];
new PerformanceObserver(list => {
  for (const entry of list.getEntries()) {
    if (entry.name === 'click') window.taps.push([entry.duration, entry.processingEnd - entry.processingStart]);
  }
}).observe({type: 'event', durationThreshold: 16});
"""


class Zipped(Quiet):
    """A static server that compresses text, as hosts do."""

    def send_head(self) -> BytesIO | BinaryIO | None:
        """The head of an answer; the body is what it returns."""
        path = Path(self.translate_path(self.path))
        path = path / "index.html" if path.is_dir() else path
        if path.suffix not in (".html", ".mjs", ".js", ".css", ".json", ".svg") or not path.is_file():
            return super().send_head()
        body = gzip.compress(path.read_bytes(), 6)
        self.send_response(200)
        for name, value in (("Content-Type", self.guess_type(path)), ("Content-Encoding", "gzip"), ("Content-Length", str(len(body)))):
            self.send_header(name, value)
        self.end_headers()
        return BytesIO(body)


def main(names: Sequence[str], slowdown: int) -> None:
    """Print every figure."""
    print(f"load of the machine: {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors")
    with TemporaryDirectory() as folder:
        site = build_whole_site(Path(folder))
        report_bytes(site)
        server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Zipped, directory=str(site)))
        threading.Thread(target=server.serve_forever, daemon=True).start()
        host = f"http://127.0.0.1:{server.server_port}/"
        browser = start_browser()
        with phone.held(browser):
            for network in networks:
                report_start(browser, host, names[0], network)
            for name in names:
                report_taps(browser, host, name, slowdown)
            report_verdicts(browser, host, names[0], slowdown)
        browser.quit()
        server.shutdown()


def start_browser() -> Chrome:
    options = ChromeOptions()
    options.binary_location = chromium or ""
    for flag in flags:
        options.add_argument(flag)
    return Chrome(options=options, service=ChromeService(driver))


def report_bytes(site: Path) -> None:
    """Our scripts and styles in the order in which a page fetches them, each file compressed by itself as a server sends it."""
    scripts = site / "assets/javascripts"
    opened = [scripts / "main.mjs", scripts / "elements/figure-viewer.mjs", scripts / "masthead.js", site / "assets/stylesheets/site.css"]
    working = [path for path in named(scripts / "alive.mjs") if path not in opened]
    later = [path for path in named(scripts / "main.mjs", at_any_time) if path not in (*opened, *working)]
    total = 0
    for what, files in (
        ("a page that is only read", opened),
        ("with the first sign of a hand", working),
        ("all that can be asked for later", later),
    ):
        size = sum(len(gzip.compress(path.read_bytes(), 9)) for path in files)
        total += size
        print(f"{what:32} {len(files):3} files {size / 1000:6.1f} kB gzipped, so far {total / 1000:6.1f} kB")


def named(module: Path, imports: re.Pattern[str] = at_start) -> list[Path]:
    """A published module and what it needs."""
    return [module.parent / name for name in find_modules(module, imports)]


def report_start(browser: Chrome, host: str, name: str, network: str) -> None:
    """Time until a page can be read, and until it is alive under a thumb that moves it at once, on a slow network with nothing kept."""
    latency, throughput, slowdown = networks[network]
    slow = {"offline": False, "latency": latency, "downloadThroughput": throughput, "uploadThroughput": throughput}
    browser.execute_cdp_cmd("Network.enable", {})
    browser.execute_cdp_cmd("Network.setCacheDisabled", {"cacheDisabled": True})
    browser.get("about:blank")
    browser.execute_cdp_cmd("Network.emulateNetworkConditions", slow)
    browser.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": slowdown})
    begun = perf_counter()
    browser.execute_cdp_cmd("Page.navigate", {"url": f"{host}examples/{name}/"})
    moved = "dispatchEvent(new Event('scroll')); return Boolean(document.querySelector('live-example')?.worked)"
    while not browser.execute_script(moved) and perf_counter() - begun < 60:
        sleep(0.02)
    alive = perf_counter() - begun
    painted = browser.execute_script("return performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN") / 1000
    print(f"{name}, {network}: to be read after {painted:.1f} s, alive after {alive:.1f} s")
    browser.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": 1})
    browser.execute_cdp_cmd("Network.emulateNetworkConditions", fast_network)
    browser.execute_cdp_cmd("Network.setCacheDisabled", {"cacheDisabled": False})


def report_taps(browser: Chrome, host: str, name: str, slowdown: int) -> None:
    """From the touch on an arrow, and on a row, until the changed page is painted, and until all of it is written."""
    phone.open_page(browser, f"{host}examples/{name}/")
    browser.execute_script(watch_taps)
    browser.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": slowdown})
    currents = browser.execute_script("return [...document.querySelectorAll('[data-turn]')].map(button => button.dataset.turn)")
    for kind, selector in (("arrow", ".figure-frame .arrow[data-current={}] .head"), ("row", "[data-turn={}]")):
        browser.execute_script("window.taps.length = 0")
        for current in (*currents, *currents, *currents)[:16]:
            # The hand taps a page that has come to rest: the scrolling before it is not the tap's.
            browser.execute_script("document.querySelector(arguments[0]).scrollIntoView({block: 'center'})", selector.format(current))
            sleep(0.4)
            phone.tap(browser, selector.format(current))
        sleep(0.3)
        taps = browser.execute_script("return window.taps")
        painted, script = ([tap[at] for tap in taps] or [float("nan")] for at in (0, 1))
        print(f"{name}, {kind}, processor slowed {slowdown} times: painted {spread(painted)}, of that our script {spread(script)}")
    browser.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": 1})


watch_verdicts = """
window.verdicts = [];
window.stutters = [];
for (const element of document.querySelectorAll('check-equation, check-numbers')) {
  element.check = (...laws) => {
    const begun = performance.now();
    Object.getPrototypeOf(element).check.apply(element, laws);
    window.verdicts.push(performance.now() - begun);
  };
}
new PerformanceObserver(list => window.stutters.push(...list.getEntries().map(entry => entry.duration))).observe({type: 'longtask'});
"""


def report_verdicts(browser: Chrome, host: str, name: str, slowdown: int, rounds: int = 5) -> None:
    """Script time of the first verdict of a page that was just opened, and of later ones; tasks over 50 ms while a student types."""
    for kind, field in (("equation", "equation"), ("numbers", "I1")):
        first: list[float] = []
        later: list[float] = []
        stutters: list[float] = []
        for _ in range(rounds):
            phone.open_page(browser, f"{host}examples/{name}/")
            browser.execute_script("document.querySelector('#your-turn').scrollIntoView()")
            phone.wait_until(browser, f"document.querySelector('check-{kind} form')")
            browser.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": slowdown})
            browser.execute_script(watch_verdicts)
            phone.tap(browser, f"check-{kind} [name={field}]")
            times, longs = type_tries(browser, kind)
            first, later, stutters = [*first, times[0]], [*later, *times[1:]], [*stutters, *longs]
            browser.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": 1})
        print(
            f"{name}, verdict on {kind}, processor slowed {slowdown} times, script: "
            f"first {spread(first)}, later {spread(later)}; tasks over 50 ms while typing: {len(stutters)} in {rounds} rounds"
            + (f", {spread(stutters)}" if stutters else "")
        )


def type_tries(browser: Chrome, kind: str) -> tuple[list[float], list[float]]:
    """Type several tries as a student would, a few keys at a time: script times of verdicts, long tasks before the first."""
    fields = browser.find_elements("css selector", f"check-{kind} input")
    longs: list[float] = []
    for text in ("12 - 0.5 I1 + 3 I4 + 0.5 I2 = 0", "12 = 0.5 I1 + 3 I4", "I1 = I4 - I6"):
        for at, field in enumerate(fields):
            field.clear()
            typed = text if kind == "equation" else f"{at + 1}.{len(text)}"
            for start in range(0, len(typed), 4):
                field.send_keys(typed[start : start + 4])
                sleep(0.1)
        longs = longs or list(browser.execute_script("return window.stutters"))
        count = len(browser.execute_script("return window.verdicts"))
        fields[-1].send_keys("\n")
        phone.wait_until(browser, f"window.verdicts.length > {count}")
    return list(browser.execute_script("return window.verdicts")), longs


def spread(times: list[float]) -> str:
    return f"{median(times):.0f} ms ({min(times):.0f} to {max(times):.0f})"


if __name__ == "__main__":
    given = [word for word in sys.argv[1:] if not word.isdigit()]
    main(given or ("neutral-wire", "frost-bridge", "bow-lamp"), int(next((word for word in sys.argv[1:] if word.isdigit()), "4")))
