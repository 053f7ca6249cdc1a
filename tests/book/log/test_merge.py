"""Several books, each with its own wrong clock, exchange entries badly and end alike."""

from contextlib import ExitStack
from itertools import combinations

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import Bundle, RuleBasedStateMachine, consumes, initialize, invariant, rule
from msgspec.structs import replace

from evenstand.book.kinds.work import Field, Note
from evenstand.book.log.editing import MeanwhileError
from evenstand.book.log.entries import read
from evenstand.book.opening import open_book
from long import TIMES, tried

NOON = 1_795_608_000_000
DEVICES = ("laptop", "phone", "tablet")
each_device = st.sampled_from(DEVICES)
names = st.text(st.characters(codec="utf-8"), min_size=1, max_size=5)


def state(book):
    """All that a book shows, with what was removed and what two people changed apart."""
    return [
        (thing, book.clashes(thing.id))
        for kind in ("field", "note", "removal")
        for removed in (False, True)
        for thing in book.things(kind, removed=removed)
    ]


def texts(book):
    """All entries of a book as they are written."""
    with book.all_entries() as entries:
        return [entry.text for entry in entries]


FIELDS = {"field": ("name", "state", "note"), "note": ("text",)}


class Wrote:
    """What this test itself did: which fields, to what, having seen which entries."""

    def __init__(self, entry, fields, seen):
        self.id, self.about, self.kind = entry.id, entry.about, entry.kind
        self.order, self.fields, self.seen = (str(entry.made), entry.id), fields, seen

    def value(self, field):
        """What it made of a field: a removal takes them all."""
        return None if self.kind == "removal" else self.fields.get(field)

    def writes(self, field):
        return self.kind == "removal" or field in self.fields


def by_hand(wrote):
    """What was written adds up to: id → (removed, fields), each field as it was last written."""
    found = {}
    for each in sorted(wrote, key=lambda each: each.order):
        _, fields = found.get(each.about, (None, {}))
        found[each.about] = (each.kind == "removal", fields | each.fields)
    return found


def apart(wrote):
    """Pairs that wrote one field differently, neither having seen the other, both unanswered."""
    found = set()
    for field in {name for names in FIELDS.values() for name in names}:
        writers = [each for each in wrote if each.writes(field)]
        last = [
            each
            for each in writers
            if not any(each.about == k.about and each.id in k.seen for k in writers)
        ]
        for a, b in combinations(sorted(last, key=lambda each: each.order), 2):
            if a.about == b.about and a.value(field) != b.value(field):
                found.add((a.about, a.id, b.id))
    return found


def shown(book):
    """What a book shows, in the same form."""
    things = [t for k in FIELDS for gone in (False, True) for t in book.things(k, removed=gone)]
    return {
        each.id: (each.removed, {f: getattr(each.body, f) for f in FIELDS[each.body.kind]})
        for each in things
    }


def told_apart(book):
    """What a book says was changed apart, in the same form."""
    return {
        (thing.id, clash.other, clash.counted)
        for thing in book.clashing()
        for clash in book.clashes(thing.id)
    }


