"""Whose the API is: the roles of the pages, told in words that a program can read."""

import pytest

pytestmark = pytest.mark.usefixtures("cheap_passwords")
PROBLEM = "application/problem+json"
FIELD = {"kind": "field", "body": {"name": "Alder Bench"}}


@pytest.fixture
def send(client):
    def sent(method, path, body=None, *, code):
        how = {} if body is None else {"json": body}
        tag = {"If-Match": "*"} if method in ("PUT", "DELETE") else {}
        answer = client.open(f"/api{path}", method=method, headers=tag, **how)
        assert answer.status_code == code, answer.text
        assert code < 400 or answer.mimetype == PROBLEM
        return answer.json

    return sent


@pytest.mark.usefixtures("three")
def test_a_stranger_is_told_to_sign_in(client, send):
    for method, path in (("GET", "/"), ("GET", "/export"), ("POST", "/things"), ("GET", "/check")):
        send(method, path, {} if method == "POST" else None, code=401)
    assert "WWW-Authenticate" in client.get("/api/").headers


def test_each_role_does_what_is_its_own(signed_in, three, *, send, book):
    signed_in("reads")
    send("GET", "/things?kind=field", code=200)
    send("POST", "/things", FIELD, code=403)
    signed_in("works")
    made = send("POST", "/things", FIELD, code=201)
    assert made["by"] == three["works"].name
    path = f"/things/{made['id']}"
    send("PUT", path, {"body": {"name": "Upper bench"}}, code=200)
    send("DELETE", path, code=403)
    send("POST", "/things", {"kind": "book", "body": {"units": "metric"}}, code=403)
    send("GET", "/check", code=403)
    assert not book.get(made["id"]).removed
    signed_in("keeps")
    send("DELETE", path, code=200)
    send("POST", "/things", {"kind": "book", "body": {"units": "metric"}}, code=201)
