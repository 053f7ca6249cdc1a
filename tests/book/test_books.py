"""Files that earlier releases wrote: each is opened, read and exported again, word for word."""

import shutil
import zipfile
from pathlib import Path

import pytest

from evenstand.book.exchange import export_book, import_file

BOOKS = Path(__file__).parents[1] / "books"
RELEASES = sorted(path.stem.removeprefix("book-") for path in BOOKS.glob("book-*.zip"))


@pytest.fixture(params=RELEASES)
def release(request):
    return request.param


def opened_again(release, opened, folder):
    """The book as the release left it."""
    path = shutil.copy(BOOKS / f"book-{release}.evenstand", folder / "book")
    return opened(path, create=False)


def imported(release, opened, folder):
    """A new book from the release's open file."""
    del folder
    book = opened()
    import_file(book, BOOKS / f"book-{release}.zip")
    return book


@pytest.fixture(params=[opened_again, imported])
def kept(request, release, opened):
    return request.param(release, opened, request.getfixturevalue("tmp_path"))


def test_there_is_a_book_of_each_release():
    assert RELEASES == ["0.1.0"]


def test_a_kept_book_is_sound(kept):
    found = kept.check()
    assert (found.faults, found.loose, found.newer) == ((), (), 0)


def test_a_kept_book_goes_out_word_for_word(kept, release, tmp_path):
    export_book(kept, tmp_path / "out.zip")
    lines = [
        zipfile.ZipFile(path).read("entries.jsonl")
        for path in (tmp_path / "out.zip", BOOKS / f"book-{release}.zip")
    ]
    assert lines[0] == lines[1]


def test_what_was_kept_is_what_is_read(kept):
    """As write_0_1_0.py says: an entry every 61 s, the drill the first and the field the eighth."""
    kinds = "area book catch chart check count drill field finished job level load lot mix moved"
    more = "order photo record setting split"
    two = ("seed count", "germination test", "stand wish")
    assert kept.counts() == dict.fromkeys(sorted([*kinds.split(), *more.split(), *two]), 1)
    [drill], [job] = kept.things("drill"), kept.things("job")
    assert (drill.body.name, drill.body.rows, drill.body.spacing.value) == ("Heron", 20, 0.1905)
    assert (drill.body.note, drill.entry.by) == ("invented; chain renewed", "Ben")
    assert [gear.ratio for gear in drill.body.gears] == [1.0, 0.5]
    assert drill.body.rolled.text == "8 ft ± 1 in"
    [catch] = kept.things("catch", of=job.id)
    assert [bag.weight.value for bag in catch.body.bags] == [0.0562, 0.0570]
    assert [entry.why for entry in kept.history(catch.id)] == ["", "note forgotten"]
    [mistaken] = kept.things("catch", of=drill.id, removed=True)
    assert mistaken.body.setting == 83.0
    [photo] = kept.things("photo", of=kept.things("lot")[0].id)
    assert photo.body.data == b"\x89PNG\r\n\x1a\n"
    assert [str(kept.things(kind)[0].born) for kind in ("field", "drill")] == [
        "2026-11-25T12:08:08.000Z-0000-shed",
        "2026-11-25T12:01:01.000Z-0000-shed",
    ]
