"""From a frame with its parts on their pieces to a layout in pixels."""

from __future__ import annotations

from itertools import pairwise
from math import ceil, dist

from build_tools.figure.layout import Layout, Spot
from build_tools.figure.rails import sizes
from build_tools.figure.rails.chains import Link
from build_tools.figure.rails.sharing import Piece, Share, Shared, Sharing, crossing_stops
from build_tools.figure.rails.spacing import spread


class Pencil:
    """Draws one shared frame."""

    def __init__(self, shared: Shared, sharing: Sharing) -> None:
        self.shared = shared
        shares = list(shared.shares)
        self.x = spread(shared.frame.columns, sharing.level_gaps(shares))
        self.y = spread(shared.frame.rows, sharing.upright_gaps(shares))
        self.places: dict[str, Spot] = {name: self.spot(corner) for name, corner in shared.frame.dots.items()}
        self.routes: dict[str, tuple[Spot, ...]] = {}
        self.lines: list[tuple[Spot, ...]] = [(self.spot(left), self.spot(right)) for left, right in shared.frame.bars]

    def spot(self, corner: tuple[int, int]) -> Spot:
        """Where a corner stands."""
        return self.x[corner[0]], self.y[corner[1]]

    def draw(self) -> Layout:
        """The layout of the whole frame."""
        for share in self.shared.shares:
            self._chain(share)
        return Layout(places=self.places, routes=self.routes, lines=tuple(self.lines), hops=self._hops())

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
            leg_at = len(way) if start != way[-1] else len(way) - 1
            way += [start] if start != way[-1] else []
            way.append(end)
            if index + 1 == len(share.chain):
                way += [self.spot(share.pieces[number].end) for number in range(piece, len(legs))]
            elif share.on[index + 1] != piece:
                way.append(self.spot(share.pieces[piece].end))
            self._link(link, _distinct(way), (start, end), leg_at)
            self.places.setdefault(link.end, way[-1])
            way = [way[-1]]
        self.places.setdefault(share.chain[0].start, self.spot(share.pieces[0].start))

    def _legs(self, piece: Piece, links: tuple[Link, ...]) -> list[tuple[Spot, Spot]]:
        """The stretch of each link on one piece: as long as it needs, and its fair part of what is left."""
        start, end = self._span(piece)
        need = [sizes.length_level(link) if piece.is_level else sizes.length_upright(link) for link in links]
        cuts, total, walked = [start], sum(need), 0.0
        for one in need[:-1]:
            walked += one
            cuts.append(_on_grid(start, end, walked / total))
        return list(pairwise([*cuts, end]))

    def _span(self, piece: Piece) -> tuple[Spot, Spot]:
        """The stretch of a piece that its parts may take up, in the sense of the way."""
        level = piece.is_level
        spots = [self.spot((stop, piece.start[1]) if level else (piece.start[0], stop)) for stop in piece.span]
        back = piece.start[0 if level else 1] > piece.end[0 if level else 1]
        return (spots[1], spots[0]) if back else (spots[0], spots[1])

    def _hops(self) -> tuple[Spot, ...]:
        found = {
            self.spot((piece.start[0], stop))
            for share in self.shared.shares
            for piece in share.pieces
            if not piece.is_level
            for stop in crossing_stops(self.shared.frame, piece.start, piece.end)
        }
        return tuple(sorted(found))

    def _link(self, link: Link, way: list[Spot], leg: tuple[Spot, Spot], leg_at: int) -> None:
        if link.part is None:
            self.lines.append(tuple(way))
            return
        route = _shortened(way, leg)
        self.routes[link.part.name] = tuple(route if link.forward else reversed(route))


def _distinct(way: list[Spot]) -> list[Spot]:
    return [spot for number, spot in enumerate(way) if number == 0 or spot != way[number - 1]]


def _on_grid(start: Spot, end: Spot, share: float) -> Spot:
    x, y = (a + round((b - a) * share / sizes.grid) * sizes.grid for a, b in zip(start, end, strict=True))
    return x, y


def _shortened(way: list[Spot], leg: tuple[Spot, Spot]) -> list[Spot]:
    """Cut every other leg into pieces shorter than the one for the body, which thereby is the longest."""
    route = [way[0]]
    most = dist(*leg) - sizes.grid / 2
    for start, end in pairwise(way):
        pieces = 1 if (start, end) == leg else ceil(dist(start, end) / most)
        route += [_between(start, end, number / pieces) for number in range(1, pieces + 1)]
    return route


def _between(start: Spot, end: Spot, share: float) -> Spot:
    x, y = (a + (b - a) * share for a, b in zip(start, end, strict=True))
    return round(x, 2), round(y, 2)
