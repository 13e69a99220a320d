"""One line of [parts]: which keys each kind of part has, and how the line is read.

To add a kind: a row in `Kind`, a row in `kinds` here, and what it does to a steady current in `Part.resistance`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from build_tools.circuit.circuit import Kind, Part
from build_tools.circuit.getter import Getter
from build_tools.circuit.problem import KeyPath, describe, is_misspelt, listed
from build_tools.circuit.quantity import Dimension, Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class KindRule:
    """What the line of one kind of part may say."""

    example: str
    """The whole line's value, as a message shows it."""
    measures: Dimension | None = None
    """The dimension of its value, if it may have one."""
    states: tuple[str, ...] = ()
    """The words it may have in place of a value."""
    ends: tuple[str, ...] = ("between",)
    options: tuple[str, ...] = field(default=())


kinds: dict[Kind, KindRule] = {
    Kind.BATTERY: KindRule(
        example='{ battery = "12 V", minus = "a", plus = "b" }',
        measures=Dimension.EMF, ends=("minus", "plus"), options=("internal_resistance",),
    ),
    Kind.RESISTOR: KindRule(example='{ resistor = "4.7 kohm", between = ["b", "c"] }', measures=Dimension.RESISTANCE),
    Kind.WIRE: KindRule(example='{ wire = "bare", between = ["a", "d"] }', states=("bare",)),
    Kind.SWITCH: KindRule(example='{ switch = "open", between = ["c", "e"] }', states=("open", "closed")),
    Kind.AMMETER: KindRule(example='{ ammeter = "ideal", between = ["e", "f"] }', measures=Dimension.RESISTANCE, states=("ideal",)),
    Kind.VOLTMETER: KindRule(example='{ voltmeter = "ideal", between = ["b", "d"] }', measures=Dimension.RESISTANCE, states=("ideal",)),
    Kind.CAPACITOR: KindRule(example='{ capacitor = "10 uF", between = ["b", "d"] }', measures=Dimension.CAPACITANCE),
}  # fmt: skip


def read_part(get: Getter, name: str, value: object) -> Part | None:
    """Read one part; None where so much is wrong with it that nothing can be said of the rest."""
    where: KeyPath = ("parts", name)
    get.name(name, where, "a name for a part", at_key=True)
    table = get.table(value, where, f"a part such as {kinds[Kind.RESISTOR].example}")
    kind = find_kind(get, table, where) if table else None
    if not kind:
        if value == {}:
            get.note(where, f"a part such as {kinds[Kind.RESISTOR].example}", "an empty table")
        return None
    rule = kinds[kind]
    get.known_keys(table, where, (kind, *rule.ends, *rule.options), f"a {kind} such as {rule.example}")
    start, end = read_ends(get, table, where, kind) if not misspelt_ends(table, rule) else ("", "")
    state = table[kind] if table[kind] in rule.states else ""
    inner = (*where, "internal_resistance")
    return Part(
        name=name, kind=kind, start=start, end=end, state=state,
        value=None if state else read_value(get, table[kind], (*where, kind), rule),
        internal_resistance=get.quantity(table[inner[-1]], inner, Dimension.RESISTANCE)
        if inner[-1] in table and inner[-1] in rule.options else None,
    )  # fmt: skip


def find_kind(get: Getter, table: dict[str, Any], where: KeyPath) -> Kind | None:
    """The one key that says what the part is."""
    found = [kind for kind in Kind if kind in table]
    if len(found) == 1:
        return found[0]
    if found:
        get.note(
            where,
            "one kind for a part",
            listed(found),
            "a battery's resistance is its internal_resistance; other parts in series have lines of their own",
        )
        return None
    known = {kind.value for kind in Kind}
    odd = [key for key in table if key not in {"between", "minus", "plus", "internal_resistance"}]
    get.known_keys(dict.fromkeys(odd, 0), where, sorted(known), f"a kind of part: {listed(sorted(known), 'or')}")
    if not odd:
        get.note(
            where, f"a kind of part: {listed(sorted(known), 'or')}", "none of them", f"write for instance {kinds[Kind.RESISTOR].example}"
        )
    return None


def misspelt_ends(table: dict[str, Any], rule: KindRule) -> bool:
    """Whether a key that says where the part lies is missing because it is misspelt, which is reported already."""
    return any(is_misspelt(table, key) for key in rule.ends)


def read_ends(get: Getter, table: dict[str, Any], where: KeyPath, kind: Kind) -> tuple[str, str]:
    """The two different points between which a part lies, start first; empty where they are no points."""
    rule = kinds[kind]
    if rule.ends == ("between",):
        pair = table.get("between")
        if not isinstance(pair, list) or len(pair) != 2:
            got = f"a list of {len(pair)}" if isinstance(pair, list) else describe(pair)
            get.note((*where, "between"), 'two points such as ["b", "c"]', got)
            return "", ""
        ends: list[object] = pair
        paths: list[KeyPath] = [("between", "0"), ("between", "1")]
    else:
        missing = [key for key in rule.ends if key not in table]
        for key in missing:
            get.note((*where, key), f"the point at its {key} end, as in {rule.example}", "no such key")
        if missing:
            return "", ""
        ends, paths = [table[key] for key in rule.ends], [(key,) for key in rule.ends]
    start, end = (get.name(value, (*where, *path), "a point") for value, path in zip(ends, paths, strict=True))
    if start and start == end:
        get.note(
            (*where, paths[1][0]), "two different points", f"{start} twice", "a part whose ends are one point carries nothing anywhere"
        )
    return start, end


def read_value(get: Getter, value: object, where: KeyPath, rule: KindRule) -> Quantity | None:
    """The value of a part that has one."""
    if value == "unknown" and rule.measures in (Dimension.EMF, Dimension.RESISTANCE) and not rule.states:
        get.note(where, rule.measures.wanted, '"unknown"', "unknown values are not worked out yet: give the part its value")
        return None
    words = listed([f'"{state}"' for state in rule.states], "or")
    if rule.states == ("bare",) and isinstance(value, str) and value[:1].isdigit():
        get.note(where, words, describe(value), f'a wire with a resistance is a resistor: {{ resistor = "{value}", between = [...] }}')
        return None
    if rule.measures and rule.states and isinstance(value, str) and value[:1].isalpha():
        get.one_of(value, where, rule.states, f"{words} or {rule.measures.wanted}")
        return None
    if rule.measures:
        return get.quantity(value, where, rule.measures)
    get.one_of(value, where, rule.states, words)
    return None
