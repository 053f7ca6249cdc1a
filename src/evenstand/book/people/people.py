"""People: who may do what with a book where it lies.

Accounts, sessions and attempts belong to this file alone: they are no
entries, are never exported and never exchanged.
"""

import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, get_args

from evenstand.engine.quantities.phrases import say

from ..errors import BookError
from ..kinds.identity import uuid7
from ..storage.store import Store
from . import attempts, passwords
from .attempts import Attempts
from .sessions import Sessions

Role = Literal["reads", "works", "keeps"]  # each may do what those before it may
ROLES: tuple[Role, ...] = get_args(Role)
MOST_NAME = 80  # characters
_COLUMNS = "SELECT id, name, role FROM account "


@dataclass(frozen=True)
class Person:
    """An account."""

    id: str
    name: str
    role: Role

    def may(self, role: Role) -> bool:
        """Whether this person may do what takes a role."""
        return ROLES.index(self.role) >= ROLES.index(role)


class People:
    """The accounts of a book; without any, whoever opens it keeps it."""

    def __init__(
        self, store: Store, *, clock: Callable[[], int], random: Callable[[int], bytes]
    ) -> None:
        self._store, self._clock, self._random = store, clock, random
        self._sessions = Sessions(store, clock=clock, random=random)
        self._attempts = Attempts(store, clock=clock)

    def any(self) -> bool:
        """Whether there is an account."""
        return bool(self._store.ask("SELECT 1 FROM account LIMIT 1"))

    def all(self) -> list[Person]:
        """Return all accounts by name."""
        return [Person(*row) for row in self._store.ask(_COLUMNS + "ORDER BY folded")]

    def get(self, id: str) -> Person:
        """Return an account.

        Raises
        ------
        BookError
        """
        return self._one("WHERE id = ?", id, given=id)

    def find(self, name: str) -> Person:
        """Return the account of a name, in small letters or large.

        Raises
        ------
        BookError
        """
        return self._one("WHERE folded = ?", _folded(_clean(name)), given=name)

    def add(self, name: str, password: str, *, role: Role) -> Person:
        """Make an account.

        Raises
        ------
        BookError
            For a name that is taken or none, a password that is too weak, and
            for a first account that does not keep the book.
        """
        name, kept = _readable(name), passwords.hashed(passwords.usable(password))
        id = uuid7(self._clock(), self._random(10))
        with self._store.writing():
            if role != "keeps" and not self.any():
                raise BookError(
                    "role", role, say("choose owner: the first account must be an owner")
                )
            if self._store.ask("SELECT 1 FROM account WHERE folded = ?", _folded(name)):
                raise BookError("name", name, say("that name has an account: choose another"))
            sql = "INSERT INTO account (id, name, folded, role, password) VALUES (?, ?, ?, ?, ?)"
            self._store.ask(sql, id, name, _folded(name), role, kept)
        return Person(id, name, role)

    def change_role(self, id: str, role: Role) -> None:
        """Let somebody do more, or less, from now on.

        Raises
        ------
        BookError
            For the last one who keeps the book.
        """
        with self._store.writing():
            if role != "keeps":
                self._not_the_last(self.get(id), field="role")
            self._store.ask("UPDATE account SET role = ? WHERE id = ?", role, id)

    def change_password(self, id: str, password: str, *, phones: bool = False) -> None:
        """Give a new password: it ends every session and wait, with ``phones`` their keys too.

        Raises
        ------
        BookError
        """
        kept, person = passwords.hashed(passwords.usable(password)), self.get(id)
        with self._store.writing():
            self._store.ask("UPDATE account SET password = ? WHERE id = ?", kept, id)
            self._sessions.end_all(id)
            if phones:
                self._store.ask("DELETE FROM device WHERE account = ?", id)
            self._attempts.forget(_folded(person.name))

    def remove(self, id: str) -> None:
        """Take an account away with its sessions; what its person wrote keeps their name.

        Raises
        ------
        BookError
            For the last one who keeps the book.
        """
        with self._store.writing():
            self._not_the_last(self.get(id), field="name")
            self._store.ask("DELETE FROM account WHERE id = ?", id)

    def remove_all(self) -> None:
        """Take every account away: whoever sits at this computer keeps the book again."""
        self._store.ask("DELETE FROM account")

    def sign_in(self, name: str, password: str, *, address: str, browser: str = "") -> str:
        """Return the token of a new session.

        Parameters
        ----------
        address : str
            Where it was asked from, as an Internet address.
        browser : str
            Token of a browser by which somebody signed in before, if any.

        Raises
        ------
        BookError
            In one sentence, and in the same time, for a name that is unknown
            and a password that is wrong.
        TooManyError
            After many failures under a name or from an address.
        """
        folded = _folded(_clean(name))
        rows = self._store.ask("SELECT id, password FROM account WHERE folded = ?", folded)
        id, kept = rows[0] if rows else ("", None)
        known = self._sessions.browser(browser, id)
        counted = attempts.known(known) if known else attempts.signing_in(folded, address)
        self._attempts.begin(counted)
        if not passwords.fits(password, kept):
            raise BookError("password", None, say("name and password do not match"))
        if passwords.is_outdated(kept):
            sql = "UPDATE account SET password = ? WHERE id = ?"
            self._store.ask(sql, passwords.hashed(password), id)
        self._attempts.succeeded(counted)
        return self._sessions.begin(id)

    def begin(self, id: str) -> str:
        """Return the token of a new session for somebody who has just shown who they are."""
        return self._sessions.begin(id)

    def remember(self, id: str) -> str:
        """Return a token for the browser by which somebody has just shown who they are."""
        return self._sessions.remember(id)

    def reader(self, token: str) -> Person | None:
        """Return who is signed in by a token, None for one that is unknown or over."""
        account = self._sessions.account(token)
        rows = self._store.ask(_COLUMNS + "WHERE id = ?", account) if account else []
        return Person(*rows[0]) if rows else None

    def sign_out(self, token: str) -> None:
        """End a session."""
        self._sessions.end(token)

    def _one(self, where: str, value: str, *, given: str) -> Person:
        rows = self._store.ask(_COLUMNS + where, value)
        if not rows:
            raise BookError("name", given, say("no account has that name"))
        return Person(*rows[0])

    def _not_the_last(self, person: Person, *, field: str) -> None:
        sql = "SELECT 1 FROM account WHERE role = 'keeps' AND id <> ?"
        if person.role == "keeps" and not self._store.ask(sql, person.id):
            need = say(
                "{name} is the only owner: make someone else an owner first",
                name=person.name,
            )
            raise BookError(field, person.name, need)


def _clean(name: str) -> str:
    text = name.encode("utf-8", "replace").decode()
    return " ".join(unicodedata.normalize("NFKC", text).split())


def _readable(name: str) -> str:
    """Return a name as it is kept, or refuse one that nobody could read."""
    text = _clean(name)
    if not text or not text.isprintable():
        raise BookError("name", None, say("enter a name"))
    if len(text) > MOST_NAME:
        raise BookError("name", None, say("use no more than {n} characters", n=MOST_NAME))
    return text


def _folded(name: str) -> str:
    return name.casefold()
