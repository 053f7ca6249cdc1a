"""A process that writes is killed again and again; what it said was kept is there."""

import random
import subprocess
import sys
import time

from evenstand.book.exchange import export_book
from evenstand.book.log.entries import read
from long import TIMES, tried

WRITER = """
import sys
from evenstand.book.opening import open_book
from evenstand.book.kinds.work import Note

with open_book(sys.argv[1], device="shed") as book:
    thing = book.new_id()
    said = sys.stdout.buffer
    while True:
        note = book.add(Note(of=thing, text="a note")).id
        said.write(note.encode() + b"\\n")
        said.flush()
        edit = book.correct(note, Note(of=thing, text="a note, corrected")).id
        said.write(edit.encode() + b"\\n")
        said.flush()
"""

MERGER = """
import sys
from pathlib import Path
from evenstand.book.exchange import import_file
from evenstand.book.opening import open_book

print("ready", flush=True)
with open_book(sys.argv[1], device="shed") as book:
    import_file(book, Path(sys.argv[2]))
"""


def killed(script, *arguments, after):
    """Run a script, kill it so long after its first word; gives the whole lines it wrote."""
    run = [sys.executable, "-c", script, *map(str, arguments)]
    with subprocess.Popen(run, stdout=subprocess.PIPE) as process:
        said = process.stdout.readline()
        time.sleep(after)
        process.kill()
        tried("kills")
        said += process.stdout.read()
    return [
        line.decode().strip() for line in said.splitlines(keepends=True) if line.endswith(b"\n")
    ]


def ids(book):
    with book.all_entries() as entries:
        return [entry.id for entry in entries]


def many(entry, number):
    for n in range(1, number):
        yield read(entry.text.replace(entry.id, entry.id[:-12] + f"{n:012x}").encode())


def test_nothing_that_was_acknowledged_is_lost(opened, tmp_path):
    acknowledged, chance = [], random.Random(4)
    for _ in range(12 * TIMES):
        acknowledged += killed(WRITER, tmp_path / "book", after=chance.uniform(0, 0.15))
    book = opened(tmp_path / "book")
    kept = ids(book)
    assert len(acknowledged) > 12 * TIMES
    assert set(acknowledged) <= set(kept)
    assert len(kept) <= len(acknowledged) + 12 * TIMES  # at most one more for each kill
    assert book.check().faults == ()


def test_an_import_that_is_killed_is_whole_or_not_there(opened, samples, tmp_path):
    source = opened()
    source.merge(many(source.add(samples.note), 4000))
    export_book(source, tmp_path / "out.zip")
    chance, seen = random.Random(5), set()
    for n in range(8 * TIMES):
        path = tmp_path / f"book{n}"
        killed(MERGER, path, tmp_path / "out.zip", after=chance.uniform(0, 0.6))
        book = opened(path)
        seen.add(len(ids(book)))
        assert book.check().faults == ()
    assert seen <= {0, 4000}
    assert 0 in seen
