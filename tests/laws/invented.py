"""Circuits invented by chance: from one loop to five, with every kind of part, some of them impossible."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import count
from random import Random

from build_tools.circuit.circuit import Circuit, Kind, Part
from tests.published.parts import battery, capacitor, circuit_of, meter, resistor, switch, wire

resistances = tuple(Fraction(text) for text in ("1", "2", "3", "4", "5", "6", "10", "12", "1/2", "4.7", "0.25", "3300"))
emfs = tuple(Fraction(text) for text in ("12", "12", "12", "6", "6", "9", "1.5", "29"))


def invent_circuit(chance: Random, loops: int, *, bare: float = 0.15, pieces: int = 1, linked: bool = True) -> Circuit:
    """Invent a circuit.

    Args:
        chance: where every choice comes from.
        loops: how many independent loops its live part has, in each piece.
        bare: how often a branch has no resistance; at 0.15 most circuits are possible, at 0.6 hardly any.
        pieces: how many pieces with loops of their own.
        linked: whether a part without a steady current leads from each piece to the next.
    """
    names = count(1)
    parts = [part for piece in range(pieces) for part in invent_piece(chance, names, "pqr"[piece], loops, bare)]
    if linked:
        ends = zip("pqr"[:pieces], "pqr"[1:pieces], strict=False)
        parts += [invent_idle(chance, next(names), f"{one}0", f"{other}0", dead_end=False) for one, other in ends]
    if not any(part.kind is Kind.BATTERY for part in parts):
        parts.append(battery("E0", parts[0].start, parts[0].end, 12, 2))
    chance.shuffle(parts)
    joined = invent_joined(chance, parts) if linked else ()
    return circuit_of(parts, joined=joined)


def invent_piece(chance: Random, names: Iterator[int], letter: str, loops: int, bare: float) -> Iterator[Part]:
    """A connected piece: a random tree, one more branch for each loop, and parts without a steady current."""
    places = [f"{letter}{i}" for i in range(chance.randint(1 if loops == 1 else 2, 4))]
    branches = [(chance.choice(places[:i]), places[i]) for i in range(1, len(places))]
    branches += [invent_ends(chance, places) for _ in range(loops)]
    for start, end in branches:
        yield from invent_branch(chance, names, start, end, bare)
    for _ in range(chance.randint(0, 2)):
        start, end = chance.choice(places), chance.choice([*places, f"{letter}9"])
        yield invent_idle(chance, next(names), start, end if end != start else f"{letter}9")


def invent_ends(chance: Random, places: list[str]) -> tuple[str, str]:
    """Two places, the same one only where there is no other."""
    start, end = chance.sample(places, 2) if len(places) > 1 else (places[0], places[0])
    return start, end


def invent_branch(chance: Random, names: Iterator[int], start: str, end: str, bare: float) -> Iterator[Part]:
    """Parts in a row from start to end; a branch that closes on itself has at least two."""
    resistive = chance.random() >= bare
    kinds = chance.choices(["battery", "bare", "resistive" if resistive else "bare"], k=chance.randint(0, 2))
    kinds = [*kinds, "resistive"] if resistive else kinds or [chance.choice(["battery", "bare"])]
    kinds += ["bare"] if start == end and len(kinds) == 1 else []
    chance.shuffle(kinds)
    stops = [start, *(f"s{next(names)}" for _ in kinds[1:]), end]
    for kind, one, other in zip(kinds, stops, stops[1:], strict=False):
        yield invent_part(chance, kind, next(names), *chance.sample([one, other], 2), resistive=resistive)


def invent_part(chance: Random, kind: str, number: int, start: str, end: str, *, resistive: bool) -> Part:
    """One part that carries a current."""
    ohms = chance.choice(resistances)
    if kind == "battery":
        return battery(f"E{number}", start, end, chance.choice(emfs), ohms if resistive and chance.random() < 0.4 else None)
    if kind == "bare":
        ammeter = meter(Kind.AMMETER, f"A{number}", start, end)
        return chance.choice([wire(f"W{number}", start, end), switch(f"K{number}", start, end, "closed"), ammeter])
    meters = [meter(Kind.AMMETER, f"A{number}", start, end, ohms), meter(Kind.VOLTMETER, f"M{number}", start, end, ohms)]
    return chance.choice([resistor(f"R{number}", start, end, ohms)] * 4 + meters)


def invent_idle(chance: Random, number: int, start: str, end: str, *, dead_end: bool = True) -> Part:
    """One part that carries no steady current."""
    kinds = [
        switch(f"K{number}", start, end, "open"),
        meter(Kind.VOLTMETER, f"M{number}", start, end),
        capacitor(f"C{number}", start, end, Fraction(1, 10**5)),
        resistor(f"R{number}", start, f"d{number}", 7),
    ]
    return chance.choice(kinds if dead_end else kinds[:3])


def invent_joined(chance: Random, parts: list[Part]) -> tuple[tuple[str, str], ...]:
    """Now and then plain lines: one that splits a point in two, and one that joins two points anywhere."""
    joined = []
    if chance.random() < 0.3:
        at = chance.randrange(len(parts))
        joined.append((parts[at].start, "z"))
        parts[at] = replace(parts[at], start="z")
    if chance.random() < 0.1:
        joined.append((chance.choice(parts).start, chance.choice(parts).end))
    return tuple((one, other) for one, other in joined if one != other)
