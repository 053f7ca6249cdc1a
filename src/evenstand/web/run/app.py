"""The web app: its blueprints, its words, its guard."""

import json
import re
from collections.abc import Iterable
from datetime import date
from typing import Any

from flask import Flask, render_template, request
from flask.typing import ResponseReturnValue
from werkzeug.exceptions import HTTPException, SecurityError

from evenstand.book.book import Book
from evenstand.book.errors import NotKeptError
from evenstand.book.log.editing import MeanwhileError
from evenstand.book.storage.thing import Thing
from evenstand.engine.catch.target import odds_in_words
from evenstand.engine.drill import safety
from evenstand.engine.drill.drill import number
from evenstand.engine.parsing.retold import AsTyped, retold
from evenstand.engine.quantities import units
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Figure, Phrase, Readable, cause, say
from evenstand.engine.quantities.units import Amount
from evenstand.engine.statistics.budget import Estimate
from evenstand.tasks.parsing.changes import changed_by
from evenstand.tasks.parsing.warned import noticed

from ..api.answers import is_asked, refused_http, unkept
from ..site import forms, guard, here, keeping, watch
from ..site.languages import LANGUAGES
from ..site.meanwhile import apart_in, called, local, questions, who
from ..site.rule import LateRule
from ..site.security import protect
from ..site.settings import Settings
from .steps import BLUEPRINTS

# No line ends between a number and its unit, or between ± and its number.
_BEHIND_NUMBER = re.compile(r"(?<=\d) (?=[^\d\s])|(?<=±) (?=\d)")


def create_app(book: Book, *, settings: Settings | None = None) -> Flask:
    """Make the app that answers for one book."""
    app = Flask("evenstand.web")
    app.url_rule_class = LateRule
    here.serve(app, book, settings or Settings())
    protect(app)
    guard.watch(app)
    app.after_request(keeping.remember)
    watch.watch(app)
    _teach(app)
    for blueprint in BLUEPRINTS:
        app.register_blueprint(blueprint)
    app.register_error_handler(HTTPException, _refused)
    app.register_error_handler(MeanwhileError, _whose)
    app.register_error_handler(MeasurementError, _cannot)
    return app


def _teach(app: Flask) -> None:
    """Give the templates the words and the numbers of their reader."""
    app.jinja_env.finalize = _written
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True
    app.jinja_env.globals.update(
        _=say,
        amount=Amount,
        kinds=units,
        safety=safety,
        LANGUAGES=LANGUAGES,
        unit_choices=forms.units,
        questions=questions,
        just_done=keeping.just_done,
        apart_in=apart_in,
        local=local,
        today=here.today,
        who_wrote=who,
        changed_by=lambda entries: changed_by(entries, names=called),
        setting=number,
        odds=odds_in_words,
        bare=_bare,
        unit_of=lambda kind: here.style().symbol(kind),
        cause=cause,
        sign=lambda unit: here.style().sign(unit),
        range_of=_range,
        sum_of=lambda line: line.sum(here.style()),
    )
    app.jinja_env.globals["pretty"] = _pretty
    app.jinja_env.filters.update(
        noticed=noticed,
        pairs=_pairs,
        options=_options,
        typed=_typed,
        day=_day,
        species=here.species,
        seeds=here.seeds,
        cited=here.cited,
    )
    app.context_processor(_about_reader)


def _about_reader() -> dict[str, Any]:
    return {
        "language": here.language(),
        "about": here.about(),
        "system": here.style().system,
        "decimal": here.style().decimal,
        "invented": here.settings().invented,
        "on_phone": here.settings().on_phone,
        "outdoor": here.own("outdoor") == "yes",
        "reader": here.reader(),
        "address": request.script_root + request.full_path.rstrip("?"),  # where a form goes
    }


def _written(value: Any) -> Any:
    """Write phrases, amounts and days for the reader; leave everything else to the template."""
    if not isinstance(value, Phrase | Amount | Readable | Figure | date):
        return value
    return _BEHIND_NUMBER.sub("\N{NO-BREAK SPACE}", here.style().write(value))


def _bare(value: float, kind: units.Kind, digits: int = 3) -> str:
    return here.style().bare(kind(value, digits))


def _range(estimate: Estimate, kind: units.Kind = units.RATE) -> Phrase:
    """Write a range; no seed, ground or money is less than none."""
    low = _bare(max(estimate.low, 0.0), kind)
    return say("{low} to {high}", low=low, high=_bare(estimate.high, kind))


def _typed(amount: AsTyped, kind: units.Kind, *, beside: bool = True) -> str:
    """Write an amount as it was typed, also in the reader's units."""
    told = retold(amount, kind, here.style(), beside=beside)
    return _BEHIND_NUMBER.sub("\N{NO-BREAK SPACE}", told)


def _day(when: object) -> str:
    """Write the day or the month of what writes itself as ISO 8601 does."""
    return here.style().dated(str(when)[:10])


def _pairs(names: Iterable[str]) -> list[tuple[str, str]]:
    """Return options whose words are their values."""
    return [(name, name) for name in names]


def _options(things: Iterable[Thing]) -> list[tuple[str, str]]:
    """Return options of things by their names, charts by what they were made for."""
    return [(thing.id, _called(thing)) for thing in things]


def _called(thing: Thing) -> str:
    parts = (getattr(thing.body, part, "") for part in ("name", "seed", "box", "gear"))
    return " · ".join(part for part in parts if isinstance(part, str) and part) or thing.kind


def _pretty(text: str) -> str:
    """Write the body of an entry in lines."""
    return json.dumps(json.loads(text)["body"], ensure_ascii=False, indent=1)


def _refused(error: HTTPException) -> ResponseReturnValue:
    code = error.code or 500
    if 300 <= code < 400 or isinstance(error, SecurityError):  # asked for under another name
        return error
    need = getattr(error, "need", None) or _WHY.get(code)
    if is_asked(request.path):
        return refused_http(error, need)
    thing = getattr(error, "thing", None)
    return render_template("error.html", code=code, need=need, thing=thing), code


def _whose(error: MeanwhileError) -> ResponseReturnValue:
    """Ask whose change counts where a form has no place for the question."""
    form = forms.sent().refused(error)
    return render_template("meanwhile.html", form=form), form.code


def _cannot(error: MeasurementError) -> ResponseReturnValue:
    code = unkept(error) if isinstance(error, NotKeptError) else 422
    return render_template("error.html", code=code, need=error.need), code


_WHY = {
    400: say("The request can't be read."),
    401: say("Sign in first, then send this again: your browser may still have what you typed."),
    403: say("This came from another site, so nothing was changed. Open the page here."),
    404: say("That page isn't in this book. It may be in another book that hasn't been imported."),
    405: say("This address accepts only its own form."),
    413: say("This is too large to import."),
    500: say("Something went wrong here. Anything saved before is safe."),
}
