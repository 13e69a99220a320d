"""Choose one place for every mark so that nothing touches anything.

Every mark brings its candidates, each with the boxes it would take up and a cost. First every mark takes the cheapest
place that is clear of what was placed before it; then each in turn moves to its best answer to all the others, until
nobody wants to move; then pairs that still clash move together.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from build_tools.figure.captions import Block, Text
from build_tools.figure.geometry import Box, grown
from build_tools.figure.layout import Spot

_CLASH = 1000.0
_CROWDING = 0.5
_CROWDED = (9.0, 3.0)
"""Marks nearer than this are crowded, side by side and one above the other [px]."""
_CROWDED_RING = (9.0, 7.0)
_NEAR_BODY = 4.0
"""A mark nearer than this to another part's body crowds it [px]."""
_CROWDING_BODY = 0.6
_KEPT = 18
_KEPT_RINGS = 45
_SWEEPS = 8

Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Candidate:
    """One place where a mark could stand."""

    cost: float
    boxes: tuple[Box, ...]
    """What it takes up: one or two boxes."""
    words: Block | None = None
    """What is written there."""
    centre: Spot = (0.0, 0.0)
    """The middle of the words."""
    anchor: str = "middle"
    """The side at which the words are held: "start", "middle" or "end"."""
    spots: tuple[Spot, ...] = ()
    """Where its drawn strokes stand; of a letter, its dot."""
    turn: float = 0.0
    """How far it is turned [degrees]; for a loop mark 1 or −1, its sense."""

    @property
    def texts(self) -> tuple[Text, ...]:
        """Its words, line by line."""
        return self.words.set_at(self.centre, self.anchor) if self.words else ()

    def moved(self, shift: Spot) -> Candidate:
        """The same place in a figure that is moved as a whole."""
        right, down = shift
        return replace(
            self,
            boxes=tuple((x1 + right, y1 + down, x2 + right, y2 + down) for x1, y1, x2, y2 in self.boxes),
            centre=(self.centre[0] + right, self.centre[1] + down),
            spots=tuple((x + right, y + down) for x, y in self.spots),
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


def choose_places(marks: Sequence[Mark], obstacles: Sequence[Box], bodies: Sequence[tuple[str, Box]] = (), *, hasty: bool = True) -> Choice:
    """Choose a place for every mark.

    Args:
        marks: every mark with at least one candidate, in the order of placing.
        obstacles: boxes that no mark may touch.
        bodies: boxes that only marks of the same name should stand close to.
        hasty: whether to stop as soon as some mark has no clear place at all.
    """
    walls = np.array(obstacles)
    kept = [_clear_ones(mark, walls, np.array([grown(box, _NEAR_BODY) for name, box in bodies if name != mark.name])) for mark in marks]
    lost = sum(few[0][1] >= _CLASH for few in kept)
    options = [[mark.candidates[number] for number, _ in few] for mark, few in zip(marks, kept, strict=True)]
    if lost and hasty:
        return Choice(tuple(few[0] for few in options), lost, 0.0)
    costs = [np.array([cost for _, cost in few]) for few in kept]
    rings = [mark.kind == "loop" for mark, few in zip(marks, options, strict=True) for _ in few]
    strain = _strain([candidate for few in options for candidate in few], rings)
    firsts = np.cumsum([0, *map(len, options)]).tolist()
    picks = _settle(costs, strain, firsts)
    chosen = [first + pick for first, pick in zip(firsts, picks, strict=False)]
    among = strain[np.ix_(chosen, chosen)]
    clashes = lost + int(np.triu(among >= _CLASH, 1).sum())
    cost = sum(float(each[pick]) % _CLASH for each, pick in zip(costs, picks, strict=True)) + float(np.triu(among % _CLASH, 1).sum())
    return Choice(tuple(few[pick] for few, pick in zip(options, picks, strict=True)), clashes, round(cost, 3))


def _clear_ones(mark: Mark, walls: Numbers, bodies: Numbers) -> list[tuple[int, float]]:
    """The cheapest candidates that touch no obstacle, by number and cost; the least bad ones where none is clear."""
    hits = _hits(mark, walls, mark.ignores)
    crowds = _hits(mark, bodies, ()) if len(bodies) else 0
    costs = np.round(np.array([candidate.cost for candidate in mark.candidates]) + _CLASH * hits + _CROWDING_BODY * crowds, 3)
    ranked = np.argsort(costs, kind="stable")[: _KEPT_RINGS if mark.kind == "loop" else _KEPT]
    kept = [(int(number), float(costs[number])) for number in ranked]
    clear = [(number, cost) for number, cost in kept if cost < _CLASH]
    return clear or kept[:3]


def _hits(mark: Mark, walls: Numbers, ignores: Sequence[int]) -> NDArray[np.int_]:
    """How many obstacles each candidate touches."""
    total = np.zeros(len(mark.candidates), dtype=int)
    for number in range(len(mark.candidates[0].boxes)):
        touched = _overlaps(np.array([candidate.boxes[number] for candidate in mark.candidates]), walls)
        if number == 0 and ignores:
            touched[:, list(ignores)] = False
        total += touched.sum(axis=1)
    return total


def _strain(candidates: Sequence[Candidate], rings: Sequence[bool]) -> Numbers:
    """What each pair of candidates costs together: a clash where their boxes share area, a little where they crowd."""
    edges = [_CROWDED_RING if ring else _CROWDED for candidate, ring in zip(candidates, rings, strict=True) for _ in candidate.boxes]
    near = np.array([(-aside, -above, aside, above) for aside, above in edges])
    boxes = np.array([box for candidate in candidates for box in candidate.boxes])
    firsts = np.cumsum([0, *(len(candidate.boxes) for candidate in candidates)])[:-1]

    def pairs(ones: Numbers) -> NDArray[np.bool_]:
        rows = np.logical_or.reduceat(_overlaps(ones, boxes), firsts, axis=0)
        result: NDArray[np.bool_] = np.logical_or.reduceat(rows, firsts, axis=1)
        return result

    result: Numbers = np.where(pairs(boxes), _CLASH, np.where(pairs(boxes + near), _CROWDING, 0.0))
    return result


def _overlaps(ones: Numbers, others: Numbers) -> NDArray[np.bool_]:
    """For each pair of boxes whether they share area."""
    left, top, right, bottom = np.ascontiguousarray(ones.T)[:, :, None]
    lefts, tops, rights, bottoms = np.ascontiguousarray(others.T)[:, None, :]
    result: NDArray[np.bool_] = left < rights
    result &= lefts < right
    result &= top < bottoms
    result &= tops < bottom
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
