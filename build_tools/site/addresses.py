"""No published address is ever lost: where each leads now, or a refusal with the line that would keep it.

All addresses are those of pages below the site's root: examples/link-wire/.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches

from build_tools.site.gone import Gone
from build_tools.site.published import Ids

section_of = {
    "loop": "loops",
    "junction": "junctions",
    "equation": "equations",
    "line": "by-hand",
    "batteries": "currents",
    "readings": "currents",
    "every": "currents",
    "potentials": "currents",
}
"""The section in which an id of an example once stood, by the first word of the id."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A page of the next build."""

    source: str
    """Its file, as its author knows it: circuits/link-wire.toml."""
    ids: Collection[str] = ()
    formerly: tuple[str, ...] = ()
    """Addresses that it had before."""
    is_example: bool = False
    is_made: bool = False
    """Whether the build makes its ids, an example's or the list's: then it keeps those that are gone itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """Where every published address leads."""

    leads: Mapping[str, str] = field(default_factory=dict)
    """For each old address the page it leads on to."""
    anchors: Ids = field(default_factory=dict)
    """For a page the ids that it had and that nothing on it bears now: they are kept, each in its section."""


class LostAddresses(Exception):
    """Published addresses that the next build would lose; its text is the whole report."""


def settle(recorded: Ids, standing: Mapping[str, Standing], gone: Mapping[str, Gone]) -> Settled:
    """Lead every published address to a page.

    Raises:
        LostAddresses: naming each that would be lost, with the line to add.
    """
    leads = {old: address for address, page in standing.items() for old in page.formerly}
    needed: dict[str, dict[str, None]] = {}
    for address, ids in recorded.items():
        needed.setdefault(leads.get(address, address), {}).update(dict.fromkeys(ids))
    missing = {
        address: tuple(name for name in ids if name not in standing[address].ids) for address, ids in needed.items() if address in standing
    }
    faults = [
        *find_clashes(standing, gone),
        *(say_lost(address, standing, recorded) for address in recorded if address not in {*standing, *leads, *gone}),
        *(
            f"{standing[address].source}: #{name} was published, and nothing on the page has this id now\n"
            f"    give it back to the heading it belongs to: ## ... {{ #{name} }}"
            for address, names in missing.items()
            for name in names
            if not standing[address].is_made
        ),
    ]
    if faults:
        raise LostAddresses("\n".join(faults))
    return Settled(leads=leads, anchors={address: names for address, names in missing.items() if names})


def find_clashes(standing: Mapping[str, Standing], gone: Mapping[str, Gone]) -> Iterator[str]:
    """An address that leads to two places: a page stands there, or is said to be gone, or two pages claim it."""
    claims: dict[str, str] = {}
    for page in standing.values():
        for old in page.formerly:
            if old in standing:
                yield f"{page.source}: formerly: expected an address where no page stands now, got {old}, which is {standing[old].source}"
            elif claims.setdefault(old, page.source) != page.source:
                yield f"{page.source}: formerly: expected an address of this page alone, got {old}, which {claims[old]} names too"
    for address, said in gone.items():
        if address in standing or address in claims:
            taken = f"is {standing[address].source}" if address in standing else f"is led on by {claims[address]}"
            yield f"{said.place}: expected an address where no page stands now, got {address}, which {taken}\n    take this entry out"
        for other in said.instead:
            if other.partition("#")[0] not in standing:
                near = get_close_matches(other, standing, n=1)
                yield f"{said.place}: instead: expected addresses of this site, got {other}" + (
                    f"\n    did you mean {near[0]}?" if near else ""
                )


def say_lost(address: str, standing: Mapping[str, Standing], recorded: Ids) -> str:
    """The report of one lost address, with the line to add."""
    is_example = address.startswith("examples/")
    near = find_successor(address, standing, recorded)
    page = standing[near] if near else Standing(source="", is_example=is_example)
    is_now = (
        f"is {page.source} now, add to that file" if near else f"has a new name, add to that {'circuit file' if is_example else 'page'}"
    )
    line = formerly_line(address, page)
    place = (
        "above the first line in square brackets"
        if is_example
        else "at the very top; where such lines are there, the middle one between them"
    )
    return "\n".join(
        (
            f"{address}: this address was published, and no page stands there now",
            f"    if it {is_now}, {place}:",
            *(f"        {each}" for each in ((line,) if is_example else ("---", line, "---"))),
            "    if it was taken away on purpose, add to docs/gone.toml, and say why in place of the dots:",
            f'        ["{address}"]',
            '        why = "..."',
        )
    )


def find_successor(address: str, standing: Mapping[str, Standing], recorded: Ids) -> str:
    """The new page that has likely taken the place of a recorded address; empty where there is none."""
    is_example = address.startswith("examples/")
    new = [other for other, page in standing.items() if page.is_example == is_example and other not in recorded]
    return next(iter(get_close_matches(address, new, n=1, cutoff=0.0)), "")


def formerly_line(address: str, page: Standing) -> str:
    """The line that keeps an address, with the old addresses that the page has already."""
    if not page.is_example:
        return f"formerly: {address}" if not page.formerly else f"formerly: [{', '.join((*page.formerly, address))}]"
    names = [old.removeprefix("examples/").rstrip("/") for old in (*page.formerly, address)]
    return "formerly = [" + ", ".join(f'"{name}"' for name in names) + "]"


def home_of(name: str) -> str:
    """The section in which an id that is gone is kept; empty where no section is its own."""
    return section_of.get(re.split(r"[-_]", name)[0], "")
