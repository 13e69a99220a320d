"""Pieces of the theme as data: what a script makes of them is what the theme wrote."""

from __future__ import annotations

import pytest

from build_tools.site.trees import read_trees


@pytest.mark.parametrize(
    ("html", "trees"),
    [
        ('<a href="x" hidden>so <b>it</b> is</a>\n<p></p>', [["a", {"href": "x", "hidden": ""}, "so", ["b", {}, "it"], "is"], ["p", {}]]),
        ('<label>\n<input type="radio">\n</label>', [["label", {}, ["input", {"type": "radio"}]]]),
        ('<svg viewBox="0 0 2 2"><path d="M1 1"/></svg>', [["svg", {"viewBox": "0 0 2 2"}, ["path", {"d": "M1 1"}]]]),
        ("<p>1 &lt; 2</p>", [["p", {}, "1 < 2"]]),
    ],
)
def test_html_becomes_a_tree(html: str, trees: list[object]) -> None:
    """Tag, attributes and what stands inside; entities are texts, elements without an end are empty."""
    assert read_trees(html) == trees
