"""Circuits without coordinates, drawn the way a textbook would: rows and columns of straight wires."""

from __future__ import annotations

from build_tools.figure.layout import Layout
from build_tools.figure.rails.chains import Graph, find_pieces
from build_tools.figure.rails.drawing import Pencil, side_by_side
from build_tools.figure.rails.frame import build_frame, build_ring
from build_tools.figure.rails.improving import improve_rails
from build_tools.figure.rails.net import Net, Rails, number_nodes
from build_tools.figure.rails.search import search_rails
from build_tools.figure.rails.sharing import share_parts
from build_tools.figure.rails.source import as_source
from build_tools.figure.rails.visibility import embed_rails, is_planar
from build_tools.laws.topology import Topology

__all__ = ["as_source", "lay_out"]

most_improved = 20
"""Nets with more edges stay as their embedding has them."""
tried = 10
"""So many ways of rows and columns get their parts shared out."""
margin = 0.7
"""A second and a third layout are offered only if they cost little more."""
close_from = 360.0
"""Drawings wider than this are offered with columns closer together as well [px]."""


def lay_out(topology: Topology) -> tuple[Layout, ...]:
    """Lay out a circuit that has no coordinates: up to three layouts, the best first."""
    pieces = [lay_out_piece(graph) for graph in find_pieces(topology.circuit)]
    return tuple(side_by_side([found[min(number, len(found) - 1)] for found in pieces]) for number in range(max(map(len, pieces))))


def find_rails(net: Net) -> list[Rails]:
    """Search all rows and columns of a small net; start from an embedding for a large one."""
    planar, edges = is_planar(net), len(net.edges)
    if (net.size <= 6 and edges <= 10) or (net.size <= 3 and edges <= 11):
        return search_rails(net, planar=planar)[:tried]
    found = embed_rails(net)
    return improve_rails(found) if planar and edges <= most_improved else found


def lay_out_piece(graph: Graph) -> tuple[Layout, ...]:
    """Lay out one connected piece: the cheapest drawings, none much worse than the best, and a closer one if it is wide."""
    frames = [build_frame(rails) for rails in find_rails(number_nodes(graph))] if graph.nodes else [build_ring(graph.chains[0])]
    found = sorted(map(share_parts, frames), key=lambda shared: shared.cost)
    close = [share_parts(found[0].frame, tight=True)] if found[0].width > close_from else []
    good = [shared for shared in found if shared.cost < found[0].cost + margin]
    return tuple(Pencil(shared).draw() for shared in [*good[: 3 - len(close)], *close])
