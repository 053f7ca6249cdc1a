"""The file by which books exchange entries: there and back, damaged, foreign, newer."""

import io
import json
import zipfile
from contextlib import contextmanager, suppress
from itertools import count

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenstand.book.errors import BookError
from evenstand.book.exchange import export_book, import_file, read_file, write_file
from evenstand.book.kinds.work import Field, Note
from evenstand.book.log.entries import read
from evenstand.book.opening import open_book

NOON = 1_795_608_000_000


def texts(book):
    with book.all_entries() as entries:
        return [entry.text for entry in entries]


def exported(book):
    file = io.BytesIO()
    write_file(book, file)
    return file.getvalue()


@contextmanager
def small_book():
    """The same four entries each time."""
    numbers = count(1)

    def random(size):
        return next(numbers).to_bytes(size, "big")

    with open_book(":memory:", device="shed", clock=lambda: NOON, random=random) as book:
        field = book.add(Field(name="Alder Bench")).about
        for text in ("wet at the gate", "stones", "chain slipped"):
            book.add(Note(of=field, text=text))
        yield book


def small_file():
    """The file of that book."""
    with small_book() as book:
        return exported(book)


def new_book():
    return open_book(":memory:", device="new", clock=lambda: NOON)


def members(content):
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        return {name: packed.read(name) for name in packed.namelist()}


def packed(parts, **options):
    """A zip of these members, well made whatever they say."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", **({"compression": zipfile.ZIP_DEFLATED} | options)) as made:
        for name, content in parts.items():
            made.writestr(name, content)
    return file.getvalue()


def changed(lines=None, **manifest):
    """The small book's file with its lines changed, or what it says of itself."""
    parts = members(small_file())
    parts["manifest.json"] = json.dumps(json.loads(parts["manifest.json"]) | manifest)
    if lines:
        split = parts["entries.jsonl"].splitlines(keepends=True)
        parts["entries.jsonl"] = b"".join(lines(split))
    return packed(parts)


def refusal(content, **options):
    """What is said of a file; the book must stay as it was."""
    with new_book() as book:
        with pytest.raises(BookError) as refused:
            book.merge(read_file(io.BytesIO(content), **options))
        assert texts(book) == []
        return refused.value


def test_a_book_comes_back_whole(opened, samples, tmp_path):
    book = opened()
    for body in samples.every():
        book.add(body)
    drill = book.things("drill")[0].id
    book.correct(drill, samples.heron, why="again")
    book.remove(drill)
    path = tmp_path / "out.zip"
    assert export_book(book, path) == len(samples.every()) + 2
    other = opened(device="phone")
    merged = import_file(other, path)
    assert (merged.new, merged.known) == (len(samples.every()) + 2, 0)
    assert texts(other) == texts(book)
    merged = import_file(other, path)
    assert (merged.new, merged.known) == (0, len(samples.every()) + 2)
    assert exported(other) == exported(book)


def test_an_empty_book_comes_back_too(opened, tmp_path):
    assert export_book(opened(), tmp_path / "out.zip") == 0
    assert import_file(opened(), tmp_path / "out.zip").new == 0


def test_an_import_merges(opened, samples, tmp_path):
    one, other = opened(), opened(device="phone")
    one.add(samples.heron)
    mine = other.add(samples.alder_bench)
    export_book(one, tmp_path / "one.zip")
    import_file(other, tmp_path / "one.zip")
    assert other.counts() == {"drill": 1, "field": 1}
    assert other.get(mine.about).entry == mine


def test_what_a_newer_release_wrote_goes_through_untouched(opened):
    with small_book() as source:
        line = source.entries().entries[0].text
    for old, new in (
        ("field", "paddock"),
        ('"format":1', '"format":2'),
        ("body", 'n":1.50, "body'),
    ):
        line = line.replace(old, new)
    book = opened()
    book.merge([read(line.encode())])
    assert line in members(exported(book))["entries.jsonl"].decode()


def test_the_file_is_json_lines_in_a_zip():
    parts = members(small_file())
    manifest = json.loads(parts["manifest.json"])
    assert (manifest["evenstand"], manifest["format"], manifest["entries"]) == ("book", 1, 4)
    lines = parts["entries.jsonl"].decode().splitlines()
    assert [json.loads(line)["entry"]["kind"] for line in lines] == [
        "field",
        "note",
        "note",
        "note",
    ]


@pytest.mark.parametrize("content", [b"", b"a letter", b"SQLite format 3\0" + b"x" * 100])
def test_a_foreign_file_is_refused(content):
    assert refusal(content).field == "file"


def test_a_foreign_zip_is_refused():
    assert "manifest.json" in str(refusal(packed({"letter.txt": "hello"})))
    parts = members(small_file())
    assert "entries.jsonl" in str(refusal(packed({"manifest.json": parts["manifest.json"]})))
    assert refusal(packed(parts | {"manifest.json": "{}"})).field == "file"
    assert refusal(packed(parts | {"manifest.json": "[" * 60_000})).field == "file"
    assert refusal(packed(parts, compression=zipfile.ZIP_LZMA)).field == "file"


def test_a_newer_file_says_what_to_do():
    refused = refusal(changed(format=2, release="9.0"))
    assert (refused.field, refused.given) == ("format", 2)
    assert "open it with Evenstand 9.0 or newer" in str(refused)


