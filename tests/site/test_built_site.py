"""The project's own site, as it would be published."""

from __future__ import annotations

import gzip
import json
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from pathlib import Path
from urllib.parse import unquote, urlsplit
from xml.etree import ElementTree

import html5lib

from build_tools.site.blocks import without_indents
from tests.site.library import repository

loading = {"script", "img", "iframe", "source", "video", "audio", "embed", "object", "use", "image", "input", "track"}
"""Elements that fetch what their `src`, `href` or `data` names."""
fetches = re.compile(r"""(?:url\(|@import|\bfrom|import\()\s*["']?(?:https?:)?//[^"')\s]*""")
"""Where a style sheet or a module asks another host."""


@cache
def tree_of(path: Path) -> ElementTree.Element:
    """A built page as a browser would read it."""
    return html5lib.parse(path.read_text(encoding="utf-8"), treebuilder="etree", namespaceHTMLElements=False)


def pages(site: Path) -> list[Path]:
    return sorted(site.rglob("*.html"))


def addresses(page: Path) -> Iterator[tuple[str, str, str]]:
    """Element, attribute and address of everything a page leads to or loads."""
    for element in tree_of(page).iter():
        for name in ("href", "src", "data", "action", "poster", "{http://www.w3.org/1999/xlink}href"):
            address = element.get(name)
            if address is not None and (element.tag, element.get("rel")) != ("link", "canonical"):
                yield str(element.tag), name, address


def target_of(site: Path, page: Path, address: str) -> Path:
    """The file a web server would answer with."""
    path = unquote(urlsplit(address).path)
    target = site / path.lstrip("/") if path.startswith("/") else page.parent / path
    return (page if not path else target / "index.html" if path.endswith("/") or target.is_dir() else target).resolve()


def ids(page: Path) -> list[str]:
    return [element.get("id", "") for element in tree_of(page).iter() if element.get("id")]


def test_every_circuit_is_published(site: Path) -> None:
    """The examples are the circuit files, one for one."""
    circuits = {path.stem for path in (repository / "circuits").glob("*.toml")}
    assert len(circuits) >= 16
    assert {path.parent.name for path in (site / "examples").glob("*/index.html")} == circuits


def test_links_lead_somewhere(site: Path) -> None:
    """Every address on the site is that of a file, and every fragment that of an element in it."""
    broken = []
    for page in pages(site):
        for _, _, address in addresses(page):
            parts = urlsplit(address)
            if parts.scheme or parts.netloc:
                continue
            target = target_of(site, page, address)
            if not target.is_file() or (
                parts.fragment and not parts.fragment.startswith("__") and unquote(parts.fragment) not in ids(target)
            ):
                broken.append((page.relative_to(site).as_posix(), address))
    assert not broken


def test_ids_are_unique(site: Path) -> None:
    """No id stands twice on a page."""
    twice = {page.relative_to(site).as_posix(): [name for name, times in Counter(ids(page)).items() if times > 1] for page in pages(site)}
    assert not {page: names for page, names in twice.items() if names}


def test_references_by_id_are_met(site: Path) -> None:
    """What is labelled, described or controlled by an element finds it on the page."""
    names = ("aria-labelledby", "aria-describedby", "aria-controls", "for")
    missing = []
    for page in pages(site):
        own = set(ids(page)) | {"__drawer", "__search", "__toc"}
        for element in tree_of(page).iter():
            wanted = {wanted for name in names for wanted in element.get(name, "").split()} - own
            missing += [(page.relative_to(site).as_posix(), name) for name in wanted if not name.startswith("__")]
    assert not missing


def test_a_loop_is_led_to_by_its_name_and_by_its_number(site: Path) -> None:
    """The name, which stays when equations are counted otherwise, and the number behind its equation."""
    walks = [walk for page in (site / "examples").glob("*/index.html") for walk in tree_of(page).findall(".//section[@class='loop-walk']")]
    assert len(walks) > 30
    for walk in walks:
        number = "".join(element.text or "" for element in walk.iter("span") if element.get("class") == "equation-number")
        heading = walk.find("h3")
        assert heading is not None
        assert heading.get("id") == walk.get("aria-labelledby") == f"loop-{walk.get('data-loop')}"
        assert f"({walk.get('id', '').removeprefix('loop-')})" == number


