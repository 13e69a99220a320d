"""The ids that the site generator does not see in the skeletons, so that it can check links to them."""

from __future__ import annotations

import re

from mkdocs.structure.files import Files

from build_tools.page.page import ids_of
from build_tools.site.library import Library

linked = re.compile(r"examples/([\w-]+)\.md")


def know_anchors(library: Library, files: Files) -> None:
    """Tell it the ids of every example that a hand-written page links to."""
    names = {name for page in library.handwritten for name in linked.findall(page.text)}
    for address, example in library.examples.items():
        file = files.get_file_from_path(f"examples/{example.address}.md") if example.address in names else None
        if file and file.page:
            anchors = ids_of(example).union(library.settled.anchors.get(address, ()))
            file.page.present_anchor_ids = {*anchors, *(file.page.present_anchor_ids or ())}
