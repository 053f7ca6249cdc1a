"""People: signing in and out, one's own password, and the accounts of the book."""

import re

from flask import (
    Blueprint,
    Response,
    abort,
    make_response,
    redirect,
    render_template,
    request,
    url_for,
)
from flask.typing import ResponseReturnValue

from evenstand.book.errors import BookError
from evenstand.book.people.attempts import TooManyError
from evenstand.book.people.people import ROLES, Person, Role
from evenstand.book.people.sessions import KNOWN, LASTS
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say

from ..site import forms, here

blueprint = Blueprint("people", __name__)
BROWSER = "browser"  # the cookie of a browser by which somebody has signed in
_OWN_PATH = re.compile(r"/(?![/\\])[^\\\x00-\x20\x7f]*")


@blueprint.get("/sign-in")
def sign_in() -> ResponseReturnValue:
    """Ask who it is."""
    if not here.book().people.any() and here.reader():
        return redirect(_led_to(), 303)
    return render_template("sign_in.html", form=forms.blank(), next=_led_to())


@blueprint.post("/sign-in")
def enter() -> ResponseReturnValue:
    """Begin a session of somebody who knows the password."""
    form, people = forms.sent(), here.book().people
    try:
        address = request.remote_addr or ""
        token = people.sign_in(
            form.text("name"),
            form.text("password"),
            address=address,
            browser=request.cookies.get(BROWSER, ""),
        )
    except MeasurementError as error:
        page = render_template("sign_in.html", form=form.refused(error), next=_led_to())
        answer = make_response(page, 429 if isinstance(error, TooManyError) else 422)
        if isinstance(error, TooManyError):
            answer.headers["Retry-After"] = str(error.seconds)
        return answer
    answer = _with_session(_led_to(), token)
    if person := people.reader(token):
        _set_cookie(answer, BROWSER, people.remember(person.id), lasts=KNOWN)
    return answer


@blueprint.post("/sign-out")
def leave() -> ResponseReturnValue:
    """End the session."""
    here.book().people.sign_out(here.token())
    answer = redirect(url_for("people.sign_in"), 303)
    answer.delete_cookie(here.SESSION, path=_path(), httponly=True, samesite="Lax")
    return answer


@blueprint.get("/password")
def own() -> ResponseReturnValue:
    """Ask for a new password of one's own."""
    return _own(forms.blank())


@blueprint.post("/password")
def change_own() -> ResponseReturnValue:
    """Keep one's own new password; every other session ends."""
    form, people, person = forms.sent(), here.book().people, _signed_in()
    try:
        address = request.remote_addr or ""
        shown = people.sign_in(person.name, form.text("old"), address=address)
        people.sign_out(shown)
    except MeasurementError as error:
        return _own(form.refused(MeasurementError("old", None, error.need))), 422
    try:
        people.change_password(person.id, _typed_twice(form), phones=bool(form.text("phones")))
    except MeasurementError as error:
        return _own(form.refused(error)), 422
    return _with_session(url_for("book.index"), people.begin(person.id))


@blueprint.get("/people")
def index() -> ResponseReturnValue:
    """List who may do what."""
    return _page(forms.blank())


@blueprint.post("/people")
def add() -> ResponseReturnValue:
    """Make an account; whoever makes the first one is signed in by it."""
    form, people = forms.sent(), here.book().people
    first = not people.any()
    try:
        password = _typed_twice(form) if first else form.text("password")
        person = people.add(form.text("name"), password, role=_role(form))
    except MeasurementError as error:
        return _page(form.refused(error)), 422
    if first:
        return _with_session(url_for("people.index"), people.begin(person.id))
    return redirect(url_for("people.index"), 303)


@blueprint.post("/people/<person>/role")
def change_role(person: str) -> ResponseReturnValue:
    """Let somebody do more, or less."""
    found, form = _person(person), forms.sent()
    try:
        here.book().people.change_role(found.id, _role(form))
    except MeasurementError as error:
        return _page(form.refused(error), at=found), 422
    return redirect(url_for("people.index"), 303)


@blueprint.post("/people/<person>/password")
def change_password(person: str) -> ResponseReturnValue:
    """Give somebody a new password."""
    found, form, people = _person(person), forms.sent(), here.book().people
    try:
        people.change_password(found.id, form.text("password"), phones=bool(form.text("phones")))
    except MeasurementError as error:
        return _page(form.refused(error), at=found), 422
    if found == here.reader():
        return _with_session(url_for("people.index"), people.begin(found.id))
    return redirect(url_for("people.index"), 303)


@blueprint.post("/people/<person>/remove")
def remove(person: str) -> ResponseReturnValue:
    """Take an account away."""
    found = _person(person)
    try:
        here.book().people.remove(found.id)
    except MeasurementError as error:
        return _page(forms.sent().refused(error), at=found), 422
    return redirect(url_for("people.index"), 303)


def _page(form: forms.Form, *, at: Person | None = None) -> str:
    people = here.book().people.all()
    # What was typed about one person must not stand in the form of a new one.
    new = forms.blank() if at else form
    return render_template("people.html", people=people, form=form, new=new, at=at, roles=ROLES)


def _own(form: forms.Form) -> str:
    return render_template("password.html", form=form, person=_signed_in())


def _signed_in() -> Person:
    person = here.reader()
    if person is None or not person.id:
        abort(404)
    return person


def _person(id: str) -> Person:
    try:
        return here.book().people.get(id)
    except BookError:
        abort(404)


def _role(form: forms.Form) -> Role:
    given = form.text("role")
    for role in ROLES:
        if role == given:
            return role
    raise MeasurementError("role", given, say("choose one from the list"))


def _typed_twice(form: forms.Form) -> str:
    if form.text("password") != form.text("again"):
        raise MeasurementError("again", None, say("the two passwords don't match: type both again"))
    return form.text("password")


def _led_to() -> str:
    """Return where somebody wanted to go, if that is one of these pages."""
    asked = request.values.get("next", "")
    return asked if _OWN_PATH.fullmatch(asked) else url_for("jobs.index")


def _with_session(address: str, token: str) -> Response:
    """Lead on with a new session; that which the browser brought ends."""
    here.book().people.sign_out(here.token())
    answer = make_response(redirect(address, 303))
    _set_cookie(answer, here.SESSION, token, lasts=LASTS)
    return answer


def _set_cookie(answer: Response, name: str, token: str, *, lasts: int) -> None:
    answer.set_cookie(
        name,
        token,
        max_age=lasts // 1000,
        path=_path(),
        httponly=True,
        samesite="Lax",
        secure=request.is_secure,
    )


def _path() -> str:
    return request.script_root or "/"
