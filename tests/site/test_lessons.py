"""Lessons: parts of examples in ordinary Markdown, and the project's own five lessons."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import html5lib
import pytest

from build_tools import pipeline
from build_tools.circuit.problem import Problem
from build_tools.page.parts import PartKind
from build_tools.site.lesson_lines import Asked, find_spots, read_asked
from tests.site.library import repository, write

Publish = Callable[[Path], str]
lessons = sorted(path for path in (repository / "docs/lessons").glob("*.md") if path.name != "index.md")


def built(library: Path, publish: Publish, text: str) -> str:
    """The article of a lesson with this text."""
    write(library / "docs/lesson.md", f"# Lesson\n\n{text}\n")
    settings = library / "mkdocs.yml"
    extended = settings.read_text(encoding="utf-8").replace(
        "[attr_list, md_in_html, toc]", "[attr_list, md_in_html, tables, admonition, toc]"
    )
    write(settings, extended.replace("{Home: index.md}", "{Home: index.md}, {Lesson: lesson.md}"))
    publish(library)
    page = (library / "site/lesson/index.html").read_text(encoding="utf-8")
    return page[page.index("<article") : page.index("</article>")]


@pytest.mark.parametrize(
    ("asked", "shows"),
    [
        ("figure", "<svg"),
        ("equations", 'class="equation-set"'),
        ("loop L1", 'class="walk"'),
        ("answers", "as assumed"),
        ("check", '<script type="application/json" class="circuit-data">{"address"'),
        ("check", "<check-equation></check-equation>\n<check-numbers></check-numbers>"),
        ("card", "Find the current through the pump R3."),
        ("current I3", "</i><sub>3</sub></span> = "),
    ],
)
def test_each_part_is_shown_by_one_line(library: Path, publish: Publish, asked: str, shows: str) -> None:
    """A line on its own becomes the part, in no paragraph that could not hold it."""
    article = built(library, publish, f"[:bilge-pump {asked}:]")
    assert shows in article
    assert "[:" not in article
    assert 'data-part="0"' not in article
    assert "../examples/bilge-pump/" in article or "current" in asked


@pytest.mark.parametrize(
    ("text", "inside"),
    [
        ("- one\n- [:bilge-pump equations:]\n", "li"),
        ("1. one\n\n    [:bilge-pump equations:]\n", "li"),
        ("| a | b |\n| --- | --- |\n| x | [:bilge-pump equations:] |\n", "td"),
        ("!!! note\n    [:bilge-pump equations:]\n", "div"),
        ("> [:bilge-pump equations:]\n", "blockquote"),
        ("before [:bilge-pump equations:] after\n", "article"),
    ],
)
def test_a_part_stands_anywhere(library: Path, publish: Publish, text: str, inside: str) -> None:
    """In a list, a table cell, a note, a quotation, and in the middle of a paragraph; the page stays sound HTML."""
    article = built(library, publish, text)
    tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parseFragment(article + "</article>")
    parents = {child: parent for parent in tree.iter() for child in parent}
    (part,) = (element for element in tree.iter("div") if "part-equations" in element.get("class", ""))
    assert parents[part].tag == inside
    assert not [element for element in tree.iter("p") if not "".join(element.itertext()).strip() and not len(element)]


def test_a_link_with_choices_that_can_be_made_is_left_alone(library: Path, publish: Publish) -> None:
    """Directions, junction, values and help, all at once; words in square brackets that ask for nothing stay too."""
    link = "examples/bilge-pump.md?flip=I1.I3&leave-out=c&set=4&help=all#loop-2"
    article = built(library, publish, f"[bilge-pump figures] and [the loop]({link})")
    assert "[bilge-pump figures]" in article
    assert "../examples/bilge-pump/?flip=I1.I3&amp;leave-out=c&amp;set=4&amp;help=all#loop-2" in article


def test_code_is_left_alone() -> None:
    """Who writes about lessons shows the line, and it stays."""
    text = "`[:a figure:]` and ``[:a figure:]``\n\n```\n[:a figure:]\n```\n\n~~~ x\n[:b figure:]\n```\n~~~\n\n[:c figure:]"
    assert [(spot.asked, spot.line) for spot in find_spots(text)] == [("c figure", 12)]


def test_choices_are_worked_out_in_the_build(library: Path, publish: Publish) -> None:
    """With a direction turned round its terms change their signs, and the link carries the choice."""
    plain = built(library, publish, "[:bilge-pump loop L1:]")
    turned = built(library, publish, "[:bilge-pump loop L1 flip=I1:]")
    assert "with the arrow" in plain
    assert "against the arrow" in turned
    assert 'href="../examples/bilge-pump/?flip=I1#loop-L1"' in turned


def test_a_lesson_links_to_one_loop_with_a_direction_turned(library: Path, publish: Publish, caplog: pytest.LogCaptureFixture) -> None:
    """A link to an example's source may carry choices and the id of one loop."""
    article = built(library, publish, "See [1](examples/bilge-pump.md?flip=I1#loop-2).")
    assert 'href="../examples/bilge-pump/?flip=I1#loop-2"' in article
    assert "WARNING" not in caplog.text