def test_drawings_and_formulas_are_well_formed(site: Path) -> None:
    """Every SVG and MathML element is well-formed XML, not only what a lenient browser makes of it."""
    seen = Counter[str]()
    for page in pages(site):
        for kind, text in re.findall(r"(?s)(?=<(svg|math)\b)(<\1\b.*?</\1>)", page.read_text(encoding="utf-8")):
            ElementTree.fromstring(text)
            seen[kind] += 1
    for figure in (site / "examples").glob("*/figure.svg"):
        assert ElementTree.parse(figure).getroot().tag == "{http://www.w3.org/2000/svg}svg"
        seen["figure"] += 1
    assert min(seen["svg"], seen["math"], seen["figure"]) >= 16


def test_nothing_is_loaded_from_elsewhere(site: Path) -> None:
    """No page, style sheet or module of our own asks another host for anything."""
    outside = [
        (page.relative_to(site).as_posix(), tag, address)
        for page in pages(site)
        for tag, name, address in addresses(page)
        if (tag in loading or tag == "link" or name in ("action", "poster"))
        and (urlsplit(address).netloc or urlsplit(address).scheme not in ("", "data"))
    ]
    for path in [*site.rglob("*.css"), *site.rglob("*.mjs")]:
        text = path.read_text(encoding="utf-8")
        outside += [(path.name, "", found) for found in fetches.findall(text)]
    assert not outside


def test_titles_and_summaries_stand_in_the_head(site: Path) -> None:
    """Each example has a title and a summary of its own."""
    heads = [tree_of(page) for page in (site / "examples").glob("*/index.html")]
    titles = {head.findtext(".//title") for head in heads}
    summaries = {element.get("content") for head in heads for element in head.iter("meta") if element.get("name") == "description"}
    assert len(titles) == len(summaries) == len(heads)


def test_search_holds_one_entry_for_each_example(site: Path) -> None:
    """Found once, by title, topics and question, and without fragments of equations."""
    index = json.loads((site / "search/search_index.json").read_text(encoding="utf-8"))
    entries = [entry for entry in index["docs"] if re.fullmatch(r"examples/[^/]+/.*", entry["location"])]
    assert Counter(entry["location"] for entry in entries) == Counter(
        f"examples/{path.stem}/" for path in (repository / "circuits").glob("*.toml")
    )
    assert all(entry["title"] and entry["text"] and entry["tags"] for entry in entries)
    assert not [entry["location"] for entry in entries if re.search(r"[=−]\s*\d|<sub>", entry["text"])]


def test_search_holds_one_light_entry_for_each_page_that_people_wrote(site: Path) -> None:
    """Title, headings and what it speaks of; no text is cut within a sign or twice."""
    index = json.loads((site / "search/search_index.json").read_text(encoding="utf-8"))
    entries = {entry["location"]: entry for entry in index["docs"]}
    assert len(entries) == len(index["docs"])
    lesson = entries["lessons/wire-with-a-current/"]
    assert lesson["title"] == "The bare wire that carries current"
    assert "But what pushes it?" in lesson["text"]
    assert {"bare wire", "junction rule"} <= set(lesson["tags"])
    assert not [entry["text"] for entry in entries.values() if "… …" in entry["text"] or re.search(r"&[a-z]*\W*…", entry["text"])]
    assert len(gzip.compress(json.dumps(index["docs"]).encode())) < 4_000


def test_every_page_carries_the_caution(site: Path) -> None:
    """Pencil-and-paper models: each page says so and defers to makers, codes and licensed people."""
    for page in pages(site):
        text = page.read_text(encoding="utf-8")
        if "embed" in page.relative_to(site).parts:
            assert "A pencil-and-paper model: do not build it." in text
            continue
        assert [
            words for words in ("pencil-and-paper models", "makers’ instructions", "local codes", "licensed people") if words not in text
        ] == []


