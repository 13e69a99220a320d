"""How wide text is, and how a name is set: R1 is an italic R with an upright subscript 1.

No font is at hand when the figure is drawn, and the reader's font is not known, so widths are estimates that are a
little too large. The advance widths are those of the Helvetica metrics (Adobe Core 14 AFM files), with wider signs as
DejaVu has them. In a browser they hold for Liberation and DejaVu, Sans and Serif.
"""

from __future__ import annotations

from dataclasses import dataclass

TEXT_SIZE = 15.0
"""Size of every name, value and letter [px]: 12 px where a figure of 410 px is shown in a column of 328 px."""
SUBSCRIPT_SIZE = 12.5
"""Size of a subscript [px]: 10 px in the same case."""
SUBSCRIPT_DROP = 3.0
"""How far a subscript stands below the line [px]."""
ASCENT = 0.93
"""Height of a line above its baseline, as a browser measures it [em]."""
DESCENT = 0.25
"""Depth of a line below its baseline [em]."""
LINE_HEIGHT = 17.0
"""From baseline to baseline [px]."""
NO_BREAK_SPACE = "\u00a0"

_SAFETY = 1.15
_BOLD = 1.06
_DEFAULT_ADVANCE = 0.667
_WIDE_ADVANCE = 1.0
_ADVANCES = {
    0.222: "ijl|",
    0.278: "I.,:;!/ \u00a0ft",
    0.191: "'\u2009\u202f",
    0.333: "r()-`",
    0.5: "cksvxyzJ",
    0.556: "abdeghnopqu0123456789L?€µμ",
    0.73: "+=<>~\u2212×÷",
    0.611: "FTZ",
    0.667: "ABEKPSVXY&",
    0.722: "CDHNRUw",
    0.768: "Ω\u2126",
    0.778: "GOQ",
    0.833: "Mm",
    0.889: "%",
    0.944: "W",
}
_ADVANCE = {letter: advance for advance, letters in _ADVANCES.items() for letter in letters}


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of text in one style."""

    text: str
    italic: bool = False
    subscript: bool = False

    @property
    def width(self) -> float:
        """Estimated width in a figure [px]."""
        return text_width(self.text, SUBSCRIPT_SIZE if self.subscript else TEXT_SIZE)


Line = tuple[Run, ...]
"""One line of text, run by run."""


def text_width(text: str, size: float = TEXT_SIZE, *, bold: bool = False) -> float:
    """Estimate the width of a text [px], rather too large than too small."""
    advance = sum(_ADVANCE.get(letter, _other_advance(letter)) for letter in text)
    return advance * size * _SAFETY * (_BOLD if bold else 1)


def line_width(line: Line) -> float:
    """Estimate the width of a line of runs [px]."""
    return sum(run.width for run in line)


def name_runs(name: str) -> Line:
    """Set a name of a part, a point, a current or a loop.

    The first letter is italic, the rest an upright subscript. A word that begins small and holds no digit ("top")
    is no symbol with a subscript: it is set whole, in italics.
    """
    if len(name) == 1 or (name.isalpha() and name[0].islower()):
        return (Run(name, italic=True),)
    return (Run(name[0], italic=True), Run(name[1:], subscript=True))


def _other_advance(letter: str) -> float:
    return _DEFAULT_ADVANCE if ord(letter) < 0x2E80 else _WIDE_ADVANCE
