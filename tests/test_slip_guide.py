"""The slips in the tutor's guide are those that the pages name."""

from __future__ import annotations

from tests.measure.slip_guide import BEGINS, GUIDE, kinds, read_slips, write_list


def test_the_guide_shows_every_slip_as_the_pages_say_it() -> None:
    """The list in the guide is the list in the scripts; `python -m tests.measure.slip_guide` writes it anew."""
    assert GUIDE.read_text(encoding="utf-8").partition(BEGINS)[2] == "\n" + write_list(read_slips())


def test_every_slip_has_its_sentence_rule_and_kind() -> None:
    """No slip is left out of the guide for a kind or a rule that it does not know."""
    for slip in read_slips():
        assert slip["kind"] in kinds, slip["name"]
        assert slip["rule"] in {"junction rule", "loop rule"}, slip["name"]
        assert ("sentence" in slip) != ("sentences" in slip), slip["name"]
