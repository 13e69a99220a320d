"""A second way to solve a circuit, written for the tests alone: potentials as unknowns, with sympy's exact matrices.

The unknowns are the potential of every place but one in each live piece, and the current of every part without
resistance. The rows are the junction rule at each of those places, and the fixed step of potential across each of those
parts. The circuit has exactly one answer if and only if that matrix is regular.

Source: modified nodal analysis, C.-W. Ho, A. Ruehli, P. Brennan, IEEE Trans. Circuits Syst. CAS-22, 504 (1975), from memory.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from sympy import QQ
from sympy.polys.matrices import DomainMatrix

from build_tools.circuit.circuit import Circuit, Kind, Part


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What the second way finds."""

    currents: dict[str, Fraction]
    """The current of each part from start to end [A]."""
    potentials: dict[str, Fraction]
    """The potential of each point [V], counted in each live piece from a place of its own."""
    piece: dict[str, str]
    """The live piece each point belongs to."""


def solve_by_potentials(circuit: Circuit) -> Answer | None:
    """Currents and potentials, or None where the matrix is singular."""
    place = group(circuit.points, circuit.drawing.joined)
    piece, unknowns, matrix, right = write_all(circuit, place)
    if matrix.rank() < len(unknowns):
        return None
    column = matrix.lu_solve(right).to_list() if unknowns else []
    found = {name: Fraction(int(x.numerator), int(x.denominator)) for name, (x,) in zip(unknowns, column, strict=True)}
    potentials = {point: found.get(place[point], Fraction(0)) for point in place}
    return Answer(
        currents={part.name: find_current(part, found, potentials) for part in circuit.parts},
        potentials=potentials,
        piece={point: piece[place[point]] for point in place},
    )


def is_consistent(circuit: Circuit) -> bool:
    """Whether the equations have any answer at all: not, where a loop without resistance has an emf."""
    _, _, matrix, right = write_all(circuit, group(circuit.points, circuit.drawing.joined))
    return bool(matrix.hstack(right).rank() == matrix.rank())


def group(names: Iterable[str], pairs: Iterable[tuple[str, str]]) -> dict[str, str]:
    """For each name one name that stands for all it is joined to."""
    stands = {name: name for name in names}
    for one, other in pairs:
        old, new = stands[one], stands[other]
        stands = {name: new if known == old else known for name, known in stands.items()}
    return stands


def write_all(circuit: Circuit, place: dict[str, str]) -> tuple[dict[str, str], list[str], DomainMatrix, DomainMatrix]:
    """The live piece of each place, the unknowns (places and parts by name), the matrix and the right side."""
    live = [(part, ohms) for part in circuit.parts if (ohms := find_ohms(part)) is not None]
    piece = group(place.values(), [(place[part.start], place[part.end]) for part, _ in live])
    unknowns = [name for name in piece if piece[name] != name] + [f"through {part.name}" for part, ohms in live if ohms == 0]
    return piece, unknowns, *write_equations(unknowns, live, place)


def find_ohms(part: Part) -> Fraction | None:
    """The resistance of a part to a steady current [Ω]; None where none can pass."""
    stops = {(Kind.SWITCH, "open"), (Kind.VOLTMETER, "ideal"), (Kind.CAPACITOR, "")}
    if (part.kind, part.state) in stops:
        return None
    given = part.internal_resistance if part.kind is Kind.BATTERY else part.value
    return given.exact if given else Fraction(0)


def find_emf(part: Part) -> Fraction:
    """The emf of a part from start to end [V]."""
    return part.value.exact if part.kind is Kind.BATTERY and part.value else Fraction(0)


def write_equations(unknowns: list[str], live: list[tuple[Part, Fraction]], place: dict[str, str]) -> tuple[DomainMatrix, DomainMatrix]:
    """The matrix and the right side."""
    column = {name: number for number, name in enumerate(unknowns)}
    size = len(unknowns)
    rows = [[Fraction(0)] * (size + 1) for _ in unknowns]
    for part, ohms in live:
        ends = [(column[place[end]], sign) for end, sign in ((part.start, 1), (part.end, -1)) if place[end] in column]
        if ohms == 0:
            own = column[f"through {part.name}"]
            rows[own][size] -= find_emf(part)
            for at, sign in ends:
                rows[own][at] += sign
                rows[at][own] += sign
            continue
        for at, sign in ends:
            rows[at][size] -= sign * find_emf(part) / ohms
            for other, other_sign in ends:
                rows[at][other] += sign * other_sign / ohms
    return to_matrix([row[:-1] for row in rows], size, size), to_matrix([row[-1:] for row in rows], size, 1)


def to_matrix(rows: list[list[Fraction]], height: int, width: int) -> DomainMatrix:
    """Fractions as a matrix over sympy's rational numbers."""
    return DomainMatrix([[QQ(x.numerator, x.denominator) for x in row] for row in rows], (height, width), QQ)


def find_current(part: Part, found: dict[str, Fraction], potentials: dict[str, Fraction]) -> Fraction:
    """The current of a part from start to end."""
    ohms = find_ohms(part)
    if ohms is None:
        return Fraction(0)
    if ohms == 0:
        return found[f"through {part.name}"]
    return (potentials[part.start] - potentials[part.end] + find_emf(part)) / ohms
