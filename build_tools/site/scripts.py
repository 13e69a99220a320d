"""The site's scripts and styles on their way to a phone: lighter by what only their authors read, and asked for at once.

Modules import each other several deep. On a slow network every depth costs a round trip, so the module that works a page
goes out with all that it needs named at its top. Each module stays a file with the names it exports: nothing is bundled.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Literal

import minify  # type: ignore[import-untyped]
from mkdocs.config.defaults import MkDocsConfig

from build_tools.circuit.sentences import exported, read_data

scripts = "assets/javascripts"
"""Where they stand, in docs and in a site."""
styles = "assets/stylesheets"
"""Where our style sheets stand."""
one_sheet = f"{styles}/site.css"
"""What pages load in place of them: apart they would be a dozen requests, and half as heavy again."""
working = f"{scripts}/alive.mjs"
"""What is fetched when a reader begins to work with a page."""
MediaType = Literal["application/javascript", "text/css"]
"""What a file is, for the minifier."""
ours: tuple[tuple[str, MediaType], ...] = (
    ("javascripts/**/*.mjs", "application/javascript"),
    ("stylesheets/*.css", "text/css"),
)
"""Our files below a site's assets; those of the theme are minified already."""
for_the_guide = ("title", "source")
"""Keys of the list of slips that no script reads."""

at_start = re.compile(r'(?:^|[;}])(?:(?:import|export)\b[^;"()]*?from|import)\s*"(?P<path>\.[^"]+)"', re.MULTILINE)
"""What a module needs before it can start."""
at_any_time = re.compile(r'(?:\bfrom\s*|\bimport\s*\(?)"(?P<path>\.[^"]+)"')
"""The same, and what it fetches later."""


def find_modules(main: Path, imports: re.Pattern[str] = at_start) -> tuple[str, ...]:
    """The modules that a main module imports, itself first, as paths from its folder.

    Args:
        main: the main module.
        imports: which imports count.
    """
    found = [main.resolve()]
    for module in found:
        for match in imports.finditer(module.read_text(encoding="utf-8")):
            needed = (module.parent / match["path"]).resolve()
            if needed not in found:
                found.append(needed)
    return tuple(module.relative_to(main.resolve().parent).as_posix() for module in found)


def join_styles(config: MkDocsConfig) -> None:
    """Let pages ask for one style sheet where the settings name those of our folder. Light pages load some of them apart."""
    ours = [sheet for sheet in config.extra_css if sheet.startswith(f"{styles}/") and Path(config.docs_dir, sheet).is_file()]
    config.extra["sheets"] = ours
    if ours:
        config.extra_css = [one_sheet, *(sheet for sheet in config.extra_css if sheet not in ours)]


def lighten(text: str, kind: MediaType) -> str:
    """A script or style sheet as short as it can be written; data without what only the guide shows.

    Args:
        text: a script, a module, or a style sheet.
        kind: what it is.

    Returns:
        What does the same with the names that it exports. Text that cannot be read goes out as it is: a browser has more to say of it.
    """
    if text.startswith(exported + "{"):
        data = read_data(text)
        return write_data({key: [without_notes(row) for row in value] if isinstance(value, list) else value for key, value in data.items()})
    try:
        return str(minify.string(kind, text))
    except minify.MinifyError:
        return text


def write_data(record: dict[str, object]) -> str:
    """A module that exports an object."""
    return exported + json.dumps(record, ensure_ascii=False, separators=(",", ":")) + ";\n"


def without_notes(row: dict[str, object]) -> dict[str, object]:
    """A row of data as the scripts need it."""
    return {key: value for key, value in row.items() if key not in for_the_guide}


def name_at_once(module: Path) -> None:
    """Let a published module import all that it needs by itself, however deep: then all of it is asked for in one go."""
    deep = sorted(find_modules(module)[1:])
    module.write_text("".join(f'import"./{name}";' for name in deep) + module.read_text(encoding="utf-8"), encoding="utf-8")


def lighten_assets(site: Path) -> None:
    """Lighten every script and style sheet of ours in a built site, and let all that works a page be asked for at once."""
    for pattern, kind in ours:
        for path in (site / "assets").glob(pattern):
            if not path.name.endswith(f".min{path.suffix}"):
                path.write_text(lighten(path.read_text(encoding="utf-8"), kind), encoding="utf-8")
    if (site / working).is_file():
        name_at_once(site / working)
