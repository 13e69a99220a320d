"""Two builds side by side: nothing goes out unseen."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from build_tools.__main__ import main
from tests.site.library import lamp, pump, write

Publish = Callable[[Path], str]
Change = Callable[[Path], None]


def leave_it(library: Path) -> None:
    """Nothing."""


def rename(library: Path) -> None:
    """The lamp goes to another address, which its file says."""
    (library / "circuits/porch-lamp.toml").unlink()
    write(library / "circuits/stern-lamp.toml", 'formerly = ["porch-lamp"]\n' + lamp)


def rename_and_revalue(library: Path) -> None:
    """The lamp goes to another address, and has another resistance there."""
    rename(library)
    write(library / "circuits/stern-lamp.toml", 'formerly = ["porch-lamp"]\n' + lamp.replace("4 ohm", "3 ohm"))


def take_away(library: Path) -> None:
    """The lamp is no more, and a page says so."""
    (library / "circuits/porch-lamp.toml").unlink()
    write(library / "docs/gone.toml", '["examples/porch-lamp/"]\nwhy = "It fell into the water."\n')


def take_lesson_away(library: Path) -> None:
    """A page in the folder of examples, no example itself, is no more, and a page says so."""
    (library / "docs/examples/notes.md").unlink()
    write(library / "docs/gone.toml", '["examples/notes/"]\nwhy = "It was out of date."\n')


def forget(library: Path) -> None:
    """The lamp is no more, and nothing says so."""
    (library / "circuits/porch-lamp.toml").unlink()


def revalue(library: Path) -> None:
    """The lamp has another resistance."""
    write(library / "circuits/porch-lamp.toml", lamp.replace("4 ohm", "3 ohm"))


def walk_elsewhere(library: Path) -> None:
    """The pump's second loop is another one."""
    loops = '\n[loops]\nL1 = { start = "a", through = ["E1", "R1", "R3", "W1"] }\nL2 = { start = "a", through = ["E1", "R1", "R2", "E2", "W2", "W1"] }\n'
    write(library / "circuits/bilge-pump.toml", pump + loops)


@pytest.mark.parametrize(
    ("change", "lines"),
    [
        (leave_it, []),
        (rename, ["renamed         examples/porch-lamp/  is examples/stern-lamp/ now"]),
        (
            rename_and_revalue,
            [
                "renamed         examples/porch-lamp/  is examples/stern-lamp/ now",
                "changed         examples/stern-lamp/  equations",
                "changed parts   examples/stern-lamp/  R1",
                "other sets      examples/stern-lamp/  links with ?set=N that you gave out show other numbers now",
                "other answers   examples/stern-lamp/  I1 3 A → 4 A",
            ],
        ),
        (
            take_away,
            ["lost ids        examples/  #first-steps", "gone            examples/porch-lamp/  a page says so where the example stood"],
        ),
        (take_lesson_away, ["gone            examples/notes/  a page says so where it stood"]),
        (forget, ["lost address    examples/porch-lamp/", "lost ids        examples/  #first-steps"]),
        (
            revalue,
            [
                "changed         examples/porch-lamp/  equations",
                "changed parts   examples/porch-lamp/  R1",
                "other sets      examples/porch-lamp/  links with ?set=N that you gave out show other numbers now",
                "other answers   examples/porch-lamp/  I1 3 A → 4 A",
            ],
        ),
        (
            walk_elsewhere,
            [
                "changed         examples/bilge-pump/  loops, equations",
                "other places    examples/bilge-pump/  #loop-3 was E2, R2, R3, W2, is E1, E2, R1, R2, W1, W2; "
                "#loop-L2 was E2, R2, R3, W2, is E1, E2, R1, R2, W1, W2",
            ],
        ),
    ],
)
def test_each_difference_is_told_once(
    library: Path, publish: Publish, capsys: pytest.CaptureFixture[str], change: Change, lines: list[str]
) -> None:
    """By the line that says what it means for those who link there."""
    write(library / "docs/examples/notes.md", "# Notes\n")
    publish(library)
    shutil.copytree(library / "site", library / "old")
    change(library)
    publish(library)
    capsys.readouterr()
    assert main(["compare", "old", "site"]) == 0
    told = [line for line in capsys.readouterr().out.splitlines() if line.split("  ")[0] and "examples/" in line]
    assert told == lines
