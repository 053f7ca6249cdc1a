"""Passwords: how long one must be, and what is kept of it.

Kept is what Argon2id makes of it (RFC 9106), at the cost that the library
argon2-cffi proposes. It is imported only where a password is at hand: a book
of one person alone, as on a phone, goes without.
"""

import unicodedata
from typing import TYPE_CHECKING

from evenstand.engine.quantities.phrases import say

from ..errors import BookError

if TYPE_CHECKING:
    from argon2 import PasswordHasher

LEAST = 10  # characters
MOST = 1000  # characters; nobody types more, and each costs time
FEWEST_KINDS = 5  # different characters


def usable(password: str) -> str:
    """Return a new password in the one form in which it is kept.

    There is no rule which characters must be in it: such rules make passwords
    that are alike.

    Raises
    ------
    BookError
        For one that is too short, too long or the same few characters again.

    References
    ----------
    NIST SP 800-63B (2017), 5.1.1.2, not read: at least 8 characters,
    no rules of composition, one normal form of Unicode.
    """
    text = _normal(password)
    if len(text) < LEAST:
        raise BookError("password", None, say("use at least {n} characters", n=LEAST))
    if len(text) > MOST:
        raise BookError("password", None, say("use no more than {n} characters", n=MOST))
    if len(set(text)) < FEWEST_KINDS:
        need = say("too easy to guess: a few unrelated words are better")
        raise BookError("password", None, need)
    return text


def hashed(password: str) -> str:
    """Return what is kept of a password.

    Raises
    ------
    BookError
        Where the library is not there, as in a browser.
    """
    return _hasher().hash(_normal(password))


def fits(password: str, kept: str | None) -> bool:
    """Whether a password is the one that was kept; None takes as long and never fits."""
    from argon2.exceptions import InvalidHashError, VerificationError

    text = _normal(password[: MOST + 1])
    if kept is None:
        _hasher().hash(text)
        return False
    try:
        return _hasher().verify(kept, text)
    except (VerificationError, InvalidHashError):
        return False


def is_outdated(kept: str) -> bool:
    """Whether the library would make it at another cost today."""
    return _hasher().check_needs_rehash(kept)


def _normal(password: str) -> str:
    return unicodedata.normalize("NFKC", password.encode("utf-8", "replace").decode())


def _hasher() -> "PasswordHasher":
    try:
        from argon2 import PasswordHasher
    except ImportError:
        need = say("accounts can't be made here: this copy is for one person")
        raise BookError("password", None, need) from None
    return PasswordHasher()
