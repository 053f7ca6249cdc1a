"""The embedded server: it listens, answers, and says when it cannot; for others as well."""

import json
import socket
import threading
from functools import partial
from http.client import HTTPConnection
from urllib.request import urlopen

import pytest

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.web.site.settings import Settings


@pytest.fixture
def serve(book, monkeypatch):
    """Serve a book in a thread of its own, as ``serve(host=…)``; ends with the test."""
    server = pytest.importorskip("evenstand.web.run.server", reason="needs waitress")
    from waitress import wasyncore

    made, threads = [], []
    create = server.create_server
    monkeypatch.setattr(
        server, "create_server", lambda *a, **k: made.append(create(*a, **k)) or made[-1]
    )

    def serve(host="127.0.0.1", proxy=""):
        listening, where = threading.Event(), []

        def ready(*addresses):
            where.extend(addresses)
            listening.set()

        settings = Settings()
        options = {"host": host, "port": 0, "proxy": proxy, "settings": settings, "ready": ready}
        thread = threading.Thread(target=server.serve, args=(book,), kwargs=options, daemon=True)
        thread.start()
        threads.append(thread)
        assert listening.wait(10)
        return where

    yield serve
    for each in made:
        each.trigger.pull_trigger(partial(wasyncore.close_all, each._map))
    for each in threads:
        each.join(10)


@pytest.fixture
def network(monkeypatch):
    """A computer with two addresses in its network."""
    server = pytest.importorskip("evenstand.web.run.server", reason="needs waitress")
    found = {"0.0.0.0": ["192.168.1.20", "10.0.0.7"], "127.0.0.1": []}
    monkeypatch.setattr(server, "reached_at", found.__getitem__)


@pytest.fixture
def ada(book, cheap_passwords):
    """Somebody who keeps the book, signed in; the token of her session."""
    return book.people.begin(book.people.add("Ada", "rain on dry clods", role="keeps").id)


def ask(address, path="/", *, method="GET", body=None, **headers):
    """Ask at an address, under whatever name; gives status, headers and page."""
    port = int(address.rstrip("/").rsplit(":", 1)[1])
    connection = HTTPConnection("127.0.0.1", port, timeout=10)
    headers = {name.replace("_", "-"): value for name, value in headers.items()}
    connection.request(method, path, body=body, headers=headers)
    answer = connection.getresponse()
    found = answer.status, dict(answer.getheaders()), answer.read().decode()
    connection.close()
    return found


def test_it_answers_where_it_says(serve):
    address, others = serve()
    with urlopen(address) as answer:
        assert answer.status == 200
        assert "Enter your drill first." in answer.read().decode()
        assert "Server" not in answer.headers
    assert others == ()


@pytest.mark.usefixtures("network")
def test_for_others_it_answers_under_its_own_addresses_and_no_others(serve, ada):
    address, others = serve("0.0.0.0")
    port = address.rstrip("/").rsplit(":", 1)[1]
    assert address == f"http://127.0.0.1:{port}/"
    assert others == (f"http://192.168.1.20:{port}/", f"http://10.0.0.7:{port}/")
    own = socket.gethostname().lower()
    signed_in = {"Cookie": f"session={ada}"}
    for name in ("127.0.0.1", "localhost", "192.168.1.20", "10.0.0.7", own, f"{own}.local"):
        status, _, page = ask(address, Host=f"{name}:{port}", **signed_in)
        assert (status, "Enter your drill first." in page) == (200, True), name
    for name in ("192.168.1.21", "elsewhere.example", "192.168.1.20.elsewhere.example", "[::"):
        status, _, page = ask(address, Host=name, **signed_in)
        assert (status, "Evenstand" in page) == (400, False), name


@pytest.mark.usefixtures("network")
def test_for_others_nobody_is_let_in_without_an_account(serve, book):
    address, _ = serve("0.0.0.0")
    status, headers, _ = ask(address, "/drills")
    assert (status, headers["Location"]) == (303, "/sign-in?next=/drills")
    assert not book.people.any()


