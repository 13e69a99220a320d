"""The site's scripts and styles on their way to a phone: lighter by what only their authors read, and asked for at once.

Modules import each other several deep. On a slow network every depth costs a round trip, so each page names all of them
beforehand. Comments stand on lines of their own in this project, which is what makes `lighten` safe: it takes whole
lines and never looks into one.
"""

from __future__ import annotations

import json
import os
import re
from pathlib import Path

scripts = "assets/javascripts"
"""Where they stand, in docs and in a site."""

check_scripts = "assets/check"
"""Where light pages find what they load of them: with their sentences alone, since these weigh most."""
only_on_pages = "check-page.mjs"
"""What a check fetches only where it stands on an example's own page."""

static_import = re.compile(r'^(?:import|export)\b[^;]*?from\s+"(?P<path>\.[^"]+)"', re.MULTILINE)
for_the_guide = ("title", "source")
"""Keys of the list of slips that no script reads."""
any_import = re.compile(r'(?:\bfrom\s*|\bimport\s*\(?)"(\.[^"]+)"')
exported = "export default "
bare_import = re.compile(r'^import\s+"(?P<path>\.[^"]+)"', re.MULTILINE)


def find_modules(main: Path) -> tuple[str, ...]:
    """The modules that a main module needs before it can start, itself first, as paths from its folder."""
    found = [main.resolve()]
    for module in found:
        text = module.read_text(encoding="utf-8")
        for match in (*static_import.finditer(text), *bare_import.finditer(text)):
            needed = (module.parent / match["path"]).resolve()
            if needed not in found:
                found.append(needed)
    return tuple(module.relative_to(main.resolve().parent).as_posix() for module in found)


def lighten(text: str) -> str:
    """A script or style sheet without its comment lines, indents and empty lines; data without what only the guide shows."""
    if text.startswith(exported + "{"):
        kept = json.loads(text[len(exported) :].rstrip().removesuffix(";"), object_hook=without_notes)
        return exported + json.dumps(kept, ensure_ascii=False, separators=(",", ":")) + ";\n"
    lines: list[str] = []
    in_comment = False
    for line in map(str.strip, text.splitlines()):
        begins = line.startswith("/*")
        if (in_comment or begins) and line.endswith("*/"):
            in_comment = False
        elif in_comment or (begins and "*/" not in line):
            in_comment = True
        elif line and not line.startswith("//"):
            lines.append(line)
    return "\n".join(lines) + "\n"


def copy_for_checks(site: Path) -> None:
    """Put what a check on a light page may load into a folder of its own, with no sentence that it cannot say."""
    start, there = site / scripts, site / check_scripts
    if not (start / "embed.mjs").is_file():
        return
    found = {"embed.mjs": ""}
    waiting = ["embed.mjs"]
    for name in waiting:
        found[name] = (start / name).read_text(encoding="utf-8")
        for path in any_import.findall(found[name]):
            needed = os.path.normpath(os.path.join(os.path.dirname(name), path))
            if needed not in waiting and not needed.endswith(only_on_pages):
                waiting.append(needed)
    found["sentences.mjs"] = keep_sentences(found["sentences.mjs"], "".join(found.values()).replace(found["sentences.mjs"], ""))
    for name, text in found.items():
        (there / name).parent.mkdir(parents=True, exist_ok=True)
        (there / name).write_text(text, encoding="utf-8")


def keep_sentences(data: str, code: str) -> str:
    """Of all sentences those whose keys, or beginnings of keys, stand in the code."""
    named = {text.removesuffix(".") for text in re.findall(r'["`]([a-z]\w*\.[\w.]*)', code)}
    sentences: dict[str, str] = json.loads(data[len(exported) :].rstrip().removesuffix(";"))
    kept = {key: text for key, text in sentences.items() if not named.isdisjoint(beginnings(key))}
    return exported + json.dumps(kept, ensure_ascii=False, separators=(",", ":")) + ";\n"


def beginnings(key: str) -> tuple[str, ...]:
    """A key, and what it begins with."""
    words = key.split(".")
    return tuple(".".join(words[:count]) for count in range(1, len(words) + 1))


def without_notes(row: dict[str, object]) -> dict[str, object]:
    """A row of data as the scripts need it."""
    return {key: value for key, value in row.items() if key not in for_the_guide}


def lighten_assets(site: Path) -> None:
    """Lighten every script and style sheet of ours in a built site."""
    for folder, pattern in (("javascripts", "**/*.mjs"), ("stylesheets", "*.css")):
        for path in (site / "assets" / folder).glob(pattern):
            if not path.name.endswith(".min.css"):
                path.write_text(lighten(path.read_text(encoding="utf-8")), encoding="utf-8")
