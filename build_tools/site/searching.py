"""The search index made light: it is fetched from every page that one searches from, and the full text of pages would weigh most of it.

Of an example stays what it is found by: title, the first sentence of its summary, values, and its topics and ideas as tags.
Of a page that people wrote stays its title, its first sentence, its headings, and as tags what it speaks of more than once;
of a page for tutors title and headings.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from itertools import groupby
from pathlib import Path
from typing import Any

Entry = dict[str, Any]
longest = 70
"""Letters kept of a first sentence."""
of_pages = ("junction rule", "loop rule", "sign", "bare wire", "potential")
"""What a page may be about, beside the topics and ideas of the examples. Pages for tutors are about the tool."""
inline = re.compile(r"</?(?:sub|sup|i|em|b|strong|code|a)\b[^>]*>")
markup = re.compile(r"<[^>]*>")
facts = re.compile(r"\A<p>.*?</p>\s*", re.S)


def thin_index(site: Path, topics: Iterable[str] = ()) -> None:
    """Rewrite the search index of a built site, whose examples have these topics; leave it alone where there is none."""
    path = site / "search/search_index.json"
    if path.is_file():
        index = json.loads(path.read_text(encoding="utf-8"))
        terms = tuple(dict.fromkeys((*of_pages, *topics)))
        pages = groupby(index["docs"], key=lambda entry: entry["location"].partition("#")[0])
        index["docs"] = [thin_page(tuple(entries), terms) for _, entries in pages]
        path.write_text(json.dumps(index, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")


def thin_page(entries: tuple[Entry, ...], terms: Iterable[str]) -> Entry:
    """One entry for a page and its sections."""
    first, *sections = entries
    head = {key: first[key] for key in ("location", "title", "tags") if key in first}
    if re.match(r"examples/.", first["location"]):
        summary, _, values = plain(facts.sub("", first["text"], count=1)).partition(" · ")
        return head | {"text": f"{first_sentence(summary)} · {values}"}
    headings = [section["title"] for section in sections]
    if first["location"].startswith("guide/"):
        return head | {"text": " · ".join(headings)}
    said = plain(" ".join(f"{entry['title']} {entry['text']}" for entry in entries)).lower()
    tags = [term for term in terms if len(re.findall(rf"\b{re.escape(term)}", said)) > 1]
    return head | ({"tags": tags} if tags else {}) | {"text": " · ".join((first_sentence(plain(first["text"])), *headings))}


def plain(html: str) -> str:
    """The text of some HTML. It stays escaped."""
    return " ".join(markup.sub(" ", inline.sub("", html)).split())


def first_sentence(text: str) -> str:
    """How a text begins. Text stays markup here: a cut between words never leaves half of an escaped sign."""
    sentence = re.split(r"(?<=[.?!]) ", text, maxsplit=1)[0]
    return sentence if len(sentence) <= longest else sentence[:longest].rpartition(" ")[0] + " …"
