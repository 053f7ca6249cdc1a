"""Pages by which things are entered, corrected and removed: alike for all kinds."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from flask import Blueprint, redirect, request
from flask.typing import ResponseReturnValue

from evenstand.book.kinds.shape import Body
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError

from . import forms, here, keeping
from .forms import Form

Known = TypeVar("Known", bound=Body)
Owner = TypeVar("Owner")


def saved(keep: Callable[[Form], str], again: Callable[[Form], str]) -> ResponseReturnValue:
    """Keep what was sent and lead on; where something is refused, show its form again.

    Parameters
    ----------
    keep : callable
        Keeps what a form says and returns the address to lead on to.
    again : callable
        Returns the page that shows a form.
    """
    form = forms.sent()
    try:
        address = keep(form)
    except MeasurementError as error:
        form = form.refused(error)
        return again(form), form.code
    return redirect(address, 303)


@dataclass(frozen=True, kw_only=True)
class Editing(Generic[Known, Owner]):
    """The pages of one kind of thing.

    ``owner`` finds what a new thing is to belong to by the names in its
    address, ``of`` that of a thing by what it says. ``read`` reads a form,
    ``texts`` fills it in with what is kept and ``start`` one of a new thing;
    ``page`` shows it. ``shown`` is the address that a kept thing leads to,
    ``left`` that of one that was removed. Two things that have the same
    ``names`` are asked about. A form sent by the button ``look`` is only shown.
    """

    kind: type[Known]
    of: Callable[[Known], Owner]
    read: Callable[[Form, Owner, Thing | None], Known]
    texts: Callable[[Known], dict[str, str]]
    page: Callable[[Form, Owner, Thing | None], str]
    shown: Callable[[Owner, str], str]
    left: Callable[[Owner], str]
    owner: Callable[..., Any] = lambda: None
    start: Callable[[Owner], dict[str, str]] = lambda _: {}
    names: tuple[str, ...] = ()
    look: str = ""

    def serve(
        self, pages: Blueprint, *, edit: str, remove: str, new: str = "", behind: str = ""
    ) -> None:
        """Give the pages their addresses, and names with ``behind`` at the end."""
        if new:
            pages.add_url_rule(new, f"new{behind}", self._new)
            pages.add_url_rule(new, f"add{behind}", self._add, methods=["POST"])
        pages.add_url_rule(edit, f"edit{behind}", self._edit)
        pages.add_url_rule(edit, f"correct{behind}", self._correct, methods=["POST"])
        pages.add_url_rule(remove, f"remove{behind}", self._remove, methods=["POST"])

    def _new(self, **at: str) -> ResponseReturnValue:
        """Show the form of a new thing."""
        owner = self.owner(**at)
        return self.page(forms.blank(self.start(owner)), owner, None)

    def _add(self, **at: str) -> ResponseReturnValue:
        """Keep a new thing."""
        owner = self.owner(**at)

        def keep(form: Form) -> str:
            entry = keeping.add(self.read(form, owner, None), form, *self.names)
            return self.shown(owner, entry.about)

        return self._save(keep, owner, None)

    def _edit(self, **at: str) -> ResponseReturnValue:
        """Show the form of a thing filled in."""
        thing, owner = self._found(at)
        return self.page(forms.opened(thing, self.texts(here.body(thing, self.kind))), owner, thing)

    def _correct(self, **at: str) -> ResponseReturnValue:
        """Keep a thing's newer state."""
        thing, owner = self._found(at)

        def keep(form: Form) -> str:
            keeping.correct(thing.id, self.read(form, owner, thing), form)
            return self.shown(owner, thing.id)

        return self._save(keep, owner, thing)

    def _remove(self, **at: str) -> ResponseReturnValue:
        """Take a thing out of the lists; its history stays."""
        thing, owner = self._found(at)
        keeping.remove(thing.id, forms.sent())
        return redirect(self.left(owner), 303)

    def _found(self, at: dict[str, str]) -> tuple[Thing, Owner]:
        (id,) = at.values()
        thing = here.thing(id, self.kind)
        return thing, self.of(here.body(thing, self.kind))

    def _save(
        self, keep: Callable[[Form], str], owner: Owner, thing: Thing | None
    ) -> ResponseReturnValue:
        if self.look and request.form.get(self.look):
            return self.page(forms.sent(), owner, thing)
        return saved(keep, lambda form: self.page(form, owner, thing))
