"""The pages as they answer on a phone: what is there, what stays in the office."""

import json

import pytest

from evenstand.book.opening import open_book
from evenstand.web.run.app import create_app
from evenstand.web.run.on_phone import Phone, rehearse
from evenstand.web.run.steps import STEPS
from evenstand.web.site.guard import IN_OFFICE, may
from evenstand.web.site.settings import Settings

FORM = {"Content-Type": "application/x-www-form-urlencoded"}
KNOWN = {"device": "phone-1", "who": "Wim", "role": "keeps", "cookies": "{}"}
PLACE = {"origin": "https://farm.example", "root": "/"}
FIELD = "name=Heron&rows=20&spacing=7.5&spacing_unit=in&rolled=95&rolled_unit=in"


@pytest.fixture
def app(book):
    return create_app(book, settings=Settings(on_phone=True))


def test_what_stays_in_the_office_is_not_there(app):
    """Neither asked for nor linked to, whatever the role."""
    client, found = app.test_client(), app.url_map.bind("localhost")
    rules = [rule for rule in app.url_map.iter_rules() if rule.endpoint.startswith(IN_OFFICE)]
    assert len(rules) > 10
    for rule in rules:
        path = found.build(rule.endpoint, dict.fromkeys(rule.arguments, "x"))
        for method in rule.methods - {"OPTIONS"}:
            assert client.open(path, method=method).status_code == 404, (method, path)
        with app.test_request_context("/"):
            assert not may(rule.endpoint)


def test_the_page_about_this_phone_is_there_alone(app, client):
    assert app.test_client().get("/this-phone").status_code == 200
    assert client.get("/this-phone").status_code == 404
    assert client.post("/this-phone/not-kept", data="Quota").status_code == 404


@pytest.mark.parametrize(("why", "said"), [("QuotaExceededError", "is full"), ("X", "private")])
def test_what_was_not_kept_is_said(why, said):
    status, headers, body = Phone(**KNOWN, **PLACE).not_kept(why)
    assert (status, dict(headers)["HX-Retarget"]) == (507, "#told")
    assert said in body.decode()


def test_what_a_request_wrote_is_told_once():
    phone = Phone(**KNOWN, **PLACE)
    status, _, _, written, cookies = phone.handle("POST", "/drills/new", FORM, FIELD)
    assert (status, len(written), cookies) == (303, 1, None)
    assert '"by":"Wim"' in written[0][1]
    assert phone.handle("GET", "/drills")[3] == []


def test_changed_cookies_are_told():
    phone = Phone(**KNOWN, **PLACE)
    cookies = phone.handle("POST", "/settings/name", FORM, "who=Ada")[4]
    assert cookies == '{"who": "Ada"}'
    again = Phone(**{**KNOWN, "cookies": cookies}, **PLACE)
    assert b'value="Ada"' in again.handle("GET", "/settings")[2]


def test_a_phone_of_an_account_signs_as_that_alone():
    phone = Phone(**{**KNOWN, "cookies": '{"who": "Kay"}'}, **PLACE, signs="Wes")
    assert b'name="who"' not in phone.handle("GET", "/book")[2]
    [(_, text)] = phone.handle("POST", "/jobs/new", FORM, "name=North")[3]
    assert json.loads(text)["by"] == "Wes"


def test_all_of_a_large_import_is_told(tmp_path):
    """More than the 1,000 entries that a book gives at once."""
    from evenstand.book.exchange import export_book
    from evenstand.book.kinds.work import Field

    with open_book(":memory:", device="shed") as other:
        ids = {other.add(Field(name=f"Field {n}")).id for n in range(1203)}
        export_book(other, tmp_path / "book.zip")
    content = (tmp_path / "book.zip").read_bytes()
    head = b'--x\r\nContent-Disposition: form-data; name="file"; filename="b.zip"\r\n\r\n'
    kind = {"Content-Type": "multipart/form-data; boundary=x"}
    phone = Phone(**KNOWN, **PLACE)
    status, _, _, written, _ = phone.handle(
        "POST", "/settings/import", kind, head + content + b"\r\n--x--\r\n"
    )
    assert status == 303
    assert {id for id, _ in written} == ids


def test_what_came_in_is_not_told_as_written():
    one, other = Phone(**KNOWN, **PLACE), Phone(**{**KNOWN, "device": "phone-2"}, **PLACE)
    written = one.handle("POST", "/drills/new", FORM, FIELD)[3]
    other.take(text for _, text in written)
    _, _, page, new, _ = other.handle("GET", "/drills")
    assert b"Heron" in page
    assert new == []


def test_a_reader_s_phone_writes_nothing():
    phone = Phone(**{**KNOWN, "role": "reads"}, **PLACE)
    status, _, _, written, _ = phone.handle("POST", "/drills/new", FORM, FIELD)
    assert (status, written) == (403, [])


def test_a_rehearsal_shows_each_step_and_leaves_nothing(monkeypatch):
    """Each page is there, and a phone that begins behind it holds no job."""
    shown, handle = [], Phone.handle
    monkeypatch.setattr(Phone, "handle", lambda *given: shown.append(handle(*given)) or shown[-1])
    rehearse()
    assert [answer[0] for answer in shown] == [303, *[200] * (len(STEPS) + 2)]
    phone = Phone(**KNOWN, **PLACE)
    assert b"Nobody" not in phone.handle("GET", "/")[2]
    assert phone.handle("GET", "/")[3] == []
