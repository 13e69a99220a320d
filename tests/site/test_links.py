"""Links to pages and examples, what they name must be there before anything is published."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from build_tools.__main__ import main
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
    ("bilge-pump.md#currants", 'got "#currants"', 'did you mean "#currents"?'),
    ("bilge-pomp.md", "expected the source of a page", 'did you mean "../examples/bilge-pump.md"?'),
    ("old-pump.md#loops", "expected the source of a page", 'it is called "../examples/bilge-pump.md" now'),
    ("bilge-pump.md?flip=I1,I3", 'got "flip=I1,I3"', "put dots between: I1.I3"),
    ("bilge-pump.md?flip=I1 #loop-L1", "expected an address without spaces", 'write "../examples/bilge-pump.md?flip=I1#loop-L1"'),
    ("../ideas/signs.md#arow", "expected an id on the page docs/ideas/signs.md", 'did you mean "#arrow"?'),
    ("../ideas/signs.md#x", 'docs/ideas/signs.md, got "#x"', "there are #arrow and #signs"),
    ("../lessons/one.md#nowhere", "expected an id on the page docs/lessons/one.md", "there are #one"),
    ("../assets/mork.svg", "expected a file in the folder of the pages", 'did you mean "../assets/mark.svg"?'),
    ("../assets/x.png", "expected a file in the folder of the pages", "put it there, or take the link out"),
    ("../lessons/won.md", "expected the source of a page", ""),
    ("indeed.md", "expected the source of a page", ""),
    ("bilge-pump/", "expected the source of a page", ""),
    ("../ideas/sings.md", "expected the source of a page", 'signs.md"?'),
    ("../old/signs.md", "expected the source of a page", 'signs.md" now'),
]


wrong_addresses = [
    ("examples/bilge-pump/?flip=I9", 'the name of a current to turn round, got "I9"', "there are I1, I2 and I3"),
    ("examples/bilge-pump#loop-9", 'an id on the page of the example, got "#loop-9"', "there are #loop-L1 and #loop-L2"),
    ("examples/bilge-pump/index.html?set=700", "expected a number from 1 to 99", 'got "700"'),
    ("examples/bilge-pomp/", "expected the address of a page", "examples/bilge-pump/"),
    ("embed/bilge-pomp/", "expected the address of a page", "embed/bilge-pump/"),
    ("ideas/sings/", "expected the address of a page", "ideas/signs/"),
    ("ideas/signs.md", "expected the address of a page", "ideas/signs/"),
]
"""Where they lead, from the root of the site."""


@pytest.fixture
def shelf(library: Path) -> Path:
    """The library with a renamed example and a page that moved."""
    write(library / "circuits/bilge-pump.toml", 'formerly = ["old-pump"]\n' + pump)
    write(library / "docs/ideas/signs.md", "---\nformerly: old/signs\n---\n\n# Signs\n\n## Arrow\n")
    write(library / "docs/assets/mark.svg", "<svg/>")
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


@pytest.mark.parametrize(("address", "expected", "way_out"), wrong_addresses)
def test_a_wrong_address_is_refused(
    shelf: Path, publish: Publish, caplog: pytest.LogCaptureFixture, address: str, expected: str, way_out: str
) -> None:
    """In a link of HTML, which starts from the page's address, and in full, in each form of link."""
    own = f"https://boathouse.example/{address}"
    forms = (
        f'<a class="x" href="../../{address}">x</a>',
        f"<a href='/{address}'>",
        f"<a href={own}>",
        f"<{own}>",
        f"[x]({own})",
        f"[x](<{own}>)",
    )
    write(shelf / "docs/lessons/one.md", "# One\n\n" + "\n\n".join(forms) + "\n")
    with pytest.raises(SystemExit):
        publish(shelf)
    assert [number for number in range(3, 14) if f"docs/lessons/one.md:{number}: " in caplog.text] == [3, 5, 7, 9, 11, 13]
    assert caplog.text.count("docs/lessons/one.md:") == len(forms)
    assert expected in caplog.text
    assert way_out in caplog.text
    if "did you mean" in caplog.text:
        assert f'did you mean "../../{way_out}"?' in caplog.text
        assert f'did you mean "https://boathouse.example/{way_out}"?' in caplog.text


