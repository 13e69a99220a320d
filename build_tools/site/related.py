"""Related examples: one step easier, one step harder, and one with the same idea. Always the same for the same library."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping, Sequence

from build_tools.page.page import Page
from build_tools.site.catalogue import level_rank

Rank = tuple[int, int]
nearest = 4
"""How many neighbours on each side are looked at for each topic."""


def rank(page: Page) -> Rank:
    """How hard an example is."""
    return level_rank(page), page.unknowns


def find_related(ordered: Sequence[Page]) -> dict[str, tuple[tuple[str, Page], ...]]:
    """For each example what to read next, with the word for it.

    Args:
        ordered: all examples, easiest first.
    """
    shelves: dict[str, list[int]] = {}
    for at, page in enumerate(ordered):
        for topic in topics(page):
            shelves.setdefault(topic, []).append(at)
    ranks = [rank(page) for page in ordered]
    return {page.address: tuple(choose(at, ordered, ranks, shelves)) for at, page in enumerate(ordered)}


def topics(page: Page) -> tuple[str, ...]:
    """What an example is about: its topics and its ideas."""
    return tuple(dict.fromkeys((*page.topics, *page.ideas)))


def choose(at: int, ordered: Sequence[Page], ranks: Sequence[Rank], shelves: Mapping[str, Sequence[int]]) -> Iterator[tuple[str, Page]]:
    """The related examples of one."""
    page = ordered[at]
    easier, harder, same = find_near(at, ranks, shelves, topics(page))
    first, last = bisect_left(ranks, ranks[at]) - 1, bisect_right(ranks, ranks[at])
    taken = {at}
    steps = (
        ("One step easier:", easier or ({first} if first >= 0 else set())),
        ("One step harder:", harder or ({last} if last < len(ordered) else set())),
        ("The same idea:", same),
    )
    for word, found in steps:
        if rest := found - taken:
            best = min(rest, key=lambda other: (-shared(page, ordered[other]), distance(ranks[at], ranks[other]), abs(other - at), other))
            taken.add(best)
            yield word, ordered[best]


def find_near(
    at: int, ranks: Sequence[Rank], shelves: Mapping[str, Sequence[int]], about: Sequence[str]
) -> tuple[set[int], set[int], set[int]]:
    """Examples that share a topic: a few that are easier, a few that are harder, a few near by."""
    easier: set[int] = set()
    harder: set[int] = set()
    same: set[int] = set()
    first, last = bisect_left(ranks, ranks[at]), bisect_right(ranks, ranks[at])
    for topic in about:
        shelf = shelves[topic]
        below, above, here = bisect_left(shelf, first), bisect_left(shelf, last), bisect_left(shelf, at)
        easier.update(shelf[max(0, below - nearest) : below])
        harder.update(shelf[above : above + nearest])
        same.update(shelf[max(0, here - nearest) : here + nearest + 1])
    return easier, harder, same


def shared(one: Page, other: Page) -> int:
    """How many topics two examples have in common."""
    return len(set(topics(one)) & set(topics(other)))


def distance(one: Rank, other: Rank) -> Rank:
    """How far apart in difficulty."""
    return abs(one[0] - other[0]), abs(one[1] - other[1])
