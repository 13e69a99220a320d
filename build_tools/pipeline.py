"""From a circuit file to a finished page: the stages, one after the other, and all files of a folder at once.

file  --read_source-->  CircuitSource  --read_circuit-->  Circuit  --work_out-->  WorkedCircuit
      --draw-->  Figure  --write_page-->  Page
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from build_tools.circuit.circuit import Circuit
from build_tools.circuit.formerly import refuse_claimed, refuse_taken
from build_tools.circuit.problem import CircuitError, Problem, describe
from build_tools.circuit.question import own_links
from build_tools.circuit.reading import read_circuit
from build_tools.circuit.report import write_report
from build_tools.circuit.source import CircuitSource, read_source
from build_tools.figure.overlaps import find_overlaps
from build_tools.laws.choices import apply_choices
from build_tools.laws.meaning import WorkedCircuit, work_out
from build_tools.laws.practice import take_set
from build_tools.laws.refusal import find_refusals
from build_tools.laws.remark import find_remarks
from build_tools.laws.solution import SecondOpinionError
from build_tools.laws.survey import find_topology
from build_tools.page.page import ids_of, tell_ids
from build_tools.page.record import write_record

if TYPE_CHECKING:
    from collections.abc import Callable

    from build_tools.figure.figure import Figure
    from build_tools.page.page import Page


Walks = tuple[tuple[str, tuple[str, ...]], ...]
"""Chosen loops, each its start and its parts in walking order."""


class FaultyCircuits(Exception):
    """Circuit files that cannot be used; its text is the whole report, for every file."""


class PageKeeper(Protocol):
    """Whoever keeps finished pages between builds."""

    def page(self, address: str, source: bytes, make: Callable[[], Page]) -> Page:
        """The kept page for this file, or a new one."""


def work_file(path: Path, *, practice: int = 0) -> WorkedCircuit:
    """Read and work out one circuit file.

    Args:
        path: the file.
        practice: the number of a set of practice values; 0 for the file's own.

    Raises:
        FaultyCircuits: with the report of all its faults.
    """
    with opened(path) as circuit:
        return work_out(take_set(find_topology(circuit), practice) if practice else circuit)


def check_file(path: Path) -> tuple[str, ...]:
    """Everything that can be wrong with one circuit file, its drawing too; raises as `work_file` does.

    Returns:
        Remarks on what is allowed but seldom meant.
    """
    with opened(path) as circuit:
        refuse_overlaps(circuit)
        refuse_taken_names(path, circuit.formerly)
        if own_links(circuit.question):
            make_page(path)
        return tuple(f"{path}: note: {remark}" for remark in find_remarks(work_out(circuit)))


def refuse_overlaps(circuit: Circuit) -> None:
    """A drawing in which parts lie on each other cannot be drawn as told; what else is impossible is said with it."""
    if problems := find_overlaps(circuit):
        refusals = find_refusals(circuit)
        # A plain line that shorts a battery lies on it as well, and there is only one thing to do about it.
        told = {problem.where for problem in refusals if problem.where[0] == "drawing"}
        raise CircuitError((*(problem for problem in problems if problem.where not in told), *refusals))


def refuse_taken_names(path: Path, formerly: Sequence[str]) -> None:
    """An old address that a circuit beside this one has now would lead to two places."""
    if formerly and (problems := tuple(refuse_taken(formerly, {each.stem.lower() for each in find_files(path.parent)}))):
        raise CircuitError(problems)


def solve_file(path: Path) -> dict[str, Any]:
    """One circuit file as the object that scripts may rely on; raises as `work_file` does."""
    return write_record(work_file(path))


def make_page(path: Path, *, resistors: str = "zigzag", batteries: str = "one cell") -> Page:
    """One circuit file as a finished page; raises as `work_file` does."""
    # Drawing and templates take half a second to load, which `solve` and `check` need not spend.
    from build_tools.figure.figure import draw_figure
    from build_tools.page.embed import embeds, measure
    from build_tools.page.showing import write_parts
    from build_tools.page.writing import figure_label, write_page

    with opened(path) as circuit:
        refuse_overlaps(circuit)
        worked = work_out(circuit)
        figure = draw_figure(worked.topology, resistors=resistors, batteries=batteries, label=figure_label(worked))
        page = replace(write_page(worked, figure), parts=write_parts(worked, figure))
        refuse_lost_links(circuit, ids_of(page))
        return replace(page, sizes={name: list(measure(page, name)) for name in embeds})


def refuse_lost_links(circuit: Circuit, ids: Collection[str]) -> None:
    """A link of the question to an id that the page does not have."""
    if lost := [name for name in own_links(circuit.question) if name not in ids]:
        raise CircuitError(
            Problem(where=("question",), expected="links to ids of its page", found=describe(f"#{name}"), way_out=tell_ids(name, ids))
            for name in lost
        )


def work_chosen(path: Path, *, flip: tuple[str, ...], leave_out: str, walk: Walks) -> WorkedCircuit:
    """One circuit file worked out with a reader's choices made.

    Raises:
        CircuitError: where a loop that was chosen does not close, or the like.
    """
    circuit = read_circuit(read_source(path))
    return work_out(apply_choices(find_topology(circuit), flip=flip, leave_out=leave_out, walk=walk))


def draw_chosen(worked: WorkedCircuit, *, resistors: str, batteries: str) -> Figure:
    """The figure of a circuit with choices made."""
    from build_tools.figure.figure import draw_figure
    from build_tools.page.writing import figure_label

    return draw_figure(worked.topology, resistors=resistors, batteries=batteries, label=figure_label(worked))


def work_folder(folder: Path, *, keep: PageKeeper, resistors: str = "zigzag", batteries: str = "one cell") -> tuple[Page, ...]:
    """Every circuit file of a folder as a finished page, in the order of their names.

    Raises:
        FaultyCircuits: with the report of all faults of all files.
    """
    pages, reports = [], []
    for path in find_files(folder):
        try:
            source = path.read_bytes() if path.is_file() else b""
            page = keep.page(path.stem, source, partial(make_page, path, resistors=resistors, batteries=batteries))
            # A kept page may be older than the circuit that took its old address.
            with reported(path, read=True):
                refuse_taken_names(path, page.formerly)
            pages.append(page)
        except FaultyCircuits as faulty:
            reports.append(str(faulty))
    reports += refuse_twins(folder)
    if reports:
        raise FaultyCircuits("\n".join(reports))
    return tuple(pages)


def find_files(folder: Path) -> tuple[Path, ...]:
    """The circuit files of a folder, in the order of their names."""
    return tuple(sorted(folder.glob("*.toml")))


def refuse_twins(folder: Path) -> Iterator[str]:
    """Two files whose names differ only in capital letters would have one address on many hosts."""
    seen: dict[str, Path] = {}
    for path in find_files(folder):
        twin = seen.setdefault(path.stem.lower(), path)
        if twin is not path:
            problem = Problem(
                where=(), expected="file names that differ by more than capital letters", found=f"{path.name} beside {twin.name}"
            )
            yield write_report(str(path), CircuitError([problem]))
    yield from refuse_claims(folder)


def refuse_claims(folder: Path) -> Iterator[str]:
    """Two files that name the same old address."""
    claims: dict[str, str] = {}
    for path in find_files(folder):
        if not path.is_file() or b"formerly" not in path.read_bytes():
            continue
        # What else is wrong with the file, or with its list, is in its own report.
        with suppress(CircuitError):
            source = read_source(path)
            if problems := tuple(refuse_claimed(listed_names(source.table.get("formerly")), claims, str(path))):
                yield write_report(str(path), CircuitError(problems), source)


def listed_names(value: object) -> list[str]:
    """The texts of a list that is not trusted; an empty text for what is none, so that places stay."""
    return [name if isinstance(name, str) else "" for name in value] if isinstance(value, list) else []


@contextmanager
def opened(path: Path) -> Iterator[Circuit]:
    """The checked circuit of a file; whatever is found wrong with it while it is in use goes into its report."""
    with reported(path) as sources:
        source = read_source(path)
        sources.append(source)
        yield read_checked(source)


def read_checked(source: CircuitSource) -> Circuit:
    """The circuit of a source; a short circuit in it is told whatever else is wrong with the drawing or the text."""
    try:
        return read_circuit(source)
    except CircuitError as error:
        shorts = [problem for problem in find_refusals(error.circuit) if problem.comes_first] if error.circuit else ()
        raise CircuitError((*error.problems, *shorts)) from error


@contextmanager
def reported(path: Path, *, read: bool = False) -> Iterator[list[CircuitSource]]:
    """Turn the faults of a file into its report; the source goes into the list as soon as it is read.

    Args:
        path: the file.
        read: whether to read it only where there is a fault to show.
    """
    sources: list[CircuitSource] = []
    try:
        yield sources
    except CircuitError as error:
        if read:
            sources.append(read_source(path))
        raise FaultyCircuits(write_report(str(path), error, next(iter(sources), None))) from error
    except SecondOpinionError as error:
        raise FaultyCircuits(f"{path}: {error}; this is a fault of build_tools: please report it with the file") from error
