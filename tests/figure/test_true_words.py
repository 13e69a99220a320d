"""The words of direction are true: what a page says is held against where the arrows of its own figure point.

Nothing here asks the code that finds the words. An arrow's triangle says which way it points; the leads and bodies it
stands among say which way the current then goes through each part of its branch.
"""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise
from math import cos, dist, hypot, radians, sin
from pathlib import Path
from xml.etree.ElementTree import Element

import html5lib
import pytest

from build_tools.circuit.reading import read_circuit
from build_tools.circuit.source import read_source
from build_tools.figure.figure import Figure, draw_figure
from build_tools.laws.meaning import WorkedCircuit, work_out
from build_tools.page.writing import write_page
from tests.figure.drawings import SVG, examples, group, parsed, spots_of

published = tuple(sorted(Path("tests/published/circuits").glob("*.toml")))
Spot = tuple[float, float]

words = {
    (1, 0): "to the right",
    (1, -1): "up and to the right",
    (0, -1): "up",
    (-1, -1): "up and to the left",
    (-1, 0): "to the left",
    (-1, 1): "down and to the left",
    (0, 1): "down",
    (1, 1): "down and to the right",
}
word_pattern = re.compile(r"(?:(?:up|down) and )?to the (?:right|left)|\bup\b|\bdown\b")
ends_pattern = re.compile(r"\bfrom (\w+)(?: to (\w+))?")


@cache
def drawn(path: Path) -> tuple[WorkedCircuit, Figure, Element, dict[str, str]]:
    """A circuit with its figure, the figure's svg, and the blocks of its page."""
    worked = work_out(read_circuit(read_source(path)))
    figure = draw_figure(worked.topology)
    return worked, figure, parsed(figure), write_page(worked, figure).blocks


def word_for(way: Spot) -> str:
    """The word for a direction in the figure: within 20 degrees of an axis one word will do."""
    length, edge = hypot(*way), sin(radians(20))
    x, y = (0 if abs(part) / length <= edge else 1 if part > 0 else -1 for part in way)
    return words[x, y]


def arrow_of(root: Element, current: str) -> tuple[Spot, Spot]:
    """Where a current's arrow stands, and which way its triangle points."""
    stand = next(iter(group(root, "arrow", current=current)))
    x, y, turn = map(float, re.findall(r"-?[\d.]+", stand.get("transform", "")))
    head = next(each for each in stand.iter(f"{SVG}path")).get("d", "")
    tip_x, tip_y, back_x, half, other_half = map(float, re.fullmatch(r"M(\S+) (\S+)L(\S+) (\S+)V(\S+)Z", head).groups())  # type: ignore[union-attr]
    pointing = (tip_x - back_x, tip_y - (half + other_half) / 2)
    along, across = cos(radians(turn)), sin(radians(turn))
    return (x, y), (pointing[0] * along - pointing[1] * across, pointing[0] * across + pointing[1] * along)


def ways_of(root: Element, part: str) -> list[list[Spot]]:
    """The drawn ways of a part: before and after its body, or one for a bare wire."""
    lead = next(each for each in group(root, "part", part=part) if each.get("class") == "lead")
    return [spots_of("M" + way) for way in lead.get("d", "").split("M")[1:]]


def way_through(root: Element, part: str) -> Spot:
    """Which way a part lies, from its first end to its second: across its body, or along a wire's longest piece."""
    ways = ways_of(root, part)
    if len(ways) == 2:
        begin, end = ways[0][-1], ways[1][0]
    else:
        legs = list(pairwise(ways[0]))
        longest = max(dist(*leg) for leg in legs)
        begin, end = min((leg for leg in legs if dist(*leg) > longest - 0.5), key=lambda leg: abs(leg[0][1] - leg[1][1]))
    return (end[0] - begin[0], end[1] - begin[1])


def sense_of_arrow(root: Element, parts: list[str], current: str) -> tuple[str, int]:
    """The part on whose lead an arrow stands, and whether it points from the part's first end to its second (1) or back (-1)."""
    spot, pointing = arrow_of(root, current)
    for part in parts:
        for leg in (leg for way in ways_of(root, part) for leg in pairwise(way)):
            if abs(dist(leg[0], spot) + dist(spot, leg[1]) - dist(*leg)) < 0.1:
                sense = pointing[0] * (leg[1][0] - leg[0][0]) + pointing[1] * (leg[1][1] - leg[0][1])
                assert abs(sense) > 0.99 * hypot(*pointing) * dist(*leg), "an arrow lies along its wire"
                return part, 1 if sense > 0 else -1
    raise AssertionError(f"the arrow of {current} stands on none of {parts}")


def joined_spots(root: Element, spot: Spot) -> list[Spot]:
    """A spot and all that plain lines join to it."""
    lines = [spots_of(each.get("d", "")) for each in root.iter(f"{SVG}path") if each.get("class") == "joined"]
    found = [spot]
    for here in found:
        for line in lines:
            for near, far in ((line[0], line[-1]), (line[-1], line[0])):
                if dist(near, here) < 0.3 and all(dist(far, known) > 0.3 for known in found):
                    found.append(far)
    return found


