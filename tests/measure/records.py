"""Print what `solve --json` prints for every demo and published circuit, one object a line, for the scripts beside this."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from build_tools.pipeline import find_files, solve_file

ROOT = Path(__file__).parents[2]
FOLDERS = {"demo": ROOT / "circuits", "published": ROOT / "tests" / "published" / "circuits"}


def main() -> None:
    """Every circuit with the folder it comes from."""
    for kind, folder in FOLDERS.items():
        for path in find_files(folder):
            sys.stdout.write(json.dumps({"kind": kind, "example": solve_file(path)}) + "\n")


if __name__ == "__main__":
    main()
