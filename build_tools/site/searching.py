"""The search index made light: it is fetched with every page, and the full text of hand-written pages would weigh most of it.

Of an example stays what it is found by: title, summary, values, and its topics and ideas as tags. Of a section of a
hand-written page stays how it begins; for tutors' pages less, since students are the ones on slow networks.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

longest = {"guide": 60}
"""Letters kept of each section, by the first folder of its page."""
otherwise = 240
markup = re.compile(r"<[^>]*>")
facts = re.compile(r"\A<p>.*?</p>\s*", re.S)


def thin_index(site: Path) -> None:
    """Rewrite the search index of a built site; leave it alone where there is none."""
    path = site / "search/search_index.json"
    if path.is_file():
        index = json.loads(path.read_text(encoding="utf-8"))
        index["docs"] = [thin_entry(entry) for entry in index["docs"]]
        path.write_text(json.dumps(index, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")


def thin_entry(entry: dict[str, Any]) -> dict[str, Any]:
    """One page or section."""
    folder, _, rest = entry["location"].partition("/")
    if folder == "examples" and rest:
        return entry | {"text": facts.sub("", entry["text"], count=1)}
    text = " ".join(markup.sub(" ", entry["text"]).split())
    limit = longest.get(folder, otherwise)
    # Text stays markup here: a cut must not leave half of an escaped sign.
    return entry | {"text": text if len(text) <= limit else re.sub(r"\s*\S*\Z", " …", text[:limit])}
