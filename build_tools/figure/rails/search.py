"""The search for rows and columns: every assignment of nodes to rows, and for each the best order of columns.

The order is found by dynamic programming over the set of edges already placed, from left to right. A node is open
from its first edge to its last; an open bar occupies its row. The search is limited by counts, never by time, so that
every machine finds the same.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import reduce
from heapq import nsmallest
from itertools import combinations, islice, pairwise, product
from operator import or_

from build_tools.figure.rails.net import Net, Rails

crossing, per_row, per_column, per_open_bar = 100.0, 4.0, 2.0, 0.25
battery_first, battery_last, battery_level, plus_down, battery_inside = -3.0, -1.0, 2.0, 0.8, 2.0
plus_down_first, line_upright = 0.2, 3.0
bare_column, corner_inside, outline_gap, crowded_inside = 0.6, 3.0, 1.0, 0.5
kept_per_state, kept = 2, 24
most_rows = 4
most_crossing = 60
most_stacked, many_edges = 3, 14


@dataclass(frozen=True, slots=True)
class Move:
    """Edges that may be placed together as the next step, with what must hold before."""

    mask: int
    edges: tuple[int, ...]
    bars: tuple[tuple[int, int], ...]
    """(node, row) that the step touches."""
    spans: tuple[tuple[int, int], ...]
    """Rows strictly between the ends of each upright edge: (first, one past the last)."""
    needs: int
    """Edges that must have been placed: all others of the node on the left of a level edge."""
    before: int
    """Edges that must not have been placed: all others of the node on the right of a level edge, and twins."""
    cost: float
    batteries: int
    falls: int = 0
    """Batteries with plus down, less those with plus up."""
    crowd: int = 0
    """Parts beyond the first on each edge."""


Found = tuple[float, int, int, Move | None]
"""Cost so far, state before, which of the ways to that state, and the step taken."""


def search_rails(net: Net, *, planar: bool) -> list[Rails]:
    """Find up to `kept` ways to draw a net in rows and columns, the cheapest first.

    A planar net gets no crossing. For one that is not, only a fixed number of assignments to rows is tried.
    """
    twins = find_twins(net)
    if not planar:
        return _search_crossing(net, twins)
    best: list[Rails] = []
    for rows in range(2, min(most_rows, max(2, net.size)) + 1):
        if best and (rows == most_rows or per_row * rows > best[-1].cost + battery_first):
            break
        for row in _assignments(net, rows):
            limit = best[-1].cost if len(best) == kept else crossing
            best = _cheapest([*best, *Columns(net, row, twins, limit).find()])
    return best


def _search_crossing(net: Net, twins: tuple[int, ...]) -> list[Rails]:
    """The ways with the fewest crossings, among a fixed number of assignments to rows."""
    best: list[Rails] = []
    for rows in (3, min(most_rows, max(3, net.size))):
        for row in islice(_assignments(net, rows), most_crossing):
            limit = best[0].cost + 1 if best else float("inf")
            best = _cheapest([*best, *Columns(net, row, twins, limit).find()])
    return best


def _cheapest(found: list[Rails]) -> list[Rails]:
    return nsmallest(kept, found, key=lambda rails: rails.cost)


def _assignments(net: Net, rows: int) -> Iterator[tuple[int, ...]]:
    """Every way to put the nodes in exactly so many rows that leaves level edges possible."""
    for row in product(range(rows), repeat=net.size):
        if len(set(row)) == rows and levels_possible(net, row):
            yield row


def levels_possible(net: Net, row: tuple[int, ...]) -> bool:
    """Whether the edges within each row form paths."""
    level = [(edge.tail, edge.head) for edge in net.edges if row[edge.tail] == row[edge.head]]
    group = list(range(net.size))
    degree = [0] * net.size
    for tail, head in level:
        if group[tail] == group[head]:
            return False
        group = [group[tail] if name == group[head] else name for name in group]
        degree[tail] += 1
        degree[head] += 1
    return max(degree) <= 2


def find_twins(net: Net) -> tuple[int, ...]:
    """For each edge those before it that look just the same and have the same ends: they are placed in order."""
    looks = [
        (min(edge.tail, edge.head), max(edge.tail, edge.head), edge.kinds if edge.tail < edge.head else edge.kinds[::-1],
         edge.rises if edge.tail < edge.head else -edge.rises)
        for edge in net.edges
    ]  # fmt: skip
    return tuple(sum(1 << other for other in range(number) if looks[other] == look) for number, look in enumerate(looks))


class Columns:
    """The best orders of columns for one assignment of nodes to rows."""

    def __init__(self, net: Net, row: tuple[int, ...], twins: tuple[int, ...], limit: float, widest: int = 0) -> None:
        self.net, self.row, self.twins, self.limit = net, row, twins, limit
        self.rows = max(row) + 1
        self.widest = widest
        self.full = (1 << len(net.edges)) - 1
        self.of = tuple(sum(1 << edge for edge in edges) for edges in net.at)
        self.base = per_row * self.rows
        self.upright = sum(1 << e for e, edge in enumerate(net.edges) if row[edge.tail] != row[edge.head])
        self.moves = (*self._upright_moves(), *self._level_moves())
        self.work = 5 * len(self.moves)

    def find(self) -> list[Rails]:
        """The cheapest ways to place all edges, each under the limit."""
        layers: list[dict[int, list[Found]]] = [{} for _ in range(len(self.net.edges) + 1)]
        layers[0][0] = [(self.base, 0, 0, None)]
        for layer in layers[:-1]:
            for mask in self._followed(layer):
                self._extend(mask, layer[mask], layers)
        return [self._rails(layers, way) for way in layers[-1].get(self.full, [])]

    def price(self, steps: tuple[tuple[int, ...], ...]) -> float:
        """What given steps cost."""
        cost, mask = self.base, 0
        levels = {(move.edges, move.bars[0][0]): move for move in self._level_moves()}
        for edges in steps:
            if self.upright >> edges[0] & 1:
                move = self._move(edges)
            else:
                edge = self.net.edges[edges[0]]
                left = edge.tail if mask & self.of[edge.tail] or not mask & self.of[edge.head] else edge.head
                move = levels[edges, left]
            cost += self._cost(mask, self._open_bars(mask), move)
            mask |= move.mask
        return cost

    def _followed(self, layer: dict[int, list[Found]]) -> list[int]:
        """The sets of edges to go on from: all, or the cheapest."""
        if self.widest and len(layer) > self.widest:
            return nsmallest(self.widest, layer, key=lambda mask: (layer[mask][0][0], mask))
        return list(layer)

    def _extend(self, mask: int, ways: list[Found], layers: list[dict[int, list[Found]]]) -> None:
        open_bar = self._open_bars(mask)
        self.work += len(self.moves)
        for move in self.moves:
            if mask & (move.mask | move.before) or move.needs & ~mask:
                continue
            if any(open_bar[row] not in (-1, node) for node, row in move.bars):
                continue
            cost = self._cost(mask, open_bar, move)
            if ways[0][0] + cost + self._least(mask | move.mask) < self.limit:
                target = layers[(mask | move.mask).bit_count()].setdefault(mask | move.mask, [])
                target += [(way[0] + cost, mask, number, move) for number, way in enumerate(ways)]
                target.sort(key=lambda way: way[0])
                del target[kept_per_state:]

    def _least(self, mask: int) -> float:
        """What the edges not yet placed cost at least."""
        left = (self.upright & ~mask).bit_count()
        return per_column * -(-left // (self.rows - 1)) + battery_last * (left > 0)

    def _open_bars(self, mask: int) -> list[int]:
        """For each row the node whose bar is open there, or -1."""
        open_bar = [-1] * self.rows
        for node, edges in enumerate(self.of):
            if mask & edges and edges & ~mask:
                open_bar[self.row[node]] = node
        return open_bar

    def _cost(self, mask: int, open_bar: list[int], move: Move) -> float:
        after = mask | move.mask
        cost = move.cost
        for first, last in move.spans:
            cost += crossing * sum(open_bar[row] >= 0 for row in range(first, last))
        if move.batteries and move.spans:
            cost += battery_first * (mask == 0) + battery_last * (after == self.full) + plus_down_first * move.falls * (mask == 0)
        if mask and after != self.full:
            cost += crowded_inside * move.crowd
        for node, row in move.bars:
            if 0 < row < self.rows - 1 and move.spans and self._is_corner(node, mask, move):
                cost += corner_inside
        if after != self.full:
            later = self._open_bars(after)
            cost += per_open_bar * sum(node >= 0 for node in later)
            cost += outline_gap * ((later[0] < 0) + (later[-1] < 0))
        return cost

    def _is_corner(self, node: int, mask: int, move: Move) -> bool:
        """Whether the step is one outer end of a bar and carries one edge only: the wire just turns there."""
        edges = self.of[node]
        if (edges & move.mask).bit_count() != 1 or edges.bit_count() < 3:
            return False
        rest = edges & ~move.mask
        return not mask & edges or (not rest & ~mask and (rest & mask).bit_count() > 1)

    def _upright_moves(self) -> Iterator[Move]:
        upright = [e for e, edge in enumerate(self.net.edges) if self.row[edge.tail] != self.row[edge.head]]
        most = most_stacked if len(upright) <= many_edges else 2
        for size in range(1, min(self.rows, most + 1)):
            for edges in combinations(upright, size):
                if self._stand_clear(edges):
                    yield self._move(edges)

    def _stand_clear(self, edges: tuple[int, ...]) -> bool:
        """Whether edges can stand in one column: they meet at most end to end, at a node they share."""
        spans = sorted(self._span(edge) for edge in edges)
        return all(bottom < top or (bottom == top and lower == upper) for (_, bottom, _, lower), (top, _, upper, _) in pairwise(spans))

    def _span(self, number: int) -> tuple[int, int, int, int]:
        """Upper and lower row of an edge, then the nodes there."""
        edge = self.net.edges[number]
        (top, upper), (bottom, lower) = sorted([(self.row[edge.tail], edge.tail), (self.row[edge.head], edge.head)])
        return top, bottom, upper, lower

    def _move(self, edges: tuple[int, ...]) -> Move:
        spans = [self._span(edge) for edge in edges]
        mask = sum(1 << edge for edge in edges)
        twins = reduce(or_, (self.twins[edge] for edge in edges))
        return Move(
            mask=mask,
            edges=edges,
            bars=tuple(dict.fromkeys(bar for top, bottom, u, v in spans for bar in ((u, top), (v, bottom)))),
            spans=tuple((top + 1, bottom) for top, bottom, _, _ in spans),
            needs=twins & ~mask,
            before=0,
            cost=per_column + sum(self._upright_cost(edge) for edge in edges),
            batteries=sum(self.net.edges[edge].batteries for edge in edges),
            falls=sum(self._falls(edge) for edge in edges),
            crowd=sum(max(0, len(self.net.edges[edge].kinds) - 1) for edge in edges),
        )

    def _falls(self, number: int) -> int:
        edge = self.net.edges[number]
        return -edge.rises if self.row[edge.head] < self.row[edge.tail] else edge.rises

    def _upright_cost(self, number: int) -> float:
        edge = self.net.edges[number]
        top, bottom, _, _ = self._span(number)
        cost = bare_column * edge.bare + line_upright * (set(edge.kinds) == {"line"})
        if edge.batteries:
            cost += plus_down * max(0, self._falls(number))
            cost += battery_inside * ((top > 0) + (bottom < self.rows - 1))
        return cost

    def _level_moves(self) -> Iterator[Move]:
        for number, edge in enumerate(self.net.edges):
            if self.row[edge.tail] == self.row[edge.head]:
                for left, right in ((edge.tail, edge.head), (edge.head, edge.tail)):
                    bit = 1 << number
                    yield Move(
                        mask=bit,
                        edges=(number,),
                        bars=((left, self.row[left]),),
                        spans=(),
                        needs=self.of[left] & ~bit,
                        before=self.of[right] & ~bit,
                        cost=battery_level * edge.batteries,
                        batteries=edge.batteries,
                    )

    def _rails(self, layers: list[dict[int, list[Found]]], way: Found) -> Rails:
        cost, steps = way[0], []
        while way[3] is not None:
            steps.append(way[3].edges)
            way = layers[way[1].bit_count()][way[1]][way[2]]
        return Rails(net=self.net, row=self.row, steps=tuple(reversed(steps)), cost=cost)
