"""What is wrong with a text that is not TOML: the parser's words, the spot, and the slip that its author likely made."""

from __future__ import annotations

import re

from build_tools.circuit.position import find_again
from build_tools.circuit.problem import Problem, shorten

slips: tuple[tuple[str, str], ...] = (
    (r"[“”„‘’«»]", "use straight quotes, not curly ones"),
    (r"[\w\"']\s*:(?!\s*\")|[\w]\s*:\s*\"", "write = in place of :"),
    (r"=\s*(?P<spot>\")([^\s\",=][^\"=]*?),\s*\w+\s*=\s*\[?\"", r'the quote before \2 is never closed: "\2"'),
    (r"\[\s*(?P<spot>\")(\w+),\s*\"", r'the quote before \2 is never closed: "\2"'),
    (r"=\s*\"[^\"]*\"\s*\w+\s*\"", r"inside quotes, write quotes as ’ or as \""),
    (r"=\s*\(", "write places and lists in square brackets: [6, 4]"),
    (r"=\s*\[\s*\w+\s*=", 'a part is written in curly brackets: { resistor = "4 ohm", between = ["b", "c"] }'),
    (r"\"\s*(\w+\s*=|\")|\]\s*(\[|\w)", "put a comma between one thing and the next"),
    (r"=\s*\"[^\"]*\",\s*\"", 'write several in square brackets: ["c", "d"]'),
    (r"[\[,]\s*[A-Za-z]\w*\s*[,\]]", 'put names in quotes: ["c", "d"]'),
    (r"=\s*(?P<spot>[\d.]+)\s*([A-Za-zΩµ]+)", r'put number and unit in quotes: "\1 \2"'),
    (r"=\s*[A-Za-z]", 'put text in quotes: key = "text"'),
)
"""What a line looks like where its author made a slip that TOML's own words do not explain, and the way out; the caret
goes to `spot`, where there is one."""


def find_slip(said: str, text: str) -> Problem:
    """The fault behind a message of the parser."""
    message, line, column = take_apart(said, text)
    stands = text.split("\n")[line - 1] if line else ""
    column = column or len(stands.rstrip()) + 1
    if "overwrite" in message and (double := find_double(text, line, column)):
        return double
    way_out, spot = way_out_of(message, stands, column)
    return Problem(
        where=(), expected="TOML, one key = value to a line", found=f"a slip in the writing: {message}" if line else message,
        way_out=shorten(way_out, 160), line=line, column=spot or column, text=stands,
    )  # fmt: skip


def take_apart(said: str, text: str) -> tuple[str, int, int]:
    """The parser's words, the line and the column of its message."""
    match = re.fullmatch(r"(?P<words>.*?) \(at (?:line (?P<line>\d+), column (?P<column>\d+)|end of document)\)", said, re.DOTALL)
    if not match:
        return "a number too long to read" if "digits" in said else said.splitlines()[0][:200], 0, 0
    line = int(match["line"] or text.rstrip("\n").count("\n") + 1)
    words = "".join(letter if letter.isprintable() else "·" for letter in match["words"])[:200]
    words = re.sub(r"\('([\w.-]+)',\)", r"the section [\1]", words)
    return f"{words[0].lower()}{words[1:]}", line, int(match["column"] or 0)


def find_double(text: str, line: int, column: int) -> Problem | None:
    """A name that stands twice in one section; the parser noticed it behind the second value, or in a header."""
    lines = text.split("\n")
    behind = lines[line - 1][: column - 1]
    is_header = behind.lstrip().startswith("[") and not behind.rstrip().endswith("]")
    found = None if is_header else find_again("\n".join([*lines[: line - 1], behind]))
    if not found:
        return None
    path, again, first = found
    line = text.count("\n", 0, again) + 1
    return Problem(
        where=path,
        expected="each name once in a section",
        found=f"{path[-1]} again, which stands in line {text.count(chr(10), 0, first) + 1} already",
        way_out="take one of the two out" + (", or give it another name" if len(path) > 1 else ""),
        line=line, column=again - text.rfind("\n", 0, again), text=lines[line - 1],
    )  # fmt: skip


def way_out_of(message: str, stands: str, column: int) -> tuple[str, int]:
    """The likely slip behind the parser's words about this line, and its column where that is known."""
    key = re.search(r"(?:^|[{,])\s*([\w-]+)\s+$", stands[: column - 1])
    value = re.match(r"\"[^\"=]*\"|[\[{\d]|\w+(?=\s*[,}])", stands[column - 1 :])
    if "expected '='" in message and key and value:
        return f"write = between {key[1]} and {value[0]}", 0
    if "twice" in message:
        return "put its lines below the first one", 0
    if "overwrite" in message or "duplicate" in message:
        return "each name may stand only once", 0
    for looks, way_out in slips:
        if match := re.search(looks, stands.split("#")[0]):
            return match.expand(way_out), match.start("spot") + 1 if "spot" in match.groupdict() else 0
    if "nclosed" in message or "nterminated" in message or "\\n" in message:
        return "close the quotes and brackets of this line", 0
    if "initial character" in message or "nline table" in message:
        return "write one part on one line, all of it between { and }", 0
    return ("write key = value; a remark begins with #" if "expected '='" in message else ""), 0
