"""From a frame with its parts on their pieces to a layout in pixels."""

from __future__ import annotations

from collections.abc import Container, Sequence
from itertools import accumulate, pairwise
from math import ceil, dist

from build_tools.figure.layout import Layout, Spot
from build_tools.figure.rails import sizes
from build_tools.figure.rails.chains import Link
from build_tools.figure.rails.sharing import Piece, Share, Shared, crossings
from build_tools.figure.rails.spacing import spread

shorter = 0.7
"""No other leg of a part's route is longer than this share of the one with its body."""


between_pieces = 15 * sizes.grid


class Pencil:
    """Draws one shared frame."""

    def __init__(self, shared: Shared) -> None:
        self.shared = shared
        self.x = spread(shared.frame.columns, shared.level_gaps)
        self.y = spread(shared.frame.rows, shared.upright_gaps)
        self.places: dict[str, Spot] = {name: self.spot(corner) for name, corner in shared.frame.dots.items()}
        self.crossed = {self.spot(corner) for corner in crossings(shared.frame)}
        self.routes: dict[str, tuple[Spot, ...]] = {}
        self.lines: list[tuple[Spot, ...]] = [(self.spot(left), self.spot(right)) for left, right in shared.frame.bars]

    def spot(self, corner: tuple[int, int]) -> Spot:
        """Where a corner stands."""
        return self.x[corner[0]], self.y[corner[1]]

    def draw(self) -> Layout:
        """The layout of the whole frame."""
        for share in self.shared.shares:
            self._chain(share)
        return Layout(places=self.places, routes=self.routes, lines=tuple(self.lines))

    def _chain(self, share: Share) -> None:
        """Lay the links of one chain one after the other along its way."""
        legs = [self._legs(piece, share.links_on(number)) for number, piece in enumerate(share.pieces)]
        way: list[Spot] = [self.spot(share.pieces[0].start)]
        next_on = [0] * len(legs)
        for index, (link, piece) in enumerate(zip(share.chain, share.on, strict=True)):
            before = 0 if index == 0 else share.on[index - 1]
            way += [self.spot(share.pieces[number].start) for number in range(before + 1, piece + 1)]
            start, end = legs[piece][next_on[piece]]
            next_on[piece] += 1
            way += [start] if start != way[-1] else []
            way.append(end)
            if index + 1 == len(share.chain):
                way += [self.spot(share.pieces[number].end) for number in range(piece, len(legs))]
            elif share.on[index + 1] != piece:
                way.append(self.spot(share.pieces[piece].end))
            self._link(link, _distinct(way), (start, end))
            self.places.setdefault(link.end, way[-1])
            way = [way[-1]]
        self.places.setdefault(share.chain[0].start, self.spot(share.pieces[0].start))

    def _legs(self, piece: Piece, links: tuple[Link, ...]) -> list[tuple[Spot, Spot]]:
        """The stretch of each link on one piece: as long as it needs, and its fair part of what is left."""
        start, end = self._span(piece)
        ends = list(accumulate(sizes.lengths(links, level=piece.is_level)))
        length = dist(start, end)
        cuts = [_cut(start, end, walked + _rounded((length - ends[-1]) * walked / ends[-1])) for walked in ends[:-1]]
        return list(pairwise([start, *cuts, end]))

    def _span(self, piece: Piece) -> tuple[Spot, Spot]:
        """The stretch of a piece that its parts may take up, in the sense of the way, clear of any crossing."""
        axis = 0 if piece.is_level else 1
        ends = piece.start[axis], piece.end[axis]
        at = (self.x, self.y)[axis]
        low, high = (at[stop] + sign * sizes.grid * (stop not in ends) for stop, sign in zip(piece.span, (1, -1), strict=True))
        if ends[0] > ends[1]:
            low, high = high, low
        across = self.spot(piece.start)[1 - axis]
        return ((low, across), (high, across)) if axis == 0 else ((across, low), (across, high))

    def _link(self, link: Link, way: list[Spot], leg: tuple[Spot, Spot]) -> None:
        if link.part is None:
            self.lines.append(tuple(way))
            return
        route = cut_short(way, leg, self.crossed)
        self.routes[link.part.name] = route if link.forward else route[::-1]


def _distinct(way: list[Spot]) -> list[Spot]:
    return [spot for number, spot in enumerate(way) if number == 0 or spot != way[number - 1]]


def _cut(start: Spot, end: Spot, along: float) -> Spot:
    """The spot so far along a level or upright stretch."""
    x, y = (a + along * ((b > a) - (b < a)) for a, b in zip(start, end, strict=True))
    return x, y


def _rounded(length: float) -> float:
    return sizes.grid * round(length / sizes.grid)


def cut_short(way: Sequence[Spot], leg: tuple[Spot, Spot], crossed: Container[Spot] = ()) -> tuple[Spot, ...]:
    """Cut every other leg short, so that the one for the body is the longest, also where the figure is stretched.

    No cut falls on a spot where another line crosses.
    """
    route = [way[0]]
    most = shorter * dist(*leg) - sizes.grid
    for start, end in pairwise(way):
        length = dist(start, end)
        pieces = 1 if (start, end) == leg or length <= shorter * dist(*leg) else ceil(length / most)
        for number in range(1, pieces):
            cut = _cut(start, end, _rounded(length * number / pieces))
            route.append(cut if cut not in crossed else _cut(cut, start, sizes.grid))
        route.append(end)
    return tuple(route)


def side_by_side(layouts: Sequence[Layout]) -> Layout:
    """Pieces that share no point, next to each other."""
    places: dict[str, Spot] = {}
    routes: dict[str, tuple[Spot, ...]] = {}
    lines: list[tuple[Spot, ...]] = []
    edge = 0.0
    for layout in layouts:
        places |= {point: (x + edge, y) for point, (x, y) in layout.places.items()}
        routes |= {name: tuple((x + edge, y) for x, y in route) for name, route in layout.routes.items()}
        lines += [tuple((x + edge, y) for x, y in line) for line in layout.lines]
        edge = max(x for way in (*routes.values(), *lines) for x, _ in way) + between_pieces
    return Layout(places=places, routes=routes, lines=tuple(lines))
