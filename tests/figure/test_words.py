"""Words of direction against drawings whose arrows are plain to see. Spots are in pixels, y downwards."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

import pytest

from build_tools.circuit.circuit import Kind, Part
from build_tools.figure.layout import Layout, Spot, body_leg
from build_tools.figure.words import current_sentence, direction, loop_words, turning, way_in_words
from build_tools.laws.topology import Branch, Loop, Step

kinds = {"E": Kind.BATTERY, "R": Kind.RESISTOR, "W": Kind.WIRE, "K": Kind.SWITCH}

top_left, top_right, bottom_right, bottom_left = (0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (0.0, 100.0)

routes: dict[str, tuple[Spot, ...]] = {
    "E1": (bottom_left, top_left),
    "R1": (top_left, top_right),
    "R2": (top_right, bottom_right),
    "W1": (bottom_left, bottom_right),
    # Two in a row downwards, the second one's start at its lower end.
    "R3": (top_right, (200.0, 50.0)),
    "R4": (bottom_right, (200.0, 50.0)),
    "W2": (top_right, (200.0, 50.0)),
    "W3": ((200.0, 50.0), bottom_right),
    # Bent: a short leg up, a long one to the right, a short one down.
    "R5": (top_left, (0.0, -60.0), (200.0, -60.0), top_right),
    # Bent in a tie: 100 to the right, then 100 down.
    "R6": (top_left, (100.0, 0.0), (100.0, 100.0)),
    "E6": (top_left, (100.0, 0.0), (100.0, 100.0)),
    "R7": (bottom_left, (100.0, 0.0)),
    "R8": (bottom_left, (200.0, 65.0)),
    "W4": (bottom_right, bottom_left),
}
layout = Layout(places={}, routes=routes, lines=())


def steps(way: str) -> tuple[Step, ...]:
    """Make steps from names; a minus is a part walked from its end to its start."""
    return tuple(
        Step(Part(name=name.lstrip("-"), kind=kinds[name.lstrip("-")[0]], start="s", end="t"), name[0] != "-") for name in way.split()
    )


def branch(way: str, start: str = "b", end: str = "e") -> Branch:
    """A branch that carries I1 through the named parts, drawn from its one end to its other."""
    made = steps(way)
    points = [start, *"s" * (len(made) - 1), end]
    drawn = [replace(step.part, start=here, end=there) if step.forward else replace(step.part, start=there, end=here)
             for step, here, there in zip(made, points, points[1:], strict=False)]  # fmt: skip
    walk = tuple(replace(step, part=part) for step, part in zip(made, drawn, strict=True))
    return Branch(current="I1", start=start, end=end, steps=walk)


@pytest.mark.parametrize(
    ("way", "words"),
    [
        pytest.param("R2", "from b to e, down through R2", id="straight"),
        pytest.param("-R2", "from b to e, up through R2", id="drawn the other way"),
        pytest.param("E1", "from b to e, up through E1", id="battery"),
        pytest.param("-R1 -E1", "from b to e: to the left through R1, then down through E1", id="round a corner"),
        pytest.param("R3 -R4", "from b to e, down through R3 and R4", id="one way, said once"),
        pytest.param("R1 R3 -R4", "from b to e: to the right through R1, then down through R3 and R4", id="corner, then two"),
        pytest.param("R5", "from b to e, to the right through R5", id="bent: the longest leg"),
        pytest.param("R6", "from b to e, to the right through R6", id="bent, tie: a resistor lies"),
        pytest.param("E6", "from b to e, down through E6", id="bent, tie: a battery stands"),
        pytest.param("R7", "from b to e, up and to the right through R7", id="diagonal"),
        pytest.param("-R7", "from b to e, down and to the left through R7", id="diagonal, the other way"),
        pytest.param("R8", "from b to e, to the right through R8", id="nearly level"),
        pytest.param("W1", "from b to e along the bare wire W1, to the right", id="bare wire"),
        pytest.param("W2 W3", "from b to e along the bare wires W2 and W3, down", id="two bare wires"),
        pytest.param("R1 W2", "from b to e: to the right through R1, then down along the bare wire W2", id="wire after a part"),
        pytest.param("W2 -R4", "from b to e, down along the bare wire W2 and through R4", id="wire and part in a row"),
        pytest.param("", "from b to e", id="no part named"),
    ],
)
def test_names_the_ends_then_each_part_with_its_direction(way: str, words: str) -> None:
    """A current's way is told in the order of the current, one word of direction per straight run."""
    assert way_in_words(branch(way), layout) == words


