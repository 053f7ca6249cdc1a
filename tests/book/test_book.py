"""What is kept: things, their corrections and removals, and who said what and when."""

import json
import threading

import msgspec
import pytest
from msgspec.structs import replace

from evenstand.book.errors import BookError
from evenstand.book.kinds.bodies import Newer, Removal
from evenstand.book.kinds.work import Catch, Field, Note
from evenstand.book.log.entries import FORMAT, read
from evenstand.book.log.stamp import MOST_AHEAD
from evenstand.book.storage.thing import Merged

NOWHERE = "01a21037-7680-7000-8000-000000000009"


def renamed(body, name):
    return msgspec.structs.replace(body, name=name)


def retold(entry, old, new):
    """An entry as another device might have written it."""
    return read(entry.text.replace(old, new).encode())


def refused_field(call, *args, **options):
    with pytest.raises(BookError) as refused:
        call(*args, **options)
    return refused.value.field


def test_a_thing_is_what_was_said_of_it_last(book, samples, clock):
    first = book.add(samples.heron)
    clock.ms += 1000
    second = book.correct(first.about, renamed(samples.heron, "Heron 2"), why="repainted")
    thing = book.get(first.about)
    assert (thing.id, thing.kind, thing.body.name) == (first.id, "drill", "Heron 2")
    assert (thing.entry, thing.born, thing.removed) == (second, first.made, False)
    assert [entry.why for entry in book.history(thing.id)] == ["", "repainted"]


def test_an_entry_says_who_made_it_when_and_where(book, samples):
    mine = book.add(samples.heron)
    yours = book.add(samples.heron, by="Ben")
    assert (mine.by, yours.by) == ("Ada", "Ben")
    assert str(mine.made) == "2026-11-25T12:00:00.000Z-0000-shed"
    assert str(yours.made) == "2026-11-25T12:00:00.000Z-0001-shed"


def test_every_kind_is_kept(book, samples):
    for body in samples.every():
        book.add(body)
    kinds = {body.kind: 1 for body in samples.every()}
    assert book.counts() == dict(sorted(kinds.items()))
    for body in samples.every():
        assert [thing.body for thing in book.things(body.kind)] == [body]


def test_what_was_removed_is_in_no_list_but_in_its_history(book, samples):
    drill = book.add(samples.heron).about
    book.remove(drill, why="sold")
    assert book.things("drill") == []
    assert book.counts() == {}
    [gone] = book.things("drill", removed=True)
    assert (gone.removed, gone.body) == (True, samples.heron)
    assert [entry.kind for entry in book.history(drill)] == ["drill", "removal"]


def test_what_was_removed_stands_again_when_it_is_corrected(book, samples):
    drill = book.add(samples.heron).about
    book.remove(drill)
    book.correct(drill, samples.heron)
    assert not book.get(drill).removed
    assert book.things("drill", removed=True) == []


def test_things_are_listed_by_what_they_name_newest_first(book, samples, clock):
    drill = book.add(samples.heron).about
    jobs = [book.add(msgspec.structs.replace(samples.job, drill=drill)).about for _ in range(2)]
    caught = []
    for setting in range(5):
        clock.ms += 1
        body = Catch(job=jobs[setting % 2], drill=drill, setting=setting, bags=())
        caught.append(book.add(body).about)
    assert [t.id for t in book.things("catch", of=jobs[0])] == [caught[4], caught[2], caught[0]]
    assert [t.id for t in book.things("catch", of=drill)] == caught[::-1]
    assert book.things("note", of=drill) == book.things("catch", of=NOWHERE) == []


def test_a_list_can_be_read_page_by_page(book, samples):
    for _ in range(7):
        book.add(samples.catch)
    for of in (None, samples.catch.job):
        pages, last = [], None
        while page := book.things("catch", of=of, after=last, limit=3):
            pages.append(page)
            last = page[-1]
        assert [len(page) for page in pages] == [3, 3, 1]
        assert [t for page in pages for t in page] == book.things("catch", of=of)


def test_a_correction_moves_a_thing_to_another_list(book, samples):
    jobs = [book.add(samples.job).about for _ in range(2)]
    catch = book.add(msgspec.structs.replace(samples.catch, job=jobs[0])).about
    book.correct(catch, msgspec.structs.replace(samples.catch, job=jobs[1]))
    assert book.things("catch", of=jobs[0]) == []
    assert [t.id for t in book.things("catch", of=jobs[1])] == [catch]
    book.remove(catch)
    assert book.things("catch", of=jobs[1]) == []
    assert [t.id for t in book.things("catch", of=jobs[1], removed=True)] == [catch]


def test_sent_twice_is_kept_once(book, samples):
    id = book.new_id()
    first = book.add(samples.heron, id=id)
    assert book.add(samples.heron, id=id) == first
    edit, gone = book.new_id(), book.new_id()
    changed = book.correct(id, renamed(samples.heron, "Heron 2"), id=edit)
    assert book.correct(id, renamed(samples.heron, "Heron 2"), id=edit) == changed
    assert book.remove(id, id=gone) == book.remove(id, id=gone)
    assert len(book.history(id)) == len(book.entries().entries) == 3