def meet(root: Element, one: Spot, other: Spot) -> bool:
    """Whether two spots are one place of the circuit."""
    return any(dist(spot, other) < 0.3 for spot in joined_spots(root, one))


def follow(root: Element, parts: list[str], current: str) -> list[tuple[str, int]]:
    """The parts of a branch with their senses, in the arrow's own direction, found by following the drawn ways."""
    first = sense_of_arrow(root, parts, current)
    chain, left = [first], [part for part in parts if part != first[0]]
    while left:
        for part in left:
            begin, end = ways_of(root, part)[0][0], ways_of(root, part)[-1][-1]
            found = next((sense for sense, spot in ((1, begin), (-1, end)) if meet(root, exit_of(root, *chain[-1]), spot)), 0)
            earlier = next((sense for sense, spot in ((1, end), (-1, begin)) if meet(root, entry_of(root, *chain[0]), spot)), 0)
            if found or earlier:
                chain = [*chain, (part, found)] if found else [(part, earlier), *chain]
                left.remove(part)
                break
        else:
            raise AssertionError(f"{left} do not hang on to {chain}")
    return chain


def exit_of(root: Element, part: str, sense: int) -> Spot:
    """Where a current leaves a part."""
    ways = ways_of(root, part)
    return ways[-1][-1] if sense > 0 else ways[0][0]


def entry_of(root: Element, part: str, sense: int) -> Spot:
    """Where a current enters a part."""
    return exit_of(root, part, -sense)


def sentences(block: str, kind: str) -> dict[str, str]:
    """What a block of the page says about each current, as plain text."""
    tree = html5lib.parseFragment(block, treebuilder="etree", namespaceHTMLElements=False)
    rows = [each for each in tree.iter(kind) if each.get("data-current")]
    return {row.get("data-current"): " ".join("".join((row[-1] if kind == "tr" else row).itertext()).split()) for row in rows}


def said_ways(sentence: str, parts: list[str]) -> dict[str, str]:
    """The word of direction for each part that a sentence names."""
    said = {}
    for phrase in re.split(r"; |, then |: ", ends_pattern.sub("", sentence)):
        if found := word_pattern.search(phrase):
            said |= {part: found[0] for part in parts if re.search(rf"\b{part}\b", phrase)}
    return said


def faults_of(path: Path, block: str, kind: str) -> list[str]:
    """Every sentence of a block that does not say what the figure shows."""
    worked, figure, root, blocks = drawn(path)
    told = sentences(blocks[block], kind)
    faults = []
    for branch in worked.topology.branches:
        sentence = told[branch.current]
        if "No current" in sentence:
            continue
        parts = [step.part.name for step in branch.steps]
        chain = follow(root, parts, branch.current)
        if block == "currents" and worked.solution.currents[branch.current] < 0:
            chain = [(part, -sense) for part, sense in reversed(chain)]
        shown = {part: word_for((way_through(root, part)[0] * sense, way_through(root, part)[1] * sense)) for part, sense in chain}
        if said_ways(sentence, parts) != shown:
            faults.append(f"{branch.current}: {sentence!r}, but the figure shows {shown}")
        begin, end = ends_pattern.search(sentence).groups()  # type: ignore[union-attr]
        for point, spot in ((begin, entry_of(root, *chain[0])), (end, exit_of(root, *chain[-1]))):
            if end and not meet(root, spot, figure.layout.places[point]):
                faults.append(f"{branch.current}: {sentence!r}, but the arrow leads elsewhere than {point}")
    return faults


each_circuit = pytest.mark.parametrize("path", [*examples, *published], ids=lambda path: path.stem)


@each_circuit
@pytest.mark.parametrize(("block", "kind"), [("directions", "tr"), ("currents", "li")])
def test_sentences_say_where_the_arrows_point(path: Path, block: str, kind: str) -> None:
    """For each current: the ends, and left, right, up or down through every part, as assumed and as it really flows."""
    assert faults_of(path, block, kind) == []


@each_circuit
def test_rings_turn_as_the_page_walks(path: Path) -> None:
    """A loop mark turns clockwise where the page says so, and anticlockwise where it says that."""
    worked, _, root, blocks = drawn(path)
    text = " ".join("".join(html5lib.parseFragment(blocks["loops"], treebuilder="etree", namespaceHTMLElements=False).itertext()).split())
    turns = re.findall(r"\b((?:anti)?clockwise) from", text)
    assert len(turns) >= len(worked.topology.loops)
    for loop, turn in zip(worked.topology.loops, turns, strict=False):
        stand = next(each for each in group(root, "loop", loop=loop.name) if each.get("transform"))
        assert ("scale(-1 1)" in stand.get("transform", "")) == (turn == "anticlockwise"), loop.name


@pytest.mark.parametrize(
    ("way", "word"), [((10, 3.6), "to the right"), ((10, 3.7), "down and to the right"), ((-1, -9), "up"), ((-5, -5), "up and to the left")]
)
def test_words_of_the_test_itself(way: Spot, word: str) -> None:
    """20 degrees are still one word; 20.3 are two."""
    assert word_for(way) == word
