"""A setting that is locked in keeps what it rests on; what has changed since is told."""

import pytest
from msgspec.structs import replace

from evenstand.engine.quantities.phrases import Style
from evenstand.engine.seed.tag import Month
from evenstand.tasks.job.kept import chosen_of, find
from evenstand.tasks.record.frame import Reader
from evenstand.tasks.record.frozen import (
    changed_since,
    freeze_old,
    freeze_what_ends,
    locked,
    not_locked,
    opened,
    versions,
)
from evenstand.tasks.record.worksheet import worksheet

READER = Reader(style=Style(), language="en", invented=False)


@pytest.fixture
def kept(book):
    """The first box of the demo whose setting was taken."""
    chosen = book.things("setting")[-1].body
    for frozen in book.things("frozen", of=chosen.job):
        book.remove(frozen.id)
    return find(book, chosen.job, box=chosen.box)


@pytest.fixture
def version(book, kept):
    chosen = chosen_of(book, kept)
    freeze_what_ends(book, chosen.body, today=None, by="Ada")
    return locked(book, chosen)


def bodies(book):
    return [thing.body for thing in book.things("frozen")]


def said(book, kept):
    """What the worksheet says, beside when its book was last written in."""
    sheet = worksheet(book, kept.thing.id, READER, box=kept.box)
    return sheet.facts, sheet.sections


def test_a_setting_of_an_earlier_release_is_frozen_once_and_says_so(book, kept):
    settings = {each.setting for each in bodies(book) if each.setting}
    assert chosen_of(book, kept).id not in settings
    for _ in range(2):
        freeze_old(book, today=Month(2026, 11))
    [version] = [each for each in bodies(book) if each.setting == chosen_of(book, kept).id]
    assert version.why.startswith("as it stood when this version")
    assert not_locked(book) == set()
    stood = locked(book, chosen_of(book, kept))
    told = worksheet(book, kept.thing.id, READER, box=kept.box, locked_in=stood)
    assert version.why in {each.cell.text for each in told.facts}


def test_a_later_change_touches_no_locked_in_setting(book, kept, version):
    before = said(book, kept)
    wider = replace(kept.drill.spacing, value=0.254, text="10 in")
    book.correct(kept.drill_id, replace(kept.drill, spacing=wider), by="Kay")
    with opened(book, version) as stood:
        assert said(stood, kept) == before
    assert said(book, kept) != before
    [change] = changed_since(book, version)
    assert (change.kind, change.entry.by) == ("drill", "Kay")
    assert Style().write(change.now) == "10 in"


def test_a_catch_made_since_is_told(book, kept, version):
    book.add(replace(kept.catches[-1].body, note="one more"))
    [change] = changed_since(book, version)
    assert (change.kind, change.field) == ("catch", None)


def test_a_setting_is_locked_in_once_and_is_no_record(book, kept, version):
    freeze_what_ends(book, chosen_of(book, kept).body, today=None)
    assert [each.id for each in book.things("frozen", of=kept.thing.id)] == [version.thing.id]
    assert versions(book, kept.thing.id) == ()


def test_a_setting_that_is_taken_back_rests_on_nothing(book, kept):
    chosen = chosen_of(book, kept)
    book.correct(chosen.id, replace(chosen.body, accepted=False))
    freeze_what_ends(book, book.get(chosen.id).body, today=None)
    assert book.things("frozen", of=kept.thing.id) == []
