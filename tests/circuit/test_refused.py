"""Every refusal, as its author sees it: refused/NAME.toml is refused with exactly the text of refused/NAME.txt."""

from __future__ import annotations

from pathlib import Path

import pytest

from build_tools.pipeline import FaultyCircuits, check_file

folder = Path(__file__).parent / "refused"
files = sorted(folder.glob("*.toml"))


@pytest.mark.parametrize("path", files, ids=lambda path: path.stem)
def test_a_faulty_file_is_refused_with_this_report(path: Path, accept: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """Place, key, expected, got, excerpt, caret and way out stand in the report to the letter."""
    monkeypatch.chdir(folder)
    expected = path.with_suffix(".txt")

    with pytest.raises(FaultyCircuits) as refused:
        check_file(Path(path.name))

    if accept:
        expected.write_text(f"{refused.value}\n", encoding="utf-8")
    assert f"{refused.value}\n" == expected.read_text(encoding="utf-8")


def test_no_expected_report_is_left_without_its_file() -> None:
    """The folder is not empty, and every report belongs to a circuit."""
    assert len(files) > 50
    assert {path.stem for path in folder.glob("*.txt")} == {path.stem for path in files}
