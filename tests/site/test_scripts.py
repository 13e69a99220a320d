"""Scripts on their way to a phone: lighter, and all asked for at once."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from build_tools.site.scripts import find_modules, keep_sentences, lighten

folder = Path(__file__).parents[2] / "docs/assets/javascripts"
modules = sorted(folder.rglob("*.mjs"))


def test_comments_on_lines_of_their_own_are_taken_out() -> None:
    """Indents and empty lines too; a comment beside code stays, and so does text that looks like one."""
    text = (
        '/** What. */\n\n/*\n * long // one\n */\nconst a = "// no"; // kept\n'
        "  /** @type {x} */ const b = `/* no */`;\n    // gone\n  b();\n"
    )

    assert lighten(text) == 'const a = "// no"; // kept\n/** @type {x} */ const b = `/* no */`;\nb();\n'


def test_data_goes_out_without_what_only_the_guide_shows() -> None:
    """Titles and sources of slips stay at home; every sentence is what it was."""
    text = 'export default {\n  "slips": [\n    {"name": "x", "title": "T", "source": "S", "sentence": "// {a}  b"}\n  ]\n};\n'

    assert lighten(text) == 'export default {"slips":[{"name":"x","sentence":"// {a}  b"}]};\n'


@pytest.mark.parametrize("path", modules, ids=lambda path: path.stem)
def test_no_text_runs_over_several_lines(path: Path) -> None:
    """A template text over several lines could lose one of them: there is none in our scripts."""
    assert all(line.count("`") % 2 == 0 for line in path.read_text(encoding="utf-8").splitlines())


def test_every_module_that_starts_a_page_is_named_before_it() -> None:
    """The main module first, each module once, and what is fetched only when it is used left out."""
    found = find_modules(folder / "main.mjs")

    assert found[0] == "main.mjs"
    assert len(found) == len(set(found)) > 20
    assert "sentences.mjs" in found
    assert all((folder / path).is_file() for path in found)


def test_a_light_page_gets_only_the_sentences_that_its_scripts_say() -> None:
    """Whole keys, keys with a count, and keys that are put together from a beginning; words that are no key keep nothing."""
    data = 'export default {"a.one":"1","a.b.one":"2","a.b.many":"3","way.0":"4","way":"5","loops":"6","c.d":"7"};\n'
    code = 'say("a.b", { count }); tell(`way.${at}`); section("loops"); say("check.x");'

    assert keep_sentences(data, code) == 'export default {"a.b.one":"2","a.b.many":"3","way.0":"4","way":"5"};\n'


def test_light_pages_say_every_sentence_of_the_check() -> None:
    """Nothing that a check asks for was left behind."""
    used = [path for path in modules if path.parent.name != "elements" or path.name.startswith("check-")]
    code = "".join(path.read_text(encoding="utf-8") for path in used if path.name not in ("sentences.mjs", "slips.mjs"))
    kept = keep_sentences((folder / "sentences.mjs").read_text(encoding="utf-8"), code)
    asked = set(re.findall(r'\b(?:say|tell)\("(check\.[\w.]+)"', code))
    assert len(asked) > 20
    assert not [key for key in asked if f'"{key}"' not in kept and f'"{key}.one"' not in kept]
