"""Lessons: pages that show parts of examples. All parts are worked out before anything is published."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from build_tools import pipeline
from build_tools.circuit.circuit import Circuit
from build_tools.circuit.problem import CircuitError, Problem, describe, find_near, listed
from build_tools.circuit.report import write_problem
from build_tools.laws.choices import parse_walk
from build_tools.laws.meaning import WorkedCircuit
from build_tools.page.page import Page
from build_tools.page.parts import PartKind, Source, read_layout, section_of
from build_tools.page.standalone import way
from build_tools.site.gone import Gone
from build_tools.site.handwritten import HandWritten
from build_tools.site.keep import Keep
from build_tools.site.lesson_lines import Asked, Spot, fault, find_spots, find_unfinished, read_asked

opening = re.compile(r"<p(?:\s[^>]*)?>")
seat = re.compile(r'<span data-part="(\d+)"></span>')
inline = (PartKind.CURRENT,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """The parts of one page, in the order in which it asks for them."""

    kinds: tuple[PartKind, ...] = ()
    parts: tuple[str, ...] = ()
    """Finished HTML."""


class WrongName(Exception):
    """A part was asked for by a name that there is not."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem)
        self.problem = problem


@dataclass(slots=True, kw_only=True)
class Workshop:
    """Works out what lessons ask for; what was worked out once is kept while the file stays as it is."""

    circuits: Path
    keep: Keep
    customs: Mapping[str, str]
    examples: Mapping[str, Page] = field(default_factory=dict)
    """By address."""
    gone: Mapping[str, Gone] = field(default_factory=dict)
    """What was taken away on purpose, by address."""
    successors: Mapping[str, str] = field(default_factory=dict)
    """For each recorded address at which nothing stands the one that may have taken its place."""
    _worked: dict[tuple[object, ...], WorkedCircuit] = field(default_factory=dict)
    _figures: dict[tuple[object, ...], str] = field(default_factory=dict)

    def worked(self, asked: Asked) -> tuple[WorkedCircuit, tuple[object, ...]]:
        """The circuit with the choices made, and the key under which it is kept."""
        path = self.circuits / f"{asked.example}.toml"
        key = (path.read_bytes(), asked.example, asked.query)
        if key not in self._worked:
            walk = tuple(map(parse_walk, asked.walk.split("_"))) if asked.walk else ()
            self._worked[key] = pipeline.work_chosen(path, flip=asked.flip, leave_out=asked.leave_out, walk=walk)
        return self._worked[key], key

    def figure(self, asked: Asked, page: Page) -> str:
        """The drawing; the page's own where nothing was chosen."""
        if not asked.query:
            return page.figure
        worked, key = self.worked(asked)
        if key not in self._figures:
            self._figures[key] = pipeline.draw_chosen(worked, **self.customs).svg
        return self._figures[key]

    def make(self, asked: Asked, here: str) -> str:
        """One part for the page at the address `here`, made anew."""
        # What writes parts takes long to load, and a build whose parts are kept does not need it.
        from build_tools.page.showing import render_part

        page, name, worked = self.examples[f"examples/{asked.example}/"], asked.name, self.worked(asked)[0]
        if asked.kind is PartKind.CHECK:
            # A check turns arrows by itself, so it starts from the directions of the page.
            name, worked = ".".join(asked.flip), self.worked(replace(asked, flip=()))[0]
        figure = self.figure(asked, page) if asked.kind is PartKind.FIGURE else ""
        section = section_of[asked.kind]
        if asked.kind is PartKind.LOOP:
            section = f"loop-{asked.name}"
        href = way(here, f"examples/{asked.example}/") + asked.query + (f"#{section}" if section else "")
        source = Source(href=href, title=page.title, summary=page.summary)
        return render_part(asked.kind, name, worked, figure=figure, layout=read_layout(page.blocks["layout"]), source=source)


def write_lessons(pages: Iterable[HandWritten], workshop: Workshop) -> tuple[dict[str, Lesson], list[str]]:
    """The lesson of every page that is one, by source, and the reports of all faults."""
    lessons: dict[str, Lesson] = {}
    reports: list[str] = []
    for page in pages:
        kinds, parts = [], []
        reports += [write_problem(page.shown, each.line, each.column, each, None) for each in find_unfinished(page.text)]
        for spot in find_spots(page.text):
            made = answer(spot, page.address, workshop)
            if isinstance(made, Problem):
                reports.append(write_problem(page.shown, made.line, made.column, made, None))
            else:
                kinds.append(made[0])
                parts.append(made[1])
        if parts:
            lessons[page.source] = Lesson(kinds=tuple(kinds), parts=tuple(parts))
    return lessons, reports


def answer(spot: Spot, here: str, workshop: Workshop) -> tuple[PartKind, str] | Problem:
    """The part that is asked for at a spot, or what is wrong there."""
    asked = read_asked(spot)
    if isinstance(asked, Problem):
        return asked

    made = attempt(asked, spot, workshop, f"{asked!r} {here}", lambda: workshop.make(asked, here))
    return made if isinstance(made, Problem) else (asked.kind, made)


