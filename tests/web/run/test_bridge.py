"""The bridge answers as Flask's own client does."""

from wsgiref.validate import validator

import pytest

from evenstand.web.run.bridge import Bridge

PATHS = (
    "/",
    "/drills",
    "/drills/new",
    "/settings",
    "/nowhere",
    "/jobs/new?drill=x",
    "/settings/import",
)


@pytest.fixture
def app(client):
    return client.application


class Echo:
    """An app that remembers what it was asked, and answers what it is told."""

    def __init__(self, status="200 OK", headers=(), body=(b"a", b"b")):
        self.status, self.headers, self.body = status, list(headers), list(body)
        self.closed = False

    def __call__(self, environ, start):
        self.asked, self.read = environ, environ["wsgi.input"].read()
        start(self.status, [("Content-Type", "text/plain"), *self.headers])
        return self

    def __iter__(self):
        return iter(self.body)

    def close(self):
        self.closed = True


class FromBrowser:
    """What a browser's bytes look like in Python."""

    def to_bytes(self):
        return b"a=1"


class Null:
    """JavaScript's null in Python: no None, but false."""

    def __bool__(self):
        return False


@pytest.fixture
def steady(monkeypatch, book):
    """Ids are drawn anew for each form: let both draw the same."""
    monkeypatch.setattr(book, "new_id", lambda: "01a21037-7680-7000-8000-000000000000")


@pytest.mark.usefixtures("steady")
@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("method", ["GET", "HEAD", "POST", "DELETE"])
def test_the_same_answers_as_flasks_client(client, method, path):
    theirs = client.open(path, method=method)
    assert Bridge(client.application).handle(method, path) == (
        theirs.status_code,
        list(theirs.headers),
        theirs.data,
    )


def test_a_form_is_kept_as_from_flasks_client(app, visitor, book):
    drill = visitor.heron()
    texts = "name=Plover&rows=24&spacing=12.5&spacing_unit=cm&note=%C3%A9%26"
    form = {"content-type": "application/x-www-form-urlencoded"}
    status, headers, _ = Bridge(app).handle("POST", "/drills/new", form, texts)
    assert status == 303
    kept = book.get(dict(headers)["Location"].rsplit("/", 1)[1])
    assert (kept.body.name, kept.body.note) == ("Plover", "é&")
    assert f"/drills/{kept.id}" in visitor.read("/drills").links
    assert drill in visitor.read("/drills").links


def test_units_and_language_are_remembered(app, client):
    bridge = Bridge(app)
    form = {"Content-Type": "application/x-www-form-urlencoded"}
    status, headers, _ = bridge.handle(
        "POST", "/settings/reading", form, b"units=metric&language=es"
    )
    assert status == 303
    assert "set-cookie" not in {name.lower() for name, _ in headers}
    assert bridge.cookies == {"units": "metric", "language": "es"}
    client.set_cookie("units", "metric")
    client.set_cookie("language", "es")
    page = bridge.handle("GET", "/settings")[2]
    assert page == client.get("/settings").data
    assert b'<html lang="es"' in page


def test_cookies_are_carried_over_a_restart():
    left = {"units": "metric"}
    app = Echo(headers=[("Set-Cookie", "language=es; Path=/"), ("Set-Cookie", "who=")])
    Bridge(app, cookies=left).handle("GET", "/")
    assert app.asked["HTTP_COOKIE"] == "units=metric"
    assert left == {"units": "metric", "language": "es", "who": ""}


def test_a_cookie_whose_time_is_over_is_dropped():
    left = {"a": "1", "b": "2"}
    app = Echo(headers=[("Set-Cookie", "a=; Max-Age=0; Path=/"), ("set-cookie", "c=3; max-age=9")])
    bridge = Bridge(app, cookies=left)
    bridge.handle("GET", "/", {"Cookie": "d=4"})
    bridge.handle("GET", "/")
    assert app.asked["HTTP_COOKIE"] == "b=2; c=3"


