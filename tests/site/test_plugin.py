"""The plugin, on small libraries of its own."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path

import html5lib
import pytest

from build_tools import pipeline
from build_tools.site.keep import fingerprint
from tests.site.library import lamp, write

Publish = Callable[[Path], str]

sections = (
    "question",
    "directions",
    "junctions",
    "loops",
    "equations",
    "by-hand",
    "matrix",
    "currents",
    "checks",
    "your-turn",
)


def page_of(library: Path, address: str) -> str:
    return (library / "site/examples" / address / "index.html").read_text(encoding="utf-8")


def tree_of(text: str):  # type: ignore[no-untyped-def]
    return html5lib.parse(text, treebuilder="etree", namespaceHTMLElements=False)


def test_every_circuit_becomes_a_page_with_its_sections_in_order(library: Path, publish: Publish) -> None:
    """A circuit file is published at its own address, with the sections that lessons link to."""
    publish(library)
    for address in ("porch-lamp", "bilge-pump"):
        ids = [element.get("id") for element in tree_of(page_of(library, address)).iter("h2")]
        assert [name for name in ids if name in sections] == list(sections)


def test_no_place_is_left_without_its_block(library: Path, publish: Publish) -> None:
    """The places of the skeleton are all filled."""
    publish(library)
    for path in (library / "site").rglob("*.html"):
        assert "data-block" not in path.read_text(encoding="utf-8"), path


def test_the_page_carries_its_data_for_scripts(library: Path, publish: Publish) -> None:
    """One JSON block holds the example."""
    publish(library)
    found = re.findall(r'<script type="application/json" id="circuit">(.*?)</script>', page_of(library, "porch-lamp"), re.S)
    assert [json.loads(block)["address"] for block in found] == ["porch-lamp"]


def test_examples_know_their_parent_and_neighbours(library: Path, publish: Publish) -> None:
    """Outside the navigation, yet with a way back, a way on and a lit part of the site."""
    publish(library)
    easy, hard = page_of(library, "porch-lamp"), page_of(library, "bilge-pump")
    assert '<link rel="next" href="../bilge-pump/">' in easy
    assert '<link rel="prev" href="../">' in easy
    assert '<link rel="prev" href="../porch-lamp/">' in hard
    assert 'rel="next"' not in hard


def test_a_phone_finds_the_contents_of_an_example(library: Path, publish: Publish) -> None:
    """The navigation of an example's page lists that example and its sections, and no other example."""
    publish(library)
    text = page_of(library, "bilge-pump")
    drawer = text[text.index('data-md-type="navigation"') : text.index('data-md-type="toc"')]
    assert 'href="#by-hand"' in drawer
    assert "porch-lamp" not in drawer


def test_the_list_shows_every_example_with_its_figure(library: Path, publish: Publish) -> None:
    """The list is grouped by level, and its figures are files that exist."""
    publish(library)
    folder = library / "site/examples"
    tree = tree_of((folder / "index.html").read_text(encoding="utf-8"))
    assert [heading.get("id") for heading in tree.iter("h2")] == ["first-steps", "core"]
    figures = [image.get("src") for image in tree.iter("img") if image.get("loading") == "lazy"]
    assert figures == ["porch-lamp/figure.svg", "bilge-pump/figure.svg"]
    assert all((folder / figure).is_file() for figure in figures)


def test_search_has_one_entry_for_each_example(library: Path, publish: Publish) -> None:
    """An example is found by its title, topics and ideas, once, without the rubble of its equations."""
    publish(library)
    index = json.loads((library / "site/search/search_index.json").read_text(encoding="utf-8"))
    entries = [entry for entry in index["docs"] if entry["location"].startswith("examples/bilge-pump/")]
    assert [(entry["title"], entry["tags"]) for entry in entries] == [
        ("The bilge pump on two banks", ["two batteries", "bare wire", "minus sign", "charging"])
    ]
    assert "pump R3" in re.sub(r"<[^>]*>", "", entries[0]["text"])


