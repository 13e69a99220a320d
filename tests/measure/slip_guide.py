"""Write the list of slips in the tutor's guide, docs/guide/slips.md, from the one list that the page's scripts use."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from build_tools.circuit.sentences import read_data

ROOT = Path(__file__).parents[2]
SLIPS = ROOT / "docs" / "assets" / "javascripts" / "slips.mjs"
GUIDE = ROOT / "docs" / "guide" / "slips.md"
BEGINS = "<!-- The list below is written from docs/assets/javascripts/slips.mjs: python -m tests.measure.slip_guide -->\n"

kinds = {
    "sign": "A sign",
    "emf sign": "The sign of an emf",
    "missing": "Something left out",
    "extra": "Something too much",
    "value": "A wrong value",
}

names = {
    "part": "R2",
    "parts": "R2 and R3",
    "current": "I2",
    "currents": "I2 and I3",
    "ownCurrent": "I3",
    "right": "− 6 I2",
    "written": "+ 6 I2",
}
"""What stands in the places of a sentence in the guide."""

emf_names = {"part": "E1", "parts": "E1 and E2", "right": "+ 12", "written": "− 12"}
junction_names = {"where": "c", "right": "+ I2", "written": "− I2"}


def read_slips() -> tuple[Mapping[str, Any], ...]:
    """Every slip, in the order of the list."""
    return tuple(read_data(SLIPS.read_text(encoding="utf-8"))["slips"])


def write_list(slips: tuple[Mapping[str, Any], ...]) -> str:
    """The list as Markdown, one section for each kind of slip."""
    sections = ((heading, [slip for slip in slips if slip["kind"] == kind]) for kind, heading in kinds.items())
    return "\n\n".join(f"## {heading}\n\n" + "\n\n".join(map(write_slip, found)) for heading, found in sections) + "\n"


def write_slip(slip: Mapping[str, Any]) -> str:
    """One slip: its title, what the student reads, the rule it breaks and its source."""
    source = f" Source: {slip['source']}." if slip["source"] else ""
    numbers = " Also named from numbers." if "when" in slip else ""
    return f"**{slip['title']}.** “{fill(first_sentence(slip), slip)}” The {slip['rule']}.{numbers}{source}"


def first_sentence(slip: Mapping[str, Any]) -> str:
    """The sentence that a student reads; of several the first."""
    return str(slip["sentence"] if "sentence" in slip else next(iter(slip["sentences"].values())))


def fill(text: str, slip: Mapping[str, Any]) -> str:
    """The sentence with names in its places."""
    is_emf = slip["kind"] == "emf sign" or slip["name"].endswith(("emf", "battery", "internal"))
    own = names | {"where": "L1"} | (emf_names if is_emf else {}) | (junction_names if slip["rule"] == "junction rule" else {})
    if slip["name"] == "nothing-in-wire":
        own |= {"part": "W1"}
    if slip["name"] == "missing-internal":
        own |= {"right": "− 0.5 I1"}
    if slip["name"] == "missing-factor":
        own |= {"right": "6 I2", "written": "6"}
    if slip["name"] == "put-in-sign":
        own |= {"loop": "L2", "current": "I3", "right": "I1 − I2", "written": "I1 + I2"}
    if slip["name"] == "current-prefix":
        own |= {"currents": own["current"], "unit": "µA", "typed": "mA"}
    return re.sub(r"\{(\w+)\}", lambda found: own[found[1]], text)


def main() -> None:
    """Write the list anew below the guide's own words."""
    words = GUIDE.read_text(encoding="utf-8").partition(BEGINS)[0]
    GUIDE.write_text(words + BEGINS + "\n" + write_list(read_slips()), encoding="utf-8")


if __name__ == "__main__":
    main()
