"""Find the size at which every mark of a figure has a place: start small, enlarge the geometry, keep the letters."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from build_tools.figure.choosing import Choice, Mark
from build_tools.figure.geometry import Box, around, grown, signed_area
from build_tools.figure.ground import DOT_RADIUS, Ground, bodies_clear, lay_ground
from build_tools.figure.labels import Outside, bounds
from build_tools.figure.layout import Layout
from build_tools.figure.marks import outside_sides, place_marks
from build_tools.figure.placing import is_orthogonal, mirrored, place_circuit, smallest_scale, stretched
from build_tools.figure.rings import loop_outline
from build_tools.laws.topology import Topology

GROWTH = 1.06
"""Each step of the scale."""
WIDEST = 410
"""A figure no wider than this keeps text of 12 px in a column of 328 px [px]."""
EDGE = 5.0
"""From the outermost mark to the frame [px]."""
_MOST_STEPS = 24
_EASE = (2, 4)
_EASE_COST = 0.3
_WIDTH_COST = 0.4
_NARROWEST = 0.6


@dataclass(frozen=True)
class Attempt:
    """A layout with its marks placed."""

    ground: Ground
    marks: tuple[Mark, ...]
    choice: Choice

    @property
    def clear(self) -> bool:
        """Whether nothing touches anything."""
        return self.choice.clashes == 0

    @cached_property
    def extent(self) -> Box:
        """The box around everything that is drawn."""
        marks = [box for place in self.choice.places for box in place.boxes]
        bodies = [box for seat in self.ground.seats.values() for box in seat.boxes]
        return around([*marks, *bodies, grown(bounds(self.ground), DOT_RADIUS)])

    @property
    def width(self) -> float:
        """Width of the figure in its frame [px]."""
        return self.extent[2] - self.extent[0] + 2 * EDGE

    @property
    def price(self) -> tuple[int, float]:
        """What speaks against it: marks that touch, then marks in poor places and width beyond a phone's."""
        return (self.choice.clashes, round(self.choice.cost + _WIDTH_COST * max(0.0, self.width - WIDEST), 3))


class Growth:
    """Attempts at one drawing in growing sizes. Each size is tried once."""

    def __init__(self, topology: Topology, layout_at: Callable[[int], Layout]) -> None:
        self.topology, self.layout_at = topology, layout_at
        self.outside: Outside = {}
        self.tried: dict[int, Attempt | None] = {}

    def attempt(self, step: int) -> Attempt | None:
        """Place the marks at one size; None where the bodies themselves have no room."""
        if step not in self.tried:
            ground = lay_ground(self.topology.circuit, self.layout_at(step))
            self.outside = self.outside or outside_sides(ground)
            placed = place_marks(self.topology, ground, self.outside) if bodies_clear(ground) else None
            self.tried[step] = Attempt(ground, *placed) if placed else None
        return self.tried[step]

    def clear(self, step: int) -> bool:
        """Whether every mark has a place at one size."""
        attempt = self.attempt(step)
        return attempt is not None and attempt.clear

    def smallest(self) -> int:
        """The smallest size that is clear: by doubling, then by halving."""
        low, high = -1, 0
        while not self.clear(high) and high < _MOST_STEPS:
            low, high = high, min(_MOST_STEPS, 2 * high or 1)
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if self.clear(middle) else (middle, high)
        return high

    def best(self) -> Attempt:
        """The best of the smallest clear size and slightly larger ones; the least bad one where none is clear."""
        first = self.smallest()
        if not self.clear(first):
            return self._least_bad(first)
        eased = [(step, attempt) for step in (0, *_EASE) if (attempt := self.attempt(first + step))]
        return min(eased, key=lambda pair: (pair[1].price[0], pair[1].price[1] + _EASE_COST * pair[0]))[1]

    def _least_bad(self, step: int) -> Attempt:
        """The largest drawing, although something in it still touches."""
        ground = lay_ground(self.topology.circuit, self.layout_at(step))
        placed = place_marks(self.topology, ground, self.outside, hasty=False)
        return Attempt(ground, *(placed or ((), Choice((), 1, 0.0))))


def grow_placed(topology: Topology) -> Attempt:
    """Draw a circuit as its author placed it.

    Where all lines are level or upright, rows may move apart further than columns; where it is still too wide for a
    phone, columns are set closer from the start.
    """
    circuit = topology.circuit
    scale = smallest_scale(circuit)
    layout = place_circuit(circuit, max(scale))
    even = Growth(topology, lambda step: stretched(layout, GROWTH**step, GROWTH**step)).best()
    if not is_orthogonal(layout):
        return even
    tall = Growth(topology, lambda step: stretched(layout, GROWTH ** (step // 3), GROWTH**step)).best()
    if min(even.width, tall.width) <= WIDEST:
        return min(even, tall, key=lambda attempt: attempt.price)
    narrow = max(scale[0] / max(scale), _NARROWEST)
    close = Growth(topology, lambda step: stretched(layout, narrow * GROWTH**step, GROWTH ** (step // 2))).best()
    return min(even, tall, close, key=lambda attempt: attempt.price)


def grow_laid_out(topology: Topology, layouts: tuple[Layout, ...]) -> Attempt:
    """Draw the best of several layouts; rows move apart before columns do.

    Where more loops are walked anticlockwise than clockwise, it is drawn the other way round.
    """

    def grown_from(layout: Layout) -> Attempt:
        return Growth(topology, lambda step: stretched(layout, GROWTH ** (step // 2), GROWTH**step)).best()

    best = min(map(grown_from, layouts), key=lambda attempt: attempt.price)
    turns = [signed_area(loop_outline(best.ground, loop)) > 0 for loop in topology.loops]
    if 2 * sum(turns) >= len(turns):
        return best
    other = grown_from(mirrored(best.ground.layout))
    return other if other.clear or not best.clear else best