def test_faulty_circuits_leave_the_built_site_alone(library: Path, publish: Publish) -> None:
    """All faults of all files are reported, and what was published stays as it was."""
    publish(library)
    before = {path: path.read_bytes() for path in (library / "site").rglob("*") if path.is_file()}
    write(library / "circuits/porch-lamp.toml", 'title = "x"\nlevle = "core"\n[parts]\nR1 = { resistor = "4", between = ["a", "b"] }\n')
    write(library / "circuits/torn.toml", "title = \n")
    with pytest.raises(SystemExit):
        publish(library)
    after = {path: path.read_bytes() for path in (library / "site").rglob("*") if path.is_file()}
    assert after == before


def test_a_build_that_warns_leaves_the_built_site_alone(library: Path, publish: Publish) -> None:
    """With a link that leads nowhere, a strict build ends, and every file is as it was; mended, the next one takes its place."""
    publish(library)
    before = {path: path.read_bytes() for path in (library / "site").rglob("*") if path.is_file()}
    home = library / "docs/index.md"
    sound = home.read_text(encoding="utf-8")
    home.write_text(f"{sound}\n[Signs](examples/no-lamp.md)\n", encoding="utf-8")
    with pytest.raises(SystemExit):
        publish(library)
    assert {path: path.read_bytes() for path in (library / "site").rglob("*") if path.is_file()} == before
    home.write_text(f"{sound}\n[Loops](examples/porch-lamp.md#loops)\n", encoding="utf-8")
    publish(library)
    assert "porch-lamp/#loops" in (library / "site/index.html").read_text(encoding="utf-8")
    assert [path.name for path in library.glob(".*")] == [".cache"]


def test_the_report_names_every_fault_of_every_file(library: Path, publish: Publish, caplog: pytest.LogCaptureFixture) -> None:
    """One report, each fault with file, line and key."""
    write(library / "circuits/porch-lamp.toml", 'title = "x"\nlevle = "core"\n[parts]\nR1 = { resistor = "4", between = ["a", "b"] }\n')
    write(library / "circuits/torn.toml", "title = \n")
    with pytest.raises(SystemExit):
        publish(library)
    for place in ("circuits/porch-lamp.toml:2: levle", "circuits/porch-lamp.toml:4: parts.R1.resistor", "circuits/torn.toml:1:"):
        assert place in caplog.text
    assert "Traceback" not in caplog.text


def test_an_unchanged_circuit_is_not_worked_again(library: Path, publish: Publish) -> None:
    """The second build makes no page; after an edit it makes one."""
    assert "2 circuits, 2 of them worked anew" in publish(library)
    first = page_of(library, "bilge-pump")
    assert "2 circuits, 0 of them worked anew" in publish(library)
    assert page_of(library, "bilge-pump") == first
    path = library / "circuits/porch-lamp.toml"
    write(path, path.read_text(encoding="utf-8").replace("4 ohm", "6 ohm"))
    assert "2 circuits, 1 of them worked anew" in publish(library)


@pytest.mark.parametrize("damage", [b"", b"not a page", b"\xff\xfe", None])
def test_damaged_kept_pages_are_made_again(library: Path, publish: Publish, damage: bytes | None) -> None:
    """A kept page that is empty, nonsense or changed in one place is ignored."""
    publish(library)
    first = page_of(library, "bilge-pump")
    for path in (library / ".cache").glob("*.page"):
        path.write_bytes(path.read_bytes().replace(b"pump", b"pomp").replace(b"lamp", b"lomp") if damage is None else damage)
    assert "2 of them worked anew" in publish(library)
    assert page_of(library, "bilge-pump") == first


def test_pages_no_circuit_asks_for_are_not_kept(library: Path, publish: Publish) -> None:
    """The folder of kept pages does not grow with every edit."""
    publish(library)
    (library / "circuits/bilge-pump.toml").unlink()
    publish(library)
    assert len(list((library / ".cache").glob("*.page"))) == 1
    assert not (library / "site/examples/bilge-pump").exists()


