"""Pages without the site's furniture: an old address that leads on, and what stands where something was taken away."""

from __future__ import annotations

from posixpath import relpath
from xml.etree.ElementTree import Element, tostring

from build_tools.page.rendering import render


def render_lead(old: str, new: str, *, title: str, site: str = "") -> str:
    """A page that leads on from an old address, without scripts too.

    Args:
        old: the old address below the site's root: examples/old-lamp/.
        new: the new one.
        title: of the new page, plain text.
        site: where the site is published; empty where that is not known.
    """
    href = way(old, new)
    return render("lead.html.jinja", {"href": href, "canonical": f"{site}{new}" if site else href, "root": way(old, ""), "title": title})


def way(here: str, there: str) -> str:
    """The relative address that leads from one page of the site to another; an address without a slash at its end is a file."""
    return relpath(f"/{there}", f"/{here.rpartition('/')[0]}") + ("" if there and not there.endswith("/") else "/")


def render_gone(title: str, why: str, instead: tuple[tuple[str, str], ...]) -> str:
    """What stands, in the site's furniture, where an example or a page was taken away.

    Args:
        title: of what stood there, plain text.
        why: what happened, plain text.
        instead: address, as seen from the page, and title of what helps instead.
    """
    return render("gone.html.jinja", {"title": title, "why": why, "instead": instead})


def render_anchor(name: str) -> str:
    """An id that links elsewhere name, with nothing to see."""
    return tostring(Element("span", {"id": name}), encoding="unicode", method="html")
