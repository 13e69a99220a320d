"""Words of direction: which way a current or a walk goes, in the figure's own left, right, up and down.

The written rule. Ends come first, then the parts in walking order, each with the direction of the leg its body sits on.
Corners and empty legs are not mentioned, and neighbours that go the same way share one phrase. Within 20 degrees of an
axis one word will do. Only closed walks are called clockwise. Letters are the truth, words follow the drawing: its ends
are the letters that stand there, of all that plain lines join. Without a layout, junctions and parts are named and
nothing else. All of it is plain text.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Sequence
from itertools import groupby
from math import atan2, degrees, dist

from build_tools.circuit.circuit import Kind
from build_tools.circuit.problem import listed
from build_tools.circuit.sentences import say
from build_tools.figure.layout import Layout, Spot, body_leg
from build_tools.laws.topology import Branch, Loop, Step

axis_tolerance = 20.0
"""How far from an axis one word of direction still holds [degrees]."""
same_spot = 0.5
"""Spots nearer to each other than this are one [px]."""
no_area = 1.0
"""An outline with less area has no sense of turning [px²]."""


def way_in_words(branch: Branch, layout: Layout | None, opposite: bool = False) -> str:
    """Say which way the current of a branch goes: as assumed, or the opposite way."""
    if not opposite:
        return way_of(branch.start, branch.end, branch.steps, layout)
    return way_of(branch.end, branch.start, tuple(step.reversed() for step in reversed(branch.steps)), layout)


def current_sentence(branch: Branch, layout: Layout | None, size: str, as_assumed: bool | None) -> str:
    """Say what the answer for one branch means.

    `size` is the current without its sign, number and unit as on the page. `as_assumed` is None for no current.
    """
    if as_assumed is None:
        return say("current.none", parts=listed([step.part.name for step in branch.steps]))
    way = way_in_words(branch, layout, opposite=not as_assumed)
    key = "as_assumed" if as_assumed else "opposite" if layout is None else "against"
    return say(f"current.{key}", size=size, colon=", " if ": " in way else ": ", way=way)


def loop_words(loop: Loop, layout: Layout | None) -> str:
    """Say how a loop is walked, and each battery from which end to which."""
    start = " ".join(filter(None, [turning(loop.steps, layout), say("way.from", start=loop.start)]))
    return f"{start}: {'; '.join(phrases(loop.steps, layout, with_signs))}"


def plain_name(step: Step) -> str:
    """Name a part, and no more."""
    return step.part.name


def with_signs(step: Step) -> str:
    """Name a part, and a battery with the ends in walking order."""
    if step.part.kind is not Kind.BATTERY:
        return step.part.name
    return say("way.forward" if step.forward else "way.backward", name=step.part.name)


def heading(step: Step, layout: Layout | None) -> str:
    """Say which way a step goes where its part's body sits; empty where nothing is drawn."""
    if layout is None:
        return ""
    route = layout.routes[step.part.name]
    leg = body_leg(route, step.part.kind)
    here, there = (route[leg], route[leg + 1]) if step.forward else (route[leg + 1], route[leg])
    return direction(here, there)


def direction(here: Spot, there: Spot) -> str:
    """Say which way it is from one spot to another; empty where they are one."""
    if dist(here, there) < same_spot:
        return ""
    angle = degrees(atan2(here[1] - there[1], there[0] - here[0])) % 360
    axis = round(angle / 90)
    if abs(angle - 90 * axis) <= axis_tolerance:
        return say(f"compass.{2 * axis % 8}")
    return say(f"compass.{2 * int(angle // 90) + 1}")


def turning(steps: Sequence[Step], layout: Layout | None) -> str:
    """Say whether a closed walk turns clockwise or anticlockwise; empty where it encloses no area or is not drawn."""
    if layout is None:
        return ""
    corners = outline(steps, layout)
    pairs = zip(corners, [*corners[1:], *corners[:1]], strict=True)
    area = sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs) / 2
    # y runs downwards, so a positive area is one that is walked clockwise as seen.
    return "" if abs(area) < no_area else say("way.clockwise" if area > 0 else "way.anticlockwise")


def ends_in_words(start: str, end: str, steps: Sequence[Step], layout: Layout | None) -> str:
    """Name the two ends of a way, or how it goes round where it ends at its start."""
    if start != end:
        return say("way.ends", start=start, end=end)
    return " ".join(filter(None, [turning(steps, layout), say("way.round", start=start)]))


def drawn_ends(start: str, end: str, steps: Sequence[Step], layout: Layout | None) -> tuple[str, str]:
    """The points between which a way from junction to junction is drawn; the junctions where it is not drawn."""
    return (steps[0].start, steps[-1].end) if layout is not None and steps and start != end else (start, end)


def way_of(start: str, end: str, steps: Sequence[Step], layout: Layout | None) -> str:
    """Say a way from end to end; its first word of direction follows a comma, several follow a colon."""
    ends = ends_in_words(*drawn_ends(start, end, steps, layout), steps, layout)
    first, *rest = phrases(steps, layout) or [""]
    if rest:
        return f"{ends}: {say('way.then').join([first, *rest])}"
    if not first or not (word := heading(steps[0], layout)):
        return f"{ends} {first}".rstrip()
    if all(step.part.kind is Kind.WIRE for step in steps):
        return f"{ends} {passage(steps, plain_name)}, {word}"
    return f"{ends}, {first}"


def phrases(steps: Sequence[Step], layout: Layout | None, named: Callable[[Step], str] = plain_name) -> list[str]:
    """One phrase for each run of steps that go the same way."""
    runs = [(word, tuple(run)) for word, run in groupby(steps, key=lambda step: heading(step, layout))]
    return [" ".join(filter(None, [word, passage(run, named)])) for word, run in runs]


def passage(steps: Sequence[Step], named: Callable[[Step], str]) -> str:
    """Name the parts of a run: "through R1 and along the bare wire W1"."""
    runs = groupby(steps, key=lambda step: step.part.kind is Kind.WIRE)
    return listed([run_in_words(tuple(map(named, run)), wire) for wire, run in runs])


def run_in_words(names: Sequence[str], wires: bool) -> str:
    """Name neighbours of a run that are all bare wires, or all not."""
    return say("way.wires", count=len(names), names=listed(names)) if wires else say("way.through", names=listed(names))


def outline(steps: Sequence[Step], layout: Layout) -> list[Spot]:
    """Every corner of a closed walk, plain lines between its parts included."""
    ways = [layout.routes[step.part.name][:: 1 if step.forward else -1] for step in steps]
    following = [*ways[1:], *ways[:1]]
    return [spot for way, after in zip(ways, following, strict=True) for spot in (*way, *corners_between(way[-1], after[0], layout.lines))]


def corners_between(here: Spot, there: Spot, lines: Sequence[tuple[Spot, ...]]) -> tuple[Spot, ...]:
    """The corners on the plain lines that lead from one spot to another; none where no lines do."""
    both_ways = [*lines, *(line[::-1] for line in lines)]
    seen = [here]
    waiting: deque[tuple[Spot, ...]] = deque([(here,)])
    while waiting:
        way = waiting.popleft()
        if dist(way[-1], there) < same_spot:
            return way[1:-1]
        for line in both_ways:
            if dist(line[0], way[-1]) < same_spot and all(dist(line[-1], spot) >= same_spot for spot in seen):
                seen.append(line[-1])
                waiting.append((*way, *line[1:]))
    return ()
