"""Devices that carry the book along: paired once, known by a key, let go of at will."""

import itertools

import pytest

from evenstand.book.errors import BookError
from evenstand.book.opening import open_book
from evenstand.book.people import attempts
from evenstand.book.people.devices import LASTS

HERE = "192.0.2.7"  # RFC 5737
PASSWORD = "a long enough one"


class Clock:
    now = 1_795_568_400_000

    def __call__(self):
        return self.now


@pytest.fixture
def clock():
    return Clock()


@pytest.fixture
def book(clock):
    with open_book(":memory:", device="shed", who="Ada", clock=clock) as found:
        yield found


@pytest.fixture
def devices(book):
    return book.devices


def pair(devices, code, name, *, address=HERE):
    return devices.pair(code, name, address=address)


def test_a_code_pairs_one_device_and_its_key_is_known(devices):
    device, key = pair(devices, devices.offer(account=None, who="Ada"), "Ada's phone")
    assert (device.name, device.who, device.role) == ("Ada's phone", "Ada", "keeps")
    assert devices.by_key(key) == device == devices.get(device.id)
    assert devices.all() == [device]


def test_only_hashes_are_kept(book, devices):
    code = devices.offer(account=None, who="Ada")
    _, key = pair(devices, code, "phone")
    devices.offer(account=None, who="Ada")
    kept = itertools.chain(*book._store.ask("SELECT * FROM device, pairing"))
    texts = [each.hex() if isinstance(each, bytes) else str(each) for each in kept]
    assert all(key not in text and code not in text for text in texts)


def test_a_code_is_good_once(devices):
    code = devices.offer(account=None, who="Ada")
    pair(devices, code, "one")
    with pytest.raises(BookError) as refused:
        pair(devices, code, "two")
    assert refused.value.field == "code"


def test_a_code_is_soon_over(devices, clock):
    code = devices.offer(account=None, who="Ada")
    clock.now += LASTS
    with pytest.raises(BookError) as refused:
        pair(devices, code, "late")
    assert refused.value.field == "code"


def test_whoever_guesses_waits_and_nobody_else(devices, clock):
    code = devices.offer(account=None, who="Ada")
    for _ in range(attempts.FREE_ADDRESS):
        with pytest.raises(BookError, match="code"):
            pair(devices, "wrong", "phone")
    with pytest.raises(attempts.TooManyError):
        pair(devices, code, "phone")
    device, _ = pair(devices, code, "phone", address="192.0.2.8")
    assert devices.all() == [device]
    clock.now += 1000
    assert pair(devices, devices.offer(account=None, who="Ada"), "phone")


def test_a_code_is_read_as_people_write_it(devices):
    code = devices.offer(account=None, who="Ada")
    typed = code.upper().replace("0", "O").replace("1", "I")
    pair(devices, f" {typed[:4]} {typed[4:]} ", "phone")


@pytest.mark.parametrize("name", ["", "  ", "a\x00b"])
def test_a_device_has_a_name(devices, name):
    with pytest.raises(BookError) as refused:
        pair(devices, devices.offer(account=None, who="Ada"), name)
    assert refused.value.field == "name"


def test_a_revoked_key_is_unknown(devices):
    device, key = pair(devices, devices.offer(account=None, who="Ada"), "lost")
    devices.revoke(device.id)
    assert devices.by_key(key) is None
    with pytest.raises(BookError) as refused:
        devices.get(device.id)
    assert refused.value.field == "device"


def test_a_device_may_what_its_person_may_now(book, devices):
    pytest.importorskip("argon2", reason="needs argon2-cffi")
    book.people.add("Ada", PASSWORD, role="keeps")
    ben = book.people.add("Ben", PASSWORD, role="works")
    _, key = pair(devices, devices.offer(account=ben.id, who="Ben"), "Ben's")
    assert devices.by_key(key).role == "works"
    book.people.change_role(ben.id, "reads")
    assert devices.by_key(key).role == "reads"
    assert [each.name for each in devices.all(account=ben.id)] == ["Ben's"]
    book.people.remove(ben.id)
    assert devices.by_key(key) is None


def test_a_device_is_remembered_when_it_was_heard_of(devices, clock):
    device, key = pair(devices, devices.offer(account=None, who="Ada"), "phone")
    assert device.seen is None
    clock.now += 5
    devices.heard_of(device.id)
    assert devices.by_key(key).seen == clock.now


def test_devices_are_not_exported(book, tmp_path):
    from evenstand.book.exchange import export_book

    _, key = pair(book.devices, book.devices.offer(account=None, who="Ada"), "phone")
    export_book(book, tmp_path / "book.zip")
    assert key.encode() not in (tmp_path / "book.zip").read_bytes()


def test_the_cursor_lies_behind_the_newest_entry(book):
    from evenstand.book.kinds.work import Note

    assert book.cursor() == 0
    job = book.new_id()
    book.add(Note(of=job, text="dry"))
    assert book.cursor() == book.entries().cursor
