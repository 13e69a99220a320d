"""Links to pages and examples, what they name must be there before anything is published."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.site.library import pump, write

Publish = Callable[[Path], str]

wrong = [
    ("bilge-pump.md?flip=I9", 'the name of a current to turn round, got "I9"', "there are I1, I2 and I3"),
    ("bilge-pump.md?flp=I3", 'expected a choice: flip, leave-out, walk, set, step or help, got "flp"', 'did you mean "flip"?'),
    ("bilge-pump.md?set=7&leave-out=z#loops", 'the name of a junction to leave out, got "z"', "there are c and d"),
    ("bilge-pump.md?walk=a.E1.R9", 'the name of a part to walk through, got "R9"', "there are E1, R1, R3, R2, E2, W1 and W2"),
    ("bilge-pump.md?walk=z.E1", 'the name of a point where a walk starts, got "z"', "there are a, b, c, d, e and f"),
    ("bilge-pump.md?walk=a", "the name of a part to walk through", "there are E1"),
    ("bilge-pump.md?walk=a.E1.R1.R3.W1_a.E1.R3", "choices that leave the circuit sound", "expected a part that begins at b"),
    ("bilge-pump.md?set=700", "expected a number from 1 to 99 after “set=”", 'got "700"'),
    ("bilge-pump.md?help=some", "expected first or all after “help=”", 'got "some"'),
    ("bilge-pump.md#loop", 'an id on the page of the example, got "#loop"', "there are #loop-L1 and #loop-L2"),
    ("bilge-pump.md#currants", 'got "#currants"', 'did you mean "currents"?'),
    ("bilge-pomp.md", "expected the source of a page", 'did you mean "bilge-pump"?'),
    ("old-pump.md#loops", "expected the source of a page", 'it is called "bilge-pump" now'),
    ("../ideas/sings.md", "expected the source of a page", 'signs.md"?'),
    ("../old/signs.md", "expected the source of a page", 'signs.md" now'),
]


@pytest.fixture
def shelf(library: Path) -> Path:
    """The library with a renamed example and a page that moved."""
    write(library / "circuits/bilge-pump.toml", 'formerly = ["old-pump"]\n' + pump)
    write(library / "docs/ideas/signs.md", "---\nformerly: old/signs\n---\n\n# Signs\n\n## Arrow\n")
    return library


@pytest.mark.parametrize(("link", "expected", "way_out"), wrong)
def test_a_wrong_link_of_a_page_is_refused(
    shelf: Path, publish: Publish, caplog: pytest.LogCaptureFixture, link: str, expected: str, way_out: str
) -> None:
    """With file, line and way out, in each form of link; the site that is built stays."""
    write(shelf / "docs/lessons/one.md", f"# One\n\n[x](../examples/{link})\n\n[y]\n\n[y]: <../examples/{link}>\n")
    with pytest.raises(SystemExit):
        publish(shelf)
    assert "docs/lessons/one.md:3: " in caplog.text
    assert "docs/lessons/one.md:7: " in caplog.text
    assert expected in caplog.text
    assert way_out in caplog.text


def test_what_is_right_is_published(shelf: Path, publish: Publish) -> None:
    """Choices in any number, loops that make no whole set, a page that is gone, code, and links elsewhere."""
    write(shelf / "docs/gone.toml", '["examples/row/"]\nwhy = "It sank."\n')
    links = [
        "bilge-pump.md?flip=I1.I3&leave-out=d&set=12&step=loops&help=first#by-hand",
        "bilge-pump.md?walk=a.E1.R1.R3.W1",
        "row.md",
        "../examples/index.md",
        "porch-lamp.md",
    ]
    text = "\n".join(f"[x](../examples/{link})" for link in links)
    write(
        shelf / "docs/lessons/one.md",
        f"# One\n\n{text} `[x](no.md)` [y](https://boathouse.example/examples/no.md) [v](https://school.example/examples/no/) [z](#one)\n",
    )
    publish(shelf)
