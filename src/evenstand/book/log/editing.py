"""A correction beside what others have written since its writer looked."""

from collections.abc import Collection, Iterator, Sequence

import msgspec
from msgspec import Struct

from evenstand.engine.quantities.phrases import say

from ..errors import BookError
from ..kinds.shape import Body
from .carrying import carried
from .edit import Answered, Edit
from .entries import content, encoded
from .merging import (
    WHOLE,
    Json,
    Pointer,
    Said,
    add_up,
    behind,
    changes,
    changes_of,
    look,
    overlap,
    put,
)


class Meanwhile(Struct, frozen=True):
    """A field that somebody else has changed while a correction was being written.

    ``entry`` says who and when; ``before``, ``theirs`` and ``yours`` are what
    stands in the field, None where nothing does, and ``removed`` that they
    removed the thing itself.
    """

    field: Pointer
    entry: str
    before: Json
    theirs: Json
    yours: Json
    removed: bool


class MeanwhileError(BookError):
    """Somebody has changed the same fields: whose are to count has to be asked."""

    def __init__(self, thing: str, fields: tuple[Meanwhile, ...]) -> None:
        need = say("choose whose change to save: another person changed it while you had it open")
        super().__init__("thing", thing, need)
        self.thing, self.fields = thing, fields


NOBODY_ASKED = Answered(heads=())


def edit(
    thing: str,
    entries: Sequence[Said],
    *,
    body: Body,
    base: Sequence[str] | None,
    settled: Collection[Pointer],
    answered: Answered = NOBODY_ASKED,
) -> Edit:
    """Work out what a correction changes.

    Parameters
    ----------
    thing : str
    entries : sequence of Said
        All about it.
    body : Body
        The whole state as the writer wants it.
    base : sequence of str, optional
        Newest entries that the writer had seen, none where there was nothing
        yet; all of them without.
    settled : collection of str
        Fields that are said again, though they may be what they were.
    answered : Answered
        What the writer was asked about already, and how it was decided.

    Raises
    ------
    MeanwhileError
        Where somebody has changed one of the same fields since, and the
        writer has not decided about that change.
    BookError
        For a base that is not here.
    """
    seen = list(entries) if base is None else behind(entries, base)
    if base and not seen:
        raise BookError("base", " ".join(base), say("open it again, then change it"))
    before, now = add_up(seen).body if seen else {}, add_up(entries)
    old, text = msgspec.json.encode(before), encoded(body, field=body.kind)
    content(body.kind, text, newer=False)  # refused under its field where its type does not fit
    known = msgspec.json.encode(msgspec.json.decode(old, type=type(body))) if seen else old
    new = msgspec.json.decode(carried(old, text, type(body)))
    differing = changes(msgspec.json.decode(known), msgspec.json.decode(text))
    own = dict.fromkeys((*differing, *settled))
    changed = tuple(field for field in own if not _among(field, answered.theirs))
    told = behind(entries, [*(each.id for each in seen), *answered.heads])
    asking = _Asking(
        entries=entries, before=before, new=new, changed=changed, seen=_ids(seen), told=_ids(told)
    )
    if meanwhile := tuple(asking.about(answered.yours)):
        raise MeanwhileError(thing, meanwhile)
    merged = msgspec.json.encode(put(now.body, new, changed))
    return Edit(add_up(told).heads if told else (), changed, merged)


def undone(entries: Sequence[Said], entry: str) -> Json:
    """Return the state of a thing with the fields of an entry as they were before it.

    Raises
    ------
    BookError
        For the first entry, before which there was nothing, and for one that is not here.
    """
    told = list(changes_of(entries))
    place = next((i for i, (each, _) in enumerate(told) if each.id == entry), 0)
    if not place:
        raise BookError("entry", entry, say("choose a change or a removal of this item"))
    gone, fields = told[place]
    now = add_up(entries).body
    return now if gone.removal else put(now, add_up(each for each, _ in told[:place]).body, fields)


def _ids(entries: Sequence[Said]) -> frozenset[str]:
    return frozenset(each.id for each in entries)


def _among(field: Pointer, fields: Collection[Pointer]) -> bool:
    return any(overlap(field, each) for each in fields)


class _Asking(Struct, frozen=True, kw_only=True):
    """What a writer has to be asked about, who has ``seen`` entries and was ``told`` of some."""

    entries: Sequence[Said]
    before: Json
    new: Json
    changed: Sequence[Pointer]
    seen: Collection[str]
    told: Collection[str]

    def about(self, decided: Collection[Pointer]) -> Iterator[Meanwhile]:
        """Yield each field once, with its newest change; a removal is all of it."""
        found: dict[Pointer, Meanwhile] = {}
        for entry, fields in changes_of(self.entries):
            if entry.id in self.seen:
                continue
            found.pop(WHOLE, None)  # a removed thing that was changed again stands
            for field in self._both_changed(fields):
                if self._differ(entry, field, told=decided if entry.id in self.told else ()):
                    found[WHOLE if entry.removal else field] = self._meanwhile(entry, field)
                else:
                    found.pop(field, None)
        yield from found.values()

    def _both_changed(self, fields: Sequence[Pointer]) -> Iterator[Pointer]:
        for theirs in fields:
            for own in self.changed:
                if overlap(theirs, own):
                    yield max(theirs, own, key=len)

    def _differ(self, entry: Said, field: Pointer, *, told: Collection[Pointer]) -> bool:
        if entry.removal:
            return WHOLE not in told
        if _among(field, [each for each in told if each != WHOLE]):
            return False
        theirs = look(entry.body, field)
        return theirs not in (look(self.before, field), look(self.new, field))

    def _meanwhile(self, entry: Said, field: Pointer) -> Meanwhile:
        if entry.removal:
            return Meanwhile(WHOLE, entry.id, None, None, None, removed=True)
        before, mine = look(self.before, field), look(self.new, field)
        return Meanwhile(field, entry.id, before, look(entry.body, field), mine, removed=False)
