"""A site that grows: so many different circuits, and what build, memory, pages, list and search index then cost.

    python -m tests.measure.grow             100, 300 and 1,000 circuits
    python -m tests.measure.grow 100 200     so many instead

It prints figures and asserts nothing. The aims are those of the findings: see `aims`.
"""

from __future__ import annotations

import gzip
import random
import resource
import shutil
import sys
from collections.abc import Sequence
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from tests.measure.benchmark import build, root

aims = """aims: 1,000 cost at most 11 times what 100 cost; warm build 1.2 s at 100, 8 s at 1,000; peak 200 MB;
page 14 kB gzipped; search index 6 kB at 100, 40 kB at 1,000"""
things = ("lamp", "pump", "heater", "charger", "horn", "radio", "fridge", "winch", "kettle", "compass light", "fan", "gauge")
places = (
    "on the pontoon",
    "in the boat hall",
    "at the jetty",
    "in the mess room",
    "on the launch",
    "in the dinghy",
    "by the slipway",
    "in the workshop",
)
feelings = ("quiet", "tired", "new", "old", "borrowed", "forgotten", "bright", "patient", "spare", "stubborn", "winter", "summer")
levels = ("first steps", "core", "stretch")
topics = (
    "two batteries",
    "bare wire",
    "charging",
    "internal resistance",
    "parallel parts",
    "bridge",
    "negative answer",
    "one loop",
    "meters",
    "switch",
)
numbers = ("1", "1.2", "1.5", "1.8", "2.2", "2.7", "3.3", "3.9", "4.7", "5.6", "6.8", "8.2", "10", "12", "15", "18", "22", "27", "33", "47")


def main(sizes: Sequence[int]) -> None:
    """Build each size twice, and compare."""
    print(aims)
    with TemporaryDirectory() as folder:
        for size in sizes:
            measure(Path(folder) / str(size), size)


def measure(here: Path, size: int) -> None:
    """One size: cold, warm, and what it weighs."""
    here.mkdir()
    for name in ("docs", "build_tools", "circuits"):
        shutil.copytree(root / name, here / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(root / "mkdocs.yml", here)
    real = len(list((here / "circuits").glob("*.toml")))
    for number in range(max(0, size - real)):
        (here / f"circuits/grown-{number}.toml").write_text(write_circuit(number), encoding="utf-8")
    spent = [processor()]
    cold, spent = build(here), [*spent, processor()]
    warm, spent = build(here), [*spent, processor()]
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    pages = [packed(path) for path in (here / "site/examples").glob("*/index.html")]
    whole = sum(path.stat().st_size for path in (here / "site").rglob("*") if path.is_file())
    print(
        f"{len(pages):5} circuits: cold {cold:6.2f} s (processor {spent[1] - spent[0]:.2f}), warm {warm:5.2f} s (processor {spent[2] - spent[1]:.2f}), peak {peak:.0f} MB; "
        f"gzipped: page {median(pages) / 1000:.1f} kB (largest {max(pages) / 1000:.1f}), list {packed(here / 'site/examples/index.html') / 1000:.1f} kB, "
        f"search index {packed(here / 'site/search/search_index.json') / 1000:.1f} kB, examples.json {packed(here / 'site/examples.json') / 1000:.1f} kB; "
        f"site {whole / 1e6:.0f} MB",
        flush=True,
    )


def processor() -> float:
    """Time that builds have cost the processor so far, which other work on the machine does not stretch [s]."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def packed(path: Path) -> int:
    """Size of a file, gzipped [bytes]."""
    return len(gzip.compress(path.read_bytes()))


def write_circuit(number: int) -> str:
    """One circuit, always the same for a number: two to four branches between two junctions, with a battery in the first."""
    chance = random.Random(number)
    thing, place, feeling = chance.choice(things), chance.choice(places), chance.choice(feelings)
    branches = chance.randint(2, 4)
    emf, inner = chance.choice(("12 V", "12.6 V", "24 V", "6 V", "9 V")), chance.choice(("0.1", "0.2", "0.5"))
    lines = [f'E1 = {{ battery = "{emf}", minus = "a", plus = "p", internal_resistance = "{inner} ohm" }}']
    lines.append(f'R1 = {{ resistor = "{chance.choice(numbers)} ohm", between = ["p", "b"] }}')
    for branch in range(2, branches + 1):
        if chance.random() < 0.4:
            lines.append(f'E{branch} = {{ battery = "{chance.choice(numbers[:14])} V", minus = "a", plus = "q{branch}" }}')
            lines.append(f'R{branch} = {{ resistor = "{chance.choice(numbers)} ohm", between = ["q{branch}", "b"] }}')
        else:
            lines.append(f'R{branch} = {{ resistor = "{chance.choice(numbers)} ohm", between = ["b", "a"] }}')
    asked = f"R{chance.randint(1, branches)}"
    told = ", ".join(f'"{topic}"' for topic in chance.sample(topics, chance.randint(1, 3)))
    return (
        f'title = "The {feeling} {thing} {place}, {number}"\n'
        f'question = "A {feeling} {thing} {place} has {branches} branches. Find the current through {asked}, and say which way it goes."\n'
        f'level = "{levels[min(2, branches - 2)]}"\ntopics = [{told}]\nasked = ["{asked}"]\n\n[parts]\n' + "\n".join(lines) + "\n"
    )


if __name__ == "__main__":
    main([int(size) for size in sys.argv[1:]] or [100, 300, 1000])
