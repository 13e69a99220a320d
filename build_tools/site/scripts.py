"""The site's scripts and styles on their way to a phone: lighter by what only their authors read, and asked for at once.

Modules import each other several deep. On a slow network every depth costs a round trip, so each page names all of them
beforehand. Comments stand on lines of their own in this project, which is what makes `lighten` safe: it takes whole
lines and never looks into one.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

scripts = "assets/javascripts"
"""Where they stand, in docs and in a site."""

static_import = re.compile(r'^(?:import|export)\b[^;]*?from\s+"(?P<path>\.[^"]+)"', re.MULTILINE)
for_the_guide = ("title", "source")
"""Keys of the list of slips that no script reads."""
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
    if text.startswith(data := "export default {"):
        kept = json.loads(text[len(data) - 1 :].rstrip().removesuffix(";"), object_hook=without_notes)
        return data[:-1] + json.dumps(kept, ensure_ascii=False, separators=(",", ":")) + ";\n"
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


def without_notes(row: dict[str, object]) -> dict[str, object]:
    """A row of data as the scripts need it."""
    return {key: value for key, value in row.items() if key not in for_the_guide}


def lighten_assets(site: Path) -> None:
    """Lighten every script and style sheet of ours in a built site."""
    for folder, pattern in (("javascripts", "**/*.mjs"), ("stylesheets", "*.css")):
        for path in (site / "assets" / folder).glob(pattern):
            if not path.name.endswith(".min.css"):
                path.write_text(lighten(path.read_text(encoding="utf-8")), encoding="utf-8")
