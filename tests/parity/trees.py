"""Markup as trees of one shape, so that what a template wrote can be laid beside what a script's view gives."""

from __future__ import annotations

import re
from typing import Any
from xml.etree.ElementTree import Element, ParseError, fromstring

import html5lib

Tree = Any
"""A text, or a list of tag, attributes and trees."""


def parse_block(html: str) -> Tree:
    """The first element of a block of HTML as a tree.

    Most blocks are XML as well, which is read ten times as fast; that a browser reads the pages so is the built site's test.
    """
    try:
        return tidy(from_element(fromstring(html)))
    except ParseError:
        return tidy(from_element(html5lib.parseFragment(html, namespaceHTMLElements=False)[0]))


def from_element(element: Element) -> Tree:
    """One element with all that is in it; MathML loses its namespace."""
    children: list[Tree] = [element.text or ""]
    for child in element:
        children += [from_element(child), child.tail or ""]
    return [element.tag.rpartition("}")[2], dict(element.attrib), *children]


def tidy(tree: Tree, *, exact: bool = False) -> Tree:
    """The same tree without empty attributes, with neighbouring texts as one, and without the line breaks of a template."""
    if isinstance(tree, str):
        return tree
    tag, attributes, *children = tree
    exact = exact or tag == "pre"
    joined: list[Tree] = []
    for child in children:
        if isinstance(child, str) and joined and isinstance(joined[-1], str):
            joined[-1] += child
        else:
            joined.append(child)
    texts = [child if exact or not isinstance(child, str) else without_breaks(child) for child in joined]
    return [
        tag,
        {name: value for name, value in attributes.items() if value},
        *(tidy(child, exact=exact) for child in texts if child != ""),
    ]


def without_breaks(text: str) -> str:
    """A text without the line breaks between elements."""
    return re.sub(r" *\n *", "", text)


def without(tree: Tree, class_name: str) -> Tree:
    """The same tree without the elements of a class."""
    if isinstance(tree, str):
        return tree
    tag, attributes, *children = tree
    kept = [child for child in children if isinstance(child, str) or child[1].get("class") != class_name]
    return [tag, attributes, *(without(child, class_name) for child in kept)]


def text_of(tree: Tree) -> str:
    """All text of a tree."""
    return tree if isinstance(tree, str) else "".join(map(text_of, tree[2:]))
