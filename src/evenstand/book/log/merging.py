"""What the entries about a thing add up to, field by field, and where two people changed the same.

An entry says which fields it changed and which entries its writer had seen. All are put in the one
order that every book shares (stamp, then id), and each sets the fields that it changed: whoever
changed another field loses nothing, and books that have the same entries show the same.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, TypeAlias

from msgspec import Struct

Json: TypeAlias = Any
Pointer: TypeAlias = str  # RFC 6901, with the name of an item in place of its number
WHOLE: Pointer = ""
# What tells the items of a list apart, where each has it and no two the same.
KEYS = ("name", "box", "species")
AMOUNT = frozenset({"value", "give_or_take", "text"})  # one field: its text says its value


class Said(Struct, frozen=True):
    """An entry as far as its sum goes; ``changed`` is None where its writer did not say."""

    id: str
    made: str
    kind: str
    base: tuple[str, ...]
    changed: tuple[Pointer, ...] | None
    body: Json

    @property
    def removal(self) -> bool:
        """Whether it takes the thing out of all lists."""
        return self.kind == "removal"


class Clash(Struct, frozen=True, order=True):
    """A field that two people changed without knowing of each other: the later entry counts."""

    field: Pointer
    counted: str
    other: str


class Sum(Struct, frozen=True):
    """What entries add up to.

    ``entry`` is the newest that is no removal, ``body`` the merged state,
    ``heads`` the entries that no other has seen, ``clashes`` what nobody has
    settled yet.
    """

    kind: str
    removed: bool
    born: str
    entry: str
    body: Json
    heads: tuple[str, ...]
    clashes: tuple[Clash, ...]


def add_up(entries: Iterable[Said]) -> Sum:
    """Add up the entries about a thing.

    Parameters
    ----------
    entries : iterable of Said
        At least one, in any order.
    """
    pairs = list(changes_of(entries))
    said, changed = [entry for entry, _ in pairs], [fields for _, fields in pairs]
    states = [pair for pair in pairs if not pair[0].removal] or pairs[-1:]
    body = states[0][0].body
    for entry, fields in states[1:]:
        body = put(body, entry.body, fields)
    seen = _seen(said)
    return Sum(
        kind=states[0][0].kind,
        removed=said[-1].removal,
        born=said[0].made,
        entry=states[-1][0].id,
        body=body,
        heads=_heads(said, seen),
        clashes=tuple(sorted(_clashes(said, seen, changed))),
    )


def changes_of(entries: Iterable[Said]) -> Iterator[tuple[Said, tuple[Pointer, ...]]]:
    """Yield entries in the order that every book shares, each with the fields it changed.

    Those of another kind than the first are left out: a thing stays what it
    is. An older release did not say what it changed: that is what differs
    from the entry before.
    """
    said, before = _in_order(entries), None
    kind = next((each.kind for each in said if not each.removal), "")
    for each in said:
        if each.removal:
            yield each, (WHOLE,)
        elif each.kind == kind:
            yield each, _changed(each, before)
            before = each


def _in_order(entries: Iterable[Said]) -> list[Said]:
    return sorted(entries, key=lambda each: (each.made, each.id))


def behind(entries: Iterable[Said], heads: Iterable[str]) -> list[Said]:
    """Return the entries that somebody has seen who saw ``heads``."""
    said = _in_order(entries)
    seen, place = _seen(said), {each.id: i for i, each in enumerate(said)}
    known = 0
    for head in heads:
        if head in place:
            known |= seen[place[head]] | 1 << place[head]
    return [each for i, each in enumerate(said) if known >> i & 1]


def changes(before: Json, after: Json, *, at: Pointer = WHOLE) -> tuple[Pointer, ...]:
    """Return the fields that differ, each by its pointer.

    Items of a list that have names are compared one by one, and their order
    is a field too; any other list is one field, and so is an amount.
    """
    return tuple(_differing(before, after, at))


def put(state: Json, body: Json, changed: Iterable[Pointer]) -> Json:
    """Return a state with the changed fields as they are in a body."""
    for pointer in changed:
        state = _put(state, body, steps(pointer))
    return state


def look(body: Json, pointer: Pointer) -> Json:
    """Return what stands at a field, None where nothing does."""
    for step in steps(pointer):
        body = _child(body, step)
    return body


def overlap(one: Pointer, other: Pointer) -> bool:
    """Whether one field is the other, or a part of it."""
    return (one + "/").startswith(other + "/") or (other + "/").startswith(one + "/")


def _changed(entry: Said, before: Said | None) -> tuple[Pointer, ...]:
    if entry.changed is not None:
        return entry.changed
    return changes(before.body, entry.body) if before else (WHOLE,)


def _seen(said: Sequence[Said]) -> list[int]:
    """Return for each entry, in their order, those its writer had seen, as bits."""
    place = {each.id: i for i, each in enumerate(said)}
    seen: list[int] = []
    for i, each in enumerate(said):
        # An older release did not say: its writer had seen the entry before.
        bases = each.base or ([said[i - 1].id] if i and each.changed is None else [])
        known = 0
        for base in bases:
            if (j := place.get(base, i)) < i:
                known |= seen[j] | 1 << j
        seen.append(known)
    return seen


def _heads(said: Sequence[Said], seen: Sequence[int]) -> tuple[str, ...]:
    known = 0
    for each in seen:
        known |= each
    return tuple(each.id for i, each in enumerate(said) if not known >> i & 1)


def _clashes(
    said: Sequence[Said], seen: Sequence[int], changed: Sequence[tuple[Pointer, ...]]
) -> Iterator[Clash]:
    if _is_line(seen):
        return
    writes = [
        (i, field)
        for i, fields in enumerate(changed)
        for field in fields
        if not _settled(i, field, seen=seen, changed=changed)
    ]
    for n, (j, later) in enumerate(writes):
        for i, earlier in writes[:n]:
            if i != j and not seen[j] >> i & 1 and overlap(earlier, later):
                field = max(earlier, later, key=len)
                if _differ(said[i], said[j], field):
                    yield Clash(field, counted=said[j].id, other=said[i].id)


def _is_line(seen: Sequence[int]) -> bool:
    return all(known == (1 << i) - 1 for i, known in enumerate(seen))


def _settled(
    i: int, field: Pointer, *, seen: Sequence[int], changed: Sequence[tuple[Pointer, ...]]
) -> bool:
    """Whether somebody who had seen a change has changed the same field since."""
    return any(
        seen[k] >> i & 1 and any(overlap(field, newer) for newer in changed[k])
        for k in range(i + 1, len(changed))
    )


def _differ(one: Said, other: Said, field: Pointer) -> bool:
    return one.removal != other.removal or look(one.body, field) != look(other.body, field)


def _differing(before: Json, after: Json, at: Pointer) -> Iterator[Pointer]:
    if before == after:
        return
    if isinstance(before, dict) and isinstance(after, dict) and not _is_amount(before):
        for name in {**before, **after}:
            yield from _differing(before.get(name), after.get(name), f"{at}/{_escaped(name)}")
        return
    old, new = _named(before), _named(after)
    if old is None or new is None or _key_of(before) != _key_of(after):
        yield at
        return
    if list(new) != sorted(new, key=[*(name for name in old if name in new), *new].index):
        yield f"{at}/"  # the order of the items
    for name in {**old, **new}:
        yield from _differing(old.get(name), new.get(name), f"{at}/{_escaped(name)}")


def _is_amount(found: dict[str, Json]) -> bool:
    return "value" in found and found.keys() <= AMOUNT


def _key_of(items: Json) -> str | None:
    """Return what names the items of a list apart, None where nothing does."""
    if not isinstance(items, list) or not all(isinstance(each, dict) for each in items):
        return None
    for key in KEYS:
        names = [each.get(key) for each in items]
        if names and all(isinstance(name, str) and name for name in names):
            return key if len(set(names)) == len(names) else None
    return None


def _named(items: Json) -> dict[str, Json] | None:
    key = _key_of(items)
    return None if key is None else {each[key]: each for each in items}


def _child(body: Json, step: str) -> Json:
    if isinstance(body, dict):
        return body.get(step)
    named = _named(body)
    if named is None:
        return None
    return list(named) if step == "" else named.get(step)


def _put(state: Json, body: Json, steps: Sequence[str]) -> Json:
    """Return ``state`` with what ``body`` has at the end of some steps, or without it."""
    if not steps:
        return body
    (step, *rest), key = steps, _key_of(state)
    if isinstance(state, dict) and isinstance(body, dict):
        return _with(state, step, _put(state.get(step), body.get(step), rest))
    old, new = _named(state), _named(body)
    if old is None or new is None or key != _key_of(body):
        return body
    if step == "":
        return [old[name] for name in sorted(old, key=[*new, *old].index)]
    return list(_with(old, step, _put(old.get(step), new.get(step), rest)).values())


def _with(items: Mapping[str, Json], name: str, value: Json) -> dict[str, Json]:
    """Return items with one in its place, or without it where it is None."""
    return {each: kept for each, kept in {**items, name: value}.items() if kept is not None}


def _escaped(name: str) -> str:
    return name.replace("~", "~0").replace("/", "~1")


def steps(pointer: Pointer) -> list[str]:
    """Return the names that a pointer follows."""
    return [each.replace("~1", "/").replace("~0", "~") for each in pointer.split("/")[1:]]
