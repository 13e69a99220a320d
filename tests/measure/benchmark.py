"""The benchmark: what solving, drawing, building and reading cost. It prints figures and asserts nothing.

python -m tests.measure.benchmark            solve, draw, builds of 10 and 100 examples, page weight, search index
python -m tests.measure.benchmark 300 1000   builds of so many examples instead
"""

from __future__ import annotations

import gzip
import os
import resource
import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from itertools import cycle, islice
from pathlib import Path
from statistics import mean, median
from tempfile import TemporaryDirectory
from time import perf_counter

from sympy import Matrix, Rational

from build_tools.circuit.circuit import Circuit
from build_tools.circuit.reading import read_circuit
from build_tools.circuit.source import read_source
from build_tools.figure.figure import draw_figure
from build_tools.laws import elimination
from build_tools.laws.equation import write_equations
from build_tools.laws.meaning import work_out
from build_tools.laws.survey import find_topology
from build_tools.page.writing import write_page

root = Path(__file__).parents[2]
files = sorted((root / "circuits").glob("*.toml"))
published = sorted((root / "tests/published/circuits").glob("*.toml"))


def main(sizes: Sequence[int]) -> None:
    """Print every figure."""
    print(f"{'':44} median     mean      worst")
    circuits = [read_circuit(read_source(path)) for path in (*files, *published)]
    worked = [work_out(circuit) for circuit in circuits]
    drawn = [draw_figure(each.topology) for each in worked[: len(files)]]
    report("read a file", [time(lambda path=path: read_circuit(read_source(path))) for path in files])
    report("work a circuit out, route by hand included", [time(lambda circuit=circuit: work_out(circuit)) for circuit in circuits])
    report(
        "draw a figure, coordinates given",
        [time(lambda each=each: draw_figure(each.topology)) for each in worked if each.circuit.drawing.places],
    )
    report(
        "lay out and draw, no coordinates",
        [time(lambda each=each: draw_figure(each.topology), 1) for each in worked if not each.circuit.drawing.places],
    )
    report("write a page", [time(lambda pair=pair: write_page(*pair)) for pair in zip(worked, drawn, strict=False)])
    compare_with_sympy(circuits)
    report("python -m build_tools solve FILE", [time(lambda path=path: run_solve(path), 1) for path in files[:8]])
    for size in sizes:
        measure_build(size)


def report(what: str, seconds: list[float]) -> None:
    """One line of figures in milliseconds."""
    print(f"{what:44} {1000 * median(seconds):6.1f} ms {1000 * mean(seconds):6.1f} ms {1000 * max(seconds):7.1f} ms")


def time(action: Callable[[], object], times: int = 3) -> float:
    """The shortest of a few runs [s]."""
    spent = []
    for _ in range(times):
        start = perf_counter()
        action()
        spent.append(perf_counter() - start)
    return min(spent)


def compare_with_sympy(circuits: Sequence[Circuit]) -> None:
    """Our elimination and sympy's on the same matrices."""
    ours, theirs = [], []
    for circuit in circuits:
        equations = write_equations(find_topology(circuit))
        if not equations.unknowns:
            continue
        matrix = Matrix([[Rational(value.numerator, value.denominator) for value in row] for row in equations.matrix])
        right = Matrix([Rational(value.numerator, value.denominator) for value in equations.right])
        ours.append(time(lambda equations=equations: elimination.solve(equations.matrix, equations.right)))
        theirs.append(time(lambda matrix=matrix, right=right: matrix.LUsolve(right), 1))
    report("exact elimination, ours", ours)
    report("exact elimination, sympy's LUsolve", theirs)


def run_solve(path: Path) -> None:
    """The command as its users run it."""
    subprocess.run([sys.executable, "-m", "build_tools", "solve", str(path), "--json"], cwd=root, check=True, capture_output=True)


def measure_build(size: int) -> None:
    """A site of so many examples, cold and warm, in a folder of its own."""
    with TemporaryDirectory() as folder:
        here = Path(folder)
        for name in ("docs", "build_tools"):
            shutil.copytree(root / name, here / name, ignore=shutil.ignore_patterns("__pycache__"))
        shutil.copy(root / "mkdocs.yml", here)
        (here / "circuits").mkdir()
        for number, path in enumerate(islice(cycle(files), size)):
            copied = path.stem if number < len(files) else f"{path.stem}-{number}"
            shutil.copy(path, here / "circuits" / f"{copied}.toml")
        keep_linked_examples(here)
        cold, warm = build(here), build(here)
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        pages = [gzip.compress(path.read_bytes()) for path in (here / "site/examples").glob("*/index.html")]
        index = gzip.compress((here / "site/search/search_index.json").read_bytes())
        listing = gzip.compress((here / "site/examples/index.html").read_bytes())
        print(
            f"{len(pages):5} examples: cold build {cold:.2f} s, warm {warm:.2f} s, peak {peak:.0f} MB; gzipped: page {median(map(len, pages)) / 1000:.1f} kB "
            f"(largest {max(map(len, pages)) / 1000:.1f}), list {len(listing) / 1000:.1f} kB, search index {len(index) / 1000:.1f} kB"
        )


def keep_linked_examples(here: Path) -> None:
    """Hand-written pages link to real examples, so these are kept in small sites too."""
    for path in files:
        shutil.copy(path, here / "circuits" / path.name)


def build(here: Path) -> float:
    """One build of the site [s]."""
    start = perf_counter()
    mkdocs = Path(sys.executable).with_name("mkdocs")
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    subprocess.run([mkdocs, "build", "--quiet", "--strict"], cwd=here, check=True, env=environment)
    return perf_counter() - start


if __name__ == "__main__":
    main([int(size) for size in sys.argv[1:]] or [10, 100])
