"""Choose one place for every mark so that nothing touches anything.

Every mark brings its candidates, each with the boxes it would take up and a cost. First every mark takes the cheapest
place that is clear of what was placed before it; then each in turn moves to its best answer to all the others, until
nobody wants to move; then pairs that still clash move together.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from build_tools.figure.geometry import Box
from build_tools.figure.layout import Spot
from build_tools.figure.lettering import Line

_CLASH = 1000.0
_CROWDING = 0.5
_CROWDED = 9.0
"""Marks nearer side by side than this are crowded [px]; a third of it one above the other."""
_KEPT = 24
_KEPT_RINGS = 70
_SWEEPS = 8
_NOWHERE: Box = (1e9, 1e9, -1e9, -1e9)

Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text in its place."""

    line: Line
    anchor: str
    """Where the spot is on the line: "start", "middle" or "end"."""
    spot: Spot


@dataclass(frozen=True, slots=True)
class Candidate:
    """One place where a mark could stand."""

    cost: float
    boxes: tuple[Box, ...]
    """What it takes up: one or two boxes."""
    texts: tuple[Text, ...] = ()
    spots: tuple[Spot, ...] = ()
    """Where its drawn strokes stand."""
    turn: float = 0.0
    """How far it is turned [degrees]; for a loop mark 1 or −1, its sense."""

    def moved(self, shift: Spot) -> Candidate:
        """The same place in a figure that is moved as a whole."""
        right, down = shift
        return Candidate(
            self.cost,
            tuple((x1 + right, y1 + down, x2 + right, y2 + down) for x1, y1, x2, y2 in self.boxes),
            tuple(Text(text.line, text.anchor, (text.spot[0] + right, text.spot[1] + down)) for text in self.texts),
            tuple((x + right, y + down) for x, y in self.spots),
            self.turn,
        )


@dataclass(frozen=True, slots=True)
class Mark:
    """Something that wants a place."""

    kind: str
    """label, polarity, letter, arrow or loop."""
    name: str
    candidates: tuple[Candidate, ...]
    ignores: tuple[int, ...] = ()
    """Obstacles that the first box of each candidate may touch, by their number."""


@dataclass(frozen=True, slots=True)
class Choice:
    """The places chosen, one for each mark."""

    places: tuple[Candidate, ...]
    clashes: int
    """How many pairs still touch; 0 for a figure that can be printed."""
    cost: float


