"""A full disk, and a file that another program holds: said as what it is, nothing is half."""

import sqlite3

import pytest

from evenstand.book.opening import open_book

pytest.importorskip("flask", reason="the pages need Flask")
DRILL = {"kind": "drill", "body": {"name": "Heron", "rows": 20, "spacing": {"value": 0.19}}}
FORM = {
    "name": "Heron",
    "rows": "20",
    "spacing": "7.5",
    "spacing_unit": "in",
    "scale_slack": "below",
}


@pytest.fixture
def kept(tmp_path):
    with open_book(tmp_path / "book", device="shed", who="Ada") as book:
        yield book


@pytest.fixture
def pages(kept):
    from evenstand.web.run.app import create_app

    return create_app(kept).test_client()


@pytest.fixture
def full(kept):
    """Let no page more into the file."""
    sqlite = kept._store._sqlite
    [(pages,)] = sqlite.execute("PRAGMA page_count")
    sqlite.execute(f"PRAGMA max_page_count = {pages}")


@pytest.fixture
def locked(kept, tmp_path):
    """Let another program hold the file."""
    kept._store._sqlite.execute("PRAGMA busy_timeout = 0")
    other = sqlite3.connect(tmp_path / "book", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    yield
    other.close()


def fill(pages):
    """Add drills until one is refused; gives the refusal and how many were kept."""
    for n in range(2000):
        answer = pages.post("/api/things", json=DRILL)
        if answer.status_code != 201:
            return answer, n
    raise AssertionError


@pytest.mark.usefixtures("full")
def test_a_full_disk_is_507_and_what_was_answered_is_there(pages, kept):
    refused, n = fill(pages)
    assert refused.status_code == 507
    assert "nothing was saved" in refused.json["detail"]
    assert int(refused.headers["Retry-After"]) > 0
    assert kept.counts().get("drill", 0) == n
    assert kept.check().faults == ()


@pytest.mark.usefixtures("locked")
def test_a_file_that_another_holds_is_503_and_a_phone_tries_again(pages):
    refused, n = fill(pages)
    assert (refused.status_code, n) == (503, 0)
    assert int(refused.headers["Retry-After"]) > 0
    page = pages.post("/drills/new", data=FORM | {"entry": "01a21037-7680-7000-8000-000000000000"})
    assert "nothing was saved" in page.text


def test_a_phone_is_told_to_come_again(pages, kept, tmp_path):
    code = kept.devices.offer(account=None, who="Ada")
    key = pages.post("/exchange/pair", json={"code": code, "name": "p"}).json["key"]
    with open_book(":memory:", device="phone") as other:
        from evenstand.book.kinds.work import Note

        note = other.add(Note(of=other.new_id(), text="x")).text
    kept._store._sqlite.execute("PRAGMA busy_timeout = 0")
    holder = sqlite3.connect(tmp_path / "book", isolation_level=None)
    holder.execute("BEGIN IMMEDIATE")
    sent = {"cursor": 0, "entries": [note]}
    headers = {"Authorization": f"Bearer {key}"}
    assert pages.post("/exchange", json=sent, headers=headers).status_code == 503
    holder.close()
    assert pages.post("/exchange", json=sent, headers=headers).status_code == 200
    assert kept.counts() == {"note": 1}
