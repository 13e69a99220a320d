"""Plane geometry of a figure: directions, crossings, outlines and the boxes that things take up."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import ceil, dist, hypot

from build_tools.figure.layout import Spot

Box = tuple[float, float, float, float]
"""Left, top, right and bottom edge [px]."""
Leg = tuple[Spot, Spot]
"""A straight piece with both its ends."""

NEAR = 1e-6
"""Lengths below this are nothing [px]."""
_CHAIN_STEP = 5.0


def legs_of(route: Sequence[Spot]) -> tuple[Leg, ...]:
    """The straight pieces of a way."""
    return tuple(pairwise(route))


def without_straight_corners(way: Sequence[Spot]) -> tuple[Spot, ...]:
    """A way without the corners at which it goes straight on."""
    kept = [spot for number, spot in enumerate(way) if not 0 < number < len(way) - 1 or not _goes_on(*way[number - 1 : number + 2])]
    return tuple(kept)


def direction(leg: Leg) -> Spot:
    """Unit vector along a leg; nothing for a leg without length."""
    (x1, y1), (x2, y2) = leg
    length = hypot(x2 - x1, y2 - y1)
    return ((x2 - x1) / length, (y2 - y1) / length) if length > NEAR else (0.0, 0.0)


def left_of(along: Spot) -> Spot:
    """The direction to the left of one who goes along, as seen (y runs downwards)."""
    return (along[1], -along[0])


def shifted(spot: Spot, along: Spot, length: float) -> Spot:
    """A spot moved along a direction."""
    return (spot[0] + along[0] * length, spot[1] + along[1] * length)


def distance_along(spot: Spot, leg: Leg) -> float:
    """How far along a leg a spot stands, from the leg's beginning [px]."""
    along = direction(leg)
    return (spot[0] - leg[0][0]) * along[0] + (spot[1] - leg[0][1]) * along[1]


def distance_from(spot: Spot, leg: Leg) -> float:
    """The distance of a spot from a leg, ends included [px]."""
    along = min(max(distance_along(spot, leg), 0.0), dist(*leg))
    return dist(spot, shifted(leg[0], direction(leg), along))


def crossing(one: Leg, other: Leg) -> Spot | None:
    """Where two legs cross in mid-span; None where they only touch or run side by side."""
    (ax, ay), (bx, by) = one
    (cx, cy), (dx, dy) = other
    if max(ax, bx) < min(cx, dx) or max(cx, dx) < min(ax, bx) or max(ay, by) < min(cy, dy) or max(cy, dy) < min(ay, by):
        return None
    turn = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    if abs(turn) < NEAR:
        return None
    on_one = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / turn
    on_other = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / turn
    slack_one, slack_other = 0.5 / dist(*one), 0.5 / dist(*other)
    if not (slack_one < on_one < 1 - slack_one and slack_other < on_other < 1 - slack_other):
        return None
    return (ax + on_one * (bx - ax), ay + on_one * (by - ay))


def leg_boxes(leg: Leg, half: float, reach: float = 0.0) -> list[Box]:
    """Boxes that cover a leg of the given half width; a diagonal one is covered by a chain of squares.

    `reach` lengthens the leg at both ends.
    """
    along = direction(leg)
    begin, end = shifted(leg[0], along, -reach), shifted(leg[1], along, reach)
    if min(abs(along[0]), abs(along[1])) < 0.02:
        across = (abs(along[1]) * half, abs(along[0]) * half)
        xs, ys = sorted((begin[0], end[0])), sorted((begin[1], end[1]))
        return [(xs[0] - across[0], ys[0] - across[1], xs[1] + across[0], ys[1] + across[1])]
    count = max(1, ceil(dist(begin, end) / max(_CHAIN_STEP, half)))
    step = dist(begin, end) / count
    middles = [shifted(begin, along, step * number) for number in range(count + 1)]
    size = half if half > _CHAIN_STEP else half + 0.8
    return [(x - size, y - size, x + size, y + size) for x, y in middles]


def around(boxes: Sequence[Box]) -> Box:
    """The smallest box around all of them."""
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return (min(lefts), min(tops), max(rights), max(bottoms))


def grown(box: Box, margin: float) -> Box:
    """A box with a margin around it."""
    return (box[0] - margin, box[1] - margin, box[2] + margin, box[3] + margin)


def overlap(one: Box, other: Box) -> bool:
    """Whether two boxes share any area."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _goes_on(before: Spot, here: Spot, after: Spot) -> bool:
    one, other = direction((before, here)), direction((here, after))
    return abs(one[0] * other[1] - one[1] * other[0]) < NEAR


def signed_area(outline: Sequence[Spot]) -> float:
    """Area inside a closed outline [px²]; positive where it is walked clockwise as seen."""
    pairs = zip(outline, [*outline[1:], *outline[:1]], strict=True)
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs) / 2


def inside(spot: Spot, outline: Sequence[Spot]) -> bool:
    """Whether a spot is inside a closed outline."""
    x, y = spot
    odd = False
    for (x1, y1), (x2, y2) in zip(outline, [*outline[1:], *outline[:1]], strict=True):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) / (y2 - y1) * (x2 - x1):
            odd = not odd
    return odd
