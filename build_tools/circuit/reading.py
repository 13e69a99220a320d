"""From the table of a circuit file to a checked `Circuit`, or every fault of it at once.

Checked here is all that can be seen without any physics: keys, names, quantities, and that everything named exists.
What the circuit then does is judged in `laws`.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from build_tools.circuit.circuit import AssumedCurrent, ChosenLoop, Circuit, Drawing, Part, Place
from build_tools.circuit.formerly import address_pattern, address_rule, read_formerly
from build_tools.circuit.getter import Getter
from build_tools.circuit.naming import Uses, file_keys, find_lost_header, find_odd_names, find_uses, is_another_thing, lift_strays
from build_tools.circuit.part import read_part
from build_tools.circuit.problem import CircuitError, describe, did_you_mean, find_near, is_misspelt, listed
from build_tools.circuit.question import read_question
from build_tools.circuit.source import CircuitSource

levels = ("first steps", "core", "stretch")
resistor_shapes = ("zigzag", "rectangle")
battery_shapes = ("one cell", "several cells")
most_parts = 60


def read_circuit(source: CircuitSource) -> Circuit:
    """Check a source and give the circuit it describes.

    Raises:
        CircuitError: with every fault found.
    """
    get = Getter()
    circuit = CircuitReader(get, source).circuit()
    if get.problems:
        has_parts = not any(problem.where[:1] == ("parts",) for problem in get.problems)
        raise CircuitError(get.problems, circuit if has_parts else None)
    return circuit


class CircuitReader:
    """The sections of one file, read in the order in which they lean on each other."""

    def __init__(self, get: Getter, source: CircuitSource) -> None:
        self.get, self.source, self.top = get, source, lift_strays(get, source.table)
        self.meant: dict[str, str] = {}

    def circuit(self) -> Circuit:
        """The whole file."""
        self.check_address()
        if lost := find_lost_header(self.top):
            self.get.note(
                (lost[1][0],),
                f"these lines below the header [{lost[0]}]",
                f"{listed(lost[1])} above any header",
                f"write the line [{lost[0]}] before them",
                at_key=True,
            )
            raise CircuitError(self.get.problems)
        if is_another_thing(self.top):
            self.get.note((), "a circuit file", "one without [parts] or any other of its keys", "circuits stand in circuits/")
            raise CircuitError(self.get.problems)
        self.get.known_keys(self.top, (), file_keys, "a key of a circuit file")
        if "parts" not in self.top and any(did_you_mean(key, ["parts"]) for key in self.top):
            raise CircuitError(self.get.problems)
        parts = self.parts()
        names, uses = self.mentioned()
        drawing = self.drawing(names, uses)
        points = tuple(dict.fromkeys([*uses, *(end for pair in drawing.joined for end in pair)]))
        self.check_points(drawing, uses, points)
        currents, loops = self.currents(parts, names), self.loops(names, points)
        self.check_distinct(parts, currents, loops)
        self.refuse_given()
        return Circuit(
            **self.heading(names), parts=parts, currents=currents, loops=loops, leave_out=self.leave_out(points), drawing=drawing
        )

    def check_address(self) -> None:
        """The file's stem is an address, so it must be fit for one."""
        if not address_pattern.fullmatch(self.source.address):
            expected = f"a file name of {address_rule}"
            self.get.note((), expected, describe(self.source.address), "the file's name is the page's address")

    def heading(self, parts: list[str]) -> dict[str, Any]:
        """What is said about the example as a whole."""
        get, top, address = self.get, self.top, self.source.address
        title = address.replace("-", " ").replace("_", " ")
        topics = get.items(top.get("topics", []), ("topics",), "a list of topics in quotes")
        return {
            "address": address,
            "title": " ".join(get.text(top.get("title", title[:1].upper() + title[1:]), ("title",), "a title in quotes").split()),
            "question": read_question(get, top.get("question", "Find the current in every branch.")),
            "level": get.one_of(top.get("level", "core"), ("level",), levels, f"a level: {listed(levels, 'or')}"),
            "topics": tuple(" ".join(get.text(topic, ("topics", str(i)), "a topic in quotes").split()) for i, topic in enumerate(topics)),
            "asked": get.names(top.get("asked", []), ("asked",), parts, "the name of a part"),
            "formerly": read_formerly(get, top.get("formerly", []), address),
        }

    def parts(self) -> tuple[Part, ...]:
        """[parts], one line each."""
        get = self.get
        if "parts" not in self.top:
            get.note(("parts",), "a section [parts] with a line for each part", "none")
            return ()
        table = get.table(self.top["parts"], ("parts",), "a section [parts] with a line for each part")
        if len(table) > most_parts:
            get.note(("parts",), f"at most {most_parts} parts", f"{len(table)}", "a circuit to be worked by hand is smaller")
            return ()
        if not table and isinstance(self.top["parts"], dict):
            get.note(("parts",), "at least one part", "an empty section")
        return tuple(filter(None, (read_part(get, name, value) for name, value in table.items())))

    def mentioned(self) -> tuple[list[str], Uses]:
        """Every part of [parts], and every point that it names with the places where it does."""
        table = self.top.get("parts")
        lines = table if isinstance(table, dict) else {}
        return list(lines), find_uses(lines)

    def drawing(self, parts: list[str], ends: Iterable[str]) -> Drawing:
        """[points] and [drawing]."""
        get = self.get
        table = get.table(self.top.get("drawing", {}), ("drawing",), "a section [drawing]")
        get.known_keys(table, ("drawing",), ("joined", "bends", "resistors", "batteries"), "a key of [drawing]")
        places = self.places()
        bends = get.table(table.get("bends", {}), ("drawing", "bends"), "bends.NAME = [[x, y], ...] for a part")
        if bends and "points" not in self.top:
            get.note(("drawing", "bends"), "a section [points], since bends stand on its grid", "none", at_key=True)
        return Drawing(
            places=places,
            joined=self.joined(table, {*ends, *places}),
            bends={name: self.corners(name, value, parts) for name, value in bends.items()},
            resistors=self.custom(table, "resistors", resistor_shapes),
            batteries=self.custom(table, "batteries", battery_shapes),
        )

    def custom(self, table: dict[str, Any], key: str, shapes: tuple[str, ...]) -> str:
        """One of two customs of drawing; empty where the file leaves it to the site."""
        if key not in table:
            return ""
        return self.get.one_of(table[key], ("drawing", key), shapes, listed([f'"{shape}"' for shape in shapes], "or"))

    def places(self) -> dict[str, Place]:
        """[points]: where each point stands."""
        places: dict[str, Place] = {}
        for name, value in self.get.table(self.top.get("points", {}), ("points",), "a section [points] with a line for each point").items():
            where = ("points", name)
            named = self.get.name(name, where, "a name for a point", at_key=True)
            place = self.get.place(value, where)
            twin = next((other for other, taken in places.items() if taken == place), "")
            if place and twin:
                self.get.note(
                    where,
                    "a place of its own for each point",
                    f"the place of {twin}",
                    f'points joined by a plain line go into joined: ["{twin}", "{name}"]',
                )
            elif place and named:
                places[name] = place
        return places

    def joined(self, table: dict[str, Any], points: Iterable[str]) -> tuple[tuple[str, str], ...]:
        """Pairs of points that a plain line makes one."""
        pairs = []
        known = sorted(points)
        for index, value in enumerate(self.get.items(table.get("joined", []), ("drawing", "joined"), "a list of pairs of points")):
            where = ("drawing", "joined", str(index))
            pair = self.get.names(value, where, known, "the name of a point")
            if len(pair) == 2 and len(value) == 2:
                pairs.append((pair[0], pair[1]))
            elif isinstance(value, list) and len(value) != 2:
                self.get.note(where, 'a pair of points such as ["a", "g"]', f"{len(value)} of them")
        return tuple(pairs)

    def corners(self, name: str, value: object, parts: list[str]) -> tuple[Place, ...]:
        """The corner points of one part."""
        where = ("drawing", "bends", name)
        if name not in parts:
            self.get.one_of(name, where, parts, "the name of a part")
        corners = self.get.items(value, where, "a list of places such as [[2, 4]]")
        return tuple(filter(None, (self.get.place(corner, (*where, str(index))) for index, corner in enumerate(corners))))

    def check_points(self, drawing: Drawing, uses: Uses, points: tuple[str, ...]) -> None:
        """Where there are places, each point has one and each place is used; a slip of the pen is said where it stands."""
        if not drawing.places:
            return
        lines = [end for pair in drawing.joined for end in pair]
        times = {point: len(uses.get(point, ())) + lines.count(point) for point in points}
        said = set()
        for point, place, is_odd in find_odd_names(times, self.top["points"]):
            said |= {point, place}
            odd, right = (point, place) if is_odd else (place, point)
            where = uses[point][0] if is_odd else ("points", place)
            self.meant[odd] = right
            expected = "a point that has a place in [points]" if is_odd else "a point that a part or a joined line uses"
            self.get.note(where, expected, f'"{odd}"', f'did you mean "{right}"?', at_key=not is_odd)
        for point in points:
            if point not in self.top["points"] and point not in said:
                near = find_near(point, self.top["points"])
                way_out = f"add the line {point} = [x, y], or {f'write {near} in its stead' if near else 'leave [points] out'}"
                self.get.note(("points",), f"a place for every point, {point} too", f"none for {point}", way_out)
        for point in drawing.places:
            if point not in points and point not in said:
                expected, way_out = "only points that a part or a joined line uses", "take the line out, or name the point in a part"
                self.get.note(("points", point), expected, f"{point}, which none uses", way_out, at_key=True)

    def currents(self, parts: tuple[Part, ...], names: list[str]) -> tuple[AssumedCurrent, ...]:
        """[currents]: assumed directions that the author chose."""
        chosen = []
        for name, value in self.get.table(self.top.get("currents", {}), ("currents",), "a section [currents]").items():
            where = ("currents", name)
            self.get.name(name, where, "a name for a current", at_key=True)
            table = self.get.table(value, where, '{ through = "R1", toward = "c" }')
            self.get.known_keys(table, where, ("through", "toward"), "a key of an assumed direction")
            if is_misspelt(table, "through") or is_misspelt(table, "toward"):
                continue
            through = self.get.one_of(table.get("through"), (*where, "through"), names, "the name of the part it goes through")
            ends = next(((part.start, part.end) for part in parts if part.name == through and part.start and part.end), ())
            if any(self.meant.get(end, "") == table.get("toward") for end in ends):
                continue
            toward = self.get.one_of(table.get("toward"), (*where, "toward"), ends, f"an end of {through}") if ends else ""
            if toward:
                chosen.append(AssumedCurrent(name=name, through=through, toward=toward))
        return tuple(chosen)

    def loops(self, parts: list[str], points: tuple[str, ...]) -> tuple[ChosenLoop, ...]:
        """[loops]: closed walks that the author chose."""
        chosen = []
        for name, value in self.get.table(self.top.get("loops", {}), ("loops",), "a section [loops]").items():
            where = ("loops", name)
            self.get.name(name, where, "a name for a loop", at_key=True)
            table = self.get.table(value, where, '{ start = "a", through = ["E1", "R1"] }')
            self.get.known_keys(table, where, ("start", "through"), "a key of a loop")
            if is_misspelt(table, "start") or is_misspelt(table, "through"):
                continue
            start = self.get.one_of(table.get("start"), (*where, "start"), points, "the point where the walk begins")
            through = self.get.names(table.get("through"), (*where, "through"), parts, "the name of a part")
            if start and through:
                chosen.append(ChosenLoop(name=name, start=start, through=through))
        return tuple(chosen)

    def leave_out(self, points: tuple[str, ...]) -> str:
        """[equations]: the junction whose equation is not used."""
        table = self.get.table(self.top.get("equations", {}), ("equations",), "a section [equations]")
        self.get.known_keys(table, ("equations",), ("leave_out",), "a key of [equations]")
        if "leave_out" not in table:
            return ""
        return self.get.one_of(table["leave_out"], ("equations", "leave_out"), points, "the name of a junction")

    def check_distinct(self, parts: tuple[Part, ...], currents: tuple[AssumedCurrent, ...], loops: tuple[ChosenLoop, ...]) -> None:
        """A part, a current and a loop never share a name, or no sentence could tell them apart."""
        taken = {part.name: "part" for part in parts}
        for section, names in (("currents", currents), ("loops", loops)):
            for item in names:
                if item.name in taken:
                    self.get.note((section, item.name), "a name of its own", f"the name of a {taken[item.name]}", at_key=True)
                taken.setdefault(item.name, section[:-1])

    def refuse_given(self) -> None:
        """[given] belongs to unknown values, which are not worked out yet."""
        if "given" in self.top:
            self.get.note(
                ("given",), "no section [given]", "one", "unknown values are not worked out yet: give every part its value", at_key=True
            )