def test_a_cookie_that_is_handed_over_is_not_told():
    app = Echo()
    Bridge(app).handle("GET", "/", {"Cookie": "units=metric"})
    assert "HTTP_COOKIE" not in app.asked


def test_a_quoted_cookie_goes_back_as_it_came():
    app = Echo(headers=[("Set-Cookie", r'a="x\073 y=1"; HttpOnly; Path=/')])
    bridge = Bridge(app)
    bridge.handle("GET", "/")
    bridge.handle("GET", "/")
    assert app.asked["HTTP_COOKIE"] == r'a="x\073 y=1"'


@pytest.mark.usefixtures("steady")
def test_pages_below_a_path(app, client):
    bridge = Bridge(app, origin="https://localhost", root="/field/log/")
    theirs = client.get("/drills", base_url="https://localhost/field/log/")
    status, headers, body = bridge.handle("GET", "/field/log/drills")
    assert (status, headers, body) == (200, list(theirs.headers), theirs.data)
    assert b'href="/field/log/drills/new"' in body
    assert bridge.handle("GET", "/field/log")[2] == bridge.handle("GET", "/field/log/")[2]


@pytest.mark.parametrize("url", ["/", "/drills", "/field/logs", "https://localhost/field"])
def test_what_lies_outside_the_path_is_not_found(url):
    app = Echo()
    assert Bridge(app, root="/field/log").handle("GET", url)[0] == 404
    assert not hasattr(app, "asked")


def test_a_request_is_told_as_the_gateway_says():
    # PEP 3333: PATH_INFO decoded, its bytes as Latin-1; QUERY_STRING as it came.
    app = Echo()
    url = "https://farm.example:8443/a%20b/%C3%A9?x=%20&y=1#part"
    headers = [("Content-Type", "text/x"), ("X-Two-Words", "yes"), ("Content-Length", "99")]
    Bridge(app).handle("post", url, headers, b"body")
    told = {
        "REQUEST_METHOD": "POST",
        "SCRIPT_NAME": "",
        "PATH_INFO": "/a b/Ã©",
        "QUERY_STRING": "x=%20&y=1",
        "SERVER_NAME": "farm.example",
        "SERVER_PORT": "8443",
        "HTTP_HOST": "farm.example:8443",
        "CONTENT_TYPE": "text/x",
        "CONTENT_LENGTH": "4",
        "HTTP_X_TWO_WORDS": "yes",
        "REMOTE_ADDR": "127.0.0.1",
        "wsgi.url_scheme": "https",
    }
    assert {name: app.asked[name] for name in told} == told
    assert app.read == b"body"
    assert app.closed


@pytest.mark.parametrize(
    ("body", "read"),
    [(None, b""), (Null(), b""), (b"", b""), ("é", b"\xc3\xa9"), (FromBrowser(), b"a=1")],
)
def test_bodies_as_a_browser_gives_them(body, read):
    app = Echo()
    assert Bridge(app).handle("POST", "/", Null(), body)[2] == b"ab"
    assert app.read == read


def test_the_gateways_own_validator_has_nothing_to_say():
    def app(environ, start):
        environ["wsgi.input"].read(int(environ["CONTENT_LENGTH"]))
        start("200 OK", [("Content-Type", "text/plain")])(b"written, ")
        return [b"returned"]

    answer = Bridge(validator(app)).handle("POST", "/a?b", {"X-C": "d"}, b"e")
    assert answer == (200, [("Content-Type", "text/plain")], b"written, returned")


def test_an_app_may_think_better_of_its_answer():
    # PEP 3333: start_response again, with the fault, before anything was sent.
    def app(environ, start):
        start("200 OK", [("X-A", "b")])
        start("500 Oh", [], (ValueError, ValueError(), None))
        return [b"sorry"]

    assert Bridge(app).handle("GET", "/") == (500, [], b"sorry")


def test_a_fault_of_the_app_closes_what_it_began():
    class Broken(Echo):
        def __iter__(self):
            raise RuntimeError("half way")

    app = Broken()
    with pytest.raises(RuntimeError, match="half way"):
        Bridge(app).handle("GET", "/")
    assert app.closed
