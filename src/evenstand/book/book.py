"""The book: entries, what they add up to, and how two books become alike."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Self

import msgspec

from evenstand.engine.quantities.phrases import say

from .errors import BookError
from .kinds.bodies import Newer, Removal
from .kinds.identity import uuid7
from .kinds.shape import Body
from .log.edit import Answered, Edit
from .log.editing import NOBODY_ASKED, edit, undone
from .log.entries import FORMAT, Entry, encoded, read, write
from .log.merging import WHOLE, Clash, add_up
from .log.said import said
from .log.stamp import Stamp, follow, read_stamp, tick
from .people.devices import Devices
from .people.people import People
from .storage.check import Checked, examine
from .storage.copies import Copies, Missing, check_copy, missing
from .storage.files import new_file
from .storage.many import Many
from .storage.marks import Marks
from .storage.projection import project
from .storage.store import MEMORY, Store
from .storage.thing import Batch, Merged, Text, Thing, the_same, thing_of

NEWEST = ("~", "~")  # sorts behind every stamp and id
MOST_LISTED = 1_000_000


class Book:
    """Everything that is kept. Open one with `opening.open_book`.

    A call that writes returns when what it wrote is on disk.
    """

    def __init__(
        self,
        store: Store,
        *,
        device: str,
        who: str,
        clock: Callable[[], int],
        random: Callable[[int], bytes],
    ) -> None:
        self._store, self.device, self.who = store, device, who
        self._clock, self._random = clock, random
        self.many = Many(store)
        self.marks = Marks(store)
        self.copies = Copies(store, clock=clock)
        self.people = People(store, clock=clock, random=random)
        self.devices = Devices(store, clock=clock, random=random)
        if store.state("format") != str(FORMAT):
            self._work_out_anew()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *raised: object) -> None:
        self.close()

    @property
    def file(self) -> Path | None:
        """Where it lies, None for a book in memory."""
        return None if self._store.where == MEMORY else Path(self._store.where)

    def close(self) -> None:
        """Let go of the file."""
        self._store.close()

    def new_id(self) -> str:
        """Make an id for an entry, so that a form sent twice is kept once."""
        return uuid7(self._clock(), self._random(10))

    def add(self, body: Body, *, id: str | None = None, by: str | None = None) -> Entry:
        """Keep a new thing; its id is that of the entry.

        Parameters
        ----------
        id : str, optional
            From `new_id`: given again with the same body, nothing more is kept.
        by : str, optional
            Who says it, else whoever opened the book.

        Raises
        ------
        BookError
            For a body its type refuses, a removal, or an id that stands for
            something else.
        """
        if isinstance(body, Removal):
            raise BookError("removal", None, say("choose the item to remove by its ID"))
        id = id or self.new_id()
        with self._writing():
            return self._put(body, id=id, about=id, by=by)

    def keep_all(
        self, new: Mapping[str, Body], changed: Mapping[str, Body], *, by: str | None = None
    ) -> None:
        """Keep new things under ids of their own and newer states of others, all or none.

        Raises as `add` and `correct`.
        """
        with self._writing():
            for id, body in new.items():
                self._put(body, id=id, about=id, by=by)
            for thing, body in changed.items():
                entries = said(self._store.history(thing))
                edited = edit(thing, entries, body=body, base=None, settled=())
                self._put(body, id=self.new_id(), about=thing, by=by, edited=edited)

    def correct(
        self,
        thing: str,
        body: Body,
        *,
        why: str = "",
        id: str | None = None,
        by: str | None = None,
        base: Sequence[str] | None = None,
        settled: Collection[str] = (),
        answered: Answered = NOBODY_ASKED,
    ) -> Entry:
        """Keep a newer state of a thing, or the right form of a catch; the old one stays in sight.

        Only the fields that differ from what the writer saw are changed. A
        removed thing stands again.

        Parameters
        ----------
        thing : str
        body : Body
            The whole state as the writer wants it.
        why, id, by : str, optional
            As `add`; ``why`` is the reason.
        base : sequence of str, optional
            `Thing.heads` of the state that the writer saw, else of that which
            stands.
        settled : collection of str
            Fields that two people changed apart, and that are now said again.
        answered : Answered
            How the writer decided about fields that somebody else changed
            meanwhile. Where all are left to the other, nothing is written, and
            the newest entry returned.

        Raises
        ------
        MeanwhileError
            Where somebody has changed one of the same fields since.
        BookError
            As `add`, and for a thing that is not here, is of another kind, or
            cannot be read by this release.
        """
        now = self.get(thing)
        if body.kind != now.kind:
            raise BookError("kind", body.kind, say("enter {kind}, just as it is", kind=now.kind))
        if isinstance(now.body, Newer):
            need = say("change it where it was made: a newer version of Evenstand wrote it")
            raise BookError(now.kind, thing, need)
        id = id or self.new_id()
        with self._writing():
            if (text := self._store.text_of(id)) is not None:
                return the_same(read(text.encode()), body, about=thing)
            entries = said(self._store.history(thing))
            edited = edit(thing, entries, body=body, base=base, settled=settled, answered=answered)
            if answered.theirs and not edited.changed:
                return read(self._store.history(thing)[-1].encode())
            return self._put(body, id=id, about=thing, by=by, why=why, edited=edited)

    def remove(
        self, thing: str, *, why: str = "", id: str | None = None, by: str | None = None
    ) -> Entry:
        """Take a thing out of all lists; it stays in its history.

        Raises
        ------
        BookError
            For a thing that is not here.
        """
        heads = self.get(thing).heads
        id, edited = id or self.new_id(), Edit(heads, (WHOLE,), b"{}")
        with self._writing():
            return self._put(Removal(), id=id, about=thing, by=by, why=why, edited=edited)

    def put_back(self, thing: str, *, by: str | None = None) -> Entry:
        """Write the last state of a thing that this release can read, where only a newer one can.

        Raises
        ------
        BookError
            For a thing that is not here, can be read, or never could.
        """
        now = self.get(thing)
        told = [each.body for each in self.history(thing) if each.kind == now.kind]
        bodies = [body for body in told if not isinstance(body, Newer)]
        if not isinstance(now.body, Newer) or not bodies:
            need = say("choose something that a newer version changed and this one can read")
            raise BookError(now.kind, thing, need)
        edited = Edit(now.heads, (WHOLE,), encoded(bodies[-1], field=now.kind))
        with self._writing():
            return self._put(bodies[-1], id=self.new_id(), about=thing, by=by, edited=edited)

    def undo(
        self, thing: str, entry: str, *, id: str | None = None, by: str | None = None
    ) -> Entry:
        """Put the fields of a correction back as they were before it, or a removed thing.

        Raises
        ------
        BookError
            As `correct`, and for an entry before which there was nothing.
        """
        now = self.get(thing)
        if isinstance(now.body, Newer):
            need = say("change it where it was made: a newer version of Evenstand wrote it")
            raise BookError(now.kind, thing, need)
        before = undone(said(self._store.history(thing)), entry)
        if before == msgspec.to_builtins(now.body) and not now.removed:
            return now.entry
        return self.correct(thing, msgspec.convert(before, type(now.body)), id=id, by=by)

    def get(self, thing: str) -> Thing:
        """Return a thing, a removed one too.

        Raises
        ------
        BookError
            For a thing that is not here.
        """
        row = self._store.thing(thing)
        if row is None:
            raise BookError("thing", thing, say("enter the ID of something in this book"))
        return thing_of(row)

    def things(
        self,
        kind: str,
        *,
        of: str | None = None,
        removed: bool = False,
        after: Thing | None = None,
        limit: int = MOST_LISTED,
    ) -> list[Thing]:
        """List the things of a kind, newest first.

        Parameters
        ----------
        of : str, optional
            Only those that name this thing, such as the catches of a job or a drill.
        removed : bool
            Those that were removed, instead of those that stand.
        after : Thing, optional
            The last of the page before.
        """
        key = (str(after.born), after.id) if after else NEWEST
        rows = self._store.things(kind, of=of, removed=removed, after=key, limit=limit)
        return [thing_of(row) for row in rows]

    def counts(self) -> dict[str, int]:
        """Count the things that stand, by kind."""
        return dict(self._store.counts())

    def history(self, thing: str) -> list[Entry]:
        """Return every entry about a thing, oldest first.

        Raises
        ------
        BookError
            For a thing that is not here.
        """
        self.get(thing)
        return [read(text.encode()) for text in self._store.history(thing)]

    def clashes(self, thing: str) -> tuple[Clash, ...]:
        """Return the fields of a thing that two people changed apart, until one says them again."""
        return add_up(said(self._store.history(thing))).clashes

    def clashing(self) -> list[Thing]:
        """Return the things that have such fields."""
        return list(self.many.things(self._store.clashing()).values())

    def entries(self, since: int = 0, *, limit: int = 1000) -> Batch[Entry]:
        """Return what came into this book after a cursor, read; 0 is the beginning."""
        batch = self.written(since, limit=limit)
        found = tuple(read(each.text.encode()) for each in batch.entries)
        return Batch(found, batch.cursor, batch.more)

    def written(self, since: int = 0, *, limit: int = 1000) -> Batch[Text]:
        """Return what came into this book after a cursor, as it was written."""
        rows = self._store.since(since, limit=limit + 1)
        taken = rows[:limit]
        return Batch(
            entries=tuple(Text(id, text) for _, id, text in taken),
            cursor=taken[-1][0] if taken else since,
            more=len(rows) > limit,
        )

    def has(self, entry: Entry) -> bool:
        """Whether an entry is here already.

        Raises
        ------
        BookError
            Where its id stands for something else here.
        """
        return not self._is_new(entry)

    def newest(self, *, before: str = "~", limit: int) -> list[Entry]:
        """Return the entries made before a stamp, newest first."""
        return [read(text.encode()) for text in self._store.newest(before, limit=limit)]

    def cursor(self) -> int:
        """Return the cursor behind the newest entry."""
        return self._store.last()

    @contextmanager
    def all_entries(self) -> Iterator[Iterator[Entry]]:
        """Give all entries as they stand at one moment, in the order that all books share."""
        with self._store.aside() as store, store.reading():
            yield (read(row[-1].encode()) for row in store.every_entry())

    def merge(self, entries: Iterable[Entry]) -> Merged:
        """Take in entries from elsewhere, in any order, known ones too: all of them or none.

        Raises
        ------
        BookError
            For an id that stands for something else here, and whatever
            ``entries`` raises while it is read.
        """
        new = known = 0
        abouts: dict[str, None] = {}
        with self._writing():
            last, now = self._last(), self._clock()
            for entry in entries:
                if not self._is_new(entry):
                    known += 1
                    continue
                self._insert(entry)
                new, abouts[entry.about] = new + 1, None
                last = follow(last, entry.made, now=now)
            for about in abouts:
                self._project(about)
            self._remember(last)
        return Merged(new, known)

    def settle(self) -> None:
        """Put what was written into the file itself, where nobody has written since it was asked.

        Until then the newest entries lie in the log beside it.
        """
        self._store.settle()

    def backup(self, path: Path) -> None:
        """Copy the whole book into a new file, while it is in use.

        Raises
        ------
        BookError
            For a file that is there already, or cannot be written.
        """
        with new_file(path) as beside, self._store.aside() as store:
            store.copy_to(beside)

    def check(self) -> Checked:
        """Look for damage, and for what names things that are not here."""
        with self._store.aside() as store:
            return examine(store)

    @contextmanager
    def _writing(self) -> Iterator[None]:
        self.copies.daily()
        with self._store.writing():
            yield

    def restore(self, copy: Path, *, really: bool) -> Missing:
        """Say what a copy does not have of this book; ``really`` goes back to it.

        Raises
        ------
        BookError
            For what is no copy, is damaged, or was made by a newer version.
        """
        check_copy(copy)
        source = Store(str(copy), reader=True)
        try:
            lost = missing(self._store, source)
            if really:
                self.copies.make()
                self._store.go_back_to(source)
        finally:
            source.close()
        return lost

    def _put(
        self,
        body: Body,
        *,
        id: str,
        about: str,
        by: str | None,
        why: str = "",
        edited: Edit | None = None,
    ) -> Entry:
        if (text := self._store.text_of(id)) is not None:
            return the_same(read(text.encode()), body, about=about)
        now, last = self._clock(), self._last()
        entry = write(
            body,
            id=id,
            about=about,
            made=tick(last, now=now, device=self.device, behind=self._newest(about)),
            by=self.who if by is None else by,
            why=why,
            edited=edited,
        )
        self._insert(entry)
        self._project(about)
        self._remember(follow(last, entry.made, now=now))
        return entry

    def _is_new(self, entry: Entry) -> bool:
        known = self._store.hash_of(entry.id)
        if known is not None and known != entry.sha256:
            need = say("leave it out: this ID already belongs to something else in this book")
            raise BookError("entry", entry.id, need)
        return known is None

    def _insert(self, entry: Entry) -> None:
        made = str(entry.made)
        self._store.insert((entry.id, entry.about, entry.kind, made, entry.sha256, entry.text))

    def _project(self, about: str) -> None:
        if found := project(self._store, about):
            self._store.keep(found.row, found.targets)

    def _newest(self, about: str) -> Stamp | None:
        text = self._store.newest_stamp(about)
        return read_stamp(text) if text else None

    def _last(self) -> Stamp | None:
        text = self._store.state("clock")
        return read_stamp(text) if text else None

    def _remember(self, last: Stamp | None) -> None:
        if last:
            self._store.remember("clock", str(last))

    def _work_out_anew(self) -> None:
        """Let this release read what another one has kept without knowing it."""
        with self._store.writing():
            for about in self._store.abouts():
                self._project(about)
            self._store.remember("format", str(FORMAT))