@pytest.mark.usefixtures("network")
def test_the_book_page_shows_the_phone_s_code(serve, ada):
    address, others = serve("0.0.0.0")
    _, _, page = ask(address, "/settings", Cookie=f"session={ada}")
    assert 'class="code"><svg' in page
    assert all(f'href="{each}"' in page for each in others)
    assert "This connection is not encrypted" in page


@pytest.mark.usefixtures("ada")
def test_on_this_computer_alone_no_code_is_shown(serve, ada):
    address, _ = serve()
    _, _, page = ask(address, "/settings", Cookie=f"session={ada}")
    assert "This connection is not encrypted" not in page


FORWARDED = {
    "X_Forwarded_For": "203.0.113.9",
    "X_Forwarded_Proto": "https",
    "X_Forwarded_Host": "drills.example",
}
SIGN_IN = {"Content_Type": "application/x-www-form-urlencoded"}


@pytest.mark.usefixtures("ada")
def test_behind_a_proxy_it_is_asked_under_the_proxy_s_name_by_https(serve, book):
    address, others = serve(proxy="https://drills.example")
    assert others == ("https://drills.example/",)
    own = {"Origin": "https://drills.example", **FORWARDED, **SIGN_IN}
    sent = {"method": "POST", "body": "name=Ada&password=rain+on+dry+clods"}
    status, headers, _ = ask(address, "/sign-in", **sent, **own)
    assert status == 303
    assert "Secure" in headers["Set-Cookie"].split("; ")
    own["Origin"] = "http://drills.example"
    assert ask(address, "/sign-in", **sent, **own)[0] == 403
    ask(address, "/sign-in", method="POST", body="name=Eve&password=x", **FORWARDED, **SIGN_IN)
    assert "address 203.0.113.9" in json.dumps(book._store.ask("SELECT who FROM attempt"))


@pytest.mark.usefixtures("ada")
def test_without_a_proxy_what_is_said_of_one_is_not_believed(serve, book):
    """Else anybody could name another address at each attempt, and wait for none."""
    address, _ = serve()
    ask(address, "/sign-in", method="POST", body="name=Eve&password=x", **FORWARDED, **SIGN_IN)
    kept = json.dumps(book._store.ask("SELECT who FROM attempt"))
    assert "address 127.0.0.1" in kept
    assert "203.0.113.9" not in kept


def refused(book, **options):
    server = pytest.importorskip("evenstand.web.run.server", reason="needs waitress")
    settings = {"proxy": "", "settings": Settings(), "ready": print}
    with pytest.raises(MeasurementError) as error:
        server.serve(book, **settings, **options)
    assert "can't be used" in str(error.value.need)
    return error.value.field


def test_a_port_that_is_taken_is_said(book):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        assert refused(book, host="127.0.0.1", port=port) == "--port"


@pytest.mark.parametrize("host", ["203.0.113.9", "no such name"])
def test_a_host_that_is_not_this_computer_s_is_said(book, host):
    assert refused(book, host=host, port=0) == "--host"


def test_its_addresses_are_such_as_others_can_reach(monkeypatch):
    from evenstand.web.run import addresses

    found = ["127.0.1.1", "192.168.1.20", "fe80::1%eth0", "fd00::2", "192.168.1.20", "169.254.1.1"]
    monkeypatch.setattr(addresses, "_by_name", lambda: found)
    monkeypatch.setattr(addresses, "_ways_out", lambda: ["10.0.0.7"])
    assert addresses.reached_at("0.0.0.0") == ["10.0.0.7", "192.168.1.20"]
    assert addresses.reached_at("::") == ["10.0.0.7", "192.168.1.20", "fd00::2"]
    assert addresses.reached_at("barn") == ["barn"]
    assert addresses.reached_at("127.0.0.1") == addresses.reached_at("::1") == []