def test_nothing_above_the_work_tells_what_comes_out(site: Path) -> None:
    """Caution and facts stand before the question is worked, topics at the end of the page, where they lead on."""
    above, _, below = (site / "examples/bilge-pump-two-banks/index.html").read_text(encoding="utf-8").partition('id="directions"')
    assert "one battery may charge another" in above
    assert "is being charged." not in above.replace("or is one of them being charged?", "")
    assert ">E2</mi> is being charged" not in above
    assert "negative answer" not in above.partition("<article")[2]
    assert "Topics: two batteries · charging · internal resistance · negative answer" in below


def test_indents_go_and_what_is_written_stays() -> None:
    """Only between tags: code, inline scripts and no-break spaces are as they were."""
    html = "<p>\n\n    a\u00a0\n  b</p>\n<pre>x\n\n  y</pre>\n  <script>if (a)\n  b()</script>\n\n  <i>"

    assert without_indents(html) == "<p>\na\u00a0\nb</p>\n<pre>x\n\n  y</pre>\n<script>if (a)\n  b()</script>\n<i>"


def test_an_example_is_a_light_page(site: Path) -> None:
    """Gzipped, with the data for its scripts, 14 kB at the most: circuits of eight unknowns too."""
    weights = {page.parent.name: len(gzip.compress(page.read_bytes(), 9)) for page in (site / "examples").glob("*/index.html")}
    assert len(weights) > 20
    assert {name: weight for name, weight in weights.items() if weight > 14_000} == {}


def test_the_masthead_is_told_what_the_theme_would_have_told(site: Path) -> None:
    """What the theme writes on every page stands in one script: the same scope and stores, and names of files that are there."""
    script = (site / "assets/javascripts/masthead.js").read_text(encoding="utf-8")
    theme = files("material") / "templates"
    own, config = ((theme / path).read_text(encoding="utf-8") for path in ("partials/javascripts/base.html", "base.html"))
    assert set(re.findall(r"__md_\w+(?==)", own)) == set(re.findall(r"(?<=var )__md_\w+", script))
    keys = set(re.findall(r'"([\w.]+)": lang\.t', config))
    assert len(keys) > 8
    assert not [key for key in keys if f'"{key}"' not in script]
    worker = (site / "assets/javascripts/workers/search-later.js").read_text(encoding="utf-8")
    assert (site / "assets/javascripts/workers" / re.findall(r'importScripts\("(.*?)"\)', worker)[0]).is_file()
    assert (site / re.findall(r'base \+ "(.*?)"', script)[0]).is_file()


def test_where_no_page_is_the_ways_on_are(site: Path) -> None:
    """The page for an address that leads nowhere says so, and leads to the lists from whatever depth it is shown at."""
    links = [link.get("href", "") for link in tree_of(site / "404.html").findall(".//article//a")]
    assert links == ["/examples/", "/lessons/"]


def test_a_build_that_draws_nothing_loads_no_drawing() -> None:
    """The plugin leaves schemdraw and numpy alone until a circuit has changed: both take long to load."""
    code = "import sys, build_tools.site.plugin; print([name for name in ('schemdraw', 'numpy') if name in sys.modules])"
    assert subprocess.run([sys.executable, "-c", code], cwd=repository, capture_output=True, text=True, check=True).stdout == "[]\n"


def test_the_contents_are_the_same_wherever_one_reads_them(site: Path) -> None:
    """The parts of the site are led to from each depth, and a page's own part in full."""

    def leads(path: str) -> list[str]:
        page = site / path / "index.html"
        links = tree_of(page).findall(".//nav[@data-md-level='0']//a[@class]")
        hrefs = [link.get("href", "") for link in links if "md-nav__link" in link.get("class", "") and "#" not in link.get("href", "")]
        return [str(page.parent.joinpath(href).resolve().relative_to(site.resolve())) for href in hrefs if href not in ("./", ".")]

    parts = [".", "examples", "lessons", "ideas", "guide"]
    lessons = ("reading-a-circuit", "enough-equations", "wire-with-a-current", "what-a-minus-means")
    assert leads("examples/link-wire") == leads("examples/bow-lamp") == parts
    assert leads("lessons/signs-in-a-loop") == [*parts[:3], *(f"lessons/{name}" for name in lessons), *parts[3:]]
