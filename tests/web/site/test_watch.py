"""What is written down of who signs in and of what opens the book to others."""

import json
from logging.handlers import RotatingFileHandler

import pytest

from evenstand.book.people import security_log
from evenstand.web.run.app import create_app
from evenstand.web.site.settings import Settings

GOOD = "rain on dry clods"
pytestmark = pytest.mark.usefixtures("cheap_passwords")


@pytest.fixture
def lines(tmp_path):
    """Read what was written, line by line."""
    path = tmp_path / ("book" + security_log.END)
    with security_log.written_beside(tmp_path / "book"):
        yield lambda: [json.loads(line) for line in path.read_text("utf-8").splitlines()]


def told(line):
    return line["event"], line["answer"], line["who"], line["from"]


@pytest.mark.usefixtures("three")
def test_signing_in_and_out_is_written_down_and_no_secret(client, lines, tmp_path):
    for name, password in (
        ("Kim", "wrong one, twice"),
        ("a password by mistake", GOOD),
        ("kim", GOOD),
    ):
        client.post("/sign-in", data={"name": name, "password": password})
    client.post("/sign-out")
    assert [told(line) for line in lines()] == [
        ("sign in", 422, "Kim", "127.0.0.1"),
        ("sign in", 422, "", "127.0.0.1"),
        ("sign in", 303, "Kim", "127.0.0.1"),
        ("sign out", 303, "Kim", "127.0.0.1"),
    ]
    [file] = tmp_path.glob("*" + security_log.END)
    assert file.stat().st_mode & 0o777 == 0o600
    written = file.read_text("utf-8")
    assert not any(secret in written for secret in (GOOD, "wrong", "mistake"))


def test_a_phone_that_is_paired_is_named_and_its_key_is_not(client, book, lines):
    code = book.devices.offer(account=None, who="Ada")
    paired = client.post("/exchange/pair", json={"code": code, "name": "Ada's phone"}).json
    client.post("/exchange/pair", json={"code": code, "name": "another"})
    client.post(f"/devices/{paired['device']}/revoke")
    one, other, gone = lines()
    assert (one["device"], one["of"], one["answer"]) == (paired["device"], "Ada", 200)
    assert (other["event"], other["answer"]) == ("pair phone", 422)
    assert (gone["event"], gone["device"]) == ("remove phone", paired["device"])
    assert not any(secret in str(lines()) for secret in (paired["key"], code))


def test_what_is_forbidden_is_written_down(client, lines):
    client.post("/drills/new", data={"name": "x"}, headers={"Origin": "https://elsewhere.example"})
    [line] = lines()
    assert (line["event"], line["answer"]) == ("POST /drills/new", 403)


def test_a_full_file_makes_way(lines, client, tmp_path):
    [handler] = [
        each for each in security_log.LOG.handlers if isinstance(each, RotatingFileHandler)
    ]
    handler.maxBytes = 500
    for _ in range(20):
        client.post("/sign-out")
    assert len(list(tmp_path.glob("*" + security_log.END + "*"))) == 1 + security_log.OLDER
    assert len(lines()) < 20


def test_a_phone_writes_nothing_down(lines, book):
    phone = create_app(book, settings=Settings(on_phone=True)).test_client()
    phone.post("/drills/new", data={"name": "x"}, headers={"Origin": "https://elsewhere.example"})
    assert lines() == []
