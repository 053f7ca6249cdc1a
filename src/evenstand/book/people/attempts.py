"""Attempts that failed, to sign in or to pair a phone: each makes the next one wait longer."""

import ipaddress
from collections.abc import Callable, Sequence
from hashlib import sha256
from typing import NamedTuple

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


class Counted(NamedTuple):
    """What a failure is counted under: a name, a browser that is known, an address.

    ``free`` failures may come before a wait; a success forgets those under
    what is one person's own, and takes back one under what is ``shared``.
    """

    under: str
    free: int
    shared: bool = False


class Attempts:
    """Failures by what they are counted under, on disk, so that a restart forgets none."""

    def __init__(self, store: Store, *, clock: Callable[[], int]) -> None:
        self._store, self._clock = store, clock

    def begin(self, counted: Sequence[Counted]) -> None:
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
            wait = max(self._wait(each, now) for each in counted)
            if wait > 0:
                raise TooManyError(-(-wait // 1000))
            for each in counted:
                sql = (
                    "INSERT INTO attempt (who, failed, last) VALUES (?, 1, ?) "
                    "ON CONFLICT (who) DO UPDATE SET failed = failed + 1, last = excluded.last"
                )
                self._store.ask(sql, each.under, now)

    def succeeded(self, counted: Sequence[Counted]) -> None:
        """Forget the failures of whoever it was, and take back this one of the address."""
        taken_back = "UPDATE attempt SET failed = failed - 1 WHERE who = ? AND failed > 0"
        with self._store.writing():
            for each in counted:
                sql = taken_back if each.shared else "DELETE FROM attempt WHERE who = ?"
                self._store.ask(sql, each.under)

    def forget(self, name: str) -> None:
        """Let a name try again at once."""
        self._store.ask("DELETE FROM attempt WHERE who = ?", _named(name))

    def _wait(self, counted: Counted, now: int) -> int:
        """Return how long an attempt must still wait. [ms]"""
        rows = self._store.ask("SELECT failed, last FROM attempt WHERE who = ?", counted.under)
        failed, last = rows[0] if rows else (0, now)
        if failed < counted.free:
            return 0
        whole = min(LONGEST, 1000 << min(failed - counted.free, 20))
        return int(last + whole - now)


def signing_in(folded: str, address: str) -> list[Counted]:
    """Count failures to sign in under the name and under where they come from."""
    network = Counted("address " + _network(address), FREE_ADDRESS, shared=True)
    return [Counted(_named(folded), FREE_NAME), network]


def known(browser: bytes) -> list[Counted]:
    """Count failures of a browser by which this person signed in before under it alone.

    Whoever fails elsewhere under the same name does not make it wait.
    """
    return [Counted("browser " + browser.hex(), FREE_NAME)]


def pairing(address: str) -> list[Counted]:
    """Count wrong codes under where they come from."""
    return [Counted("code " + _network(address), FREE_ADDRESS, shared=True)]


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
