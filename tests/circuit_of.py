"""Circuits for tests, written as their author would: the text of a file without its heading."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from build_tools.circuit.circuit import Circuit
from build_tools.circuit.reading import read_circuit
from build_tools.circuit.source import read_source
from build_tools.laws.meaning import WorkedCircuit, work_out


def circuit_of(text: str) -> Circuit:
    """The circuit of a file with this text."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "test.toml"
        path.write_text(text, encoding="utf-8")
        return read_circuit(read_source(path))


def worked(text: str) -> WorkedCircuit:
    """The circuit of a file with this text, worked out."""
    return work_out(circuit_of(text))