def choose_places(marks: Sequence[Mark], obstacles: Sequence[Box]) -> Choice:
    """Choose a place for every mark."""
    kept = [_clear_ones(mark, obstacles) for mark in marks]
    options = [[mark.candidates[number] for number, _ in few] for mark, few in zip(marks, kept, strict=True)]
    costs = [np.array([cost for _, cost in few]) for few in kept]
    strain = _strain([candidate for few in options for candidate in few])
    firsts = np.cumsum([0, *map(len, options)]).tolist()
    picks = _settle(costs, strain, firsts)
    chosen = [first + pick for first, pick in zip(firsts, picks, strict=False)]
    clashes = int(np.triu(strain[np.ix_(chosen, chosen)] >= _CLASH, 1).sum())
    clashes += sum(int(cost[pick] // _CLASH) for cost, pick in zip(costs, picks, strict=True))
    total = sum(few[pick].cost for few, pick in zip(options, picks, strict=True))
    return Choice(tuple(few[pick] for few, pick in zip(options, picks, strict=True)), clashes, total)


def _clear_ones(mark: Mark, obstacles: Sequence[Box]) -> list[tuple[int, float]]:
    """The cheapest candidates that touch no obstacle, by number and cost; the least bad ones where none is clear."""
    hits = _hits(mark, obstacles)
    ranked = sorted((round(c.cost + _CLASH * hit, 4), number) for number, (c, hit) in enumerate(zip(mark.candidates, hits, strict=True)))
    kept = ranked[: _KEPT_RINGS if mark.kind == "loop" else _KEPT]
    clear = [(number, cost) for cost, number in kept if cost < _CLASH]
    return clear or [(number, cost) for cost, number in kept[:3]]


def _hits(mark: Mark, obstacles: Sequence[Box]) -> list[int]:
    """How many obstacles each candidate touches."""
    walls = np.array(obstacles)
    total = np.zeros(len(mark.candidates), dtype=int)
    for number in range(max(len(candidate.boxes) for candidate in mark.candidates)):
        boxes = np.array([_box(candidate, number) for candidate in mark.candidates])
        touched = _overlaps(boxes, walls)
        if number == 0 and mark.ignores:
            touched[:, list(mark.ignores)] = False
        total += touched.sum(axis=1)
    hits: list[int] = total.tolist()
    return hits


def _strain(candidates: Sequence[Candidate]) -> Numbers:
    """What each pair of candidates costs together: a clash where their boxes share area, a little where they crowd."""
    near = np.array([-_CROWDED, -_CROWDED / 3, _CROWDED, _CROWDED / 3])
    firsts = np.array([_box(candidate, 0) for candidate in candidates])
    seconds = np.array([_box(candidate, 1) for candidate in candidates])
    touch = np.zeros((len(candidates), len(candidates)), dtype=bool)
    crowd = touch.copy()
    for ones, others in ((firsts, firsts), (firsts, seconds), (seconds, firsts), (seconds, seconds)):
        touch |= _overlaps(ones, others)
        crowd |= _overlaps(ones + near, others)
    result: Numbers = _CLASH * touch + _CROWDING * (crowd | crowd.T)
    return result


def _box(candidate: Candidate, number: int) -> Box:
    return candidate.boxes[number] if number < len(candidate.boxes) else _NOWHERE


def _overlaps(ones: Numbers, others: Numbers) -> NDArray[np.bool_]:
    a, b = ones[:, None, :], others[None, :, :]
    result: NDArray[np.bool_] = (a[..., 0] < b[..., 2]) & (b[..., 0] < a[..., 2]) & (a[..., 1] < b[..., 3]) & (b[..., 1] < a[..., 3])
    return result


def _settle(costs: list[Any], strain: Numbers, firsts: list[int]) -> list[int]:
    """Greedy, then sweeps of best answers, then pairs together."""
    picks: list[int] = []
    for number in range(len(costs)):
        picks.append(_best_answer(number, picks, costs, strain, firsts))
    for _ in range(_SWEEPS):
        before = list(picks)
        for number in range(len(costs)):
            picks[number] = _best_answer(number, picks, costs, strain, firsts)
        _move_pairs(picks, costs, strain, firsts)
        if picks == before:
            break
    return picks


def _loads(number: int, picks: list[int], costs: list[Any], strain: Numbers, firsts: list[int]) -> Any:
    """The cost of each candidate of one mark where all the others stay."""
    others = [firsts[other] + pick for other, pick in enumerate(picks) if other != number]
    rows = strain[firsts[number] : firsts[number + 1]]
    return costs[number] + rows[:, others].sum(axis=1)


def _best_answer(number: int, picks: list[int], costs: list[Any], strain: Numbers, firsts: list[int]) -> int:
    return int(np.argmin(_loads(number, picks, costs, strain, firsts)))


def _move_pairs(picks: list[int], costs: list[Any], strain: Numbers, firsts: list[int]) -> None:
    """Move each pair that clashes to the best places for the two together."""
    for one in range(len(picks)):
        for other in range(len(picks)):
            if one == other or strain[firsts[one] + picks[one], firsts[other] + picks[other]] < _CLASH:
                continue
            rest = [firsts[third] + pick for third, pick in enumerate(picks) if third not in (one, other)]
            rows = slice(firsts[one], firsts[one + 1])
            columns = slice(firsts[other], firsts[other + 1])
            sums = (
                (costs[one] + strain[rows][:, rest].sum(axis=1))[:, None]
                + (costs[other] + strain[columns][:, rest].sum(axis=1))[None, :]
                + strain[rows, columns]
            )
            picks[one], picks[other] = map(int, np.unravel_index(int(np.argmin(sums)), sums.shape))
