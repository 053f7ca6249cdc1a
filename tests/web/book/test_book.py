"""The book's own page, and what a reader chooses."""

import io
import re

import pytest

import labels
from evenstand.book.opening import open_book


def test_export_and_import_make_two_books_alike(visitor, client, book):
    visitor.job()
    packed = client.get("/settings/export")
    assert packed.headers["Content-Disposition"].startswith("attachment")
    with open_book(":memory:", device="phone") as other:
        from evenstand.web.run.app import create_app

        there = create_app(other).test_client()
        fields = {"file": (io.BytesIO(packed.data), "book.zip")}
        answer = there.post("/settings/import", data=fields)
        assert answer.status_code == 303
        assert re.search(
            labels.IMPORTED_ENTRIES.like(new=4),
            there.get(answer.location).text.replace("\u00a0", " "),
        )
        assert other.counts() == book.counts()


@pytest.mark.parametrize("content", [b"", b"no book", b"PK\x05\x06" + bytes(18)])
def test_a_file_that_is_no_book_changes_nothing(client, book, content):
    answer = client.post("/settings/import", data={"file": (io.BytesIO(content), "book.zip")})
    assert answer.status_code == 422
    assert labels.NOTHING_IMPORTED in answer.text
    assert book.counts() == {}
    assert client.post("/settings/import", data={}).status_code == 422


def test_a_large_file_may_be_taken_in(client):
    """Larger than any form; that it is no book is found out by reading it."""
    head = b'--x\r\nContent-Disposition: form-data; name="file"; filename="book.zip"\r\n\r\n'
    sent = head + bytes(3_000_000) + b"\r\n--x--\r\n"
    answer = client.post(
        "/settings/import", data=sent, content_type="multipart/form-data; boundary=x"
    )
    assert answer.status_code == 422


def test_entries_carry_their_writer_s_name(visitor, book):
    visitor.heron()
    visitor.send("/settings/name", {"who": " Belén "})
    assert visitor.read("/settings").fields["who"] == "Belén"
    visitor.job(drill=visitor.heron(name="Egret").rsplit("/", 1)[1])
    assert [thing.entry.by for thing in book.things("drill")] == ["Belén", "Ada"]
    assert {thing.entry.by for thing in book.things("field")} == {"Belén"}
    visitor.send("/settings/name", {"who": ""})
    assert visitor.read("/settings").fields["who"] == "Ada"


def test_a_check_says_what_it_found(visitor):
    visitor.job()
    page = visitor.send("/settings/check", {}, code=200)
    assert labels.NO_DAMAGE(n=4) in page.text


def test_what_is_in_it(visitor):
    assert labels.NOTHING_YET in visitor.read("/settings").text
    visitor.job()
    assert re.search(r"drills 1\b.*jobs 1\b", visitor.read("/settings").text)


def test_the_history_of_a_thing(visitor, book):
    drill = visitor.heron().rsplit("/", 1)[1]
    book.remove(drill, why="sold", by="Ben")
    page = visitor.read(f"/history/{drill}")
    assert "entered by Ada" in page.text
    assert "removed by Ben: sold" in page.text
    visitor.read("/history/nothing", code=404)


def test_the_pool_lists_what_is_known_of_each_drill(visitor):
    job = visitor.job()
    visitor.send(f"{job}/calibrate", visitor.LIGHT)
    assert re.search(r"Heron .*[A-Z][a-z]{2} \d{1,2}, 20\d\d 20 1 1", visitor.read("/pool").text)