def test_a_figure_shows_the_arrow_turned(library: Path, publish: Publish) -> None:
    """The figure is drawn with the direction that the lesson gives."""
    plain = built(library, publish, "[:bilge-pump figure:]")
    turned = built(library, publish, "[:bilge-pump figure flip=I1:]")
    assert plain.count("<svg") == turned.count("<svg") == 1
    assert re.findall(r"<svg.*</svg>", plain) != re.findall(r"<svg.*</svg>", turned)


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("[:bilge-pomp figure:]", 'expected the name of an example, got "bilge-pomp"\n* did you mean "bilge-pump"?'),
        ("[:bilge-pump figur:]", 'got "figur"\n* did you mean "figure"?'),
        ("[:bilge-pump figure flop=I1:]", 'got "flop"\n* did you mean "flip"?'),
        ("[:bilge-pump figure flip=I1,I3:]", 'got "flip=I1,I3"\n* put dots between: I1.I3'),
        ("[:bilge-pump figure flip=I9:]", 'a current to turn round, got "I9"\n* there are I1, I2 and I3'),
        ("[:bilge-pump figure leave-out=q:]", 'the name of a junction to leave out, got "q"\n* there are c and d'),
        ("[:bilge-pump figure walk=a.E1.R9:]", 'the name of a part to walk through, got "R9"'),
        ("[:bilge-pump loop:]", "the name of a loop after “loop”, got none"),
        ("[:bilge-pump loop L9:]", 'the name of a loop, got "L9"'),
        ("[:bilge-pump current R1:]", 'the name of a current, got "R1"'),
        ("[:bilge-pump figure flip:]", "choices such as flip=I1.I3"),
        ("[:bilge-pump loop L1 walk=a.E1.E2:]", "expected choices that leave the circuit sound"),
        ("[:bilge-pump:]", "expected an example and a part of it"),
        ("[::]", "expected an example and a part of it"),
        ("[:bilge-pump figure:", "with both colons"),
        ("[bilge-pump figure]", "with both colons"),
        ("[a link](examples/bilge-pump.md?flip=I9#loop-2)", 'a current to turn round, got "I9"\n* there are I1, I2 and I3'),
        ("[a link](examples/bilge-pump.md?flp=I1)", 'got "flp"\n* did you mean "flip"?'),
        ("[a link](examples/bilge-pump.md?leave-out=q)", 'the name of a junction to leave out, got "q"'),
        ("[a link](examples/bilge-pump.md?flip=I1&walk=a.E1.E2)", "expected choices that leave the circuit sound"),
        ("[a link](examples/bilge-pomp.md#loops)", 'got "examples/bilge-pomp.md"\n* did you mean "examples/bilge-pump.md"?'),
    ],
)
def test_a_wrong_name_is_refused(library: Path, publish: Publish, caplog: pytest.LogCaptureFixture, line: str, says: str) -> None:
    """With file, line, what was expected and a way out; and the site that is built stays."""
    publish(library)
    with pytest.raises(SystemExit):
        built(library, publish, f"text\n\n{line}")
    assert "docs/lesson.md:5: expected" in caplog.text
    report = re.sub(r"\n +\S.*\n +\^", "", caplog.text)
    assert re.search(re.escape(says).replace("\\*", " *").replace("\\\n", "\n"), report)
    assert (library / "site/examples/bilge-pump/index.html").is_file()