hostile = """<script>alert(1)</script> & "q" 'x' {{ 7*7 }} <b>"""
hostile_question = (
    "<img src=x onerror=alert(1)> <script>alert(2)</script> [here](javascript:alert(3)) </script> <svg onload=alert(4)> "
    '<div data-block=\'figure\'></div> " onfocus=alert(5) x=" "><script>alert(6)</script>'
)


def test_a_circuit_file_cannot_bring_markup_of_its_own(library: Path, publish: Publish) -> None:
    """Title, question and topics of a circuit file stay text wherever they are shown."""
    topics = [hostile, "[here](javascript:alert(7))", "`x` <b>"]
    write(library / "circuits/porch-lamp.toml", lamp_with(title=hostile, question=hostile_question, topics=topics))
    publish(library)
    for path in (library / "site").rglob("*.html"):
        tree = tree_of(path.read_text(encoding="utf-8"))
        for element in tree.iter():
            assert not [name for name in element.attrib if str(name).lower().startswith("on")], (path, element.tag)
            assert not str(element.get("href", "")).strip().lower().startswith("javascript:alert"), path
            assert element.tag != "script" or "alert(" not in (element.text or "") or element.get("type") == "application/json", path
            assert element.get("src") != "x", path


def test_the_search_index_holds_no_markup_of_a_circuit_file(library: Path, publish: Publish) -> None:
    """The search shows title, text and topics as HTML, so they are escaped in its index."""
    write(library / "circuits/porch-lamp.toml", lamp_with(title=hostile, question=hostile_question, topics=[hostile]))
    publish(library)
    index = json.loads((library / "site/search/search_index.json").read_text(encoding="utf-8"))
    (entry,) = (entry for entry in index["docs"] if entry["location"] == "examples/porch-lamp/")
    for shown in (entry["title"], entry["text"], *entry["tags"]):
        assert not re.search(r"<(?!/?p>)", shown)


def test_a_hostile_title_is_shown_as_it_is_written(library: Path, publish: Publish) -> None:
    """Escaping loses nothing: the reader sees the title letter by letter."""
    write(library / "circuits/porch-lamp.toml", lamp_with(title=hostile, question="Find it.", topics=[hostile]))
    publish(library)
    tree = tree_of(page_of(library, "porch-lamp"))
    assert next(element.text for element in tree.iter("title")) == f"{hostile} - A small library"
    listed = tree_of((library / "site/examples/index.html").read_text(encoding="utf-8"))
    assert hostile in ["".join(element.itertext()) for element in listed.iter("span")]


def lamp_with(*, title: str, question: str, topics: list[str]) -> str:
    """The porch lamp's file, told otherwise."""
    body = lamp[lamp.index("asked") :]
    quoted = ", ".join(map(json.dumps, topics))
    head = f'title = {json.dumps(title)}\nquestion = {json.dumps(question)}\nlevel = "first steps"\ntopics = [{quoted}]\n'
    return head + body


def test_the_edition_covers_every_source_and_template() -> None:
    """What is kept depends on the tool itself: a changed template or module makes every page anew."""
    tool = Path(pipeline.__file__).parent
    assert fingerprint(tool, "*.py") != fingerprint(tool, "*.jinja") != fingerprint(tool, "*.none")


@pytest.mark.parametrize(("key", "value"), [("resistors", "rectangle"), ("batteries", "several cells")])
def test_a_custom_of_the_site_is_seen_in_every_figure_and_never_an_older_page(
    library: Path, publish: Publish, key: str, value: str
) -> None:
    """A changed setting draws all pages anew, although no circuit changed."""
    publish(library)
    before = {name: page_of(library, name) for name in ("porch-lamp", "bilge-pump")}
    settings = (library / "mkdocs.yml").read_text(encoding="utf-8")
    write(library / "mkdocs.yml", settings.replace("worked-circuits", f"{{worked-circuits: {{{key}: {value}}}}}"))
    assert "2 of them worked anew" in publish(library)
    assert all(page_of(library, name) != text for name, text in before.items())
