"""Links of hand-written pages to pages and examples: what the address asks for is there, as in a lesson's line.

    [the right loop](../examples/link-wire.md?flip=I1#loop-L2)

The site generator looks at the page and the section; the choices between them would only fail on a student's phone.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from html import unescape
from pathlib import Path
from posixpath import dirname, normpath, relpath
from urllib.parse import SplitResult, parse_qsl, unquote, urlsplit

from build_tools.circuit.problem import Problem, describe, did_you_mean, find_near, listed
from build_tools.circuit.report import write_problem
from build_tools.laws.practice import most_sets, set_number
from build_tools.page.parts import PartKind
from build_tools.site.gone import gone_source
from build_tools.site.handwritten import HandWritten
from build_tools.site.lesson_lines import Asked, Spot, fault, find_marked, options, read_options
from build_tools.site.lessons import Workshop, attempt, tell_missing

link = re.compile(r"(?:\]\(|^ {0,3}\[[^\]\n]+\]:)\s*<?(?P<to>[^\s()<>]+)")
modes = {
    "set": (set_number.pattern, f"a number from 1 to {most_sets}"),
    "step": (".+", "the name of a step"),
    "help": ("first|all", "first or all"),
}
"""Further choices that an example's address may carry, and how they are written."""


def find_broken_links(pages: Iterable[HandWritten], docs: Path, known: Mapping[str, Collection[str]], workshop: Workshop) -> Iterator[str]:
    """The report of every link that leads to no page, or to an example with a choice or an id that it does not have.

    Args:
        pages: every hand-written page.
        docs: the folder where their sources stand.
        known: for the address of each example the ids on its page.
        workshop: who makes choices.
    """
    pages = tuple(pages)
    sources = {page.source: page.source for page in pages} | {gone_source(old): page.source for page in pages for old in page.formerly}
    for page in pages:
        for spot, found in find_marked(page.text, link):
            to = split_link(found["to"])
            target = normpath(f"{dirname(page.source)}/{unquote(to.path)}".lstrip("/"))
            address = f"{target.removesuffix('.md')}/"
            if not is_source(to) or address in workshop.gone or (address not in known and (docs / target).is_file()):
                continue
            if address in known:
                problem = find_wrong_choice(spot, to.query, target[9:-3], workshop) or find_wrong_id(spot, to.fragment, known[address])
            else:
                problem = fault(spot, "the source of a page", describe(to.path), tell_way(target, page.source, sources, workshop))
            if problem:
                yield write_problem(page.shown, problem.line, problem.column, problem, None)


def split_link(text: str) -> SplitResult:
    """An address in its pieces; all of them empty where it is none."""
    try:
        return urlsplit(unescape(text))
    except ValueError:
        return urlsplit("")


def is_source(to: SplitResult) -> bool:
    """Whether an address names a source of this site."""
    return not (to.scheme or to.netloc or to.path.startswith("/")) and to.path.endswith(".md")


def tell_way(target: str, source: str, sources: Mapping[str, str], workshop: Workshop) -> str:
    """What became of a page, or which was meant."""
    if target.startswith("examples/") and (told := tell_missing(target[9:-3], workshop)):
        return told
    here = dirname(source) or "."
    if new := sources.get(target):
        return f'it is "{relpath(new, here)}" now'
    near = find_near(target, [*sources.values(), *map(gone_source, workshop.examples)])
    return f'did you mean "{relpath(near, here)}"?' if near else ""


def find_wrong_choice(spot: Spot, query: str, example: str, workshop: Workshop) -> Problem | None:
    """The first choice that the example cannot make."""
    pairs = parse_qsl(query, keep_blank_values=True)
    for key, value in pairs:
        if key not in (*options, *modes):
            return fault(spot, f"a choice: {listed((*options, *modes), 'or')}", describe(key), did_you_mean(key, (*options, *modes)))
        if key in modes and not re.fullmatch(modes[key][0], value):
            return fault(spot, f"{modes[key][1]} after “{key}=”", describe(value))
    asked = read_options(spot, Asked(example=example, kind=PartKind.CARD), [f"{key}={value}" for key, value in pairs if key in options])
    if isinstance(asked, Problem):
        return asked
    # A page takes each loop that closes, also where they make no whole set: so each is tried alone.
    tried = (try_out(replace(asked, walk=walk), spot, workshop) for walk in asked.walk.split("_"))
    return next(filter(None, tried), None) if asked.query else None


def try_out(asked: Asked, spot: Spot, workshop: Workshop) -> Problem | None:
    """What is wrong with the choices."""

    def make() -> str:
        workshop.worked(asked)
        return ""

    made = attempt(asked, spot, workshop, f"link {asked!r}", make)
    return made if isinstance(made, Problem) else None


def find_wrong_id(spot: Spot, name: str, ids: Collection[str]) -> Problem | None:
    """A place that is not on the page of an example, and those of its kind that are."""
    if not name or name in ids:
        return None
    kind = re.escape(re.split(r"[-_\d]", name)[0])
    by_name, by_number = ([each for each in ids if re.fullmatch(f"{kind}-{rest}", each)] for rest in (r"(?!\d)\w+", r"\d+"))
    alike = sorted(by_name or by_number, key=lambda each: (len(each), each))
    there = f"there {'is' if len(alike) == 1 else 'are'} {listed([f'#{each}' for each in alike])}"
    return fault(spot, "an id on the page of the example", describe(f"#{name}"), there if alike else did_you_mean(name, ids))