def test_names_the_letters_that_stand_at_the_ends() -> None:
    """Where plain lines join points, the figure shows the letters of the points; without one only junctions are there."""
    drawn = replace(branch("R2", "d", "f"), start="c", end="e")
    assert way_in_words(drawn, layout) == "from d to f, down through R2"
    assert way_in_words(drawn, layout, True) == "from f to d, up through R2"
    assert way_in_words(drawn, None) == "from c to e through R2"


@pytest.mark.parametrize(
    ("way", "words"),
    [
        ("R2", "from e to b, up through R2"),
        ("-R1 -E1", "from e to b: up through E1, then to the right through R1"),
        ("W1", "from e to b along the bare wire W1, to the left"),
        ("R7", "from e to b, down and to the left through R7"),
        ("R3 -R4", "from e to b, up through R4 and R3"),
    ],
)
def test_tells_the_opposite_way_backwards(way: str, words: str) -> None:
    """Against the assumed direction ends, order and every direction are turned round."""
    assert way_in_words(branch(way), layout, True) == words


@pytest.mark.parametrize(
    ("way", "drawn", "opposite", "words"),
    [
        ("E1 R1 R2 -W1", True, False, ("clockwise round the loop from a: up through E1, then to the right through R1, "
         "then down through R2, then to the left along the bare wire W1")),
        ("E1 R1 R2 -W1", True, True, ("anticlockwise round the loop from a: to the right along the bare wire W1, "
         "then up through R2, then to the left through R1, then down through E1")),
        ("E1 R1 R2", False, False, "round the loop from a through E1, R1 and R2"),
    ],
)  # fmt: skip
def test_goes_round_where_a_branch_closes_on_itself(way: str, drawn: bool, opposite: bool, words: str) -> None:
    """A branch that ends where it starts goes round the loop, in the sense that is seen."""
    assert way_in_words(branch(way, "a", "a"), layout if drawn else None, opposite) == words


@pytest.mark.parametrize(
    ("way", "words"),
    [
        ("R2", "from b to e through R2"),
        ("R1 -E1", "from b to e through R1 and E1"),
        ("W1", "from b to e along the bare wire W1"),
    ],
)
def test_names_letters_only_without_a_drawing(way: str, words: str) -> None:
    """Where nothing is drawn nothing is said of left, right, up and down."""
    assert way_in_words(branch(way), None) == words


@pytest.mark.parametrize(
    ("way", "drawn", "as_assumed", "sentence"),
    [
        ("R2", True, True, "0.5 A flows as assumed: from b to e, down through R2."),
        ("R2", True, False, "0.5 A flows against the arrow: really from e to b, up through R2."),
        ("-R1 -E1", True, True, "0.5 A flows as assumed, from b to e: to the left through R1, then down through E1."),
        ("-R1 -E1", True, False, ("0.5 A flows against the arrow, really from e to b: up through E1, "
         "then to the right through R1.")),
        ("W1", True, False, "0.5 A flows against the arrow: really from e to b along the bare wire W1, to the left."),
        ("R2", False, True, "0.5 A flows as assumed: from b to e through R2."),
        ("R2", False, False, "0.5 A flows opposite to the assumed direction: really from e to b through R2."),
        ("R2", True, None, "No current flows in this branch (R2)."),
        ("R1 E1", False, None, "No current flows in this branch (R1 and E1)."),
    ],
)  # fmt: skip
def test_says_what_an_answer_means(way: str, drawn: bool, as_assumed: bool | None, sentence: str) -> None:
    """The size comes first, then as assumed or not, then the way it really goes."""
    assert current_sentence(branch(way), layout if drawn else None, "0.5 A", as_assumed) == sentence


