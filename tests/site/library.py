"""A small library to publish: two circuits and as few pages as a site can have."""

from __future__ import annotations

from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config

repository = Path(__file__).parents[2]

settings = """
site_name: A small library
site_url: https://boathouse.example/
docs_dir: docs
nav: [{Home: index.md}, {Examples: [examples/index.md]}]
not_in_nav: /examples/*
plugins: [search, worked-circuits]
theme: {name: material, font: false, features: [navigation.footer, navigation.indexes]}
markdown_extensions: [attr_list, md_in_html, toc]
"""

lamp = """title = "The porch lamp"
question = "Find the current through the lamp R1."
level = "first steps"
topics = ["one loop"]
asked = ["R1"]

[points]
a = [0, 0]
b = [0, 3]

[parts]
E1 = { battery = "12 V", minus = "a", plus = "b" }
R1 = { resistor = "4 ohm", between = ["b", "a"] }

[drawing]
bends.R1 = [[4, 3], [4, 0]]
"""

pump = """title = "The bilge pump on two banks"
question = "Find the current through the pump R3."
level = "core"
topics = ["two batteries"]
asked = ["R3"]

[points]
a = [0, 0]
b = [0, 3]
c = [4, 3]
d = [4, 0]
e = [8, 3]
f = [8, 0]

[parts]
E1 = { battery = "12 V", minus = "a", plus = "b" }
R1 = { resistor = "1 ohm", between = ["b", "c"] }
R3 = { resistor = "5 ohm", between = ["c", "d"] }
R2 = { resistor = "2 ohm", between = ["c", "e"] }
E2 = { battery = "6 V", minus = "f", plus = "e" }
W1 = { wire = "bare", between = ["a", "d"] }
W2 = { wire = "bare", between = ["d", "f"] }
"""


def write(path: Path, text: str) -> None:
    """Write a file and the folders above it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def write_library(folder: Path) -> None:
    """Write the small library into an empty folder."""
    write(folder / "mkdocs.yml", settings)
    write(folder / "docs/index.md", '# Home\n\n<div data-block="first-examples"></div>\n')
    write(folder / "docs/examples/index.md", '# Examples\n\n<div data-block="examples"></div>\n')
    write(folder / "circuits/porch-lamp.toml", lamp)
    write(folder / "circuits/bilge-pump.toml", pump)


def build_whole_site(folder: Path) -> Path:
    """Build the project's own site strictly, below its address at the server's root."""
    build(load_config(str(repository / "mkdocs.yml"), strict=True, site_dir=str(folder)))
    return folder
