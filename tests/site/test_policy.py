"""The content policy that a build writes."""

from __future__ import annotations

import re
from collections.abc import Callable
from html import unescape
from pathlib import Path

import pytest

from build_tools.site.policy import ForeignScript, Policy, hash_of
from tests.site.library import write

Publish = Callable[[Path], str]


def test_a_hash_is_the_one_a_browser_computes() -> None:
    """The example of the standard: W3C, Content Security Policy Level 3, sec. 2.3.1, `alert('Hello, world.');`."""
    assert hash_of("alert('Hello, world.');") == "sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng="


def test_every_page_carries_the_policy(site: Path) -> None:
    """One rule for every page with furniture, the same as in policy.txt, before anything is loaded; nothing unsafe in it."""
    told = (site / "policy.txt").read_text(encoding="utf-8").strip().removeprefix("Content-Security-Policy: ")
    assert "unsafe" not in told
    assert told.startswith("default-src 'self'; script-src 'self'; ")
    for path in [*site.rglob("index.html"), site / "404.html"]:
        text = path.read_text(encoding="utf-8")
        policies = re.findall(r'<meta http-equiv="Content-Security-Policy" content="([^"]+)">', text)
        assert len(policies) == 1, path
        assert "unsafe" not in policies[0]
        assert '<meta charset="utf-8">' in text
        assert text.index("Content-Security-Policy") < min(text.index(mark) for mark in ("<script", "<link") if mark in text)
        if "embed" not in path.relative_to(site).parts:
            assert unescape(policies[0]) == told


def test_no_page_needs_what_the_policy_forbids(site: Path) -> None:
    """No style attribute, no handler, no style element, in any page."""
    for path in site.rglob("*.html"):
        text = re.sub(r"<(script|pre)\b.*?</\1>", "", path.read_text(encoding="utf-8"), flags=re.S)
        assert not re.findall(r"<[a-z][^<>]*\s(?:style|on[a-z]+)=[^<>]*>|<style\b", text), path


def test_a_script_that_is_not_the_themes_is_refused() -> None:
    """The policy never blesses what it finds on a page."""
    policy = Policy('<meta charset="utf-8"><script>theme()</script><script src="a.js"></script>')
    assert "theme" not in policy.text
    assert 'http-equiv="Content-Security-Policy"' in policy.apply('<meta charset="utf-8"><script type="application/json">{}</script>')
    with pytest.raises(ForeignScript, match="alert"):
        policy.apply('<meta charset="utf-8"><script>alert(1)</script>')


def test_a_hand_written_script_stops_the_build(library: Path, publish: Publish, caplog: pytest.LogCaptureFixture) -> None:
    """It would not run for readers, so its author learns of it first."""
    write(library / "docs/index.md", "# Home\n\n<script>alert(1)</script>\n")
    with pytest.raises(SystemExit):
        publish(library)
    assert "index.md: expected no inline script" in caplog.text
