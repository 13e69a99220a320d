"""Rows and columns for larger nets, from a planar embedding.

Nodes are numbered so that each but the first and the last has neighbours before and after it; rows are longest ways up
in that order, columns longest ways from left to right through the faces. Each node then is a level bar and each edge
an upright piece that meets no other bar (Tamassia and Tollis 1986; numbering after Tarjan 1986).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from itertools import pairwise

from build_tools.figure.rails.embedding import Face, Links, Pair, bridged, embed
from build_tools.figure.rails.net import Net, Rails
from build_tools.figure.rails.search import (
    battery_first,
    battery_inside,
    crossing,
    per_column,
    per_open_bar,
    per_row,
    plus_down,
)

most_starts = 24
kept = 6


def embed_rails(net: Net) -> list[Rails]:
    """Find some ways to draw a large net in rows and columns, the cheapest first."""
    pairs = [(edge.tail, edge.head) for edge in net.edges]
    flat = _planar_part(net.size, pairs)
    links = bridged(net.size, [pairs[number] for number in flat])
    faces = embed(net.size, [pairs[number] for number in flat])
    assert faces is not None
    found = []
    for bottom, top in _starts(net, flat):
        number = _number_upwards(links, bottom, top)
        row, columns = _rows(links, number), _columns(faces, number)
        if len(flat) < len(pairs):
            row = {node: net.size - 1 - place for node, place in number.items()}
        steps = _steps(net, flat, columns)
        found.append(_priced(net, tuple(row[node] for node in range(net.size)), steps))
    return sorted(found, key=lambda rails: (rails.cost, rails.row, rails.steps))[:kept]


def is_planar(net: Net) -> bool:
    """Whether a net can be drawn without a crossing."""
    return embed(net.size, [(edge.tail, edge.head) for edge in net.edges]) is not None


def _planar_part(size: int, pairs: list[Pair]) -> list[int]:
    """Edges that can be drawn without crossing: all of a planar net, else as many as fit in, one after the other."""
    if embed(size, pairs) is not None:
        return list(range(len(pairs)))
    chosen = _tree(size, pairs)
    for number in range(len(pairs)):
        if number not in chosen and embed(size, [pairs[n] for n in [*chosen, number]]) is not None:
            chosen.append(number)
    return sorted(chosen)


def _tree(size: int, pairs: list[Pair]) -> list[int]:
    group, chosen = list(range(size)), []
    for number, (one, other) in enumerate(pairs):
        if group[one] != group[other]:
            chosen.append(number)
            group = [group[one] if name == group[other] else name for name in group]
    return chosen


def _starts(net: Net, flat: list[int]) -> Iterator[Pair]:
    """Edges to stand at the far left, lower end first: batteries before others, plus end up."""
    for number in sorted(flat, key=lambda edge: -net.edges[edge].batteries)[:most_starts]:
        edge = net.edges[number]
        yield (edge.tail, edge.head) if edge.rises >= 0 else (edge.head, edge.tail)


def _number_upwards(links: Links, bottom: int, top: int) -> dict[int, int]:
    """Number the nodes from the bottom one to the top one so that all others have neighbours on both sides."""
    order, above, low = _search_depth_first(links, bottom, top)
    row, before = [bottom, top], {bottom: True}
    for node in order[2:]:
        place = row.index(above[node])
        row.insert(place if before[low[node]] else place + 1, node)
        before[above[node]] = not before[low[node]]
    return {node: number for number, node in enumerate(row)}


def _search_depth_first(links: Links, bottom: int, top: int) -> tuple[list[int], dict[int, int], dict[int, int]]:
    """Nodes in the order found, the node each was found from, and the earliest node its subtree is linked to."""
    order, above = [bottom, top], {top: bottom}
    stack = [(top, iter(links[top]))]
    while stack:
        near = next((near for near in stack[-1][1] if near not in above and near != bottom), None)
        if near is None:
            stack.pop()
            continue
        above[near] = stack[-1][0]
        order.append(near)
        stack.append((near, iter(links[near])))
    when = {node: number for number, node in enumerate(order)}
    low = {node: min([when[node], *(when[near] for near in links[node])]) for node in order}
    for node in reversed(order[1:]):
        low[above[node]] = min(low[above[node]], low[node])
    return order, above, {node: order[early] for node, early in low.items()}


def _rows(links: Links, number: dict[int, int]) -> dict[int, int]:
    """For each node its row from the top: as low as its neighbours below allow."""
    height: dict[int, int] = {}
    for node in sorted(number, key=number.__getitem__):
        height[node] = max((height[near] + 1 for near in links[node] if number[near] < number[node]), default=0)
    most = max(height.values())
    return {node: most - up for node, up in height.items()}


def _columns(faces: tuple[Face, ...], number: dict[int, int]) -> dict[Pair, int]:
    """For each pair of linked nodes its column: one more than that of any pair to the left of the face on its left."""
    left: dict[Pair, int] = {}
    right: dict[Pair, int] = {}
    for face_number, face in enumerate(faces):
        for one, other in pairwise((*face, face[0])):
            (left if number[one] < number[other] else right)[min(one, other), max(one, other)] = face_number
    bottom, top = (next(node for node, n in number.items() if n == end) for end in (0, len(number) - 1))
    outer = left[min(bottom, top), max(bottom, top)]
    at = _face_columns(left, right, outer)
    return {pair: 0 if face == outer else at[face] for pair, face in left.items()}


def _face_columns(left: dict[Pair, int], right: dict[Pair, int], outer: int) -> dict[int, int]:
    """Longest ways through the faces from the outer one on the left."""
    onward = defaultdict(set)
    for pair, face in left.items():
        if right[pair] != outer:
            onward[face].add(right[pair])
    at = dict.fromkeys({*left.values(), *right.values()}, 0)
    for _ in at:
        for face in sorted(onward):
            for following in onward[face]:
                at[following] = max(at[following], at[face] + 1)
    return at


def _steps(net: Net, flat: list[int], columns: dict[Pair, int]) -> list[list[int]]:
    """Edges column by column; edges beside one with the same ends get a column of their own next to it."""
    found: dict[tuple[int, int, int], list[int]] = defaultdict(list)
    beside: dict[Pair, int] = defaultdict(int)
    for edge in flat:
        pair = (min(net.edges[edge].tail, net.edges[edge].head), max(net.edges[edge].tail, net.edges[edge].head))
        found[columns[pair], beside[pair], pair[0] * net.size + pair[1] if beside[pair] else 0].append(edge)
        beside[pair] += 1
    return [found[key] for key in sorted(found)]


def _priced(net: Net, row: tuple[int, ...], steps: list[list[int]]) -> Rails:
    """Put in the edges that have to cross something, where they cross least, and work out the cost."""
    placed = {edge for step in steps for edge in step}
    for edge in range(len(net.edges)):
        if edge not in placed:
            trials = [[*steps[:place], [edge], *steps[place:]] for place in range(len(steps) + 1)]
            steps = min(trials, key=lambda trial: count_crossings(net, row, trial))
    frozen = tuple(tuple(step) for step in steps)
    cost = per_row * (max(row) + 1) + per_column * len(steps) + crossing * count_crossings(net, row, steps)
    reach = _reaches(net, steps)
    cost += per_open_bar * sum(last - first for first, last in reach.values())
    cost += sum(_battery_cost(net, row, edge) for edge in range(len(net.edges)))
    cost += battery_first * any(net.edges[edge].batteries for edge in frozen[0])
    return Rails(net=net, row=row, steps=frozen, cost=cost)


def _battery_cost(net: Net, row: tuple[int, ...], number: int) -> float:
    edge = net.edges[number]
    if not edge.batteries:
        return 0.0
    rises = edge.rises if row[edge.head] < row[edge.tail] else -edge.rises
    inner = sum(0 < row[node] < max(row) for node in (edge.tail, edge.head))
    return plus_down * max(0, -rises) + battery_inside * inner


def _reaches(net: Net, steps: Iterable[Iterable[int]]) -> dict[int, Pair]:
    """For each node the first and the last column of its bar."""
    reach: dict[int, Pair] = {}
    for column, step in enumerate(steps):
        for edge in step:
            for node in (net.edges[edge].tail, net.edges[edge].head):
                reach[node] = (reach.get(node, (column, column))[0], column)
    return reach


def count_crossings(net: Net, row: tuple[int, ...], steps: Iterable[Iterable[int]]) -> int:
    """How often an upright edge passes over the bar of a node it does not belong to."""
    steps = [list(step) for step in steps]
    reach = _reaches(net, steps)
    return sum(
        reach[node][0] <= column <= reach[node][1]
        for column, step in enumerate(steps)
        for edge in step
        for node in reach
        if min(row[net.edges[edge].tail], row[net.edges[edge].head]) < row[node] < max(row[net.edges[edge].tail], row[net.edges[edge].head])
    )  # fmt: skip
