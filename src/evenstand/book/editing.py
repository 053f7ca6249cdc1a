"""A correction beside what others have written since its writer looked."""

from collections.abc import Collection, Iterator, Sequence

import msgspec
from msgspec import Struct

from evenstand.engine.quantities.phrases import say

from .carrying import carried
from .edit import Edit
from .entries import encoded
from .errors import BookError
from .merging import Json, Pointer, Said, add_up, behind, changes, changes_of, look, overlap, put
from .shape import Body


class Meanwhile(Struct, frozen=True):
    """A field that somebody else has changed while a correction was being written.

    ``entry`` says who and when; ``theirs`` and ``yours`` are what stands in
    the field, None where nothing does, and ``removed`` that they removed the
    thing itself.
    """

    field: Pointer
    entry: str
    theirs: Json
    yours: Json
    removed: bool


class MeanwhileError(BookError):
    """Somebody has changed the same fields: whose are to count has to be asked."""

    def __init__(self, thing: str, fields: tuple[Meanwhile, ...]) -> None:
        need = say("choose whose change to keep: somebody else changed it while you had it open")
        super().__init__("thing", thing, need)
        self.fields = fields


def edit(
    thing: str,
    entries: Sequence[Said],
    *,
    body: Body,
    base: Sequence[str] | None,
    settled: Collection[Pointer],
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
        Newest entries that the writer had seen; all of them without.
    settled : collection of str
        Fields that are said again, though they may be what they were.

    Raises
    ------
    MeanwhileError
        Where somebody has changed one of the same fields since.
    BookError
        For a base that is not here.
    """
    seen = list(entries) if base is None else behind(entries, base)
    if not seen:
        raise BookError("base", " ".join(base or ()), say("open it again, then change it"))
    before, now = add_up(seen), add_up(entries)
    old, text = msgspec.json.encode(before.body), encoded(body, field=body.kind)
    known = msgspec.json.encode(msgspec.json.decode(old, type=type(body)))
    new = msgspec.json.decode(carried(old, text, type(body)))
    differing = changes(msgspec.json.decode(known), msgspec.json.decode(text))
    changed = tuple(dict.fromkeys((*differing, *settled)))
    others = {each.id for each in entries} - {each.id for each in seen}
    if meanwhile := tuple(_meanwhile(entries, others, new=new, changed=changed)):
        raise MeanwhileError(thing, meanwhile)
    merged = msgspec.json.encode(put(now.body, new, changed))
    return Edit(before.heads, changed, merged)


def _meanwhile(
    entries: Sequence[Said], others: Collection[str], *, new: Json, changed: Sequence[Pointer]
) -> Iterator[Meanwhile]:
    """Yield each field once, with its newest change."""
    found: dict[Pointer, Meanwhile] = {}
    for entry, fields in changes_of(entries):
        for theirs in fields if entry.id in others else ():
            for field in {max(theirs, own, key=len) for own in changed if overlap(theirs, own)}:
                mine, other = look(new, field), look(entry.body, field)
                if entry.removal or mine != other:
                    found[field] = Meanwhile(field, entry.id, other, mine, entry.removal)
                else:
                    found.pop(field, None)
    yield from found.values()
