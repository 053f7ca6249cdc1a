"""Devices that carry the book along: each with a key of its own, which can be taken from it."""

from collections.abc import Callable, Iterable
from contextlib import nullcontext
from dataclasses import dataclass
from hashlib import sha256
from typing import get_args

from evenstand.engine.quantities.phrases import say

from ..errors import BookError
from ..log.entries import Entry
from ..log.stamp import Stamp
from ..storage.store import Store
from . import attempts
from .attempts import Attempts
from .people import MOST_NAME, Role

KEY = 32  # random bytes
CODE = 8  # signs of 5 bits each
MINUTE = 60_000  # ms
LASTS = 10 * MINUTE  # ms that a code is good for
_SIGNS = "0123456789abcdefghjkmnpqrstvwxyz"  # Crockford's base 32: none is taken for another
_MISREAD = str.maketrans("oil", "011")
_DEVICE = (
    "SELECT device.id, device.name, who, coalesce(account.role, device.role), made, seen, account "
    "FROM device LEFT JOIN account ON account.id = device.account "
)


@dataclass(frozen=True)
class Device:
    """A device that was paired: its name in stamps, as people call it, who writes on it.

    ``made`` and ``seen`` are when it was paired and last heard of. [ms since 1970]
    ``account`` is that of its person, None where nobody had one.
    """

    id: str
    name: str
    who: str
    role: Role
    made: int
    seen: int | None
    account: str | None = None


class Devices:
    """The devices of a book, and the codes by which new ones are paired."""

    def __init__(
        self, store: Store, *, clock: Callable[[], int], random: Callable[[int], bytes]
    ) -> None:
        self._store, self._clock, self._random = store, clock, random
        self._attempts = Attempts(store, clock=clock)

    def offer(self, *, account: str | None, who: str) -> str:
        """Return a code that pairs one device, once and soon.

        Parameters
        ----------
        account : str, optional
            Whose device it will be; the device may do what its person may.
        who : str
            Name under which it writes.
        """
        code = "".join(_SIGNS[byte % 32] for byte in self._random(CODE))
        with self._store.writing():
            self._forget_late()
            sql = "INSERT INTO pairing (sha256, account, who, ends) VALUES (?, ?, ?, ?)"
            self._store.ask(sql, _hash(code), account, who, self._clock() + LASTS)
        return code

    def pair(self, code: str, name: str, *, address: str) -> tuple[Device, str]:
        """Take a code for a new device; gives the device and its key.

        Parameters
        ----------
        address : str
            Where it was asked from, as an Internet address.

        Raises
        ------
        BookError
            For a code that was used, is over or never was, and a name that is none.
        TooManyError
            After many wrong codes from an address.
        """
        shown = " ".join(name.split())[:MOST_NAME]
        if not shown or not shown.isprintable():
            raise BookError("name", name, say("enter a name"))
        key, id = self._random(KEY).hex(), f"phone-{self._random(4).hex()}"
        Stamp(0, 0, id)
        counted = attempts.pairing(address)
        self._attempts.begin(counted)
        with self._store.writing():
            offered = self._taken(code)
            if offered:
                sql = (
                    "INSERT INTO device (id, name, sha256, account, who, role, made) "
                    "VALUES (?, ?, ?, ?, ?, 'keeps', ?)"
                )
                self._store.ask(sql, id, shown, _hash(key), *offered, self._clock())
        if not offered:
            raise BookError(
                "code", None, say("ask for a new code: this one was used or has expired")
            )
        self._attempts.succeeded(counted)
        return self._one("WHERE device.id = ?", id), key

    def by_key(self, key: str) -> Device | None:
        """Return the device of a key, None for a key that is unknown or was taken away."""
        rows = self._store.ask(_DEVICE + "WHERE sha256 = ?", _hash(key))
        return _device(rows[0]) if rows else None

    def heard_of(self, id: str) -> None:
        """Remember that a device has just exchanged entries, to the minute."""
        now, sql = (
            self._clock(),
            "UPDATE device SET seen = ? WHERE id = ? AND coalesce(seen, 0) <= ?",
        )
        self._store.ask(sql, now, id, now - MINUTE)

    def handed_over(self, device: Device, entries: Iterable[Entry]) -> None:
        """Remember which device brought an entry that names another person or device."""
        rows = [
            (entry.id, device.name)
            for entry in entries
            if entry.by != device.who or entry.made.device != device.id
        ]
        with self._store.writing() if rows else nullcontext():
            for row in rows:
                self._store.ask("INSERT OR IGNORE INTO handed (entry, device) VALUES (?, ?)", *row)

    def carriers(self, entries: Iterable[Entry]) -> dict[str, str]:
        """Return by their ids which of these entries a device brought for others, and which."""
        sql = "SELECT device FROM handed WHERE entry = ?"
        found = {entry.id: self._store.ask(sql, entry.id) for entry in entries}
        return {id: rows[0][0] for id, rows in found.items() if rows}

    def all(self, *, account: str | None = None) -> list[Device]:
        """Return the devices, newest first; those of one account where it is given."""
        where = "WHERE account = ? " if account else ""
        rows = self._store.ask(
            f"{_DEVICE}{where}ORDER BY made DESC, device.id", *([account] if account else [])
        )
        return [_device(row) for row in rows]

    def get(self, id: str) -> Device:
        """Return a device.

        Raises
        ------
        BookError
        """
        return self._one("WHERE device.id = ?", id)

    def revoke(self, id: str) -> None:
        """Take the key of a device away; what it handed over stays."""
        self._store.ask("DELETE FROM device WHERE id = ?", id)

    def _taken(self, code: str) -> tuple[str | None, str] | None:
        """Use up a code; gives whose it is, None for one that is wrong."""
        self._forget_late()
        hashed = _hash("".join(code.split()).lower().translate(_MISREAD))
        sql = "DELETE FROM pairing WHERE sha256 = ? RETURNING account, who"
        rows = self._store.ask(sql, hashed)
        return (rows[0][0], rows[0][1]) if rows else None

    def _forget_late(self) -> None:
        self._store.ask("DELETE FROM pairing WHERE ends <= ?", self._clock())

    def _one(self, where: str, value: str) -> Device:
        rows = self._store.ask(_DEVICE + where, value)
        if not rows:
            raise BookError("device", value, say("no such device"))
        return _device(rows[0])


def _device(row: tuple[object, ...]) -> Device:
    id, name, who, role, made, seen, account = row
    assert role in get_args(Role)
    return Device(id, name, who, role, made, seen, account)  # type: ignore[arg-type]


def _hash(secret: str) -> bytes:
    return sha256(secret.encode()).digest()
