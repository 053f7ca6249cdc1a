"""A file to take in that was damaged, on the way or on purpose, changes nothing and says why."""

import io
import json
import zlib
from zipfile import ZIP_DEFLATED, ZipFile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenstand.book.exchange import write_file
from evenstand.book.kinds.work import Field, Note
from evenstand.book.opening import open_book
from long import TIMES, tried

MEMBERS = ("manifest.json", "entries.jsonl")


@pytest.fixture(scope="module")
def packed():
    """A book of three entries as its file, and what is in it."""
    with open_book(":memory:", device="shed", who="Ada") as book:
        field = book.add(Field(name="Alder Bench")).about
        book.add(Note(of=field, text="wet in the north"))
        book.correct(field, Field(name="Alder Bench, upper"))
        file = io.BytesIO()
        write_file(book, file)
    with ZipFile(file) as zipped:
        return file.getvalue(), {name: zipped.read(name) for name in MEMBERS}


@pytest.fixture(scope="module")
def pages():
    pytest.importorskip("flask", reason="the pages need Flask")
    from evenstand.web.run.app import create_app

    with open_book(":memory:", device="phone", who="Ben") as book:
        book.add(Field(name="Home"))
        app = create_app(book)
        app.testing = True
        yield app.test_client(), book


def sends(pages, file):
    """Send a file to the page and to the API; gives whether it was taken, alike by both."""
    client, book = pages
    before = book.entries().cursor
    tried("imports")
    answer = client.post("/api/import", data=file, content_type="application/zip")
    page = client.post("/settings/import", data={"file": (io.BytesIO(file), "book.zip")})
    taken = answer.status_code == 200
    assert (answer.status_code, page.status_code) in ((200, 303), (422, 422)), answer.text
    if not taken:
        assert answer.json["errors"][0]["need"]
        assert book.entries().cursor == before
    assert not book.check().faults
    return taken


def zipped(members):
    file = io.BytesIO()
    with ZipFile(file, "w", ZIP_DEFLATED) as into:
        for name, content in members.items():
            into.writestr(name, content)
    return file.getvalue()


@settings(max_examples=60 * TIMES)
@given(
    flips=st.lists(st.tuples(st.integers(0, 10**6), st.integers(1, 255)), min_size=1, max_size=4)
)
def test_bytes_of_the_file_flipped(pages, packed, *, flips):
    whole, _ = packed
    bad = bytearray(whole)
    for at, mask in flips:
        bad[at % len(bad)] ^= mask
    sends(pages, bytes(bad))


@settings(max_examples=30 * TIMES)
@given(cut=st.integers(0, 10**6), more=st.binary(max_size=30))
def test_the_file_cut_or_run_on(pages, packed, *, cut, more):
    whole, _ = packed
    sends(pages, whole[: cut % len(whole)] + more)


@settings(max_examples=80 * TIMES)
@given(
    member=st.sampled_from(MEMBERS),
    at=st.integers(0, 10**6),
    gone=st.integers(0, 40),
    put=st.one_of(
        st.binary(max_size=30),
        st.sampled_from([b"[" * 60, b"9" * 400, b"1e400", b"\\ud800", b"\x00", b"\n", b"null"]),
    ),
)
def test_what_is_in_the_file_changed_and_packed_again(pages, packed, *, member, at, gone, put):
    """What the hash of the manifest does not fit is refused; a manifest alone may be rewritten."""
    content = packed[1][member]
    at %= len(content)
    changed = content[:at] + put + content[at + gone :]
    taken = sends(pages, zipped({**packed[1], member: changed}))
    if member == "entries.jsonl" and changed != content:
        assert not taken


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inside: st.lists(inside, max_size=3) | st.dictionaries(st.text(max_size=8), inside),
    max_leaves=6,
)


@settings(max_examples=80 * TIMES)
@given(
    field=st.sampled_from(["id", "kind", "about", "made", "by", "format", "why", "body", "name"]),
    value=JSON,
)
def test_an_entry_rewritten_with_all_its_sums(pages, packed, *, field, value):
    """Somebody who knows the format can make every sum right: the entry itself is looked at."""
    from hashlib import sha256

    lines = packed[1]["entries.jsonl"].splitlines()
    entry = json.loads(lines[0])["entry"]
    (entry["body"] if field == "name" else entry)[field] = value
    text = json.dumps(entry).encode()
    crc = f"{zlib.crc32(text):08x}".encode()
    lines[0] = b'{"crc32":"%s","entry":%s}' % (crc, text)
    rest = b"".join(line + b"\n" for line in lines)
    manifest = json.loads(packed[1]["manifest.json"]) | {"sha256": sha256(rest).hexdigest()}
    sends(pages, zipped({"manifest.json": json.dumps(manifest), "entries.jsonl": rest}))


@pytest.mark.parametrize(
    "members",
    [
        {},
        {"manifest.json": "{}"},
        {"entries.jsonl": "{}"},
        {"manifest.json": "[" * 5000, "entries.jsonl": ""},
        {"../manifest.json": "{}", "../entries.jsonl": ""},
    ],
)
def test_zips_that_are_no_book(pages, members):
    assert not sends(pages, zipped(members))


def test_a_file_that_unpacks_to_far_more_is_refused(pages, packed):
    huge = b" " * 20_000_000
    assert not sends(pages, zipped({**packed[1], "entries.jsonl": huge}))
    assert not sends(pages, zipped({**packed[1], "manifest.json": huge}))


def test_the_whole_file_is_taken(pages, packed):
    assert sends(pages, packed[0])
