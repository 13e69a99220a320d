"""Links of hand-written pages to examples: what the address asks for is there, as in a lesson's line.

    [the right loop](../examples/link-wire.md?flip=I1#loop-3)

The site generator looks at the page and the section; the choices between them would only fail on a student's phone.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from build_tools.circuit.problem import CircuitError, Problem, describe, did_you_mean, listed
from build_tools.circuit.report import write_problem
from build_tools.page.parts import PartKind
from build_tools.site.handwritten import HandWritten
from build_tools.site.lesson_lines import Asked, Spot, fault, find_marked, options, read_options
from build_tools.site.lessons import Workshop, WrongName, find_wrong_name

link = re.compile(r"\]\((?:[^()\s]*/)?examples/(?P<example>(?!index\.)[\w-]+)(?:\.md|/)(?:\?(?P<query>[^)#\s]*))?(?=[)#\s])")
modes = ("set", "step", "help")


def find_broken_links(pages: Iterable[HandWritten], workshop: Workshop) -> Iterator[str]:
    """The report of every link to an example that asks for what is not there."""
    for page in pages:
        for spot, found in find_marked(page.text, link):
            if problem := judge(spot, found["example"], found["query"] or "", workshop):
                yield write_problem(page.shown, problem.line, problem.column, problem, None)


def judge(spot: Spot, example: str, query: str, workshop: Workshop) -> Problem | None:
    """What is wrong with a link."""
    pairs = [pair for pair in query.split("&") if pair]
    for key in (pair.partition("=")[0] for pair in pairs):
        if key not in (*options, *modes):
            return fault(spot, f"a choice: {listed((*options, *modes), 'or')}", describe(key), did_you_mean(key, (*options, *modes)))
    chosen = [pair for pair in pairs if pair.partition("=")[0] in options]
    asked = read_options(spot, Asked(example=example, kind=PartKind.CARD), chosen)
    return asked if isinstance(asked, Problem) else try_out(asked, spot, workshop)


def try_out(asked: Asked, spot: Spot, workshop: Workshop) -> Problem | None:
    """What is wrong with the choices; where nothing is, that is kept as long as the circuit's file stays as it is."""

    def make() -> str:
        if problem := find_wrong_name(asked, spot, workshop):
            raise WrongName(problem)
        if asked.query:
            workshop.worked(asked)
        return ""

    path = workshop.circuits / f"{asked.example}.toml"
    try:
        workshop.keep.part(f"link {asked!r}", path.read_bytes() if path.is_file() else b"", make)
    except WrongName as wrong:
        return wrong.problem
    except CircuitError as error:
        return fault(spot, "choices that leave the circuit sound", "; ".join(map(str, error.problems)))
    return None