def test_a_line_that_was_changed_is_named():
    refused = refusal(
        changed(lambda lines: [*lines[:2], lines[2].replace(b"stones", b"bricks"), lines[3]])
    )
    assert refused.field == "entries.jsonl line 3"
    assert "CRC-32" in str(refused)


def test_a_line_that_is_no_entry_is_named_with_its_field():
    parts = members(small_file())
    bad = b'{"crc32":"0","entry":{"id":"7"}}\n'
    refused = refusal(packed(parts | {"entries.jsonl": bad}))
    assert refused.field.startswith("entries.jsonl line 1: entry")
    assert refusal(packed(parts | {"entries.jsonl": b"hello\n"})).field == "entries.jsonl line 1"
    deep = refusal(packed(parts | {"entries.jsonl": b"[" * 60_000 + b"\n"}))
    assert "nested too deep" in str(deep)


def test_lines_that_are_missing_or_too_many_are_said():
    assert refusal(changed(lambda lines: lines[:3])).field == "entries.jsonl line 4"
    assert refusal(changed(lambda lines: [*lines, lines[0]])).field == "entries.jsonl line 6"
    assert (
        refusal(changed(lambda lines: [*lines[:3], lines[3][:-9]])).field == "entries.jsonl line 4"
    )
    unended = refusal(changed(lambda lines: [*lines[:3], lines[3].rstrip()]))
    assert "too long or cut off" in str(unended)


def test_lines_in_another_order_are_not_what_was_written():
    refused = refusal(changed(lambda lines: lines[::-1]))
    assert refused.field == "entries.jsonl"
    assert "hash" in str(refused)


def test_an_entry_that_stands_for_something_else_here_is_refused():
    with small_book() as source, new_book() as other:
        last = source.entries().entries[-1]
        other.merge([read(last.text.replace("slipped", "broke").encode())])
        before = texts(other)
        with pytest.raises(BookError, match="something else") as refused:
            other.merge(read_file(io.BytesIO(exported(source))))
        assert refused.value.given == last.id
        assert texts(other) == before


def test_what_unpacks_to_far_more_than_it_is_is_refused():
    bomb = packed(members(small_file()) | {"entries.jsonl": b"\n" + b" " * 50_000_000})
    assert len(bomb) < 60_000
    assert refusal(bomb).field == "entries.jsonl line 1"
    lines = packed(members(small_file()) | {"entries.jsonl": small_lines(40_000)})
    assert "larger than any book" in str(refusal(lines))
    assert "larger than any book" in str(refusal(small_file(), most=500))


def small_lines(times):
    """One good line again and again."""
    return members(small_file())["entries.jsonl"].splitlines(keepends=True)[0] * times


WHOLE = small_file()


def after_import(content):
    """What a book with one note of its own holds after a file was offered to it."""
    with new_book() as book, small_book() as source:
        mine = book.add(Note(of=source.things("field")[0].id, text="mine"))
        with suppress(BookError):
            book.merge(read_file(io.BytesIO(content)))
        return texts(book), [mine.text], sorted([mine.text, *texts(source)], key=order)


def order(text):
    entry = json.loads(text)
    return entry["made"], entry["id"]


@given(st.data())
def test_no_damage_does_worse_than_be_refused(data):
    """Cut short, bytes changed: refused with the book as it was, or read as it was written."""
    content = bytearray(WHOLE)
    for _ in range(data.draw(st.integers(0, 3))):
        at = data.draw(st.integers(0, len(content) - 1))
        content[at] ^= data.draw(st.integers(1, 255))
    cut = data.draw(st.just(len(content)) | st.integers(0, len(content)))
    found, before, whole = after_import(bytes(content[:cut]))
    assert found in (before, whole)


@given(st.data())
def test_no_damage_inside_a_well_made_zip_does_worse_than_be_refused(data):
    parts = members(WHOLE)
    name = data.draw(st.sampled_from(sorted(parts)))
    content = bytearray(parts[name])
    at = data.draw(st.integers(0, len(content) - 1))
    content[at] = data.draw(st.integers(0, 255))
    found, before, whole = after_import(packed(parts | {name: bytes(content)}))
    assert found in (before, whole)


@given(st.binary(max_size=300))
def test_no_bytes_do_worse_than_be_refused(content):
    assert refusal(content).field == "file"


def test_a_file_that_is_there_is_never_written_over(opened, tmp_path):
    path = tmp_path / "book"
    book = opened(path)
    with pytest.raises(BookError, match="new file") as refused:
        export_book(book, path)
    assert refused.value.given == str(path)
    with pytest.raises(BookError, match="new file"):
        book.backup(path)
    assert sorted(each.name for each in tmp_path.iterdir() if each.suffix == ".part") == []


def test_a_file_that_cannot_be_written_or_read_is_said(opened, tmp_path):
    for call in (export_book, import_file):
        with pytest.raises(BookError, match="No such file") as refused:
            call(opened(), tmp_path / "none" / "out.zip")
        assert refused.value.field == "file"


def test_a_backup_is_a_book(opened, samples, tmp_path):
    book = opened(tmp_path / "book")
    drill = book.add(samples.heron).about
    book.backup(tmp_path / "copy")
    book.add(samples.note)
    copy = opened(tmp_path / "copy")
    assert copy.get(drill).body == samples.heron
    assert len(copy.entries().entries) == 1
    assert copy.check().faults == ()
