"""Scripts on their way to a phone: lighter, and all asked for at once."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from build_tools.circuit.sentences import files, folder, read_data
from build_tools.site.scripts import at_start, find_modules, lighten

theme = Path(__file__).parents[2] / "build_tools/site/theme"
modules = sorted(folder.rglob("*.mjs"))
speakers = [path for path in modules if re.search(r'\b(say|tell)\w*\("', path.read_text(encoding="utf-8"))]
speaks = {
    "saying.mjs": ("way-sentences.mjs", "sentences.mjs"),
    "check-saying.mjs": ("way-sentences.mjs", "check-sentences.mjs"),
    "telling.mjs": ("way-sentences.mjs",),
}


def test_a_script_goes_out_without_what_only_its_authors_read() -> None:
    """What other modules ask for keeps its name; text that looks like a comment stays."""
    text = (
        'import { other } from "./other.mjs";\n\n/** What. */\nexport function work(number) {\n'
        "  // why\n  const doubled = other(number) * 2n;\n  return `${doubled} // no`;\n}\n"
    )

    assert lighten(text, "application/javascript") == (
        'import{other}from"./other.mjs";export function work(e){const t=other(e)*2n;return`${t} // no`}'
    )


def test_a_style_sheet_goes_out_without_what_only_its_authors_read() -> None:
    """No rule is lost, also none that the minifier may not know yet."""
    text = "/* Why. */\n.a > .b {\n  color: red;\n  unheard-of: auto 3px;\n}\n"

    assert lighten(text, "text/css") == ".a>.b{color:red;unheard-of:auto 3px}"


def test_a_script_that_cannot_be_read_goes_out_as_it_is() -> None:
    """A tutor's own script never costs the build."""
    assert lighten("const = 3;\n", "application/javascript") == "const = 3;\n"


def test_data_goes_out_without_what_only_the_guide_shows() -> None:
    """Titles and sources of slips stay at home; every sentence is what it was."""
    text = 'export default {\n  "slips": [\n    {"name": "x", "title": "T", "source": "S", "sentence": "// {a}  b"}\n  ]\n};\n'

    assert lighten(text, "application/javascript") == 'export default {"slips":[{"name":"x","sentence":"// {a}  b"}]};\n'


@pytest.mark.parametrize("path", [*modules, *theme.rglob("*.js")], ids=lambda path: path.stem)
def test_scripts_set_texts_never_markup(path: Path) -> None:
    """Nothing that a script puts into a page is read as markup."""
    assert not re.search(
        r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|DOMParser|createContextualFragment", path.read_text(encoding="utf-8")
    )


def test_a_page_loads_one_small_script_by_itself() -> None:
    """Everything else waits for a reader's hand."""
    assert find_modules(folder / "main.mjs") == ("main.mjs",)


def test_every_module_that_works_a_page_is_found() -> None:
    """The first one first, each module once, and what is fetched only when it is used left out."""
    found = find_modules(folder / "alive.mjs")

    assert found[0] == "alive.mjs"
    assert "elements/step-reader.mjs" not in found
    assert len(found) == len(set(found)) > 20
    assert "sentences.mjs" in found
    assert all((folder / path).is_file() for path in found)


@pytest.mark.parametrize("path", modules, ids=lambda path: path.stem)
def test_a_module_needs_the_same_once_it_is_light(path: Path) -> None:
    """The published file names the same modules at its start, in the same order."""
    text = path.read_text(encoding="utf-8")
    light = lighten(text, "application/javascript")

    assert [match["path"] for match in at_start.finditer(light)] == [match["path"] for match in at_start.finditer(text)]


def test_every_sentence_stands_in_one_file() -> None:
    """No key is in two of them, so that none is mended in one and left in the other."""
    keys = [key for path in folder.glob(files) for key in read_data(path.read_text(encoding="utf-8"))]

    assert len(keys) == len(set(keys)) > 300


@pytest.mark.parametrize("path", speakers, ids=lambda path: path.stem)
def test_a_script_finds_the_sentences_that_it_says(path: Path) -> None:
    """Each key that is written out is in a file that the script speaks from."""
    text = path.read_text(encoding="utf-8")
    imported = re.findall(r' from "\.[^"]*/([\w-]*(?:sentences|saying|telling)\.mjs)"', text)
    spoken = "".join((folder / name).read_text(encoding="utf-8") for each in imported for name in speaks.get(each, (each,)))
    asked = set(re.findall(r'\b(?:say|tell)\w*\("([\w.]+)"', text))

    assert not [key for key in asked if f'"{key}"' not in spoken and f'"{key}.one"' not in spoken]
