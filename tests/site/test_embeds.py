"""Light pages for other sites, the lines to copy, and the files for programs."""

from __future__ import annotations

import gzip
import json
import re
from collections.abc import Iterable
from html import unescape
from pathlib import Path

import html5lib
import pytest
from jsonschema import Draft202012Validator

from build_tools.page.embed import check, embeds
from build_tools.pipeline import solve_file
from tests.site.library import repository

addresses = sorted(path.stem for path in (repository / "circuits").glob("*.toml"))
allowed = 60_000
"""Bytes, gzipped, of an embed with all that it loads."""


def embed_page(site: Path, address: str, folder: str) -> Path:
    return site / "embed" / address / (folder or "index.html")


@pytest.mark.parametrize("folder", embeds)
def test_every_example_has_light_pages(site: Path, folder: str) -> None:
    """One for the whole, one for each part: sound HTML, scripts with the check alone, no frames, no request to elsewhere."""
    forbidden = {"form", "iframe", "header", "nav", "input"} | (set() if folder == check else {"script"})
    for address in addresses:
        page = embed_page(site, address, folder)
        tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(page.read_text(encoding="utf-8"))
        assert not {element.tag for element in tree.iter()} & forbidden
        loaded = [page, *(page.parent / element.get("href", "") for element in tree.iter("link") if element.get("rel") == "stylesheet")]
        scripts = [page.parent / element.get("src", "") for element in tree.iter("script") if element.get("src")]
        loaded += find_loaded(scripts)
        assert {path.name for path in loaded if path.name.endswith("sentences.mjs")} <= {"way-sentences.mjs", "check-sentences.mjs"}
        assert sum(len(gzip.compress(path.read_bytes())) for path in loaded) < allowed


def find_loaded(scripts: Iterable[Path]) -> list[Path]:
    """Scripts with all that they import, at once or when it is used."""
    found = [script.resolve() for script in scripts]
    for script in found:
        # What only a page of the site itself fetches is not for light pages.
        text = script.read_text(encoding="utf-8").replace('import("./check-page.mjs")', "")
        paths = ((script.parent / path).resolve() for path in re.findall(r'(?:from|import) ?\(?"(\.[^"]+)"', text))
        found += [path for path in dict.fromkeys(paths) if path not in found]
    return found


def test_a_check_names_all_that_it_starts_with(site: Path) -> None:
    """The modules of the first view are named beforehand; the example's page offers the line."""
    text = embed_page(site, "link-wire", check).read_text(encoding="utf-8")
    named = re.findall(r'rel="modulepreload" href="([^"]+)"', text)
    assert len(named) > 5
    assert all((site / "embed/link-wire" / path).is_file() for path in named)
    assert "script-src 'self'" in text
    assert "embed/link-wire/check.html" in (site / "examples/link-wire/index.html").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("folder", "holds"),
    [
        ("figure.html", ["<svg"]),
        ("equations.html", ["equation-set"]),
        ("loops.html", ["walk"]),
        ("answers.html", ["part-answers"]),
        ("", ["<svg", "equation-set", "part-answers"]),
        (check, ["<svg", "<check-equation", "<check-numbers"]),
    ],
)
def test_a_light_page_shows_its_part_alone(site: Path, folder: str, holds: list[str]) -> None:
    """What the address says is there, and no more."""
    text = embed_page(site, "link-wire", folder).read_text(encoding="utf-8")
    shown = [mark for mark in ("<svg", "equation-set", 'class="walk"', "part-answers", "<check-equation", "<check-numbers") if mark in text]
    assert len(shown) == len(holds)
    assert all(mark in text for mark in holds)


def test_the_page_offers_the_lines_to_copy(site: Path) -> None:
    """Address, lesson line and frame stand on the example's own page; the frame's size is that of its figure and more."""
    text = (site / "examples/link-wire/index.html").read_text(encoding="utf-8")
    lines = [unescape(line) for line in re.findall(r"<pre><code>(.*?)</code></pre>", text[text.index('class="use"') :], re.S)]
    assert lines[0] == "https://boathouse.example/examples/link-wire/"
    assert lines[1] == "[:link-wire figure:]"
    frame = html5lib.parseFragment(lines[2], treebuilder="etree", namespaceHTMLElements=False)[0]
    assert frame.get("src") == "https://boathouse.example/embed/link-wire/"
    assert frame.get("title") == "One wire links two boats"
    assert frame.get("loading") == "lazy"
    assert int(frame.get("width", "0")) > 320
    assert int(frame.get("height", "0")) > 400
    titles = [found[1] for line in lines if (found := re.search('title="(.*?)"', line))]
    assert len(titles) == len(set(titles)) == 6


def test_a_copied_link_tells_title_and_summary(site: Path) -> None:
    """For chats that show what a link leads to."""
    for page, title in (("examples/link-wire", "One wire links two boats"), ("lessons/signs-in-a-loop", "Signs in a loop")):
        tree = html5lib.parse((site / page / "index.html").read_text(encoding="utf-8"), treebuilder="etree", namespaceHTMLElements=False)
        told = {element.get("property"): element.get("content") for element in tree.iter("meta") if element.get("property")}
        assert told["og:title"] == title
        assert told["og:description"]
        assert told["og:url"] == f"https://boathouse.example/{page}/"


def test_the_index_for_programs_follows_its_schema(site: Path) -> None:
    """Every example is in examples.json, as examples.schema.json says, and its sections are on its page."""
    index = json.loads((site / "examples.json").read_text(encoding="utf-8"))
    schema = json.loads((site / "examples.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    assert list(Draft202012Validator(schema).iter_errors(index)) == []
    assert [example["address"] for example in index["examples"]] == addresses
    for example in index["examples"]:
        text = (site / example["page"] / "index.html").read_text(encoding="utf-8")
        assert all(f'id="{section.partition("#")[2]}"' in text for section in example["sections"])


@pytest.mark.parametrize("address", addresses[:6])
def test_the_index_agrees_with_solve(site: Path, address: str) -> None:
    """What both say of an example is the same."""
    index = json.loads((site / "examples.json").read_text(encoding="utf-8"))
    (example,) = (each for each in index["examples"] if each["address"] == address)
    solved = solve_file(repository / "circuits" / f"{address}.toml")
    assert {key: example[key] for key in ("title", "question", "level", "topics", "asked")} == {
        key: solved[key] for key in ("title", "question", "level", "topics", "asked")
    }
    assert example["unknowns"] == len(solved["unknowns"])


@pytest.mark.parametrize("damage", [{"level": "easy"}, {"unknowns": -1}, {"kinds": ["coil"]}, {"page": "https://elsewhere.example/"}])
def test_the_schema_would_notice(site: Path, damage: dict[str, object]) -> None:
    """The schema says something: a wrong entry does not pass."""
    index = json.loads((site / "examples.json").read_text(encoding="utf-8"))
    schema = json.loads((site / "examples.schema.json").read_text(encoding="utf-8"))
    index["examples"][0] |= damage
    assert list(Draft202012Validator(schema).iter_errors(index))


def test_related_examples_lead_from_easy_to_hard(site: Path) -> None:
    """Below each example stand an easier one, a harder one and one of the same idea, each another example."""
    for address in addresses:
        text = (site / "examples" / address / "index.html").read_text(encoding="utf-8")
        related = text[text.index('class="related"') : text.index("</nav>", text.index('class="related"'))]
        names = re.findall(r'href="\.\./([\w-]+)/"', related)
        assert len(names) == len(set(names)) >= 2
        assert address not in names
        assert set(names) <= set(addresses)
