"""Several books, each with its own wrong clock, exchange entries badly and end alike."""

from contextlib import ExitStack

import msgspec
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import Bundle, RuleBasedStateMachine, consumes, initialize, invariant, rule

from evenstand.book.entries import read
from evenstand.book.opening import open_book
from evenstand.book.work import Field, Note

NOON = 1_795_608_000_000
DEVICES = ("laptop", "phone", "tablet")
each_device = st.sampled_from(DEVICES)
names = st.text(st.characters(codec="utf-8"), min_size=1, max_size=5)


def state(book):
    """All that a book shows, with what was removed."""
    return [
        (thing.id, thing.removed, str(thing.born), thing.entry.text)
        for kind in ("field", "note", "removal")
        for removed in (False, True)
        for thing in book.things(kind, removed=removed)
    ]


def texts(book):
    """All entries of a book as they are written."""
    with book.all_entries() as entries:
        return [entry.text for entry in entries]


def by_hand(lines):
    """What entries add up to, worked out from their texts alone: id → (removed, body)."""
    entries = sorted(
        (msgspec.json.decode(line) for line in lines), key=lambda e: (e["made"], e["id"])
    )
    found = {}
    for entry in entries:
        _, body = found.get(entry["about"], (None, None))
        removed = entry["kind"] == "removal"
        found[entry["about"]] = (removed, body if removed else entry["body"])
    return found


def shown(book):
    """What a book shows, in the same form."""
    things = [*book.things("field"), *book.things("note")]
    gone = [*book.things("field", removed=True), *book.things("note", removed=True)]
    return {each.id: (each.removed, msgspec.to_builtins(each.body)) for each in things + gone}


class Exchange(RuleBasedStateMachine):
    """Three devices."""

    things = Bundle("things")
    parcels = Bundle("parcels")

    @initialize()
    def begin(self):
        self.clocks = dict.fromkeys(DEVICES, NOON)
        self.books = {
            device: open_book(":memory:", device=device, clock=lambda d=device: self.clocks[d])
            for device in DEVICES
        }
        self.acknowledged = {device: [] for device in DEVICES}

    def kept(self, device, entry):
        """Note what a book has said to be kept, and see that it shows it."""
        self.acknowledged[device].append(entry.text)
        assert self.books[device].history(entry.about)[-1] == entry
        assert self.books[device].get(entry.about).removed == (entry.kind == "removal")

    @rule(device=each_device, ms=st.integers(0, 5 * NOON) | st.integers(NOON - 5, NOON + 5))
    def set_clock(self, device, ms):
        self.clocks[device] = ms

    @rule(target=things, device=each_device, name=names)
    def add_field(self, device, name):
        entry = self.books[device].add(Field(name=name))
        self.kept(device, entry)
        return entry.about

    @rule(target=things, device=each_device, of=things, text=names)
    def add_note(self, device, of, text):
        entry = self.books[device].add(Note(of=of, text=text))
        self.kept(device, entry)
        return entry.about

    @rule(device=each_device, thing=things, name=names)
    def correct(self, device, thing, name):
        book = self.books[device]
        for known in [t for k in ("field", "note") for t in book.things(k) if t.id == thing]:
            field = isinstance(known.body, Field)
            body = Field(name=name) if field else Note(of=known.body.of, text=name)
            self.kept(device, book.correct(thing, body))

    @rule(device=each_device, thing=things)
    def remove(self, device, thing):
        book = self.books[device]
        if any(t.id == thing for k in ("field", "note") for t in book.things(k)):
            self.kept(device, book.remove(thing))

    @rule(target=parcels, device=each_device, data=st.data())
    def pack(self, device, data):
        """Take some of a book's entries in any order, some of them twice."""
        lines = texts(self.books[device])
        return data.draw(st.lists(st.sampled_from(lines))) if lines else []

    @rule(device=each_device, parcel=parcels)
    def deliver(self, device, parcel):
        self.books[device].merge(read(line.encode()) for line in parcel)

    @rule(parcel=consumes(parcels))
    def lose(self, parcel):
        """A parcel that never comes."""

    @rule(device=each_device, other=each_device)
    def exchange_all(self, device, other):
        self.books[device].merge(self.books[other].entries(limit=10**6).entries)

    @invariant()
    def nothing_acknowledged_is_missing(self):
        for device, lines in getattr(self, "acknowledged", {}).items():
            assert set(lines) <= set(texts(self.books[device]))

    def teardown(self):
        with ExitStack() as open_books:
            for book in getattr(self, "books", {}).values():
                open_books.enter_context(book)
            self.all_end_alike(open_books)

    def all_end_alike(self, open_books):
        """After all has been exchanged, every book is what its entries say, and the same."""
        for receiver in (*DEVICES, *DEVICES):
            for sender in DEVICES:
                self.exchange_all(receiver, sender)
        everything = sorted(line for lines in self.acknowledged.values() for line in lines)
        anew = open_books.enter_context(open_book(":memory:", device="new", clock=lambda: NOON))
        anew.merge(read(line.encode()) for line in everything)
        for book in self.books.values():
            assert sorted(texts(book)) == everything
            assert texts(book) == texts(anew)
            assert state(book) == state(anew)
            assert shown(book) == by_hand(everything)


TestExchange = Exchange.TestCase
TestExchange.settings = settings(max_examples=60, stateful_step_count=40, deadline=None)