def test_an_id_stands_for_one_thing_only(book, samples):
    id = book.add(samples.heron).id
    other = book.add(samples.heron).id
    assert refused_field(book.add, samples.note, id=id) == "entry"
    assert refused_field(book.remove, other, id=id) == "entry"
    assert refused_field(book.add, samples.heron, id="7") == "entry id"


def test_what_is_not_here_is_refused(book, samples):
    assert refused_field(book.get, NOWHERE) == "thing"
    assert refused_field(book.history, NOWHERE) == "thing"
    assert refused_field(book.remove, NOWHERE) == "thing"
    assert refused_field(book.correct, NOWHERE, samples.heron) == "thing"


def test_a_correction_is_of_the_same_kind(book, samples):
    drill = book.add(samples.heron).about
    assert refused_field(book.correct, drill, samples.note) == "kind"
    assert refused_field(book.add, Removal()) == "removal"


def test_a_body_that_is_refused_leaves_nothing_behind(book, samples):
    assert refused_field(book.add, msgspec.structs.replace(samples.heron, rows=0)) == "drill rows"
    assert book.entries().entries == ()


def test_entries_are_read_from_a_cursor(book, samples):
    made = [book.add(samples.note) for _ in range(5)]
    first = book.entries(limit=3)
    rest = book.entries(first.cursor, limit=3)
    assert (list(first.entries), first.more) == (made[:3], True)
    assert (list(rest.entries), rest.more) == (made[3:], False)
    nothing = book.entries(rest.cursor)
    assert (nothing.entries, nothing.cursor, nothing.more) == ((), rest.cursor, False)


def test_a_merge_tells_what_was_new(book, opened, samples):
    other = opened(device="phone")
    entries = [other.add(samples.note) for _ in range(3)]
    assert book.merge(entries[:2]) == Merged(2, 0)
    merged = book.merge([*entries, entries[2]])
    assert (merged.new, merged.known) == (1, 3)


def test_an_id_with_other_content_changes_nothing(book, opened, samples):
    ours = book.add(samples.note)
    before = book.entries().entries
    news = opened(device="phone").add(samples.heron)
    theirs = retold(ours, "slipped", "broke")
    assert refused_field(book.merge, [news, theirs]) == "entry"
    assert book.entries().entries == before
    assert book.things("drill") == []


def test_what_is_raised_while_entries_come_in_changes_nothing(book, opened, samples):
    def breaking():
        yield opened(device="phone").add(samples.heron)
        raise BookError("line 2", "", "damaged")

    assert refused_field(book.merge, breaking()) == "line 2"
    assert book.entries().entries == ()
    assert book.add(samples.heron)


def test_a_device_a_week_ahead_cannot_keep_others_from_changing_its_things(opened, samples, clock):
    """The wrong clock's stamp stays far ahead, yet a later change here counts."""
    wrong = opened(device="phone")
    clock.ms += 8 * MOST_AHEAD
    drill = wrong.add(renamed(samples.heron, "from the phone")).about
    clock.ms -= 8 * MOST_AHEAD
    book = opened()
    book.merge(wrong.entries().entries)
    edit = book.correct(drill, renamed(samples.heron, "from the shed"))
    assert book.get(drill).body.name == "from the shed"
    wrong.merge(book.entries().entries)
    assert wrong.get(drill).body.name == "from the shed"
    assert edit.made.ms >= clock.ms + 8 * MOST_AHEAD
    assert book.add(samples.note).made.ms == clock.ms


def test_a_clock_a_little_behind_is_moved_on_by_what_it_sees(opened, samples, clock):
    ahead = opened(device="phone", clock=lambda: clock.ms + 60_000)
    book = opened()
    seen = ahead.add(samples.note)
    book.merge([seen])
    assert book.add(samples.note).made > seen.made


def test_two_copies_of_one_device_agree_though_their_stamps_are_the_same(opened, samples):
    one, copy = opened(), opened()
    drill = one.add(samples.heron)
    copy.merge([drill])
    edits = [book.correct(drill.about, renamed(samples.heron, "x")) for book in (one, copy)]
    assert edits[0].made == edits[1].made
    one.merge([edits[1]])
    copy.merge([edits[0]])
    assert one.get(drill.about) == copy.get(drill.about)
    assert one.get(drill.about).entry == max(edits, key=lambda entry: entry.id)


def test_the_clock_is_remembered(opened, samples, tmp_path):
    first = opened(tmp_path / "book").add(samples.note)
    put_back = opened(tmp_path / "book", clock=lambda: first.made.ms - 60_000)
    assert put_back.add(samples.note).made > first.made


