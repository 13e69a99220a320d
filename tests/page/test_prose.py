"""The question as markup."""

from __future__ import annotations

import pytest

from build_tools.page.prose import render_question
from tests.figure.drawings import topology_of

one_letter = """
[parts]
V = { battery = "12 V", minus = "a", plus = "b" }
r = { resistor = "1 ohm", between = ["b", "a"] }
"""


@pytest.mark.parametrize(
    ("question", "wanted"), [("Find r.", "<i>r</i></span>."), ("Is V *larger* than r?", "<i>V</i></span> <em>larger</em>")]
)
def test_a_name_of_one_letter_is_set_once(question: str, wanted: str) -> None:
    """The letter of a name is not looked for inside the name again: that would never end."""
    assert wanted in render_question(question, topology_of(one_letter))
