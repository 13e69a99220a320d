"""Nets of equal resistors: the solids, rings, wheels, grids and ladders, as lists of edges, and pairs of their points."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from itertools import combinations

Edge = tuple[str, str]
Net = tuple[Edge, ...]


def complete(size: int) -> Net:
    """Every point joined to every other one."""
    return tuple((f"p{i}", f"p{j}") for i, j in combinations(range(size), 2))


def ring(size: int) -> Net:
    """Points joined in a ring."""
    return tuple((f"p{i}", f"p{(i + 1) % size}") for i in range(size))


def wheel(size: int) -> Net:
    """A hub joined to each point of a rim; the first edge is a spoke."""
    return (*(("hub", f"p{i}") for i in range(size)), *ring(size))


def ladder(size: int) -> Net:
    """Sections of one resistor along the top and one down to a bottom rail without resistance."""
    top = ["in", *(f"p{i}" for i in range(size))]
    return tuple(edge for i in range(size) for edge in ((top[i], top[i + 1]), (top[i + 1], "rail")))


def grid(width: int, height: int) -> Net:
    """A rectangle of points joined to their neighbours in rows and columns."""
    across = (((x, y), (x + 1, y)) for x in range(width - 1) for y in range(height))
    upwards = (((x, y), (x, y + 1)) for x in range(width) for y in range(height - 1))
    return tuple((spot(*one), spot(*other)) for edges in (across, upwards) for one, other in edges)


def spot(x: int, y: int) -> str:
    """The name of a point of a grid."""
    return f"x{x}y{y}"


def cube() -> Net:
    """Corners are numbers of three binary digits; an edge changes one digit."""
    return tuple((f"p{i}", f"p{i | bit}") for i in range(8) for bit in (1, 2, 4) if not i & bit)


def octahedron() -> Net:
    """All pairs of six corners but the three opposite ones."""
    return tuple((f"p{i}", f"p{j}") for i, j in combinations(range(6), 2) if i + j != 5)


def icosahedron() -> Net:
    """Two poles, and two rings of five that are joined in a zigzag."""
    rings = [edge for i in range(5) for edge in ((f"a{i}", f"a{(i + 1) % 5}"), (f"b{i}", f"b{(i + 1) % 5}"))]
    zigzag = [edge for i in range(5) for edge in ((f"a{i}", f"b{i}"), (f"a{i}", f"b{(i + 1) % 5}"))]
    poles = [edge for i in range(5) for edge in (("north", f"a{i}"), ("south", f"b{i}"))]
    return (*rings, *zigzag, *poles)


def dodecahedron() -> Net:
    """A ring of ten, a spoke from each, and inner points joined to the next but one."""
    inner = tuple((f"q{i}", f"q{(i + 2) % 10}") for i in range(10))
    return (*ring(10), *((f"p{i}", f"q{i}") for i in range(10)), *inner)


def bridge() -> Net:
    """Five resistors: the first one joins the two arms."""
    return (("left", "right"), ("top", "left"), ("top", "right"), ("left", "base"), ("right", "base"))


def build_net(name: str, size: int = 0) -> Net:
    """The net of a table's row."""
    match name.split():
        case ["grid", width, "by", height]:
            return grid(int(width), int(height))
        case ["complete" | "ring" | "wheel" | "ladder" as kind]:
            return {"complete": complete, "ring": ring, "wheel": wheel, "ladder": ladder}[kind](size)
        case _:
            return {"tetrahedron": lambda: complete(4), "cube": cube, "octahedron": octahedron, "icosahedron": icosahedron,
                    "dodecahedron": dodecahedron, "bridge": bridge}[name]()  # fmt: skip


def find_pair(net: Net, ends: str) -> Edge:
    """The pair a table's row means: the first edge, the input of a ladder, or two points so many steps apart."""
    if ends == "edge":
        return net[0]
    if ends == "input":
        return "in", "rail"
    steps = int(ends.split()[0])
    start = net[1][0] if net == bridge() else net[0][0]
    return start, next(point for point, away in distances(net, start).items() if away == steps)


def distances(net: Iterable[Edge], start: str) -> dict[str, int]:
    """How many edges each point is away from the start."""
    edges, away, waiting = tuple(net), {start: 0}, deque([start])
    while waiting:
        here = waiting.popleft()
        for there in [b if a == here else a for a, b in edges if here in (a, b)]:
            if there not in away:
                away[there] = away[here] + 1
                waiting.append(there)
    return away
