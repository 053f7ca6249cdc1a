"""What a web app is told when it is made."""

from dataclasses import dataclass

from evenstand.book.people.people import Role
from evenstand.engine.quantities.phrases import System

LOOPBACK = ("localhost", "127.0.0.1", "[::1]")


@dataclass(frozen=True, kw_only=True)
class Settings:
    """How the pages are served.

    Parameters
    ----------
    invented : bool
        Whether the book is the invented demo, which every page then says.
    units : "us" or "metric"
        Units of a reader who has not chosen.
    hosts : tuple of str
        Names under which the pages may be asked for; another site cannot make
        a browser ask under its own name.
    shared : bool
        Whether other devices reach the pages: then nobody is let in without an
        account, even where there is none.
    phone : tuple of str
        Addresses under which a phone reaches them.
    on_phone : bool
        Whether the pages answer on a phone itself, with no server between.
    role : str
        What whoever sits here may do, while there are no accounts.
    signs : str
        Name under which alone is written here; empty where people say theirs.
    """

    invented: bool = False
    units: System = "us"
    hosts: tuple[str, ...] = LOOPBACK
    shared: bool = False
    phone: tuple[str, ...] = ()
    on_phone: bool = False
    role: Role = "keeps"
    signs: str = ""
