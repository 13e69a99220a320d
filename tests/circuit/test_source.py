"""Odd files: read where they can be read, refused in one line where they cannot."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from build_tools.circuit.position import find_positions
from build_tools.circuit.reading import read_circuit
from build_tools.circuit.source import largest_file, read_source
from build_tools.pipeline import FaultyCircuits, check_file

plain = """title = "Der Steg der Möwen"
[parts]
E1 = { battery = "12 V", minus = "a", plus = "b" }
R1 = { resistor = "4 kΩ", between = ["b", "a"] }
"""

same_text_other_bytes = {
    "a byte-order mark": b"\xef\xbb\xbf" + plain.encode(),
    "Windows line ends": plain.replace("\n", "\r\n").encode(),
    "tabs": plain.replace(" = {", "\t=\t{").encode(),
    "the ohm sign": plain.replace("Ω", "\N{OHM SIGN}").encode(),
    "no-break spaces in quantities": plain.replace("4 k", "4\N{NO-BREAK SPACE}k").encode(),
    "tables of their own": b'title = "Der Steg der M\xc3\xb6wen"\n[parts.E1]\nbattery = "12 V"\nminus = "a"\nplus = "b"\n'
    b'[parts.R1]\nresistor = "4 kohm"\nbetween = [\n  "b",  # upper\n  "a",\n]\n',
    "dotted keys": b"title = 'Der Steg der M\\u00f6wen'\n".replace(b"'", b'"')
    + b'parts.E1.battery = "12 V"\nparts.E1.minus = "a"\nparts.E1.plus = "b"\nparts.R1 = { resistor = "4 kohm", between = ["b", "a"] }\n',
}


def bare_meaning(path: Path) -> tuple[object, ...]:
    """What a file says, without how a value was spelt."""
    circuit = read_circuit(read_source(path))
    return circuit.title, [(p.name, p.kind, p.start, p.end, p.value.exact if p.value else None) for p in circuit.parts]


@pytest.mark.parametrize("data", same_text_other_bytes.values(), ids=list(same_text_other_bytes))
def test_a_file_means_the_same_however_its_bytes_are_written(data: bytes, tmp_path: Path) -> None:
    """Byte-order mark, line ends, tabs, signs of one meaning and TOML's other spellings change nothing."""
    (tmp_path / "plain.toml").write_text(plain, encoding="utf-8")
    (tmp_path / "other.toml").write_bytes(data)

    assert bare_meaning(tmp_path / "other.toml") == bare_meaning(tmp_path / "plain.toml")


unreadable = {
    "nonsense of 10 MB": (os.urandom(10_000_000), "expected at most 200 kB, got a larger file"),
    "text of 10 MB": (b"# " + b"x" * 10_000_000, "expected at most 200 kB, got a larger file"),
    "not UTF-8": ('title = "Möwe"'.encode("latin-1"), "expected text in UTF-8, got the byte 0xf6"),
    "deep brackets": (b"a = " + b"[" * 50_000 + b"]" * 50_000, "expected a circuit file, got brackets nested far too deep"),
    "deep tables": (b"a = " + b"{ a = " * 20_000, "expected a circuit file, got brackets nested far too deep"),
    "deep dotted keys": (b"a." * 20_000 + b"a = 1", "expected a circuit file, got one without [parts]"),
    "a name twice inside a part": (b"[parts]\nR1 = { a = 1, a.b = 2 }\n", "expected TOML"),
    "a name twice in a list": (b"[parts]\nR1 = [ { a = 1, a.b = 2\n", "expected TOML"),
    "a name that is a value and a table": (b"level = 1\nlevel.b = 2\n", "level: expected each name once in a section, got level again"),
    "a header with a bracket of a name in use": (b'[parts]\n"x]" = 1\n[parts."x]"]\n', "expected TOML"),
    "a header of a name in use": (b"[parts]\nR1 = 1\n[parts.R1]\n", "expected TOML"),
    "control characters in quotes": (b'title = "\x1b[2J, level = "core"\n', "the quote before ·[2J is never closed"),
    "a number without end": (b"a = " + b"9" * 100_000, "a number too long to read"),
    "nothing at all": (b"", "parts: expected a section [parts] with a line for each part, got none"),
    "zero bytes": (b"\0" * 100, "expected TOML"),
}


@pytest.mark.parametrize(("data", "message"), unreadable.values(), ids=list(unreadable))
def test_a_file_that_cannot_be_read_is_refused_in_few_words(data: bytes, message: str, tmp_path: Path) -> None:
    """Whatever the bytes, the answer is short, names the file and never is a traceback."""
    path = tmp_path / "odd.toml"
    path.write_bytes(data)

    with pytest.raises(FaultyCircuits) as refused:
        check_file(path)

    report = str(refused.value)
    assert message in report
    assert report.startswith(f"{path}:")
    assert all(letter.isprintable() or letter == "\n" for letter in report)
    assert len(report) < 600 + len(str(path))


def test_a_folder_a_missing_file_and_a_pipe_are_refused(tmp_path: Path) -> None:
    """A path that is no plain file is refused by what it is; a pipe is never waited for."""
    os.mkfifo(tmp_path / "pipe.toml")
    for path, found in ((tmp_path, "a folder"), (tmp_path / "no.toml", "no file of that name"), (tmp_path / "pipe.toml", "not a file")):
        with pytest.raises(FaultyCircuits, match=found):
            check_file(path)


def test_a_file_that_may_not_be_opened_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the system answers is passed on in one line. (Tests may run as root, who may open everything.)"""
    path = tmp_path / "closed.toml"
    path.write_text(plain, encoding="utf-8")

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(FaultyCircuits) as refused:
        check_file(path)

    assert str(refused.value) == f"{path}: expected a file that can be read, got the answer “permission denied”"


def test_the_largest_file_is_larger_than_any_circuit_needs() -> None:
    """Sixty parts with long lines fit many times."""
    assert largest_file > 10 * 60 * 200


def test_positions_are_those_of_keys_and_values() -> None:
    """Every key is found where it stands, in tables, inline tables and lists, past strings and comments that look like keys."""
    text = '# parts.X = 1\ntitle = """a\n[parts]\n"""\n[ parts . "R1" ]\nvalue = [ "x=1", { y = \'#\', z = 2 } ] # end\nlast = 1\n'

    found = {".".join(path): (text[place.key :].split()[0], text[place.value :][:3]) for path, place in find_positions(text).items()}

    assert found["title"] == ("title", '"""')
    assert found["parts.R1.value"] == ("value", '[ "')
    assert found["parts.R1.value.0"][1] == '"x='
    assert found["parts.R1.value.1.y"] == ("y", "'#'")
    assert found["parts.R1.value.1.z"] == ("z", "2 }")
    assert found["parts.R1.last"] == ("last", "1\n")
