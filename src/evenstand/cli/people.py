"""``evenstand people``: who may use a book, said at the computer where it lies."""

import sys
from typing import Any

import click

from evenstand.book.book import Book
from evenstand.book.people import security_log
from evenstand.book.people.people import ROLES, Person, Role
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say

from .book import on_book
from .flags import example
from .output import Out

DOES: dict[Role, str] = {
    "reads": "view only, looks at everything",
    "works": "crew, also enters catches, jobs, drills, seed",
    "keeps": "owner, also removes, imports, and sets who can do what",
}
NAMED: dict[str, Role] = {"owner": "keeps", "crew": "works", "view only": "reads"}


class RoleType(click.Choice[str]):
    """A role by the word that people read, or as the book keeps it."""

    def __init__(self) -> None:
        super().__init__(tuple(NAMED))

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Role:
        """Return what the book keeps for a word."""
        found: Role | None = next((role for role in ROLES if role == value), None)
        return found or NAMED[super().convert(str(value).replace("-", " "), param, ctx)]


_role = RoleType()


@click.group("people")
def people() -> None:
    """Manage who can use a book.

    Until the first account is made, anyone at this computer has full access. After
    that everyone signs in, on this computer too. Accounts stay with the book's file:
    they are never exported.
    """


@people.command("list", epilog=example("evenstand people list"))
@on_book()
def list_(out: Out, book: Book) -> None:
    """List the accounts."""
    found = book.people.all()
    if out.json:
        out.document({"people": [_document(person) for person in found]})
    elif found:
        out.say(*(f"{person.name}: {DOES[person.role]}" for person in found))
    else:
        out.say("No accounts yet: anyone at this computer has full access.")


@people.command("add", epilog=example("evenstand people add Ada"))
@click.argument("name")
@click.option("--role", type=_role, help="The first account is an owner.")
@on_book(create=True)
def add(out: Out, book: Book, *, name: str, role: Role | None) -> None:
    """Make an account for NAME.

    The password is asked for; from a program it is the first line of the input.
    """
    role = role or ("works" if book.people.any() else "keeps")
    person = book.people.add(name, _password(), role=role)
    _write(book, "add account", person, role=role)
    _tell(out, person, f"{person.name} has an account: {DOES[role]}.")


@people.command("role", epilog=example("evenstand people role Ada crew"))
@click.argument("name")
@click.argument("role", type=_role)
@on_book()
def role(out: Out, book: Book, *, name: str, role: Role) -> None:
    """Let NAME do more, or less: owner, crew or view only."""
    person = book.people.find(name)
    book.people.change_role(person.id, role)
    _write(book, "change role", person, role=role)
    _tell(out, book.people.get(person.id), f"{person.name}: {DOES[role]}.")


@people.command("password", epilog=example("evenstand people password Ada"))
@click.argument("name")
@on_book()
def password(out: Out, book: Book, name: str) -> None:
    """Give NAME a new password, which signs them out everywhere.

    This is the way back in for anyone who forgot theirs. The password is asked
    for; from a program it is the first line of the input.
    """
    person = book.people.find(name)
    book.people.change_password(person.id, _password())
    _write(book, "change password", person)
    _tell(out, person, f"{person.name} has a new password.")


@people.command("remove", epilog=example("evenstand people remove Ben"))
@click.argument("name", required=False)
@click.option(
    "--all", "everybody", is_flag=True, help="All accounts: no one needs to sign in any longer."
)
@on_book()
def remove(out: Out, book: Book, *, name: str | None, everybody: bool) -> None:
    """Remove the account of NAME; their entries still carry their name."""
    if everybody == (name is not None):
        raise MeasurementError("NAME", name, say("enter one name, or --all"))
    gone = book.people.all() if name is None else [book.people.find(name)]
    if name is None:
        book.people.remove_all()
    else:
        book.people.remove(gone[0].id)
    for person in gone:
        _write(book, "remove account", person)
    if out.json:
        out.document({"removed": [_document(person) for person in gone]})
    else:
        out.say(*(f"{person.name} has no account any more." for person in gone))


def _password() -> str:
    """Ask for a password twice, or read it from a program's output."""
    if sys.stdin.isatty():
        return str(click.prompt("Password", hide_input=True, confirmation_prompt=True, err=True))
    return sys.stdin.readline().rstrip("\r\n")


def _write(book: Book, event: str, person: Person, **more: str) -> None:
    """Write what was done to an account into the log that the pages write into."""
    with security_log.written_beside(book.file):
        said = {"person": person.id, **more}
        security_log.write(event, said, who="", where="command line")


def _tell(out: Out, person: Person, text: str) -> None:
    if out.json:
        out.document(_document(person))
    else:
        out.say(text)


def _document(person: Person) -> dict[str, str]:
    return {"name": person.name, "role": person.role}
