"""Sessions: who is signed in on which device, until when."""

from collections.abc import Callable
from hashlib import sha256

from ..storage.store import Store

LASTS = 30 * 24 * 3_600_000  # ms
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
            self._store.ask("DELETE FROM session WHERE ends <= ?", now)
            sql = "INSERT INTO session (sha256, account, ends) VALUES (?, ?, ?)"
            self._store.ask(sql, _hash(token), account, now + LASTS)
        return token

    def account(self, token: str) -> str | None:
        """Return whose token this is, None for one that is unknown or over."""
        sql = "SELECT account FROM session WHERE sha256 = ? AND ends > ?"
        rows = self._store.ask(sql, _hash(token), self._clock())
        return rows[0][0] if rows else None

    def end(self, token: str) -> None:
        """Forget a token."""
        self._store.ask("DELETE FROM session WHERE sha256 = ?", _hash(token))

    def end_all(self, account: str) -> None:
        """Forget every token of an account."""
        self._store.ask("DELETE FROM session WHERE account = ?", account)


def _hash(token: str) -> bytes:
    return sha256(token.encode()).digest()
