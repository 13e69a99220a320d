"""Names in running text, and the question's Markdown: plain text in, safe markup out."""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import unescape
from urllib.parse import urlsplit
from xml.etree.ElementTree import Element, SubElement, tostring

from markdown import Markdown
from markdown.extensions import Extension
from markdown.inlinepatterns import InlineProcessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString
from markupsafe import Markup

from build_tools.figure.lettering import name_runs
from build_tools.laws.topology import Topology

safe_schemes = ("", "http", "https", "mailto")


def find_names(topology: Topology) -> dict[str, str]:
    """For every name of the circuit that text may mention, what it names: part, current or loop."""
    return {
        **{branch.current: "current" for branch in topology.branches},
        **{loop.name: "loop" for loop in topology.loops},
        **{part.name: "part" for part in topology.circuit.parts},
    }


def set_name(name: str, kind: str) -> Element:
    """One name as it is set: its letter italic, the rest an upright subscript."""
    made = Element("span", {"class": "name", f"data-{kind}": name})
    for run in name_runs(name):
        SubElement(made, "sub" if run.subscript else "i").text = run.text
    return made


def set_text(text: str, topology: Topology) -> Markup:
    """A sentence of ours, with every name in it set as a name."""
    return set_names(text, find_names(topology), topology.circuit.points)


def set_names(text: str, names: dict[str, str], points: Iterable[str] = ()) -> Markup:
    """Plain text as markup, with names of parts, currents and loops set, and points where the text speaks of them."""
    made = Markup()
    at = 0
    for match in names_pattern(names, points).finditer(text):
        made += text[at : match.start()]
        found = match[0]
        made += Markup(tostring(set_name(found, names.get(found, "point")), encoding="unicode"))
        at = match.end()
    return made + text[at:]


def names_pattern(names: Iterable[str], points: Iterable[str] = ()) -> re.Pattern[str]:
    """What counts as a name in a text; a point only after a word that announces one ("from a", "junction b")."""
    known = "|".join(sorted(map(re.escape, names), key=len, reverse=True)) or "(?!)"
    places = "|".join(sorted(map(re.escape, points), key=len, reverse=True)) or "(?!)"
    announced = "|".join(rf"(?<=\b{word} )" for word in ("from", "to", "at", "point", "junction", "points"))
    return re.compile(rf"\b(?:{known})\b|(?:{announced})(?:{places})\b")


def render_question(question: str, topology: Topology) -> Markup:
    """The question as markup. Raw HTML stays text, pictures are left out, and links lead only to harmless schemes."""
    return Markup(Markdown(extensions=[QuestionRules(find_names(topology))]).convert(question))


def question_text(question: str, topology: Topology) -> str:
    """The question as plain text, on one line; no-break spaces stay, so that a number keeps its unit."""
    text = re.sub(r"<[^>]*>", "", render_question(question, topology))
    return " ".join(filter(None, re.split(r"[ \t\r\n]+", unescape(text))))


class QuestionRules(Extension):
    """Markdown without raw HTML, without pictures, and with the circuit's names set as names."""

    def __init__(self, names: dict[str, str]) -> None:
        super().__init__()
        self.names = names

    def extendMarkdown(self, md: Markdown) -> None:
        """Take out what could bring markup or requests in; add names and the check of links."""
        md.preprocessors.deregister("html_block")
        for unwanted in ("html", "image_link", "image_reference", "short_image_ref"):
            md.inlinePatterns.deregister(unwanted)
        if self.names:
            md.inlinePatterns.register(NameSetter(names_pattern(self.names).pattern, self.names), "names", 5)
        md.treeprocessors.register(LinkCheck(md), "links", 1)


class NameSetter(InlineProcessor):
    """Sets the names of the circuit."""

    def __init__(self, pattern: str, names: dict[str, str]) -> None:
        super().__init__(pattern)
        self.names = names

    def handleMatch(self, m: re.Match[str], data: str) -> tuple[Element, int, int]:  # type: ignore[override]  # noqa: ARG002
        """One name. Its letters are final: a name of one letter would be found in itself again, without end."""
        element = set_name(m[0], self.names[m[0]])
        for each in element.iter():
            each.text = AtomicString(each.text or "")
        return element, m.start(), m.end()


class LinkCheck(Treeprocessor):
    """Takes the address out of links with a scheme that could run something."""

    def run(self, root: Element) -> None:
        """Look at every link."""
        for link in root.iter("a"):
            if scheme_of(unescape(link.get("href", ""))) not in safe_schemes:
                del link.attrib["href"]


def scheme_of(address: str) -> str:
    """The scheme of an address; "unreadable" where it is none."""
    try:
        return urlsplit(re.sub(r"[\s\x00-\x1f]", "", address)).scheme.lower()
    except ValueError:
        return "unreadable"
