"""Links of hand-written pages to pages and examples: what the address asks for is there, as in a lesson's line.

    [the right loop](../examples/link-wire.md?flip=I1#loop-L2)
    <a href="../../examples/link-wire/?flip=I1#loop-L2">the right loop</a>
    <https://boathouse.example/examples/link-wire/?flip=I1#loop-L2>

The site generator looks at page and section of the first; the choices between them, and all of the others, would only
fail on a student's phone. HTML goes to the page as it is, so its links start from the page's address.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from html import unescape
from pathlib import Path
from posixpath import dirname, normpath, relpath
from urllib.parse import SplitResult, parse_qsl, unquote, urlsplit

from mkdocs.config.defaults import MkDocsConfig

from build_tools.circuit.problem import Problem, describe, did_you_mean, find_near, listed
from build_tools.circuit.report import write_problem
from build_tools.laws.practice import most_sets, set_number
from build_tools.page.page import tell_ids
from build_tools.page.parts import PartKind
from build_tools.site.gone import gone_source
from build_tools.site.handwritten import HandWritten, find_ids
from build_tools.site.lesson_lines import Asked, Spot, fault, find_marked, options, read_options
from build_tools.site.lessons import Workshop, attempt, tell_missing

link = re.compile(r"(?:\]\(|^ {0,3}\[(?!\^)[^\]\n]+\]:)\s*<?(?P<to>[^\s()<>]+)")
raw_link = re.compile(r"""<(?:a\b[^>]*?\shref\s*=\s*["']?|(?<!\]\(<)(?<!\]: <)(?=https?:))(?P<to>[^"'\s<>]+)""", re.IGNORECASE)
spaced = re.compile(
    r"""(?:\](?:\(|:)\s*<|<a\b[^>]*?\shref\s*=\s*["'])\s*(?P<marked>[^\s<>"']+\s+[^\s<>"'][^<>"']*)[>"']"""
    r"""|\]\(\s*(?P<bare>[^\s()<>]+\s+[^\s()<>"'][^()<>"']*)\)"""
)
modes = {
    "set": (set_number.pattern, f"a number from 1 to {most_sets}"),
    "step": (".+", "the name of a step"),
    "help": ("first|all", "first or all"),
}
"""Further choices that an example's address may carry, and how they are written."""


index_file = "examples.json"
"""What stands among the pages and is made."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What links may lead to."""

    pages: tuple[HandWritten, ...]
    known: Mapping[str, Collection[str]]
    """For the address of each example the ids on its page."""
    workshop: Workshop
    """Who makes choices."""
    config: MkDocsConfig
    site: SplitResult
    """Where the site will stand."""
    ids: dict[str, frozenset[str]] = field(default_factory=dict)
    """Of each hand-written page, by source, once a link has named one."""

    @property
    def sources(self) -> Mapping[str, str]:
        """The source of each page, by what it is called and by what it was called before."""
        return {page.source: page.source for page in self.pages} | {
            gone_source(old): page.source for page in self.pages for old in page.formerly
        }

    @property
    def addresses(self) -> tuple[str, ...]:
        """Every address that something stands at, also where that leads on."""
        lights = (f"embed/{address.removeprefix('examples/')}" for address in self.known)
        old = (address for page in self.pages for address in page.formerly)
        renamed = (f"examples/{name}/" for page in self.workshop.examples.values() for name in page.formerly)
        return (*(page.address for page in self.pages), *self.known, *lights, *old, *renamed, *self.workshop.gone)


def find_broken_links(
    pages: Iterable[HandWritten], known: Mapping[str, Collection[str]], workshop: Workshop, config: MkDocsConfig
) -> Iterator[str]:
    """The report of every link that leads to no page, or to an example with a choice or an id that it does not have."""
    ground = Ground(pages=tuple(pages), known=known, workshop=workshop, config=config, site=split_link(config.site_url or ""))
    for page in ground.pages:
        for spot, found in find_marked(page.text, spaced):
            cut = refuse_space(spot, found["marked"] or found["bare"])
            yield write_problem(page.shown, cut.line, cut.column, cut, None)
        for spot, found in (*find_marked(page.text, link), *find_marked(page.text, raw_link)):
            to = split_link(found["to"])
            is_raw = found.re is raw_link
            look = find_wrong_address if is_raw or to.netloc else find_wrong_source
            if problem := look(spot, to, page, ground):
                yield write_problem(page.shown, problem.line, problem.column, problem, None)


def split_link(text: str) -> SplitResult:
    """An address in its pieces; all of them empty where it is none."""
    try:
        return urlsplit(unescape(text))
    except ValueError:
        return urlsplit("")


def refuse_space(spot: Spot, to: str) -> Problem:
    """An address that a space cuts in two."""
    return fault(spot, "an address without spaces", describe(to), f'write "{"".join(to.split())}", or %20 where a space belongs there')


def find_wrong_source(spot: Spot, to: SplitResult, page: HandWritten, ground: Ground) -> Problem | None:
    """What is wrong with a link from source to source."""
    target = normpath(f"{dirname(page.source)}/{unquote(to.path)}".lstrip("/"))
    address = f"{target.removesuffix('.md')}/"
    if to.scheme or to.netloc or to.path.startswith("/") or address in ground.workshop.gone:
        return None
    if not to.path:
        return find_wrong_section(spot, to.fragment, page, ground)
    if address in ground.known and target.endswith(".md"):
        return find_wrong_request(spot, to, address, ground)
    if (Path(ground.config.docs_dir) / target).is_file() or target == index_file:
        there = next((each for each in ground.pages if each.source == target), None)
        return find_wrong_section(spot, to.fragment, there, ground) if there else None
    if Path(target).suffix not in ("", ".md"):
        return fault(spot, "a file in the folder of the pages", describe(to.path), tell_file(target, page.source, ground))
    return fault(spot, "the source of a page", describe(to.path), tell_way(f"{address[:-1]}.md", page.source, ground))


def find_wrong_section(spot: Spot, name: str, page: HandWritten, ground: Ground) -> Problem | None:
    """A place that is not on a hand-written page, and what there is."""
    if not name:
        return None
    if page.source not in ground.ids:
        ground.ids[page.source] = find_ids(page.text, ground.config)
    ids = ground.ids[page.source]
    if unquote(name) in ids:
        return None
    told = tell_ids(name, ids) or f"there are {listed([f'#{each}' for each in sorted(ids)])}" if ids else "that page has no sections"
    return fault(spot, f"an id on the page {page.shown}", describe(f"#{name}"), told)


def tell_file(target: str, source: str, ground: Ground) -> str:
    """Which file was meant."""
    docs = Path(ground.config.docs_dir)
    there = [path.relative_to(docs).as_posix() for path in docs.rglob(f"*{Path(target).suffix}")]
    alike = [each for each in there if Path(each).name == Path(target).name]
    near = alike[0] if alike else find_near(target, there)
    return f'did you mean "{relpath(near, dirname(source) or ".")}"?' if near else "put it there, or take the link out"


def tell_way(target: str, source: str, ground: Ground) -> str:
    """What became of a page, or which was meant."""
    here = dirname(source) or "."
    if new := ground.sources.get(target):
        return f'it is "{relpath(new, here)}" now'
    if target.startswith("examples/"):
        return tell_missing(target[9:-3], ground.workshop, lambda name: relpath(f"examples/{name}.md", here))
    others = (each for each in ground.sources.values() if each != source)
    near = find_near(target, [*others, *map(gone_source, ground.workshop.examples)])
    return f'did you mean "{relpath(near, here)}"?' if near else ""


def find_wrong_address(spot: Spot, to: SplitResult, page: HandWritten, ground: Ground) -> Problem | None:
    """What is wrong with a link from address to address."""
    path = find_path(to, page.address, ground.site)
    if path is None or ("." in path.rpartition("/")[2] and not path.endswith(".md")):
        return None
    address = path.removesuffix(".md").removesuffix("index").rstrip("/") + "/" if path else ""
    if address in ground.known and not path.endswith(".md"):
        return find_wrong_request(spot, to, address, ground)
    if address in ground.addresses and not path.endswith(".md"):
        return None
    near = find_near(address, ground.addresses)
    told = f"{ground.site.geturl()}{near}" if to.netloc else f"{relpath(near, page.address or '.')}/"
    return fault(spot, "the address of a page", describe(to.path), f'did you mean "{told}"?' if near else "")


def find_path(to: SplitResult, here: str, site: SplitResult) -> str | None:
    """Where a link of a page leads, from the root of the site; nothing where that is not of this site."""
    root = site.path or "/"
    if to.netloc or to.scheme or to.path.startswith("/"):
        is_ours = to.path.startswith(root) and (to.netloc == site.netloc if to.netloc else not to.scheme)
        path = to.path.removeprefix(root) if is_ours else None
    else:
        path = normpath(f"{here}{to.path}") + "/" * to.path.endswith("/") if to.path else None
    if path is None or path.startswith(".."):
        return None
    return unquote(path).removeprefix("./").removesuffix("index.html")


def find_wrong_request(spot: Spot, to: SplitResult, address: str, ground: Ground) -> Problem | None:
    """What a link asks of an example and does not get."""
    return find_wrong_choice(spot, to.query, address[9:-1], ground.workshop) or find_wrong_id(spot, to.fragment, ground.known[address])


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
    return fault(spot, "an id on the page of the example", describe(f"#{name}"), tell_ids(name, ids))
