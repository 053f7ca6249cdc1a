"""Entries: written, read back, refused with their field, and carried on unknown."""

import hashlib
import json
from contextlib import suppress

import msgspec
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from evenstand.book.errors import BookError
from evenstand.book.kinds.bodies import MOST_PHOTO, Newer, Photo, Removal, links
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Note
from evenstand.book.log.entries import FORMAT, MOST_BYTES, read, write
from evenstand.book.log.stamp import Stamp

ID = "01a21037-7680-7000-8000-000000000001"
THING = "01a21037-7680-7000-8000-000000000002"
LEAP = "2026-02-30T00:00:00.000Z-0000-shed"
MADE = Stamp(1_795_568_400_000, 0, "shed")


def written(body, **options):
    return write(body, **{"id": ID, "about": THING, "made": MADE, "by": "Ada"} | options)


def changed(entry, **changes):
    """The text of an entry as another release might have written it."""
    return json.dumps(json.loads(entry.text) | changes).encode()


def test_an_entry_is_one_line_of_json(samples):
    entry = written(samples.note, why="typed wrong")
    assert json.loads(entry.text) == {
        "id": ID,
        "kind": "note",
        "about": THING,
        "made": "2026-11-25T01:00:00.000Z-0000-shed",
        "by": "Ada",
        "format": FORMAT,
        "why": "typed wrong",
        "body": {"of": samples.note.of, "text": "chain slipped"},
    }
    assert entry.sha256 == hashlib.sha256(entry.text.encode()).digest()


def test_every_kind_is_read_back(samples):
    for body in [*samples.every(), Removal()]:
        entry = written(body)
        assert (entry.body, entry.kind, entry.newer) == (body, body.kind, False)
        assert read(entry.text.encode()) == entry


def test_an_amount_is_kept_as_typed_and_in_si(samples):
    kept = json.loads(written(samples.heron).text)["body"]["rolled"]
    assert kept == {"value": 2.4384, "give_or_take": 0.0254, "text": "8 ft ± 1 in"}


def test_what_was_written_is_carried_on_to_the_letter(samples):
    text = written(samples.note).text.replace('","text"', '" , "text"')
    assert read(text.encode()).text == text


def test_links_are_the_things_a_body_names(samples):
    assert links(samples.note) == links(samples.catch) == {samples.note.of}
    assert links(samples.heron) == frozenset()


def test_a_kind_of_a_newer_release_is_kept(samples):
    line = changed(written(samples.note), kind="stand count", format=FORMAT + 1, body={"plants": 9})
    entry = read(line)
    assert entry.newer
    assert entry.body == Newer("stand count", '{"plants": 9}')
    assert entry.text.encode() == line


def test_a_body_of_a_newer_release_that_cannot_be_read_is_kept(samples):
    line = changed(written(samples.note), format=FORMAT + 1, body={"of": [1, 2]})
    assert read(line).body == Newer("note", '{"of": [1, 2]}')


def test_fields_of_a_newer_release_are_kept_and_told(samples):
    body = json.loads(written(samples.heron).text)["body"]
    on_top = read(changed(written(samples.heron), body=body | {"hitch": "drawn"}))
    inside = read(
        changed(written(samples.heron), body=body | {"spacing": {"value": 1, "by": "tape"}})
    )
    assert on_top.newer
    assert inside.newer
    assert on_top.body == samples.heron


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"id": "7"}, ("entry id", "7")),
        ({"id": ID.replace("-7000", "-4000")}, ("entry id", ID.replace("-7000", "-4000"))),
        ({"about": None}, ("entry about", None)),
        ({"kind": "Note"}, ("entry kind", "Note")),
        ({"made": "yesterday"}, ("entry made", "yesterday")),
        ({"made": LEAP}, ("made", LEAP)),
        ({"format": 0}, ("entry format", 0)),
        ({"by": "x" * 201}, ("entry by", "x" * 201)),
        ({"body": {"of": THING, "text": 5}}, ("note text", 5)),
        ({"body": []}, ("note", "[]")),
    ],
)
def test_what_is_no_entry_is_refused_by_its_field(samples, change, told):
    with pytest.raises(BookError) as refused:
        read(changed(written(samples.note), **change))
    assert (refused.value.field, refused.value.given) == told


def test_a_part_deep_inside_is_named(samples):
    body = json.loads(written(samples.heron).text)["body"]
    body["gears"][1]["ratio"] = "half"
    with pytest.raises(BookError, match="Expected `float`, got `str`") as refused:
        read(changed(written(samples.heron), body=body))
    assert (refused.value.field, refused.value.given) == ("drill gears 1 ratio", "half")


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (b"", "truncated"),
        (b"[]", "Expected `object`"),
        (b'"\xff"', "UTF-8"),
        (b"{}\n", "one line"),
        (b'{"strange":' + b"[" * 100_000, "nested too deep"),
        (b" " * (MOST_BYTES + 1), "shorter than 1 MiB"),
    ],
)
def test_text_that_is_no_entry_is_refused(line, said):
    with pytest.raises(BookError, match=said) as refused:
        read(line)
    assert refused.value.field == "entry"


@given(st.binary(max_size=200))
@example(b'{"id": 1e999}')
@example(b'{"id": "\\ud800"}')
def test_no_bytes_do_worse_than_be_refused(line):
    with pytest.raises(BookError):
        read(line)


@given(st.integers(0, 10_000), st.binary(min_size=1, max_size=4))
def test_no_damage_does_worse_than_be_refused(at, bytes_):
    whole = written(Note(of=THING, text="chain slipped")).text.encode()
    at %= len(whole)
    with suppress(BookError):
        read(whole[:at] + bytes_ + whole[at + len(bytes_) :])


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_a_number_that_is_none_is_refused(samples, value):
    body = msgspec.structs.replace(samples.heron, spacing=Typed(value=value))
    with pytest.raises(BookError) as refused:
        written(body)
    assert refused.value.field == "drill spacing value"


def test_text_that_no_file_can_hold_is_refused():
    with pytest.raises(BookError) as refused:
        written(Note(of=THING, text="\ud800"))
    assert refused.value.field == "note"
    with pytest.raises(BookError) as refused:
        written(Note(of=THING, text="chain"), by="\ud800")
    assert refused.value.field == "entry"


def test_a_photo_has_its_limit(samples):
    assert written(Photo(of=THING, media="image/png", data=bytes(MOST_PHOTO))).body
    with pytest.raises(BookError) as refused:
        written(Photo(of=THING, media="image/png", data=bytes(MOST_PHOTO + 1)))
    assert refused.value.field == "photo data"
