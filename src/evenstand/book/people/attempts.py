"""Attempts to sign in that failed: each makes the next one wait longer."""

import ipaddress
from collections.abc import Callable
from hashlib import sha256

from evenstand.engine.quantities.phrases import say

from ..errors import BookError
from ..storage.store import Store

FREE_NAME = 4  # failures of a name before it must wait
FREE_ADDRESS = 20  # of an address: a whole farm may sit behind one
LONGEST = 900_000  # ms: 15 min
FORGOTTEN = 24 * 3_600_000  # ms without a failure


class TooManyError(BookError):
    """Signing in must wait."""

    def __init__(self, seconds: int) -> None:
        need = say("too many failed tries: wait {n} s, then try again", n=seconds)
        super().__init__("password", None, need)
        self.seconds = seconds


class Attempts:
    """Failures by name and by address, on disk, so that a restart forgets none."""

    def __init__(self, store: Store, *, clock: Callable[[], int]) -> None:
        self._store, self._clock = store, clock

    def begin(self, name: str, address: str) -> None:
        """Count an attempt as failed, until `succeeded` says otherwise.

        Raises
        ------
        TooManyError
            Where it comes too soon; it is not counted then.
        """
        now = self._clock()
        # A clock set back must not lock anybody out for longer; this stays if it is too soon.
        self._store.ask("UPDATE attempt SET last = ? WHERE last > ?", now, now)
        with self._store.writing():
            self._store.ask("DELETE FROM attempt WHERE last < ?", now - FORGOTTEN)
            waits = [self._wait(key, free, now) for key, free in _keys(name, address)]
            if max(waits) > 0:
                raise TooManyError(-(-max(waits) // 1000))
            for key, _ in _keys(name, address):
                sql = (
                    "INSERT INTO attempt (who, failed, last) VALUES (?, 1, ?) "
                    "ON CONFLICT (who) DO UPDATE SET failed = failed + 1, last = excluded.last"
                )
                self._store.ask(sql, key, now)

    def succeeded(self, name: str, address: str) -> None:
        """Forget the failures of a name, and take back that of the address."""
        [(by_name, _), (by_address, _)] = _keys(name, address)
        with self._store.writing():
            self._store.ask("DELETE FROM attempt WHERE who = ?", by_name)
            sql = "UPDATE attempt SET failed = failed - 1 WHERE who = ? AND failed > 0"
            self._store.ask(sql, by_address)

    def forget(self, name: str) -> None:
        """Let a name try again at once."""
        self._store.ask("DELETE FROM attempt WHERE who = ?", _named(name))

    def _wait(self, key: str, free: int, now: int) -> int:
        """Return how long a name or an address must still wait. [ms]"""
        rows = self._store.ask("SELECT failed, last FROM attempt WHERE who = ?", key)
        failed, last = rows[0] if rows else (0, now)
        if failed < free:
            return 0
        whole = min(LONGEST, 1000 << min(failed - free, 20))
        return int(last + whole - now)


def _keys(name: str, address: str) -> list[tuple[str, int]]:
    return [(_named(name), FREE_NAME), ("address " + _network(address), FREE_ADDRESS)]


def _named(folded: str) -> str:
    """Return a key of a name that does not keep what was typed: it may be a password."""
    return "name " + sha256(folded.encode()).hexdigest()


def _network(address: str) -> str:
    """Return the part of an address that one person cannot change at will."""
    try:
        found = ipaddress.ip_address(address)
    except ValueError:
        return address[:100]
    bits = 64 if found.version == 6 else 32
    return str(ipaddress.ip_network((found, bits), strict=False).network_address)
