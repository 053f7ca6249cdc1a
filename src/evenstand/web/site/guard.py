"""Who may ask for what: one table of all addresses, looked at before each request."""

from collections.abc import Mapping
from types import MappingProxyType

from flask import Flask, abort, current_app, redirect, request, url_for
from flask.typing import ResponseReturnValue
from werkzeug.exceptions import Forbidden, HTTPException

from evenstand.book.people.people import Role
from evenstand.engine.quantities.phrases import Phrase, say

from . import here
from .security import READING

# For everybody, signed in or not.
OPEN = frozenset(
    {"static", "people.sign_in", "people.enter", "people.leave"}
    | {"moved.lead"}  # the page that it leads to looks for itself
    | {"phone_files.install", "phone_files.service_worker", "phone_files.file"}
    | {"exchange.pair", "exchange.hand_over"}  # these look at a code or a key
)

# Kinds of entries that are left to those who keep the book: the book's own words, and to remove
# what the jobs of others name.
KEPT_BY_KEEPERS = frozenset({"book"})
REMOVED_BY_KEEPERS = KEPT_BY_KEEPERS | {"drill", "chart", "lot", "field", "mix"}

IN_OFFICE = ("people.", "devices.", "exchange.", "phone_files.")  # a phone has none of these

# One line for each module: its pages, then what they send to.
_READS = """
    jobs.index jobs.show
    drills.index drills.show drills.label
    mix.show mix_goal.show
    set.show now.show
    seed.index seed.show seed.choose_state
    tests.show tests.show_count photos.show
    pool.index
    book.index book.export book.history
    tables.index tables.csv tables.xlsx tables.outlines tables.whole
    reading.index reading.choose
    changes.log changes.apart
    people.own people.change_own
    devices.index devices.offer devices.revoke
    this_phone.index this_phone.not_kept
    boxes.show order.show stand.show sow.show
    record.show record.pdf record.worksheet record.worksheet_pdf record.card record.card_pdf
    record.season record.season_pdf
    api.index api.describe api.list_things api.read_thing api.read_history
    api.read_entries api.export_book api.read_species
    api.read_steps api.read_set api.read_rows api.read_mix api.read_boxes api.read_order
    api.read_sow api.read_stand api.read_record
    api.reckon_turns api.reckon_catch api.reckon_rows api.reckon_tag
    api.reckon_set api.reckon_mix api.reckon_solve api.reckon_boxes api.reckon_order
"""
_WORKS = """
    position.show position.wheel position.field position.keep
    jobs.new jobs.edit jobs.add jobs.correct jobs.remove
    drills.new drills.edit drills.add drills.correct
    charts.new charts.edit charts.add charts.draw charts.correct
    mix.choose mix_form.edit mix_form.keep
    boxes.save boxes.take boxes.propose handing_over.add order.save
    sown.new sown.add sown.edit sown.correct sown.remove
    set.add set.choose record.edit record.save record.amend
    now.keep
    catches.edit catches.correct catches.remove catches.count catches.shut
    stand.add stand.settle plants.edit plants.correct plants.remove
    seed.new seed.edit seed.add seed.correct
    tests.new_count tests.edit_count tests.add_count tests.correct_count tests.remove_count
    tests.new tests.edit tests.add tests.correct tests.remove
    photos.new photos.add photos.remove
    tables.look tables.take_
    changes.undo changes.settle
    api.add_thing api.correct_thing api.remove_thing
"""
_KEEPS = """
    drills.remove
    charts.remove
    seed.remove
    book.import_ book.check book.name book.put_back book.copy
    reading.about
    api.import_book api.check_book
    people.index people.add people.change_role people.change_password people.remove
"""
_EACH: dict[Role, str] = {"reads": _READS, "works": _WORKS, "keeps": _KEEPS}
# By endpoint: what it takes. A new page takes its place above.
ROLES: Mapping[str, Role] = MappingProxyType(
    {name: role for role, names in _EACH.items() for name in names.split()}
)


class NotYoursError(Forbidden):
    """Something that takes a role which the reader does not have."""

    def __init__(self, role: Role) -> None:
        super().__init__()
        self.need: Phrase = _NEED[role]


_NEED: dict[Role, Phrase] = {
    "reads": say("Ask an owner of this book for an account."),
    "works": say("Your account is view only. Ask an owner to make you crew."),
    "keeps": say("Only owners can do this. Ask one of them."),
}


def watch(app: Flask) -> None:
    """Let nobody have what is not theirs, and let templates ask what is."""
    app.before_request(_admit)
    app.jinja_env.globals.update(may=may, may_send=may_send)


def may(endpoint: str) -> bool:
    """Whether the reader may use a page or send to it."""
    if not _is_here(endpoint):
        return False
    if endpoint in OPEN:
        return True
    reader = here.reader()
    return reader is not None and reader.may(role_of(endpoint))


def may_send(address: str) -> bool:
    """Whether the reader may send a form to one of these pages."""
    path = address.removeprefix(request.script_root).partition("?")[0]
    try:
        endpoint, _ = current_app.url_map.bind("").match(path, method="POST")
    except HTTPException:
        return False
    return may(str(endpoint))


def demand(role: Role) -> None:
    """Refuse a reader who has not a role, where what is asked shows only in the view."""
    reader = here.reader()
    if reader is None or not reader.may(role):
        raise NotYoursError(role)


def role_of(endpoint: str) -> Role:
    """Return what an endpoint takes; what nobody has put in the table is for keepers."""
    return ROLES.get(endpoint, "keeps")


def _is_here(endpoint: str) -> bool:
    return not (here.settings().on_phone and endpoint.startswith(IN_OFFICE))


def _admit() -> ResponseReturnValue | None:
    if request.endpoint is None:
        return None
    if not _is_here(request.endpoint):
        abort(404)
    if request.endpoint in OPEN:
        return None
    if here.reader() is None:
        return _sign_in_first()
    demand(role_of(request.endpoint))
    return None


def _sign_in_first() -> ResponseReturnValue:
    """Lead a reader on; tell a program, and whoever sends a form, which is still in the browser."""
    if request.method not in READING or (request.blueprint or "").startswith("api"):
        abort(401)
    asked = request.path + ("?" + request.query_string.decode() if request.query_string else "")
    return redirect(url_for("people.sign_in", next=asked), 303)
