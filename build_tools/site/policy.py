"""The content policy: only the site's own scripts and styles, nothing inline but the theme's few lines, by their hashes.

The hashes are those of the theme's page for what is not found, which no circuit file has a hand in; a page with any other
inline script is refused.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Iterator
from hashlib import sha256

from markupsafe import Markup

script = re.compile(r"<script\b([^>]*)>(.*?)</script>", re.S | re.I)
charset = re.compile(r"<meta charset=[^>]*>", re.I)


class ForeignScript(Exception):
    """A page has an inline script that the theme did not write."""


class Policy:
    """The policy of one build, once the theme's own scripts are known."""

    def __init__(self, html: str) -> None:
        self.hashes = tuple(dict.fromkeys(map(hash_of, find_inline(html))))
        self._known = frozenset(find_inline(html))

    @property
    def text(self) -> str:
        """As it stands in a page and in a header."""
        scripts = " ".join(["'self'", *(f"'{name}'" for name in self.hashes)])
        rules = (
            "default-src 'self'",
            f"script-src {scripts}",
            "img-src 'self' data:",
            "object-src 'none'",
            "base-uri 'none'",
            "form-action 'none'",
        )
        return "; ".join(rules)

    def apply(self, html: str) -> str:
        """The page with the policy at its head.

        Raises:
            ForeignScript: with the beginning of the script.
        """
        for text in find_inline(html):
            if text not in self._known:
                raise ForeignScript(" ".join(text.split())[:60])
        meta = Markup('\n<meta http-equiv="Content-Security-Policy" content="{}">').format(self.text)
        return charset.sub(lambda found: found[0] + str(meta), html, count=1)


def find_inline(html: str) -> Iterator[str]:
    """The inline scripts of a page that a browser would run."""
    for match in script.finditer(html):
        attributes = match[1].lower()
        if "src=" not in attributes and "application/json" not in attributes:
            yield match[2]


def hash_of(text: str) -> str:
    """The hash by which a policy knows a script."""
    return "sha256-" + b64encode(sha256(text.encode()).digest()).decode()
