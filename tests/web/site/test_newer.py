"""What a newer release wrote: it takes no page away, and an owner gets the last readable state."""

import json

import pytest

from evenstand.book.log.entries import FORMAT, read
from evenstand.demo.book import fill


@pytest.fixture
def taken_over(book):
    """Let a newer release write the newest thing of a kind, in a way that cannot be read here."""
    fill(book)

    def take(kind):
        thing = book.things(kind)[0]
        now = json.loads(thing.entry.text)
        body = {"name": [1], "job": 7}
        new = {"id": book.new_id(), "format": FORMAT + 1, "body": body, "by": "Nia"}
        new |= {"base": list(thing.heads), "changed": [""], "made": str(thing.entry.made.next("x"))}
        book.merge([read(json.dumps(now | new).encode())])
        return thing.id

    return take


PAGES = ("/", "/drills", "/seed", "/pool", "/settings", "/tables", "/tables/jobs.csv", "/season")
STEPS = ("mix", "boxes", "order", "calibrate", "seeding", "stand-count", "record")


@pytest.mark.parametrize("kind", ["job", "drill", "lot", "mix", "field", "chart", "catch", "load"])
def test_no_page_is_lost_to_others(visitor, book, taken_over, *, kind):
    thing = taken_over(kind)
    jobs = [each.id for each in book.things("job") if each.id != thing][:2]
    for path in (*PAGES, *(f"/jobs/{job}/{step}" for job in jobs for step in STEPS)):
        visitor.read(path)


@pytest.mark.parametrize(
    ("kind", "listed", "own"), [("job", "/", "jobs"), ("drill", "/drills", "drills"),
                               ("lot", "/seed", "seed")]
)  # fmt: skip
def test_it_is_listed_and_the_last_readable_state_can_be_put_back(
    visitor, book, taken_over, *, kind, listed, own
):
    thing = taken_over(kind)
    assert f"/history/{thing}" in visitor.read(listed).links
    at = f"/{own}/{thing}" + ("/mix" if kind == "job" else "")
    page = visitor.read(at, 409)
    assert "A newer version of Evenstand made this" in page.text
    assert f"/history/{thing}" in page.links
    assert "Put back the last readable state" in visitor.read(f"/history/{thing}").text
    visitor.send(f"/history/{thing}/put-back", {})
    assert "Put back" not in visitor.read(f"/history/{thing}").text
    visitor.read(at)
    assert '"name": [1' not in book.get(thing).entry.text
    assert [entry.by for entry in book.history(thing)][-2:] == ["Nia", "Ada"]


def test_what_can_be_read_is_not_put_back(visitor, book, taken_over):
    thing = taken_over("drill")
    other = next(each.id for each in book.things("drill") if each.id != thing)
    page = visitor.send(f"/history/{other}/put-back", {}, code=422)
    assert "this one can read" in page.text
