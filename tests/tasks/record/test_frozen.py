"""A finished record stays as it stood; what changed since is told, and amended with a reason."""

import shutil
from pathlib import Path

import pytest
from msgspec.structs import replace

from evenstand.book.kinds.frozen import Frozen
from evenstand.book.kinds.sown import Finished
from evenstand.book.opening import open_book
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style
from evenstand.engine.quantities.units import ROWS
from evenstand.engine.seed.tag import Month
from evenstand.tasks.record.frame import Reader
from evenstand.tasks.record.frozen import (
    changed_since,
    freeze,
    freeze_if_finished,
    freeze_old,
    frozen_record,
    opened,
    versions,
)
from evenstand.tasks.record.record import record

NOVEMBER = Month(2026, 11)
READER = Reader(style=Style(), language="en", invented=False)


@pytest.fixture
def job(book):
    """A job of the demo that was sown to its end, as if nobody had frozen its record."""
    job = book.things(Finished.kind)[-1].body.job
    for version in book.things(Frozen.kind, of=job):
        book.remove(version.id)
    return job


def shown(book, job):
    return record(book, job, READER, today=NOVEMBER)


def seed_of(book, job):
    mix = book.get(job).body.mix
    members = book.get(mix).body.members if mix else ()
    return [mix, *(member.lot for member in members if member.lot)] if mix else []


def test_a_later_change_of_a_lot_a_drill_and_a_mix_touches_no_finished_record(book, job):
    version = freeze(book, job, today=NOVEMBER)
    before = shown(book, job)
    drill = book.get(job).body.drill
    book.correct(drill, replace(book.get(drill).body, rows=17))
    for id in seed_of(book, job):
        book.correct(id, replace(book.get(id).body, note="changed"))
    with opened(book, version) as stood:
        assert shown(stood, job) == before
    assert shown(book, job) != before


def test_what_changed_since_is_told_field_by_field(book, job):
    version = freeze(book, job, today=NOVEMBER)
    assert changed_since(book, version) == ()
    drill = book.get(job).body.drill
    book.correct(drill, replace(book.get(drill).body, rows=17), by="Kay")
    [change] = changed_since(book, version)
    assert (change.kind, change.entry.by, change.now) == ("drill", "Kay", ROWS(17))


def test_what_came_and_went_since_is_told(book, job):
    version = freeze(book, job, today=NOVEMBER)
    catch = book.things("catch", of=job)[0]
    book.remove(catch.id)
    book.add(replace(catch.body, note="one more"))
    told = {(change.kind, str(change.now)) for change in changed_since(book, version)}
    assert told == {("catch", "removed"), ("catch", "added")}


def test_an_amended_record_says_why_and_keeps_both_versions(book, job):
    first = freeze(book, job, today=NOVEMBER)
    with pytest.raises(MeasurementError) as refused:
        freeze(book, job, today=NOVEMBER, why="to be sure")
    assert refused.value.field == "record"
    drill = book.get(job).body.drill
    book.correct(drill, replace(book.get(drill).body, rows=17))
    with pytest.raises(MeasurementError) as refused:
        freeze(book, job, today=NOVEMBER)
    assert refused.value.field == "why"
    second = freeze(book, job, today=NOVEMBER, why="three rows were taken off", by="Kay")
    assert [each.number for each in versions(book, job)] == [1, 2]
    assert (second.body.amends, second.body.why) == (first.thing.id, "three rows were taken off")
    assert changed_since(book, second) == ()
    with opened(book, first) as stood:
        assert stood.get(drill).body.rows != 17


def test_two_devices_that_freeze_the_same_make_one_version(book, job):
    freeze(book, job, today=NOVEMBER)
    again = replace(versions(book, job)[0].body)
    book.add(again)
    assert len(versions(book, job)) == 1


def test_a_job_is_frozen_once_when_its_end_is_written_down(book, job):
    other = next(thing.id for thing in book.things("job") if thing.id != job)
    for each in (job, job, other):
        freeze_if_finished(book, each, today=NOVEMBER)
    assert len(versions(book, job)) == 1
    assert versions(book, other) == ()


OLD = Path(__file__).parents[2] / "books" / "book-0.1.0.evenstand"


def test_a_book_of_the_first_release_is_frozen_once_as_it_stands(tmp_path):
    with open_book(shutil.copy(OLD, tmp_path / "kept"), device="shed", who="") as old:
        job = old.things(Finished.kind)[0].body.job
        live = shown(old, job)
        for _ in range(2):
            freeze_old(old, today=NOVEMBER)
        [version] = versions(old, job)
        assert version.body.why.startswith("as it stood when this version")
        document = frozen_record(old, version, READER)
        assert document.sections == live.sections
        told = {each.name: each.cell.text for each in document.facts}
        assert told["Why"] == version.body.why
        assert told["Version"].replace("\u00a0", " ") == "1 of 1"
        assert {"Frozen", "Made of"} <= set(told)


def test_an_end_whose_job_is_not_here_is_frozen_later(book, job):
    with open_book(":memory:", device="barn") as other:
        [end] = book.things(Finished.kind, of=job)
        other.merge(book.history(end.id))
        freeze_old(other, today=NOVEMBER)
        assert versions(other, job) == ()
        with book.all_entries() as entries:
            other.merge(entries)
        freeze_old(other, today=NOVEMBER)
        assert len(versions(other, job)) == 1
