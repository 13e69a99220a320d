"""What `check` says beside faults: circuits that have an answer, but seldom the one that was meant."""

from __future__ import annotations

import pytest

from build_tools.laws.remark import find_remarks
from tests.circuit_of import worked

loop = '[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b" }\nR1 = { resistor = "1 ohm", between = ["b", "a"] }\n'

cases = {
    "nothing": (loop, []),
    "a slip in a point's name": (loop + 'R2 = { resistor = "1 ohm", between = ["B", "a"] }\n', ["R2 has a loose end, so no closed way leads through"]),
    "a part behind an open switch is meant": (
        loop + 'K1 = { switch = "open", between = ["b", "c"] }\nR2 = { resistor = "1 ohm", between = ["c", "a"] }\n', []),
    "no battery": ('[parts]\nR1 = { resistor = "1 ohm", between = ["b", "a"] }\nR2 = { resistor = "1 ohm", between = ["b", "a"] }\n',
                   ["there is no battery, so every current is zero"]),
    "a part left out": ('[parts]\nE1 = { battery = "1 V", minus = "a", plus = "b" }\nR1 = { resistor = "1 ohm", between = ["b", "c"] }\n',
                        ["no closed way conducts, so every current is zero"]),
    "a part on one junction": (loop + 'R2 = { resistor = "1 ohm", between = ["b", "c"] }\n[drawing]\njoined = [["b", "c"]]\n',
                               ["both ends of R2 are one junction, joined by plain lines"]),
}  # fmt: skip


@pytest.mark.parametrize(("text", "remarks"), cases.values(), ids=list(cases))
def test_what_deserves_a_second_look_is_said(text: str, remarks: list[str]) -> None:
    """One sentence for each, and none where nothing is odd."""
    assert list(find_remarks(worked(text))) == remarks
