"""An office that is stopped, and talked to slowly, by many, and at great length."""

import json
import shutil
import socket
import time
from contextlib import suppress
from urllib.request import Request, urlopen

import pytest

from evenstand.book.opening import open_book
from long import tried

NOTE = {"kind": "drill", "body": {"name": "Heron", "rows": 20, "spacing": {"value": 0.19}}}
BEGUN = (b"", b"GET / HTTP/1.1\r\nHost: localhost\r\nX: ")
SHORT = 3  # s that an answer may take on a busy machine


def write(office, n):
    for _ in range(n):
        headers = {"Content-Type": "application/json"}
        sent = json.dumps(NOTE).encode()
        urlopen(Request(office.address + "/api/things", sent, headers)).close()


def read(office):
    began = time.monotonic()
    with urlopen(office.address + "/drills", timeout=30) as answer:
        assert answer.status == 200
    return time.monotonic() - began


@pytest.fixture
def connect():
    """Open a connection to an office and begin to say something, as ``connect(office, text)``."""
    made = []

    def connect(office, text=b""):
        made.append(socket.create_connection(("127.0.0.1", office.port)))
        made[-1].sendall(text)
        return made[-1]

    yield connect
    for each in made:
        each.close()


def ended(connection, within):
    """Whether the other side ends a connection."""
    connection.settimeout(within)
    try:
        return connection.recv(1) == b""
    except ConnectionResetError:
        return True
    except TimeoutError:
        return False


def test_what_was_written_is_in_the_file_alone_after_the_system_stopped_it(office, tmp_path):
    one = office()
    write(one, 31)
    one.process.terminate()
    assert one.process.wait(20) == 0
    assert not (tmp_path / "book-wal").exists()
    shutil.copy(tmp_path / "book", tmp_path / "alone")
    with open_book(tmp_path / "alone", device="b", create=False) as book:
        assert book.counts() == {"drill": 31}


def test_what_was_written_is_in_the_file_alone_when_it_is_quiet(office, tmp_path):
    one = office()
    write(one, 3)
    time.sleep(6)
    shutil.copy(tmp_path / "book", tmp_path / "alone")
    with open_book(tmp_path / "alone", device="b", create=False) as book:
        assert book.counts() == {"drill": 3}


@pytest.mark.parametrize("begun", BEGUN)
def test_slow_connections_shut_nobody_out(office, connect, begun):
    one = office()
    slow = [connect(one, begun) for _ in range(300)]
    tried("slow connections", len(slow))
    assert read(one) < SHORT
    assert sum(ended(each, 0.01) for each in slow[:150]) == 150


def test_a_connection_that_dawdles_is_ended(office, connect):
    one, over = office(), time.monotonic() + 25
    slow = {connect(one, begun): begun for begun in BEGUN}
    while slow := {each: begun for each, begun in slow.items() if not ended(each, 1)}:
        assert time.monotonic() < over
        for each, begun in slow.items():  # a byte now and then does not help
            with suppress(OSError):
                each.sendall(b"x" if begun else b"")


def test_what_is_too_large_is_refused_unread(office, connect):
    head = b"POST /api/things HTTP/1.1\r\nHost: localhost\r\nContent-Length: 900000000\r\n\r\n"
    connection = connect(office(), head)
    connection.settimeout(SHORT)
    assert connection.recv(12) == b"HTTP/1.1 413"


def test_what_is_too_large_piece_by_piece_is_refused_on_the_way(office, connect):
    head = b"POST /exchange HTTP/1.1\r\nHost: localhost\r\nTransfer-Encoding: chunked\r\n\r\n"
    connection = connect(office(), head)
    sent = 0
    with pytest.raises(OSError, match=r"reset|pipe"):  # noqa: PT012 - whichever piece it is
        for sent in range(900):  # noqa: B007
            connection.sendall(b"100000\r\n" + bytes(0x100000) + b"\r\n")
    assert sent < 40  # MiB, with what lies in the network's buffers
