"""Where labels, polarity marks and letters could stand."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, cos, dist, hypot, pi, sin

from build_tools.circuit.circuit import Kind, Part
from build_tools.figure.captions import Block, label_blocks, name_block
from build_tools.figure.choosing import Candidate, Mark
from build_tools.figure.geometry import Box, left_of, shifted
from build_tools.figure.ground import Ground, square
from build_tools.figure.layout import Spot
from build_tools.figure.seating import Seat

Outside = dict[tuple[str, bool], bool]
"""For each part and side (True: the left of its body's direction) whether nothing of the circuit lies there."""
SIGN_HALF = 4.0
HEAD_WIDTH = 11.0
"""Width of an arrowhead; a wire's name stands clear of the one on its wire [px]."""
"""Half the length of a polarity stroke [px]."""
_GAP = 4.0
_SHIFTS = (0.0, 9.0, -9.0, 18.0, -18.0, 27.0, -27.0)
_SIGN_OFFSETS = (10.0, 12.5)
_LETTER_GAPS = (4.0, 7.0, 11.0)


def label_mark(ground: Ground, part: Part, outside: Outside) -> Mark:
    """The places for a part's name and value: on both sides, slid along, in one line or several."""
    seat = ground.seats[part.name]
    blocks = label_blocks(part)
    slides = tuple(_slides(ground, seat))
    far = 0.0 if part.kind is Kind.WIRE else 0.003
    candidates = []
    for left in (True, False):
        side = left_of(seat.facing) if left else opposite(left_of(seat.facing))
        liking = _side_cost(side, seat, outside, left)
        for number, block in enumerate(blocks):
            # Above and below a level part one line reads best, beside an upright one a narrow block.
            shape = 2.0 * (number if abs(side[1]) > 0.7 else len(blocks) - 1 - number)
            gap = _GAP + (HEAD_WIDTH / 2 if part.kind is Kind.WIRE else seat.reach(side))
            for slide in slides:
                spot = shifted(seat.centre, seat.along, slide)
                candidates.append(beside(spot, side, gap, block, liking + shape + 0.05 * abs(slide) + far * slide**2))
    return Mark("label", part.name, tuple(candidates))


def beside(spot: Spot, side: Spot, gap: float, block: Block, cost: float) -> Candidate:
    """A block of text beside a straight line, clear of the line however it slants."""
    away = gap + abs(side[0]) * block.width / 2 + abs(side[1]) * block.height / 2
    anchor = "start" if side[0] > 0.3 else "end" if side[0] < -0.3 else "middle"
    centre = shifted(spot, side, away)
    return Candidate(cost, (block.box_at(centre),), block, centre, anchor)


def polarity_mark(ground: Ground, part: Part) -> Mark:
    """The places for a battery's plus and minus: both on one side, each by its own plate."""
    seat = ground.seats[part.name]
    slant = abs(seat.along[0]) + abs(seat.along[1])
    reach = seat.size.half + 2.6 + SIGN_HALF * slant
    candidates = []
    for number, side in enumerate((left_of(seat.along), opposite(left_of(seat.along)))):
        for away in _SIGN_OFFSETS:
            for more in (0.0, 3.0, 6.0):
                plates = (shifted(seat.centre, seat.along, sense * (reach + more)) for sense in (1, -1))
                plus, minus = (shifted(plate, side, away * slant) for plate in plates)
                cost = 0.1 * (away - _SIGN_OFFSETS[0] + more) + 0.01 * number
                boxes = (square(plus, SIGN_HALF + 1.5), square(minus, SIGN_HALF + 1.5))
                candidates.append(Candidate(cost, boxes, spots=(plus, minus)))
    return Mark("polarity", part.name, tuple(candidates))


def letter_mark(ground: Ground, point: str, spot: Spot, middle: Spot) -> Mark:
    """The places for a point's letter beside one of its dots: eight compass places at three distances, the emptiest side first."""
    block = name_block(point)
    empty = _empty_side(ground, spot, middle)
    candidates = []
    for gap in _LETTER_GAPS:
        for eighth in range(8):
            angle = eighth * pi / 4
            side = (cos(angle), sin(angle))
            centre = (
                spot[0] + _sign(side[0]) * (block.width / 2 + gap),
                spot[1] + _sign(side[1]) * (block.height / 2 + gap - 2),
            )
            turned = 1 - (side[0] * empty[0] + side[1] * empty[1])
            candidates.append(
                Candidate(0.15 * (gap - _LETTER_GAPS[0]) + 0.8 * turned, (block.box_at(centre),), block, centre, spots=(spot,))
            )
    return Mark("letter", point, tuple(candidates))


def bounds(ground: Ground) -> Box:
    """The box around all ways."""
    xs = [x for leg in ground.legs for x, _ in leg]
    ys = [y for leg in ground.legs for _, y in leg]
    return (min(xs), min(ys), max(xs), max(ys))


def _slides(ground: Ground, seat: Seat) -> Iterator[float]:
    yield from _SHIFTS
    if seat.part.kind is Kind.WIRE:
        route = ground.layout.routes[seat.part.name]
        room = dist(route[seat.leg], route[seat.leg + 1]) / 2
        yield from (sense * slide for slide in range(36, int(room), 9) for sense in (1.0, -1.0))


def _side_cost(side: Spot, seat: Seat, outside: Outside, left: bool) -> float:
    """Outside the circuit first; else above a level part and to the right of an upright one.

    A bare wire's name stands inside: outside is where the name of its current stands.
    """
    bare = seat.part.kind is Kind.WIRE
    cost = 0.0 if outside[seat.part.name, left] is not bare else 0.5 if bare else 1.5
    if side[1] > 0.7 or side[0] < -0.7:
        cost += 0.3
    return cost


def _empty_side(ground: Ground, spot: Spot, middle: Spot) -> Spot:
    """The direction in which a spot has most room: away from its lines, else away from the middle of the figure."""
    ways = ground.ways_at(spot)
    x, y = -sum(x for x, _ in ways), -sum(y for _, y in ways)
    if hypot(x, y) < 0.1:
        x, y = spot[0] - middle[0], spot[1] - middle[1]
        if ways:
            across = left_of(ways[0])
            sense = 1 if across[0] * x + across[1] * y > 0 else -1
            x, y = across[0] * sense + 0.05, across[1] * sense
    angle = atan2(y, x)
    return (cos(angle), sin(angle))


def opposite(side: Spot) -> Spot:
    """The direction the other way."""
    return (-side[0], -side[1])


def _sign(value: float) -> int:
    return 0 if abs(value) < 0.01 else 1 if value > 0 else -1
