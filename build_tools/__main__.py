"""The command line: `python -m build_tools solve | check | new | record | compare`.

Exit status 0: done; 1: the circuits have faults (reported on standard error); 2: wrong usage.
"""

from __future__ import annotations

import argparse
import json
import os
import re
import sys
from collections.abc import Sequence
from io import TextIOWrapper
from pathlib import Path

from build_tools.answer import write_answer
from build_tools.circuit.starter import starter_text
from build_tools.laws.practice import most_sets, set_number
from build_tools.page.record import write_record
from build_tools.pipeline import FaultyCircuits, check_file, find_files, refuse_twins, work_file
from build_tools.site.built import read_site
from build_tools.site.comparing import compare_sites
from build_tools.site.published import UnreadableRecord, add_site, read_published, write_published

circuits = Path("circuits")
published = Path("docs/published.toml")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit status."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(encoding="utf-8")
    chosen = build_parser().parse_args(arguments)
    try:
        return int(chosen.run(chosen))
    except FaultyCircuits as faulty:
        print(faulty, file=sys.stderr)
        return 1
    except BrokenPipeError:
        # Whoever read our output has seen enough; keep Python from complaining about it at the end.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0


def build_parser() -> argparse.ArgumentParser:
    """The commands and what they take."""
    parser = argparse.ArgumentParser(prog="python -m build_tools", description="Work out multi-loop DC circuits from short files.")
    commands = parser.add_subparsers(required=True, metavar="solve | check | new | record | compare")
    solve = commands.add_parser("solve", help="work out one circuit and print the answers")
    solve.add_argument("file", type=Path, metavar="FILE", help="a circuit file")
    solve.add_argument("--json", action="store_true", help="print the whole solution as one JSON object")
    sets = f"with practice values, as on the page with ?set=N: 1 to {most_sets}"
    solve.add_argument("--set", type=read_set_number, default=0, metavar="N", help=sets)
    solve.set_defaults(run=solve_one)
    check = commands.add_parser("check", help="report every fault of circuit files")
    check.add_argument("paths", type=Path, nargs="*", metavar="FILE or FOLDER", help=f"default: the folder {circuits}")
    check.set_defaults(run=check_all)
    new = commands.add_parser("new", help="write a commented circuit file that already solves")
    new.add_argument("name", metavar="NAME", help="its address: small letters, digits and hyphens")
    new.set_defaults(run=start_new)
    record = commands.add_parser("record", help="after publishing: keep every address of the site on record")
    record.add_argument(
        "site", type=Path, nargs="?", default=Path("site"), metavar="SITE", help="the folder that was published; default: site"
    )
    record.set_defaults(run=record_site)
    compare = commands.add_parser("compare", help="say which addresses, examples and answers changed from one built site to another")
    compare.add_argument("old", type=Path, metavar="OLD_SITE")
    compare.add_argument("new", type=Path, metavar="NEW_SITE")
    compare.set_defaults(run=compare_built)
    return parser


def read_set_number(text: str) -> int:
    """The number of a set of practice values; anything else is wrong usage."""
    if set_number.fullmatch(text):
        return int(text)
    raise argparse.ArgumentTypeError(f"expected a whole number from 1 to {most_sets}, got {text}: each is a set of practice values")


def solve_one(chosen: argparse.Namespace) -> int:
    """Print the solution of one circuit."""
    worked = work_file(chosen.file, practice=chosen.set)
    if chosen.json:
        print(json.dumps(write_record(worked), ensure_ascii=False, indent=2))
    else:
        print(write_answer(worked, practice=chosen.set))
    return 0


def check_all(chosen: argparse.Namespace) -> int:
    """Report the faults of every file named, and of every file in a folder named."""
    reports: list[str] = []
    paths: list[Path] = []
    remarks: list[str] = []
    for path in chosen.paths or [circuits]:
        paths += find_files(path) if path.is_dir() else [path]
        reports += refuse_twins(path) if path.is_dir() else ()
        if path.is_dir() and not find_files(path):
            reports.append(f"{path}: expected circuit files, NAME.toml, got none\n    circuits stand in {circuits}/")
    for path in paths:
        try:
            remarks += check_file(path)
        except FaultyCircuits as faulty:
            reports.append(str(faulty))
    for remark in remarks:
        print(remark)
    if reports:
        raise FaultyCircuits("\n".join(reports))
    print(f"{len(paths)} circuit{'s' if len(paths) != 1 else ''}, no faults")
    return 0


def start_new(chosen: argparse.Namespace) -> int:
    """Write a circuit file to begin with."""
    name = chosen.name.removesuffix(".toml")
    if not re.fullmatch(r"[a-z0-9][a-z0-9-]{0,79}", name):
        print(f'new: expected a name of small letters, digits and hyphens, got "{name}"', file=sys.stderr)
        return 2
    path = circuits / f"{name}.toml"
    try:
        circuits.mkdir(exist_ok=True)
        with path.open("x", encoding="utf-8") as file:
            file.write(starter_text(name))
    except FileExistsError:
        print(f"new: expected a name that is free, got {path}, which is there already", file=sys.stderr)
        return 2
    except OSError as error:
        print(f"new: expected to write {path}, got “{(error.strerror or 'no access').lower()}”", file=sys.stderr)
        return 2
    print(f"{path} is written and already solves: change it line by line, then run python -m build_tools check {path}")
    return 0


def record_site(chosen: argparse.Namespace) -> int:
    """Add a published site to the record of addresses."""
    if not is_site(chosen.site):
        return 2
    try:
        recorded = read_published(published)
        grown = add_site(recorded, read_site(chosen.site))
        write_published(published, grown)
    except (UnreadableRecord, OSError) as error:
        print(f"record: {error}", file=sys.stderr)
        return 1
    print(f"{published}: {len(grown)} addresses, {len(grown) - len(recorded)} of them new")
    return 0


def compare_built(chosen: argparse.Namespace) -> int:
    """Print what changed from one built site to another."""
    if not (is_site(chosen.old) and is_site(chosen.new)):
        return 2
    differences = tuple(compare_sites(chosen.old, chosen.new))
    print("\n".join(differences) or "the same addresses, examples and answers")
    return 0


def is_site(folder: Path) -> bool:
    """Whether a folder holds a built site; says so where it does not."""
    if (folder / "index.html").is_file():
        return True
    print(f"expected the folder of a built site, got {folder}: build it first, mkdocs build --site-dir {folder}", file=sys.stderr)
    return False


if __name__ == "__main__":
    sys.exit(main())