def attempt(asked: Asked, spot: Spot, workshop: Workshop, key: str, make: Callable[[], str]) -> str | Problem:
    """What is made of what was asked for, kept as long as the circuit's file stays as it is; or what is wrong with it."""

    def checked() -> str:
        if problem := find_wrong_name(asked, spot, workshop):
            raise WrongName(problem)
        return make()

    path = workshop.circuits / f"{asked.example}.toml"
    try:
        return workshop.keep.part(key, path.read_bytes() if path.is_file() else b"", checked)
    except WrongName as wrong:
        return wrong.problem
    except CircuitError as error:
        return fault(spot, "choices that leave the circuit sound", "; ".join(map(str, error.problems)))


def find_wrong_name(asked: Asked, spot: Spot, workshop: Workshop) -> Problem | None:
    """The first name that the example does not have."""
    if f"examples/{asked.example}/" not in workshop.examples:
        return fault(spot, "the name of an example", describe(asked.example), tell_missing(asked.example, workshop))
    if not (asked.name or asked.query):
        return None
    worked, _ = workshop.worked(Asked(example=asked.example, kind=asked.kind))
    currents = worked.equations.unknowns
    for name in asked.flip:
        if name not in currents:
            return unknown(spot, "current to turn round", name, currents)
    junctions = worked.topology.junctions
    if asked.leave_out and not any(asked.leave_out in junction.points for junction in junctions):
        return unknown(spot, "junction to leave out", asked.leave_out, tuple(junction.name for junction in junctions))
    if wrong := find_wrong_walk(asked, spot, worked.circuit):
        return wrong
    if asked.kind is PartKind.CURRENT and asked.name not in currents:
        return unknown(spot, "current", asked.name, currents)
    if asked.kind is PartKind.LOOP:
        return find_wrong_loop(asked, spot, workshop)
    return None


def tell_missing(name: str, workshop: Workshop, written: Callable[[str], str] = str) -> str:
    """What became of an example, or which was meant, in the way that names of examples are written there."""
    if said := workshop.gone.get(f"examples/{name}/"):
        return f"it was taken away: {said.why}"
    renamed = next((page.address for page in workshop.examples.values() if name in page.formerly), "")
    if renamed:
        return f'it is called "{written(renamed)}" now'
    if guess := workshop.successors.get(f"examples/{name}/", "").removeprefix("examples/").rstrip("/"):
        return f'perhaps it is called "{written(guess)}" now'
    near = find_near(name, [page.address for page in workshop.examples.values()])
    return f'did you mean "{written(near)}"?' if near else ""


def find_wrong_walk(asked: Asked, spot: Spot, circuit: Circuit) -> Problem | None:
    """The first point or part of a walk that the circuit does not have; whether the walk closes is seen later."""
    for start, through in map(parse_walk, filter(None, asked.walk.split("_"))):
        if start not in circuit.points:
            return unknown(spot, "point where a walk starts", start, tuple(circuit.points))
        for name in through or ("",):
            if name not in circuit.part:
                return unknown(spot, "part to walk through", name, tuple(circuit.part))
    return None


def find_wrong_loop(asked: Asked, spot: Spot, workshop: Workshop) -> Problem | None:
    """A loop is named as on the page; chosen loops take the names of the page's own in turn."""
    try:
        loops = tuple(loop.name for loop in workshop.worked(asked)[0].topology.loops)
    except CircuitError:
        return None
    return None if asked.name in loops else unknown(spot, "loop", asked.name, loops)


def unknown(spot: Spot, what: str, name: str, known: tuple[str, ...]) -> Problem:
    """A name that is none of those there are."""
    way_out = f"there {'is' if len(known) == 1 else 'are'} {listed(known)}" if known else "there is none here"
    return fault(spot, f"the name of a {what}", describe(name), way_out)


def leave_places(markdown: str) -> str:
    """The page with an empty place for each part, which Markdown leaves as it is."""
    written, at = [], 0
    for number, spot in enumerate(find_spots(markdown)):
        written += [markdown[at : spot.start], f'<span data-part="{number}"></span>']
        at = spot.end
    return "".join((*written, markdown[at:]))


def fill_places(output: str, lesson: Lesson) -> str:
    """The page with its parts in their places; a paragraph ends before a part that is more than a few words, and goes on after it."""

    def filled(match: re.Match[str]) -> str:
        number = int(match[1])
        return lesson.parts[number]

    def split(paragraph: re.Match[str]) -> str:
        pieces = [""]
        start, at = opening.match(paragraph[0]), 0
        first = start[0] if start else "<p>"
        body = paragraph[0][len(first) : -len("</p>")]
        for match in seat.finditer(body):
            pieces[-1] += body[at : match.start()]
            at = match.end()
            if lesson.kinds[int(match[1])] in inline:
                pieces[-1] += match[0]
            else:
                pieces += [match[0], ""]
        pieces[-1] += body[at:]
        return "".join(piece if number % 2 else f"{first}{piece}</p>" if piece.strip() else "" for number, piece in enumerate(pieces))

    return seat.sub(filled, re.sub(r"<p(?:\s[^>]*)?>(?:(?!</p>).)*?data-part(?:(?!</p>).)*</p>", split, output, flags=re.S))
