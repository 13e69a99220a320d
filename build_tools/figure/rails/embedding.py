"""Planar embeddings: the faces of a planar net, or the news that it has none.

Faces grow by adding one path at a time through a face (Demoucron, Malgrange and Pertuiset, 1964). A net with cut nodes
first gets an edge across each of them, which changes nothing about whether it is planar.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from itertools import pairwise

Pair = tuple[int, int]
Face = tuple[int, ...]
"""The nodes around a face; every edge is passed once in each sense by the faces together."""
Links = dict[int, list[int]]


def embed(size: int, pairs: Iterable[Pair]) -> tuple[Face, ...] | None:
    """Find the faces of a net, after bridging its cut nodes; None where it is not planar.

    Args:
        size: how many nodes there are; each has at least one pair and all hang together.
        pairs: the nodes that are linked.
    """
    links = bridged(size, pairs)
    if size == 2:
        return ((0, 1),)
    edges = sum(len(near) for near in links.values()) // 2
    if edges > 3 * size - 6:
        return None
    return _grow(links)


def bridged(size: int, pairs: Iterable[Pair]) -> Links:
    """The links of each node, with one added across every cut node until none is left."""
    links: Links = {node: [] for node in range(size)}
    for one, other in dict.fromkeys((min(pair), max(pair)) for pair in pairs if pair[0] != pair[1]):
        links[one].append(other)
        links[other].append(one)
    for node in range(size):
        while len(parts := _parts_without(node, links)) > 1:
            one, other = (next(near for near in links[node] if near in part) for part in parts[:2])
            links[one].append(other)
            links[other].append(one)
    return links


def _parts_without(left_out: int, links: Links) -> list[set[int]]:
    """The connected parts that remain when one node is taken away."""
    parts: list[set[int]] = []
    for start in links:
        if start != left_out and not any(start in part for part in parts):
            parts.append(_reach(start, {left_out}, links))
    return parts


def _reach(start: int, walls: set[int], links: Links) -> set[int]:
    found, queue = {start}, deque([start])
    while queue:
        for near in links[queue.popleft()]:
            if near not in found and near not in walls:
                found.add(near)
                queue.append(near)
    return found


def _grow(links: Links) -> tuple[Face, ...] | None:
    cycle = _first_cycle(links)
    faces: list[Face] = [cycle, cycle[::-1]]
    done = {frozenset(pair) for pair in zip(cycle, (*cycle[1:], cycle[0]), strict=True)}
    edges = sum(len(near) for near in links.values()) // 2
    while len(done) < edges:
        placed = {node for face in faces for node in face}
        choices = [(_admitting(faces, feet), feet, inside) for feet, inside in _fragments(links, placed, done)]
        fitting, feet, inside = min(choices, key=lambda choice: len(choice[0]))
        if not fitting:
            return None
        path = _path(feet, inside, links)
        done |= {frozenset(pair) for pair in pairwise(path)}
        faces[fitting[0] : fitting[0] + 1] = _split(faces[fitting[0]], path)
    return tuple(faces)


def _admitting(faces: list[Face], feet: list[int]) -> list[int]:
    """The faces that have every foot of a fragment on them."""
    return [number for number, face in enumerate(faces) if set(feet) <= set(face)]


def _first_cycle(links: Links) -> Face:
    """A shortest cycle through the first pair."""
    start, goal = 0, links[0][0]
    before, queue = {start: start}, deque([start])
    while queue:
        node = queue.popleft()
        for near in links[node]:
            if near not in before and (node, near) != (start, goal):
                before[near] = node
                queue.append(near)
    way = [goal]
    while way[-1] != start:
        way.append(before[way[-1]])
    return tuple(way)


def _fragments(links: Links, placed: set[int], done: set[frozenset[int]]) -> list[tuple[list[int], set[int]]]:
    """What is not placed yet: for each connected fragment its feet on placed nodes and its inner nodes."""
    found: list[tuple[list[int], set[int]]] = [
        ([one, other], set())
        for one in links
        for other in links[one]
        if one < other and one in placed and other in placed and frozenset((one, other)) not in done
    ]
    seen: set[int] = set()
    for start in links:
        if start not in placed and start not in seen:
            inside = _reach(start, placed, links)
            seen |= inside
            found.append((sorted({near for node in inside for near in links[node] if near in placed}), inside))
    return found


def _path(feet: list[int], inside: set[int], links: Links) -> Face:
    """A shortest way through a fragment from its first foot to its second."""
    start, goal = feet[:2]
    if not inside:
        return start, goal
    before, queue = {start: start}, deque([start])
    while goal not in before:
        node = queue.popleft()
        for near in links[node]:
            if near not in before and (near in inside or (near == goal and node in inside)):
                before[near] = node
                queue.append(near)
    way = [goal]
    while way[-1] != start:
        way.append(before[way[-1]])
    return tuple(reversed(way))


def _split(face: Face, path: Face) -> list[Face]:
    """Two faces in place of one, divided by a path between two of its nodes."""
    turn = face.index(path[0])
    around = (*face[turn:], *face[:turn])
    cut = around.index(path[-1])
    return [(*around[: cut + 1], *path[-2:0:-1]), (*path, *around[cut + 1 :])]