def test_a_thing_of_a_newer_release_is_listed_and_left_alone(book, samples):
    entry = book.add(samples.note)
    later = retold(entry, f'"format":{FORMAT}', f'"format":{FORMAT + 1}')
    unread = retold(later, '"text":"chain slipped"', '"text":["chain"]')
    fresh = read(unread.text.replace(entry.id, NOWHERE).encode())
    book.merge([fresh])
    thing = book.get(NOWHERE)
    assert thing.newer
    assert isinstance(thing.body, Newer)
    assert thing in book.things("note")
    assert refused_field(book.correct, NOWHERE, samples.note) == "note"


def test_what_a_newer_release_wrote_outlives_a_correction_here(book, samples):
    entry = book.add(samples.note)
    newer = retold(entry, '"text":', '"ink":"blue","text":').text.replace(entry.id, NOWHERE)
    book.merge([read(newer.encode())])
    edit = book.correct(NOWHERE, Note(of=samples.note.of, text="chain renewed"))
    assert json.loads(edit.text)["body"]["ink"] == "blue"
    assert edit.body.text == "chain renewed"


def test_a_thing_made_by_a_newer_release_is_found_once_it_can_be_read(opened, samples, tmp_path):
    """A kind this release does not know has no links; a release that knows it makes them."""
    book = opened(tmp_path / "book")
    job = book.add(samples.job).about
    note = book.add(Note(of=job, text="wet"))
    store = book._store
    with store.writing():
        store._sqlite.execute("DELETE FROM link")
        store.remember("format", str(FORMAT - 1))
    assert book.things("note", of=job) == []
    again = opened(tmp_path / "book")
    assert [thing.id for thing in again.things("note", of=job)] == [note.id]


def test_threads_write_into_one_book(opened, samples, tmp_path):
    book = opened(tmp_path / "book")

    def work():
        for _ in range(20):
            book.add(samples.note)
            book.things("note", limit=5)

    threads = [threading.Thread(target=work) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    stamps = [entry.made for entry in book.entries().entries]
    assert len(set(stamps)) == 80
    assert stamps == sorted(stamps)


def test_two_programs_write_into_one_file(opened, samples, tmp_path):
    one, other = opened(tmp_path / "book"), opened(tmp_path / "book")
    made = [book.add(samples.note) for book in (one, other, one, other)]
    assert list(one.entries().entries) == list(other.entries().entries) == made
    assert len({entry.made for entry in made}) == 4


def test_many_are_kept_all_or_none(opened):
    """One whose id stands for something else keeps the others out too."""
    book = opened()
    taken = book.add(Field(name="Alder Bench")).id
    free = book.new_id()
    with pytest.raises(BookError) as refused:
        book.keep_all({free: Field(name="Teal Draw"), taken: Field(name="Long Flat")}, {})
    assert refused.value.field == "entry"
    assert [thing.id for thing in book.things("field")] == [taken]
    for _ in range(2):
        book.keep_all({free: Field(name="Teal Draw")}, {}, by="Ada")
    assert {thing.id for thing in book.things("field")} == {free, taken}
    assert book.get(free).entry.by == "Ada"


@pytest.fixture
def newer_heron(book, samples):
    """A drill as a newer release knows it: with a hitch, a taped spacing, and chains."""
    entry = book.add(samples.heron)
    told = json.loads(entry.text)
    told["body"] |= {"hitch": {"kind": "drawn", "at": 1.5}}
    told["body"]["spacing"]["by"] = "tape"
    for gear in told["body"]["gears"]:
        gear["chain"] = 40
    told |= {"id": NOWHERE, "about": NOWHERE, "format": FORMAT + 1}
    book.merge([read(json.dumps(told).encode())])
    return NOWHERE


def _body(entry):
    return json.loads(entry.text)["body"]


def test_fields_of_a_newer_release_outlive_a_change_by_this_one(book, samples, newer_heron):
    edited = book.correct(newer_heron, replace(samples.heron, rows=24))
    assert _body(edited)["hitch"] == {"kind": "drawn", "at": 1.5}
    assert _body(edited)["spacing"] == {"value": 0.1905, "text": "7.5 in", "by": "tape"}
    assert edited.newer
    assert edited.changed == ("/rows",)


def test_an_item_that_has_a_name_keeps_them_though_it_was_changed(book, samples, newer_heron):
    full, half = samples.heron.gears
    gears = (replace(half, ratio=0.6), full)
    edited = book.correct(newer_heron, replace(samples.heron, gears=gears))
    assert _body(edited)["gears"] == [
        {"name": "half", "ratio": 0.6, "driver": 12, "driven": 24, "chain": 40},
        {"name": "full", "ratio": 1, "chain": 40},
    ]


def test_fields_that_were_left_out_are_not_brought_back(book, samples):
    drill = book.add(samples.heron).about
    without = replace(samples.heron, rolled=None, scale=None)
    assert book.correct(drill, without).body == without


def test_a_removal_carries_nothing_of_what_it_removes(book, samples):
    assert _body(book.remove(book.add(samples.heron).about)) == {}