@pytest.mark.parametrize(
    ("way", "drawn", "words"),
    [
        ("E1 R1 R2 -W1", True, ("clockwise from a: up through E1 (minus to plus); to the right through R1; "
         "down through R2; to the left along the bare wire W1")),
        ("W1 -R2 -R1 -E1", True, ("anticlockwise from a: to the right along the bare wire W1; up through R2; "
         "to the left through R1; down through E1 (plus to minus)")),
        ("E1 R1 R3 -R4 -W1", True, ("clockwise from a: up through E1 (minus to plus); to the right through R1; "
         "down through R3 and R4; to the left along the bare wire W1")),
        ("R1 -R1", True, "from a: to the right through R1; to the left through R1"),
        ("E1 R1 -R2", False, "from a: through E1 (minus to plus), R1 and R2"),
    ],
)  # fmt: skip
def test_tells_a_loop_as_it_is_walked(way: str, drawn: bool, words: str) -> None:
    """A loop is clockwise or anticlockwise as seen, and each battery is passed in a named sense."""
    assert loop_words(Loop(name="L1", start="a", steps=steps(way)), layout if drawn else None) == words


def test_turns_with_the_plain_lines_between_its_parts() -> None:
    """The corners of plain lines count: without them this walk would turn the other way."""
    lines = ((top_left, (0.0, -80.0), (200.0, -80.0)), (top_right, (200.0, -80.0)), ((50.0, 50.0), (90.0, 90.0)))
    around = replace(layout, routes={"R1": (top_right, (100.0, -5.0), top_left)}, lines=lines)
    assert turning(steps("R1"), around) == "clockwise"
    assert turning(steps("-R1"), around) == "anticlockwise"
    assert turning(steps("R1"), replace(around, lines=())) == "anticlockwise"


@pytest.mark.parametrize(
    ("angle", "word"),
    [
        (0, "to the right"), (19, "to the right"), (21, "up and to the right"), (69, "up and to the right"), (71, "up"),
        (109, "up"), (111, "up and to the left"), (159, "up and to the left"), (161, "to the left"),
        (199, "to the left"), (201, "down and to the left"), (251, "down"), (289, "down"),
        (291, "down and to the right"), (339, "down and to the right"), (341, "to the right"),
    ],
)  # fmt: skip
def test_uses_one_word_near_an_axis_and_two_between(angle: float, word: str) -> None:
    """Within 20 degrees of an axis one word names a direction; angles are counted from the right, upwards."""
    assert direction((10.0, 10.0), (10 + 90 * cos(radians(angle)), 10 - 90 * sin(radians(angle)))) == word


def test_has_no_word_for_no_way() -> None:
    """Two spots in one place have no direction between them."""
    assert direction((3.0, 4.0), (3.0, 4.2)) == ""


@pytest.mark.parametrize(
    ("route", "battery_leg", "other_leg"),
    [
        (((0, 0), (90, 0)), 0, 0),
        (((0, 0), (90, 0), (90, 50)), 0, 0),
        (((0, 0), (50, 0), (50, 90)), 1, 1),
        (((0, 0), (0, 90), (90, 90)), 0, 1),
        (((0, 0), (90, 0), (90.0, 90.2)), 1, 0),
        (((0, 0), (90, 0), (90, 30), (0, 30)), 0, 0),
        (((0, 0), (0, 0), (40, 0)), 1, 1),
    ],
)
def test_puts_a_body_on_the_longest_leg(route: tuple[Spot, ...], battery_leg: int, other_leg: int) -> None:
    """A body sits on the longest leg; in a tie a battery stands, any other part lies, and the first leg decides."""
    assert body_leg(route, Kind.BATTERY) == battery_leg
    assert body_leg(route, Kind.RESISTOR) == other_leg
    assert body_leg(route, Kind.WIRE) == other_leg