class Exchange(RuleBasedStateMachine):
    """Three devices."""

    things = Bundle("things")
    forms = Bundle("forms")
    parcels = Bundle("parcels")

    @initialize()
    def begin(self):
        self.clocks = dict.fromkeys(DEVICES, NOON)
        self.books = {
            device: open_book(":memory:", device=device, clock=lambda d=device: self.clocks[d])
            for device in DEVICES
        }
        self.acknowledged = {device: [] for device in DEVICES}
        self.wrote = []

    def kept(self, device, entry, fields, *, seen=frozenset()):
        """Note what a book has said to be kept, and see that it shows it."""
        self.acknowledged[device].append(entry.text)
        self.wrote.append(Wrote(entry, fields, seen))
        book = self.books[device]
        assert book.history(entry.about)[-1] == entry
        now = book.get(entry.about)
        assert now.removed == (entry.kind == "removal")
        assert all(getattr(now.body, name) == value for name, value in fields.items())

    def standing(self, device, thing):
        """A thing as a device shows it, if it does."""
        return [t for k in FIELDS for t in self.books[device].things(k) if t.id == thing]

    def seen(self, device, thing):
        """What is here of a thing, with what its writers had seen: a parcel may bring a part."""
        here = {entry.id for entry in self.books[device].history(thing)}
        return frozenset(here).union(*(each.seen for each in self.wrote if each.id in here))

    @rule(device=each_device, ms=st.integers(0, 5 * NOON) | st.integers(NOON - 5, NOON + 5))
    def set_clock(self, device, ms):
        self.clocks[device] = ms

    @rule(target=things, device=each_device, name=names)
    def add_field(self, device, name):
        entry = self.books[device].add(Field(name=name))
        self.kept(device, entry, {"name": name, "state": "", "note": ""})
        return entry.about

    @rule(target=things, device=each_device, of=things, text=names)
    def add_note(self, device, of, text):
        entry = self.books[device].add(Note(of=of, text=text))
        self.kept(device, entry, {"text": text})
        return entry.about

    @rule(target=forms, device=each_device, thing=things)
    def open_form(self, device, thing):
        """Somebody opens a form, and looks away."""
        return device, thing, self.standing(device, thing), self.seen_or_not(device, thing)

    def seen_or_not(self, device, thing):
        return self.seen(device, thing) if self.standing(device, thing) else frozenset()

    @rule(form=consumes(forms), data=st.data(), value=names)
    def send_form(self, form, data, value):
        """It is sent: it says one field, or somebody has said that one meanwhile."""
        device, thing, standing, seen = form
        if not standing:
            return
        [known] = standing
        field = data.draw(st.sampled_from(FIELDS[known.body.kind]))
        body, book = replace(known.body, **{field: value}), self.books[device]
        asked, expected = set(), self.asks(device, form, field=field, value=value)
        try:
            entry = book.correct(thing, body, base=known.heads)
        except MeanwhileError as refused:
            asked = {each.field for each in refused.fields}
        assert asked == expected
        if not asked:
            changed = {field: value} if getattr(known.body, field) != value else {}
            self.kept(device, entry, changed, seen=seen)

    def asks(self, device, form, *, field, value):
        """What has to be asked: the field as others left it since, and whether they removed all."""
        _, thing, [known], seen = form
        before, here = getattr(known.body, field), self.seen(device, thing)
        since = [e for e in self.wrote if e.about == thing and e.id in here and e.id not in seen]
        since.sort(key=lambda each: each.order)
        edits = [each for each in since if field in each.fields]
        asked = {f"/{field}"} if edits and edits[-1].value(field) not in (before, value) else set()
        if since and since[-1].kind == "removal":
            asked |= {""}
        return asked if value != before else set()

    @rule(device=each_device, thing=things, data=st.data())
    def correct(self, device, thing, data):
        for known in self.standing(device, thing):
            field, value = data.draw(st.sampled_from(FIELDS[known.body.kind])), data.draw(names)
            seen = self.seen(device, thing)
            body = replace(known.body, **{field: value})
            entry = self.books[device].correct(thing, body)
            self.kept(device, entry, {field: value} if body != known.body else {}, seen=seen)

    @rule(device=each_device, thing=things)
    def remove(self, device, thing):
        if self.standing(device, thing):
            seen = self.seen(device, thing)
            self.kept(device, self.books[device].remove(thing), {}, seen=seen)

    @rule(device=each_device)
    def settle(self, device):
        """Somebody says the fields again that were changed apart."""
        book = self.books[device]
        for thing in book.clashing():
            if self.standing(device, thing.id):
                fields = {clash.field for clash in book.clashes(thing.id)}
                seen = self.seen(device, thing.id)
                names = FIELDS[thing.body.kind] if "" in fields else [f[1:] for f in fields]
                settled = [f"/{name}" for name in names]
                entry = book.correct(thing.id, thing.body, settled=settled)
                self.kept(device, entry, {n: getattr(thing.body, n) for n in names}, seen=seen)

    @rule(target=parcels, device=each_device, data=st.data())
    def pack(self, device, data):
        """Take some of a book's entries in any order, some of them twice."""
        lines = texts(self.books[device])
        return data.draw(st.lists(st.sampled_from(lines))) if lines else []

    @rule(device=each_device, parcel=parcels)
    def deliver(self, device, parcel):
        tried("merges of books")
        self.books[device].merge(read(line.encode()) for line in parcel)

    @rule(parcel=consumes(parcels))
    def lose(self, parcel):
        """A parcel that never comes."""

    @rule(device=each_device, other=each_device)
    def exchange_all(self, device, other):
        tried("merges of books")
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
            assert shown(book) == by_hand(self.wrote)
            assert told_apart(book) == apart(self.wrote)


TestExchange = Exchange.TestCase
TestExchange.settings = settings(max_examples=60 * TIMES, stateful_step_count=40, deadline=None)
