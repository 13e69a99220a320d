"""Templates filled in, and data for scripts. It knows nothing of circuits, so that it costs a build little to load."""

from __future__ import annotations

import json
import os
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemBytecodeCache, FileSystemLoader, StrictUndefined

from build_tools.circuit.sentences import say
from build_tools.page.telling import tell


def render(template: str, context: dict[str, object]) -> str:
    """One template, filled in."""
    return environment().get_template(template).render(context)


@cache
def environment() -> Environment:
    """The templates of this room, with everything escaped that is not markup already."""
    made = Environment(
        loader=FileSystemLoader(Path(__file__).parent / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals |= {"say": say, "tell": tell}
    return made


def keep_translated(folder: Path, *others: Environment) -> None:
    """Keep templates, ours and those of others, as translated into Python, so that the next build need not do it again."""
    if os.access(folder, os.W_OK):
        for each in (environment(), *others):
            each.bytecode_cache = FileSystemBytecodeCache(str(folder))


def json_block(id: str, record: dict[str, Any]) -> str:
    """A JSON block. Signs that could end the element are written as JSON escapes, which mean the same."""
    text = json.dumps(record, ensure_ascii=False, separators=(",", ":"))
    for sign in "<>&\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return f'<script type="application/json" id="{id}">{text}</script>'
