"""Sessions: who is signed in on which device, until when; and by which browsers people come."""

from collections.abc import Callable
from contextlib import suppress
from hashlib import sha256

from ..errors import BookError
from ..storage.store import Store

HOUR = 3_600_000  # ms
LASTS = 30 * 24 * HOUR
IDLE = 7 * 24 * HOUR  # without a request
KNOWN = 365 * 24 * HOUR  # since somebody signed in by a browser
TOKEN = 32  # random bytes


class Sessions:
    """Tokens that a browser was given; only their hashes are kept."""

    def __init__(
        self, store: Store, *, clock: Callable[[], int], random: Callable[[int], bytes]
    ) -> None:
        self._store, self._clock, self._random = store, clock, random

    def begin(self, account: str) -> str:
        """Return a new token for an account; those whose time is over are dropped."""
        token, now = self._random(TOKEN).hex(), self._clock()
        with self._store.writing():
            self._store.ask("DELETE FROM session WHERE ends <= ? OR seen <= ?", now, now - IDLE)
            sql = "INSERT INTO session (sha256, account, ends, seen) VALUES (?, ?, ?, ?)"
            self._store.ask(sql, _hash(token), account, now + LASTS, now)
        return token

    def account(self, token: str) -> str | None:
        """Return whose token this is, None for one that is unknown, over or was long unused."""
        sql, now = "SELECT account, seen FROM session WHERE sha256 = ? AND ends > ?", self._clock()
        rows = self._store.ask(sql, _hash(token), now)
        if not rows or now - rows[0][1] >= IDLE:
            return None
        account: str
        account, seen = rows[0]
        if now - seen >= HOUR:
            with suppress(BookError):  # a full disk keeps nobody from reading
                self._store.ask("UPDATE session SET seen = ? WHERE sha256 = ?", now, _hash(token))
        return account

    def end(self, token: str) -> None:
        """Forget a token."""
        self._store.ask("DELETE FROM session WHERE sha256 = ?", _hash(token))

    def end_all(self, account: str) -> None:
        """Forget every token of an account, and every browser by which it came."""
        self._store.ask("DELETE FROM session WHERE account = ?", account)
        self._store.ask("DELETE FROM browser WHERE account = ?", account)

    def remember(self, account: str) -> str:
        """Return a token for the browser by which somebody has just signed in."""
        token, now = self._random(TOKEN).hex(), self._clock()
        with self._store.writing():
            self._store.ask("DELETE FROM browser WHERE ends <= ?", now)
            sql = "INSERT INTO browser (sha256, account, ends) VALUES (?, ?, ?)"
            self._store.ask(sql, _hash(token), account, now + KNOWN)
        return token

    def browser(self, token: str, account: str) -> bytes | None:
        """Return what a browser is counted under by which this account came before."""
        sql = "SELECT sha256 FROM browser WHERE sha256 = ? AND account = ? AND ends > ?"
        rows = self._store.ask(sql, _hash(token), account, self._clock())
        return rows[0][0] if rows else None


def _hash(token: str) -> bytes:
    return sha256(token.encode()).digest()