def test_right_addresses_are_published(shelf: Path, publish: Publish) -> None:
    """Pages, old addresses that lead on, what is gone, light pages, files, and what only looks like the own site."""
    write(shelf / "docs/gone.toml", '["examples/row/"]\nwhy = "It sank."\n')
    addresses = [
        "",
        "index.html",
        "examples/",
        "examples/bilge-pump/?flip=I1.I3&set=12#by-hand",
        "examples/porch-lamp",
        "examples/old-pump/#loops",
        "old/signs/",
        "ideas/signs/#arrow",
        "embed/bilge-pump/",
        "embed/bilge-pump/figure.html",
        "examples/row/",
        "examples.json",
        "assets/no.svg",
    ]
    links = [f'<a href="{start}{each}">x</a>' for each in addresses for start in ("../../", "https://boathouse.example/")]
    elsewhere = ["#one", "?x=1", "mailto:x@y.example", "https://x.example/no/"]
    links += [f'<a href="{each}">x</a>' for each in elsewhere] + ['<a name="x">', '`<a href="no/">`', "<https://y.example/>"]
    write(shelf / "docs/lessons/one.md", f"# One\n\n{' '.join(links)}\n")
    publish(shelf)


def test_what_is_right_is_published(shelf: Path, publish: Publish) -> None:
    """Choices in any number, loops that make no whole set, a page that is gone, code, and links elsewhere."""
    write(shelf / "docs/gone.toml", '["examples/row/"]\nwhy = "It sank."\n')
    links = [
        "bilge-pump.md?flip=I1.I3&leave-out=d&set=12&step=loops&help=first#by-hand",
        "bilge-pump.md?walk=a.E1.R1.R3.W1",
        "row.md",
        "../examples/index.md",
        "../ideas/signs.md#arrow",
        "../assets/mark.svg",
        "porch-lamp.md",
    ]
    text = "\n".join(f"[x](../examples/{link})" for link in links)
    write(
        shelf / "docs/lessons/one.md",
        f"# One\n\n{text} `[x](no.md)` [y](https://boathouse.example.x.example/no.md) [v](https://school.example/examples/no/) [z](#one)\n",
    )
    publish(shelf)


def test_a_place_on_the_page_itself_must_be_there(shelf: Path, publish: Publish, caplog: pytest.LogCaptureFixture) -> None:
    """With file, line and what there is; so for a picture; a note at the foot is no link."""
    write(shelf / "docs/lessons/one.md", "# One\n\n## Two ways\n\n[x](#two-way) ![y](../assets/marc.svg)\n\n[^1]: no.md\n")
    with pytest.raises(SystemExit):
        publish(shelf)
    assert 'docs/lessons/one.md:5: expected an id on the page docs/lessons/one.md, got "#two-way"' in caplog.text
    assert "there is #two-ways" in caplog.text
    assert 'did you mean "../assets/mark.svg"?' in caplog.text
    assert caplog.text.count("docs/lessons/one.md:") == 2


def test_a_renamed_example_is_guessed_everywhere(shelf: Path, publish: Publish, caplog: pytest.LogCaptureFixture) -> None:
    """A line of a lesson and a link offer the same new name as the report of the lost address; never the page itself."""
    publish(shelf)
    assert main(["record", "site"]) == 0
    (shelf / "circuits/porch-lamp.toml").rename(shelf / "circuits/hut-light.toml")
    write(shelf / "docs/lessons/porch-lamp.md", "# One\n\n[:porch-lamp figure:]\n\n[x](../examples/porch-lamp.md)\n")
    with pytest.raises(SystemExit):
        publish(shelf)
    assert 'perhaps it is called "hut-light" now' in caplog.text
    assert 'perhaps it is called "../examples/hut-light.md" now' in caplog.text
    assert "if it is circuits/hut-light.toml now" in caplog.text
