"""Published addresses: none is ever lost, whatever is renamed, moved, edited or taken away, unless the build refuses."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig

from build_tools import pipeline
from build_tools.__main__ import main
from build_tools.page.page import ids_of
from build_tools.site.addresses import LostAddresses, Standing, settle
from build_tools.site.built import BuiltPage, read_site
from build_tools.site.gone import FaultyGone, Gone, read_gone
from build_tools.site.keep import Keep
from build_tools.site.leads import lead_files
from build_tools.site.lessons import Workshop
from build_tools.site.library import FaultyLibrary, Library, gather
from build_tools.site.published import UnreadableRecord, add_site, read_published, write_published
from tests.site.library import lamp, pump, write

Publish = Callable[[Path], str]


def example(name: str, *ids: str, formerly: tuple[str, ...] = ()) -> Standing:
    return Standing(source=f"circuits/{name}.toml", ids=ids, formerly=formerly, is_example=True, is_made=True)


def test_a_lost_address_is_refused_with_the_line_to_add() -> None:
    """The report names the address, the file that is likely meant, and the line."""
    with pytest.raises(LostAddresses) as refused:
        settle({"examples/porch-lamp/": ()}, {"examples/porch-lamp-new/": example("porch-lamp-new")}, {})
    assert "examples/porch-lamp/: this address was published" in str(refused.value)
    assert "circuits/porch-lamp-new.toml now, add to that file, above " in str(refused.value)
    assert 'the first line in square brackets:\n        formerly = ["porch-lamp"]\n' in str(refused.value)
    assert '        ["examples/porch-lamp/"]\n        why = "..."' in str(refused.value)


def test_a_lost_page_is_refused_with_its_first_lines() -> None:
    """They stand there as they are to be copied, with the place."""
    with pytest.raises(LostAddresses) as refused:
        settle({"ideas/signs/": ()}, {"ideas/sign/": Standing(source="docs/ideas/sign.md")}, {})
    assert "docs/ideas/sign.md now, add to that file, at the very top" in str(refused.value)
    assert "        ---\n        formerly: ideas/signs/\n        ---\n" in str(refused.value)


def test_the_line_to_add_keeps_the_old_addresses_that_are_there() -> None:
    """A file that was renamed twice gets both names in one line."""
    standing = {"examples/c-lamp/": example("c-lamp", formerly=("examples/a-lamp/",))}
    with pytest.raises(LostAddresses) as refused:
        settle({"examples/a-lamp/": (), "examples/b-lamp/": ()}, standing, {})
    assert 'formerly = ["a-lamp", "b-lamp"]' in str(refused.value)


def test_an_old_address_leads_to_the_file_that_names_it() -> None:
    """One line is enough, and the ids that the old page had are kept on the new one."""
    standing = {"examples/new/": example("new", "question", "loop-1", formerly=("examples/old/",))}
    settled = settle({"examples/old/": ("question", "loop-1", "loop-9")}, standing, {})
    assert settled.leads == {"examples/old/": "examples/new/"}
    assert settled.anchors == {"examples/new/": ("loop-9",)}


def test_a_heading_of_a_written_page_is_not_lost() -> None:
    """An id that was published and that no heading bears any more is refused, with the way to give it back."""
    with pytest.raises(LostAddresses) as refused:
        settle({"ideas/signs/": ("the-arrow",)}, {"ideas/signs/": Standing(source="docs/ideas/signs.md", ids=("arrows",))}, {})
    assert "docs/ideas/signs.md: #the-arrow was published" in str(refused.value)
    assert "{ #the-arrow }" in str(refused.value)


def said_gone(*instead: str) -> Gone:
    return Gone(place="docs/gone.toml: examples/old/", title="Old", why="Taken down.", instead=instead)


def test_what_is_gone_on_purpose_is_not_lost() -> None:
    """An entry in docs/gone.toml answers for an address."""
    assert settle({"examples/old/": ("question",)}, {"": Standing(source="docs/index.md")}, {"examples/old/": said_gone("")}).leads == {}


@pytest.mark.parametrize(
    ("standing", "gone", "says"),
    [
        ({"examples/old/": example("old")}, {"examples/old/": said_gone()}, "which is circuits/old.toml\n    take this entry out"),
        ({"examples/new/": example("new", formerly=("examples/old/",))}, {"examples/old/": said_gone()}, "led on by circuits/new.toml"),
        ({"examples/new/": example("new")}, {"examples/old/": said_gone("examples/nev/")}, "did you mean examples/new/?"),
        ({"a/": Standing(source="docs/a.md", formerly=("b/",)), "b/": Standing(source="docs/b.md")}, {}, "got b/, which is docs/b.md"),
        ({name: Standing(source=f"docs/{name}md", formerly=("c/",)) for name in ("a/", "b/")}, {}, "which docs/a/md names too"),
    ],
)
def test_an_address_never_leads_to_two_places(standing: dict[str, Standing], gone: dict[str, Gone], says: str) -> None:
    """Clashes between pages, old addresses and what is gone are refused."""
    with pytest.raises(LostAddresses, match=re.escape(says)):
        settle({}, standing, gone)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("x = ", "docs/gone.toml:1: expected TOML, one key = value to a line, got a slip"),
        ('["examples/old/"]\n', "docs/gone.toml:1: examples/old/: expected a line why"),
        (
            '\n["examples/old/"]\nwhy = "..."\n',
            'docs/gone.toml:3: examples/old/.why: expected a line why that tells readers what happened, got "..."',
        ),
        ('["examples/old/"]\nwhy = The lamp\n', "put text in quotes"),
        ('["examples/old"]\nwhy = "x"\n', 'ends in "/"'),
        ('["examples/old/"]\nwhy = "x"\ninsted = []\n', 'did you mean "instead"?'),
        ('["examples/old/"]\nwhy = "x"\ninstead = "y"\n', "instead: expected a list of addresses"),
        ('"examples/old/" = "x"\n', "expected a section"),
    ],
)
def test_a_faulty_list_of_what_is_gone_is_refused(tmp_path: Path, text: str, says: str) -> None:
    """Each fault with the way out."""
    write(tmp_path / "docs/gone.toml", text)
    with pytest.raises(FaultyGone, match=re.escape(says)):
        read_gone(tmp_path / "docs/gone.toml")


def test_the_record_only_grows(tmp_path: Path) -> None:
    """What was written is read again, and another site takes nothing out."""
    path = tmp_path / "published.toml"
    first = add_site({}, [BuiltPage(address="a/", ids=("x", 'q"'), leads_to="", record=None)])
    write_published(path, first)
    write_published(path, add_site(read_published(path), [BuiltPage(address="b/", ids=(), leads_to="", record=None)]))
    assert read_published(path) == {"a/": ("x", 'q"'), "b/": ()}


@pytest.mark.parametrize("text", ["[pages", '[pages]\n"a/" = "x"\n', '[pages]\n"a/" = [1]\n', "pages = 3\n"])
def test_a_damaged_record_stops_the_build(tmp_path: Path, text: str) -> None:
    """Building on without it could lose every address unseen."""
    write(tmp_path / "published.toml", text)
    with pytest.raises(UnreadableRecord, match=f"^{tmp_path.name}/published.toml:.*(\n.*)*from your history"):
        read_published(tmp_path / "published.toml")


def test_a_published_library_is_renamed(library: Path, publish: Publish, caplog: pytest.LogCaptureFixture) -> None:
    """Build, record, rename: refused; with the line: the old address leads on, in plain HTML, to the same example."""
    publish(library)
    assert main(["record", "site"]) == 0
    before = {path: path.read_bytes() for path in (library / "site").rglob("*") if path.is_file()}
    old, new = library / "circuits/porch-lamp.toml", library / "circuits/stern-lamp.toml"
    old.rename(new)
    with pytest.raises(SystemExit):
        publish(library)
    assert 'formerly = ["porch-lamp"]' in caplog.text
    assert before == {path: path.read_bytes() for path in (library / "site").rglob("*") if path.is_file()}
    write(new, 'formerly = ["porch-lamp"]\n' + new.read_text(encoding="utf-8"))
    publish(library)
    text = (library / "site/examples/porch-lamp/index.html").read_text(encoding="utf-8")
    assert '<meta http-equiv="refresh" content="0; url=../stern-lamp/">' in text
    assert '<link rel="canonical" href="https://boathouse.example/examples/stern-lamp/">' in text
    assert '<a href="../stern-lamp/">The porch lamp</a>' in text
    assert '<meta name="robots" content="noindex">' in text
    assert (library / "site/examples/porch-lamp/figure.svg").is_file()
    assert "porch-lamp" not in (library / "site/sitemap.xml").read_text(encoding="utf-8")
    assert not (library / "site/published.toml").exists()


def test_a_published_example_is_taken_away(library: Path, publish: Publish) -> None:
    """With an entry in docs/gone.toml its address says what happened, and where to go."""
    publish(library)
    assert main(["record", "site"]) == 0
    (library / "circuits/porch-lamp.toml").unlink()
    write(
        library / "docs/gone.toml",
        '["examples/porch-lamp/"]\nwhy = "It <fell> into the water."\ninstead = ["examples/bilge-pump/#loops"]\n',
    )
    publish(library)
    text = (library / "site/examples/porch-lamp/index.html").read_text(encoding="utf-8")
    assert "It &lt;fell&gt; into the water." in text
    assert '<a href="../bilge-pump/#loops">The bilge pump on two banks</a>' in text
    assert "fell" not in (library / "site/search/search_index.json").read_text(encoding="utf-8")
    assert not (library / "site/gone.toml").exists()


def test_an_edited_example_keeps_the_ids_it_had(library: Path, publish: Publish) -> None:
    """A loop that an edit took away still has its address, in the section where it stood."""
    publish(library)
    assert main(["record", "site"]) == 0
    write(library / "circuits/bilge-pump.toml", lamp)
    publish(library)
    text = (library / "site/examples/bilge-pump/index.html").read_text(encoding="utf-8")
    assert 'id="loop-3"' in text[text.index('id="loops"') : text.index('id="equations"')]
    pages = {page.address: page.ids for page in read_site(library / "site")}
    recorded = read_published(library / "docs/published.toml")
    assert set(recorded["examples/bilge-pump/"]) <= set(pages["examples/bilge-pump/"])


class Shelf:
    """A library on disk that a careless author works on, with a record of what was published."""

    def __init__(self, folder: Path, seed: int) -> None:
        self.folder, self.chance, self.count = folder, random.Random(seed), 0
        self.keep = Keep(folder / ".cache")
        self.keep.begin("test")
        write(folder / "docs/ideas/signs.md", "# Signs\n\n## The arrow\n")

    def files(self) -> list[Path]:
        return sorted((self.folder / "circuits").glob("*.toml"))

    def pages(self) -> list[Path]:
        return sorted((self.folder / "docs/ideas").glob("*.md"))

    def fresh(self, stem: str) -> str:
        self.count += 1
        return f"{stem}-{self.count}"

    def work(self) -> str:
        """One careless deed."""
        deed = self.chance.choice(["rename", "rename back", "edit", "cut", "new", "delete", "move", "heading", "swap"])
        path = self.chance.choice(self.files())
        text = path.read_text(encoding="utf-8")
        if deed == "rename":
            path.rename(path.with_stem(self.fresh("lamp")))
        elif deed == "rename back" and (names := re.findall(r'formerly = \["([\w-]+)"', text)):
            path.rename(path.with_stem(names[0]))
        elif deed == "edit":
            write(path, re.sub(r'"\d+ ohm"', f'"{self.chance.randint(1, 9)} ohm"', text, count=1))
        elif deed == "cut":
            write(path, "".join(re.findall(r"^formerly.*\n", text, re.M)) + self.chance.choice([lamp, pump]))
        elif deed == "new":
            write(path.with_stem(self.fresh("lamp")), self.chance.choice([lamp, pump]))
        elif deed == "delete" and len(self.files()) > 2:
            path.unlink()
        elif deed == "swap":
            self.swap(path, self.chance.choice(self.files()))
        elif deed == "move":
            self.pages()[0].rename(self.folder / f"docs/ideas/{self.fresh('signs')}.md")
        elif deed == "heading":
            page = self.pages()[0]
            write(page, page.read_text(encoding="utf-8").replace("## The arrow\n", f"## {self.fresh('Arrow')}\n"))
        return deed

    def swap(self, one: Path, other: Path) -> None:
        first, second = one.read_text(encoding="utf-8"), other.read_text(encoding="utf-8")
        write(one, second)
        write(other, first)

    def mend(self, report: str) -> None:
        """Do what a report says, to the letter."""
        lines = report.splitlines()
        for at, line in enumerate(lines):
            if found := re.search(r"if it is (\S+) now, add to that file, (above|at the very top)", line):
                self.add_line(self.folder / found[1], lines[at + 1 if found[2] == "above" else at + 2].strip())
                return
            if found := re.search(r'^ +(\["\S+"\])$', line):
                with (self.folder / "docs/gone.toml").open("a", encoding="utf-8") as file:
                    file.write(f'{found[1]}\nwhy = "It is no more."\n')
                return
            if found := re.search(r"^(docs/\S+): #(\S+) was published", line):
                with (self.folder / found[1]).open("a", encoding="utf-8") as file:
                    file.write(f"\n## Again {{ #{found[2]} }}\n")
                return
            if found := re.search(r'^(circuits/\S+?):\d+: formerly: .*got "(\S+)"', line):
                path = self.folder / found[1]
                write(path, re.sub(rf'"{found[2]}"(, )?', "", path.read_text(encoding="utf-8")))
                return
            if found := re.search(r"^(docs/\S+): formerly: expected an address .*, got (\S+),", line):
                write(self.folder / found[1], (self.folder / found[1]).read_text(encoding="utf-8").replace(found[2], ""))
                return
            if found := re.search(r"gone.toml:\d+: (\S+): expected an address where no page stands now", line):
                path = self.folder / "docs/gone.toml"
                write(path, path.read_text(encoding="utf-8").replace(f'["{found[1]}"]\nwhy = "It is no more."\n', ""))
                return
        raise AssertionError(f"a report without a way out:\n{report}")

    def add_line(self, path: Path, line: str) -> None:
        text = path.read_text(encoding="utf-8")
        if path.suffix == ".toml":
            write(path, line + "\n" + re.sub(r"^formerly.*\n", "", text, flags=re.M))
        else:
            body = re.sub(r"\A---\n.*?\n---\n", "", text, flags=re.S)
            write(path, f"---\n{line}\n---\n{body}")

    def build(self, config: MkDocsConfig) -> Library:
        circuits = Path("circuits")
        return gather(pipeline.work_folder(circuits, keep=self.keep), Workshop(circuits=circuits, keep=self.keep, customs={}), config)


def built_pages(library: Library) -> Iterator[BuiltPage]:
    """What the build would publish, page by page."""
    for address, page in library.examples.items():
        ids = (*ids_of(page), *library.settled.anchors.get(address, ()))
        yield BuiltPage(address=address, ids=ids, leads_to="", record=None)
    for page in library.handwritten:
        names = [found[1] or found[0].lower().replace(" ", "-") for found in re.findall(r"^## (.+?)(?: \{ #(\S+) \})?$", page.text, re.M)]
        yield BuiltPage(address=page.address, ids=tuple(names), leads_to="", record=None)
    made = {path.removesuffix("index.html") for path, _ in lead_files(library, "")}
    for address in library.gone:
        yield BuiltPage(address=address, ids=(), leads_to="", record=None)
    for old, new in library.settled.leads.items():
        assert old in made
        yield BuiltPage(address=old, ids=(), leads_to=new, record=None)


def dead(recorded: dict[str, tuple[str, ...]], pages: dict[str, BuiltPage], gone: set[str]) -> list[str]:
    """Recorded addresses and ids that lead nowhere."""
    lost = []
    for address, ids in recorded.items():
        page = pages.get(address)
        page = pages.get(page.leads_to) if page and page.leads_to else page
        if page is None or page.leads_to:
            lost.append(address)
        elif page.address not in gone:
            lost += [f"{address}#{name}" for name in ids if name not in page.ids]
    return lost


@pytest.mark.parametrize("seed", [1, 2])
def test_no_recorded_address_dies_in_a_hundred_careless_deeds(library: Path, monkeypatch: pytest.MonkeyPatch, seed: int) -> None:
    """After each deed the build refuses, and doing what it says mends it, or every recorded address leads to its thing."""
    monkeypatch.chdir(library)
    config = load_config(str(library / "mkdocs.yml"))
    shelf = Shelf(library, seed)
    recorded: dict[str, tuple[str, ...]] = {}
    refused = 0
    for _ in range(100):
        shelf.work()
        for _ in range(30):
            try:
                built = shelf.build(config)
                break
            except (FaultyLibrary, pipeline.FaultyCircuits) as report:
                refused += 1
                shelf.mend(str(report))
        else:
            pytest.fail("the way out leads nowhere")
        pages = {page.address: page for page in built_pages(built)}
        assert not dead(recorded, pages, set(built.gone))
        if shelf.chance.random() < 0.5:
            recorded = add_site(recorded, pages.values())
            write_published(library / "docs/published.toml", recorded)
    assert refused > 20
    assert len(recorded) > 15
