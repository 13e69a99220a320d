"""Two builds held side by side: which addresses, examples and answers changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from posixpath import normpath
from typing import Any

from build_tools.site.built import BuiltPage, read_site

told = {
    "title": "title",
    "question": "question",
    "level": "level",
    "topics": "topics",
    "asked": "what is asked",
    "branches": "assumed directions",
    "loops": "loops",
    "equations": "equations",
}
"""Keys of the JSON object whose change is worth a word, and the word."""


def compare_sites(old: Path, new: Path) -> Iterator[str]:
    """One line for each difference, addresses first; nothing where nothing changed."""
    before = {page.address: page for page in read_site(old)}
    after = {page.address: page for page in read_site(new)}
    renamed = find_renamed(before, after)
    yield from compare_addresses(before, {address: page for address, page in after.items() if address not in renamed.values()})
    yield from (f"renamed         {old}  is {new} now" for old, new in renamed.items())
    for address in sorted(before.keys() & after.keys()):
        yield from compare_pages(before[address], after[renamed.get(address, address)])


def find_renamed(before: Mapping[str, BuiltPage], after: Mapping[str, BuiltPage]) -> dict[str, str]:
    """For each page that leads on now, to one that is new, the address of that one."""
    leads = {address: after[address].leads_to for address in sorted(before.keys() & after.keys()) if not before[address].leads_to}
    ways = {address: normpath(f"/{address}{to}")[1:] + "/" for address, to in leads.items() if to}
    return {address: there for address, there in ways.items() if there in after and there not in before}


def compare_addresses(before: Mapping[str, BuiltPage], after: Mapping[str, BuiltPage]) -> Iterator[str]:
    """Which came, which went, which lead on now."""
    for address in sorted(before.keys() - after.keys()):
        yield f"lost address    {address or 'home page'}"
    for address in sorted(after.keys() - before.keys()):
        leads = after[address].leads_to
        yield f"new address     {address}" + (f"  leads on to {leads}" if leads else "")


def compare_pages(old: BuiltPage, new: BuiltPage) -> Iterator[str]:
    """What changed on one page."""
    name = new.address or "home page"
    if old.leads_to != new.leads_to:
        yield f"leads on        {name}  " + (f"to {new.leads_to}" if new.leads_to else "no more: a page stands here")
        return
    if (old.record and not new.record) or new.is_gone > old.is_gone:
        yield f"gone            {name}  a page says so where {'the example' if old.record else 'it'} stood"
        return
    if lost := [each for each in old.ids if each not in new.ids]:
        yield f"lost ids        {name}  " + ", ".join(f"#{each}" for each in lost)
    if added := [each for each in new.ids if each not in old.ids]:
        yield f"new ids         {name}  " + ", ".join(f"#{each}" for each in added)
    if old.record and new.record:
        yield from compare_examples(name, old.record, new.record)


def compare_examples(name: str, old: dict[str, Any], new: dict[str, Any]) -> Iterator[str]:
    """What changed in one example: its text, its set-up, its answers."""
    if changed := [word for key, word in told.items() if old.get(key) != new.get(key)]:
        yield f"changed         {name}  {', '.join(changed)}"
    if changed := compare_parts(old.get("parts", {}), new.get("parts", {})):
        yield f"changed parts   {name}  {', '.join(changed)}"
        yield f"other sets      {name}  links with ?set=N that you gave out show other numbers now"
    was, now = equation_places(old), equation_places(new)
    if moved := [place for place in was.keys() & now.keys() if was[place] != now[place]]:
        yield f"other places    {name}  " + "; ".join(f"#{place} was {was[place]}, is {now[place]}" for place in sorted(moved))
    was, now = answers(old), answers(new)
    if was != now:
        both = (
            f"{each} {was.get(each, 'none')} → {now.get(each, 'none')}"
            for each in dict.fromkeys((*was, *now))
            if was.get(each) != now.get(each)
        )
        yield f"other answers   {name}  {', '.join(both)}"


def equation_places(record: dict[str, Any]) -> dict[str, str]:
    """What the id of each equation leads to: a junction by its name, a loop by its parts in the order of their names."""
    walks = {loop["name"]: ", ".join(sorted(loop["walk"])) for loop in record.get("loops", [])}
    numbered = enumerate(record.get("equations", []), 1)
    by_number = {f"{each['rule']}-{number}": walks.get(each["origin"], each["origin"]) for number, each in numbered}
    return by_number | {f"loop-{name}": walk for name, walk in walks.items()}


def compare_parts(old: Mapping[str, Any], new: Mapping[str, Any]) -> list[str]:
    """The parts that came, went or have another value or other ends."""
    keys = ("kind", "value", "internal_resistance", "from", "to", "state")
    return [
        name
        for name in dict.fromkeys((*old, *new))
        if [old.get(name, {}).get(key) for key in keys] != [new.get(name, {}).get(key) for key in keys]
    ]


def answers(record: dict[str, Any]) -> dict[str, str]:
    """Each exact current [A]."""
    return {current["name"]: f"{current['exact']} A" for current in record.get("currents", [])}