def test_all_faults_come_in_one_report(library: Path, publish: Publish, caplog: pytest.LogCaptureFixture) -> None:
    """Every line at fault, counted as the editor counts, front matter included."""
    write(library / "docs/index.md", "---\ntitle: x\n---\n\n[:a figure:]\n\n[:b figure:]\n")
    with pytest.raises(SystemExit):
        publish(library)
    assert "docs/index.md:5:" in caplog.text
    assert "docs/index.md:7:" in caplog.text


def test_an_example_that_was_renamed_is_named(library: Path, publish: Publish, caplog: pytest.LogCaptureFixture) -> None:
    """The report says what it is called now."""
    pump = library / "circuits/bilge-pump.toml"
    write(pump, 'formerly = ["old-pump"]\n' + pump.read_text(encoding="utf-8"))
    with pytest.raises(SystemExit):
        built(library, publish, "[:old-pump figure:]")
    assert 'it is called "bilge-pump" now' in caplog.text


def test_an_example_that_was_taken_away_is_told(library: Path, publish: Publish, caplog: pytest.LogCaptureFixture) -> None:
    """The report says so, and offers no other that is merely called alike."""
    write(library / "docs/gone.toml", '["examples/bilge-pumps/"]\nwhy = "It rusted."\n')
    with pytest.raises(SystemExit):
        built(library, publish, "[:bilge-pumps figure:]")
    assert "it was taken away: It rusted." in caplog.text
    assert "did you mean" not in caplog.text


@pytest.mark.parametrize("path", lessons, ids=lambda path: path.stem)
def test_lessons_are_short_and_end_in_an_example(path: Path) -> None:
    """At most 600 words; at least two parts; the last is a card; a true minus before every number."""
    text = path.read_text(encoding="utf-8")
    asked = [read_asked(spot) for spot in find_spots(text)]
    parts = [each for each in asked if not isinstance(each, Problem)]
    assert len(parts) == len(asked) >= 3
    assert parts[-1].kind is PartKind.CARD
    assert text.rstrip().endswith(":]")
    assert len(re.findall(r"[\w’']+", re.sub(r"<[^>]+>|\[:.*?:\]", " ", text))) <= 600
    assert not re.search(r"(?<![\w.])-\d", text)
    assert not re.search(r"\d ?(?:V|A|Ω|W)\b", text), "numbers with a unit come from the example itself"


def test_there_are_five_lessons() -> None:
    """One for each of the five things that students ask about."""
    assert len(lessons) == 5


@pytest.mark.parametrize("query", [Asked(example="a", kind=PartKind.FIGURE, flip=("I1", "I3"), leave_out="a", walk="a.E1.R1_b.R1.W1")])
def test_choices_stand_in_links_as_on_the_page(query: Asked) -> None:
    """The link of a part has the parameters that the page understands."""
    assert query.query == "?flip=I1.I3&leave-out=a&walk=a.E1.R1_b.R1.W1"


def test_parts_are_kept_until_their_circuit_or_their_line_changes(library: Path, publish: Publish, monkeypatch: pytest.MonkeyPatch) -> None:
    """The next build works nothing out again; an edit of the file does; a damaged kept part is made again."""
    text = "[:bilge-pump loop L1 flip=I1:]\n\n[:bilge-pump current I1:]"
    first = built(library, publish, text)
    worked: list[Path] = []
    make = pipeline.work_chosen
    monkeypatch.setattr(pipeline, "work_chosen", lambda path, **choices: worked.append(path) or make(path, **choices))
    assert built(library, publish, text) == first
    assert not worked
    for part in (library / ".cache").glob("*.part"):
        part.write_bytes(part.read_bytes()[:-9])
    assert built(library, publish, text) == first
    assert worked
    worked.clear()
    path = library / "circuits/bilge-pump.toml"
    write(path, path.read_text(encoding="utf-8").replace("12 V", "13 V"))
    assert built(library, publish, text) != first
    assert worked
    built(library, publish, "Nothing here.")
    assert not list((library / ".cache").glob("*.part"))
