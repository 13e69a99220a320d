"""Which part sits on which piece of its chain: batteries upright, resistors on top and upright, few below."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations_with_replacement, pairwise

from build_tools.figure.rails import sizes
from build_tools.figure.rails.chains import Chain, Link, reversed_chain
from build_tools.figure.rails.frame import Corner, Frame, Way
from build_tools.figure.rails.spacing import Gap, least_extent

on_upright, on_top, on_bottom, on_inner, battery_on_level = 0.35, 0.0, 0.9, 0.2, 6.0
battery_down, battery_right, bare_side = 0.8, 0.3, 1.3
per_width, per_extra_width, width_aim = 0.012, 0.08, 410.0
per_height, per_extra_height, height_aim = 0.010, 0.03, 360.0
per_portrait, line_bent = 0.015, 2.0
most_options, most_sweeps = 60, 3
hop_room = 18.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A straight piece of a chain's way."""

    start: Corner
    end: Corner
    span: tuple[int, int]
    """Between which columns (or rows), in rising order, all its parts sit: its ends, or nearer where it is crossed."""
    crossed: bool = False
    """Whether it passes over another chain."""

    @property
    def is_level(self) -> bool:
        """Whether it lies within a row."""
        return self.start[1] == self.end[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """One way to put the parts of a chain on its pieces."""

    chain: Chain
    pieces: tuple[Piece, ...]
    on: tuple[int, ...]
    """For each link of the chain the piece it sits on, never going back."""
    taste: float
    level_gaps: tuple[Gap, ...]
    upright_gaps: tuple[Gap, ...]
    labels: tuple[tuple[int, float], ...]
    """For each upright piece its column and the width of its widest label, 0 where it holds no part."""

    def links_on(self, piece: int) -> Chain:
        """The links on one piece."""
        return tuple(link for link, place in zip(self.chain, self.on, strict=True) if place == piece)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """A frame with all parts on their pieces."""

    frame: Frame
    shares: tuple[Share, ...]
    cost: float
    width: float
    """Expected width, labels included [px]."""
    level_gaps: tuple[Gap, ...]
    upright_gaps: tuple[Gap, ...]


def share_parts(frame: Frame, *, tight: bool = False) -> Shared:
    """Put all parts of a frame on pieces; `tight` lets loop marks and labels stand above each other."""
    sharing = Sharing(frame, tight)
    shares, cost = sharing.solve()
    return Shared(
        frame=frame,
        shares=tuple(shares),
        cost=cost,
        width=sharing.width(shares),
        level_gaps=tuple(sharing.level_gaps(shares)),
        upright_gaps=tuple(sharing.upright_gaps(shares)),
    )


class Sharing:
    """The search for the best shares of one frame, chain by chain, in turn until nothing gets better."""

    def __init__(self, frame: Frame, tight: bool = False) -> None:
        self.frame, self.tight = frame, tight
        self.ways = cut_ways(frame)
        self.uprights = [piece for pieces in self.ways for piece in pieces if not piece.is_level]
        self.neighbours = _neighbours(_extents(frame, self.uprights))
        facing = [(left, right) for left, right, faces in self.neighbours if faces]
        self.has_left = {right for _, right in facing}
        self.has_right = {left for left, _ in facing}

    def solve(self) -> tuple[list[Share], float]:
        """Choose a share for every chain."""
        options = [self._options(way, pieces) for way, pieces in zip(self.frame.ways, self.ways, strict=True)]
        chosen = [shares[0] for shares in options]
        cost = self.cost(chosen)
        for _ in range(most_sweeps):
            before = cost
            for number, shares in enumerate(options):
                for share in shares:
                    trial = [*chosen[:number], share, *chosen[number + 1 :]]
                    if share is not chosen[number] and (found := self.cost(trial)) < cost - 1e-9:
                        chosen, cost = trial, found
            if cost == before:
                break
        return chosen, cost

    def cost(self, shares: list[Share]) -> float:
        """The cost of a whole drawing."""
        width = self.width(shares)
        height = least_extent(self.frame.rows, self.upright_gaps(shares)) + 40
        return (
            self.frame.cost
            + sum(share.taste for share in shares)
            + self._bare_sides(shares)
            + per_width * width + per_extra_width * max(0, width - width_aim)
            + per_height * height + per_extra_height * max(0, height - height_aim)
            + per_portrait * max(0, height - width)
        )  # fmt: skip

    def width(self, shares: list[Share]) -> float:
        """The least width, labels included [px]."""
        return least_extent(self.frame.columns, self.level_gaps(shares)) + sum(self.margins(shares))

    def margins(self, shares: list[Share]) -> tuple[float, float]:
        """Room for labels left of the first column and right of the last [px]."""
        width = self._label_widths(shares)
        return width.get(0, 0.0) + sizes.half_body, width.get(self.frame.columns - 1, 0.0) + sizes.half_body

    def level_gaps(self, shares: list[Share]) -> list[Gap]:
        """Every least distance between columns."""
        width = self._label_widths(shares)
        gaps = [gap for share in shares for gap in share.level_gaps]
        gaps += [] if self.frame.dots else [(0, 1, sizes.ring_width)]
        gaps += [(left[0], right[0], sizes.short_line) for left, right in self.frame.bars]
        for left, right, faces in self.neighbours:
            if not faces:
                gaps.append((left, right, 4 * sizes.grid))
                continue
            label = max(width.get(left, 0.0) * (left in self.has_left), width.get(right, 0.0) * (right in self.has_right))
            beside = max(sizes.loop_mark, label) if self.tight else sizes.loop_mark + label
            gaps.append((left, right, 2 * sizes.half_body + beside))
        return gaps

    def upright_gaps(self, shares: list[Share]) -> list[Gap]:
        """Every least distance between rows."""
        least = sizes.row_gap + 2 * sizes.grid * self.tight
        gaps = [gap for share in shares for gap in share.upright_gaps]
        return gaps + [(row, row + 1, least) for row in range(self.frame.rows - 1)]

    def _bare_sides(self, shares: list[Share]) -> float:
        """What outer sides without any part cost."""
        width = self._label_widths(shares)
        return bare_side * sum(not width.get(column) for column in {0, self.frame.columns - 1})

    def _label_widths(self, shares: list[Share]) -> dict[int, float]:
        width: dict[int, float] = defaultdict(float)
        for share in shares:
            for column, label in share.labels:
                width[column] = max(width[column], label)
        return width

    def _options(self, way: Way, pieces: tuple[Piece, ...]) -> list[Share]:
        """The ways to share one chain's parts, the most tasteful first."""
        chains = _rotations(way.chain) if way.corners[0] == way.corners[-1] and not self.frame.dots else [way.chain]
        shares = [self._share(chain, pieces, on) for chain in chains for on in _places(chain, pieces)]
        return sorted(shares, key=lambda share: share.taste)[: most_options * (1 if self.frame.dots else 20)]

    def _share(self, chain: Chain, pieces: tuple[Piece, ...], on: tuple[int, ...]) -> Share:
        level: list[Gap] = []
        upright: list[Gap] = []
        labels = []
        taste = line_bent * _bent_lines(chain, on, len(pieces))
        for number, piece in enumerate(pieces):
            links = [link for link, place in zip(chain, on, strict=True) if place == number]
            taste += sum(self._taste(link, piece) for link in links)
            first, later = piece.span
            extra = hop_room * piece.crossed
            if piece.is_level:
                level.append((first, later, (sum(sizes.lengths(links, level=True)) or sizes.short_line) + extra))
            else:
                upright.append((first, later, sum(sizes.lengths(links, level=False)) + extra))
                if any(link.part for link in links):
                    labels.append((piece.start[0], max(1.0, sizes.widest_label(links))))
        return Share(
            chain=chain, pieces=pieces, on=on, taste=taste,
            level_gaps=tuple(level), upright_gaps=tuple(upright), labels=tuple(labels),
        )  # fmt: skip

    def _taste(self, link: Link, piece: Piece) -> float:
        if piece.is_level:
            row = piece.start[1]
            cost = on_top if row == 0 else on_bottom if row == self.frame.rows - 1 else on_inner
            return cost + battery_on_level * link.is_battery
        if not link.is_battery:
            return on_upright
        upward = (piece.end[1] < piece.start[1]) == link.forward
        return battery_down * (not upward) + battery_right * (piece.start[0] > 0) * (not self.frame.dots)


def _extents(frame: Frame, uprights: list[Piece]) -> dict[int, tuple[int, int]]:
    """For each column its uppermost and its lowest row."""
    rows: dict[int, list[int]] = defaultdict(list)
    for piece in uprights:
        rows[piece.start[0]] += [piece.start[1], piece.end[1]]
    for column, row in frame.dots.values():
        rows[column].append(row)
    return {column: (min(found), max(found)) for column, found in rows.items()}


def _neighbours(extent: dict[int, tuple[int, int]]) -> list[tuple[int, int, bool]]:
    """Pairs of columns that need a distance, and whether they face each other over some height."""
    return [
        (left, right, max(top, upper) < min(bottom, lower))
        for left, (top, bottom) in extent.items()
        for right, (upper, lower) in extent.items()
        if left < right and max(top, upper) <= min(bottom, lower)
    ]


def cut_ways(frame: Frame) -> list[tuple[Piece, ...]]:
    """Cut every way into its straight pieces, and find the longest span of each that nothing crosses."""
    return [tuple(_piece(start, end, crossing_stops(frame, start, end)) for start, end in pairwise(way.corners)) for way in frame.ways]


def _piece(start: Corner, end: Corner, stops: list[int]) -> Piece:
    axis = 0 if start[1] == end[1] else 1
    ordered = sorted([start[axis], end[axis], *stops])
    span = max(pairwise(ordered), key=lambda span: (span[1] - span[0], span))
    return Piece(start=start, end=end, span=span, crossed=bool(stops))


def crossing_stops(frame: Frame, start: Corner, end: Corner) -> list[int]:
    """The columns (or rows) where a straight piece passes over another."""
    along = 0 if start[1] == end[1] else 1
    across = 1 - along
    first, last = sorted((start[along], end[along]))
    straight = [pair for way in frame.ways for pair in pairwise(way.corners)] + list(frame.bars)
    return sorted({
        one[along]
        for one, other in straight
        if one[along] == other[along] and first < one[along] < last
        and min(one[across], other[across]) < start[across] < max(one[across], other[across])
    })  # fmt: skip


def crossings(frame: Frame) -> set[Corner]:
    """Where a level piece passes over an upright one."""
    return {
        (start[0], row)
        for way in frame.ways
        for start, end in pairwise(way.corners)
        if start[0] == end[0]
        for row in crossing_stops(frame, start, end)
    }


def _places(chain: Chain, pieces: tuple[Piece, ...]) -> Iterator[tuple[int, ...]]:
    free = [number for number, piece in enumerate(pieces) if not (piece.is_level and piece.crossed)]
    return combinations_with_replacement(free or range(len(pieces)), len(chain))


def _bent_lines(chain: Chain, on: tuple[int, ...], pieces: int) -> int:
    """How many corners plain lines would have to turn: a circuit file has no words for that."""
    bounds = (0, *on, pieces - 1)
    return sum(
        max(0, bounds[number + 1] - bounds[number] - (number > 0)) + (number == len(chain) - 1) * (pieces - 1 - on[-1])
        for number, link in enumerate(chain)
        if link.part is None
    )


def _rotations(chain: Chain) -> list[Chain]:
    """Every start and both senses of a single loop."""
    return [(*way[turn:], *way[:turn]) for way in (chain, reversed_chain(chain)) for turn in range(len(chain))]
