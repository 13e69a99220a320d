"""Circuits without coordinates, drawn the way a textbook would: rows and columns of straight wires."""

from __future__ import annotations

from build_tools.figure.layout import Layout
from build_tools.figure.rails.chains import Graph, find_pieces
from build_tools.figure.rails.drawing import Pencil
from build_tools.figure.rails.frame import build_frame, build_ring
from build_tools.figure.rails.net import Net, Rails, number_nodes
from build_tools.figure.rails.search import search_rails
from build_tools.figure.rails.sharing import Sharing
from build_tools.figure.rails.visibility import embed_rails, is_planar
from build_tools.laws.topology import Topology

tried = 10


def lay_out(topology: Topology) -> tuple[Layout, ...]:
    """Lay out a circuit that has no coordinates: up to three layouts, the best first."""
    pieces = [lay_out_piece(graph) for graph in find_pieces(topology.circuit)]
    return pieces[0]


def find_rails(net: Net) -> list[Rails]:
    """Search all rows and columns of a small net; start from an embedding for a large one."""
    if net.size <= 6 and len(net.edges) <= 10:
        return search_rails(net, planar=is_planar(net))[:tried]
    return embed_rails(net)


def lay_out_piece(graph: Graph) -> tuple[Layout, ...]:
    """Lay out one connected piece."""
    frames = [build_frame(rails) for rails in find_rails(number_nodes(graph))] if graph.nodes else [build_ring(graph.chains[0])]
    found = []
    for frame in frames:
        sharing = Sharing(frame)
        shared = sharing.solve()
        found.append((shared.cost, len(found), Pencil(shared, sharing).draw()))
    return tuple(layout for _, _, layout in sorted(found, key=lambda one: one[:2])[:3])
