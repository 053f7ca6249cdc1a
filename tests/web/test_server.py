"""The embedded server: it listens, answers, and says when it cannot."""

import socket
import threading
from urllib.request import urlopen

import pytest

from evenstand.engine.errors import MeasurementError


@pytest.fixture
def served(book, monkeypatch):
    """Serve a book in a thread of its own; ends with the test."""
    server = pytest.importorskip("evenstand.web.server", reason="needs waitress")
    from evenstand.web.settings import Settings

    made, listening, where = [], threading.Event(), []
    create = server.create_server
    monkeypatch.setattr(
        server, "create_server", lambda *a, **k: made.append(create(*a, **k)) or made[-1]
    )

    def ready(address):
        where.append(address)
        listening.set()

    options = {"host": "127.0.0.1", "port": 0, "settings": Settings(), "ready": ready}
    thread = threading.Thread(target=server.serve, args=(book,), kwargs=options, daemon=True)
    thread.start()
    assert listening.wait(10)
    yield where[0]
    made[0].close()
    thread.join(10)


def test_it_answers_where_it_says(served):
    with urlopen(served) as answer:
        assert answer.status == 200
        assert "Write down the drill first." in answer.read().decode()
        assert "Server" not in answer.headers


def test_a_port_that_is_taken_is_said(book):
    server = pytest.importorskip("evenstand.web.server", reason="needs waitress")
    from evenstand.web.settings import Settings

    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(MeasurementError) as refused:
            server.serve(book, host="127.0.0.1", port=port, settings=Settings(), ready=print)
    assert refused.value.field == "--port"
    assert "cannot be used" in str(refused.value.need)
