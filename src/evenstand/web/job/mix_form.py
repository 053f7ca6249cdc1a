"""The form of a mix: lines of seed and rates, kept for one job or for all that share it."""

from dataclasses import dataclass
from functools import partial

from flask import Blueprint, render_template, request, url_for
from flask.typing import ResponseReturnValue
from msgspec.structs import replace

from evenstand.book.kinds import seed, work
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, System, say
from evenstand.tasks.job.kept import Kept, find, named
from evenstand.tasks.mix.form import (
    GROUPS,
    MOST_LINES,
    SEASONS,
    STANDS,
    form_field,
    lines_of,
    mix_texts,
    read_mix_form,
)
from evenstand.tasks.mix.kept import field_of, mix_said
from evenstand.tasks.mix.mix import read_mix
from evenstand.tasks.seed.bags import MOST_BAGS

from ..site import forms, here, keeping
from ..site.editing import saved
from .filling import kept_job
from .mix import kept_mix
from .mix_words import WORDS

blueprint = Blueprint("mix_form", __name__)
SPARE = 3  # empty lines behind those that are filled
FIRST = 4  # lines of a new mix
MORE = 4  # lines that are asked for at once
MOST_DIGITS = 4  # of the number of lines that a form had
MOST_LOTS = 200  # of the shelf to choose from, newest first
MOST_JOBS = 6  # that are named where they share a mix
JOB_ENTRY = "job_entry"  # the id under which the job is told its mix
APART = "apart"  # the button that keeps a mix as a new one

# What a rate can be typed in: basis and unit, by what the reader reads in.
_TYPED: dict[System, tuple[tuple[str, str], ...]] = {
    "us": (("bulk", "lb/ac"), ("pls", "lb/ac"), ("live seeds", "seeds/ft²"), ("bulk", "oz/ac")),
    "metric": (("bulk", "kg/ha"), ("pls", "kg/ha"), ("live seeds", "seeds/m²")),
}
_OF_FULL = ("of full rate", "%")
_USUAL = {"full": "pls", "whole": "of full rate"}  # where nobody chose
UNITS = (*dict.fromkeys(unit for pairs in _TYPED.values() for _, unit in pairs), "%")


@dataclass(frozen=True)
class Sharing:
    """Other jobs that have the same mix."""

    jobs: tuple[str, ...]
    more: bool


@blueprint.get("/jobs/<job>/mix/edit")
def edit(job: str) -> ResponseReturnValue:
    """Show the form of the job's mix, or of a new one."""
    kept = kept_job(job)
    mix = None if request.args.get("new") else kept_mix(kept)
    texts = {JOB_ENTRY: here.book().new_id(), "name": kept.body.name}
    texts |= mix_texts(mix, UNITS) if mix else {}
    of = here.book().get(str(kept.body.mix)) if mix else None
    return _form(kept, forms.opened(of, texts) if of else forms.blank(texts))


@blueprint.post("/jobs/<job>/mix/edit")
def keep(job: str) -> ResponseReturnValue:
    """Keep the mix; a form that asks for more lines is only shown longer."""
    kept = kept_job(job)
    if request.form.get("more"):
        return _form(kept, forms.sent(), more=MORE)

    def keep(form: forms.Form) -> str:
        body = read_mix_form(form.given, here.book())
        check(kept, body, form)
        _keep(kept, body, form)
        return url_for("mix.show", job=job)

    return saved(keep, partial(_form, kept))


def check(kept: Kept, mix: seed.Mix, form: forms.Form) -> None:
    """Refuse at its field what cannot be right; what is only missing may come later."""
    said = mix_said(here.book(), mix, field_of(kept))
    try:
        read_mix(said, today=here.this_month())
    except MeasurementError as error:
        field = form_field(error, lines_of(form.given))
        if field is None or (error.given is None and mix.members):
            return
        raise error.at(field) from None


def _keep(kept: Kept, body: seed.Mix, form: forms.Form) -> None:
    """Correct the job's mix, or keep a new one and tell the job."""
    book, job = here.book(), kept.thing.id
    of = form.text("of")
    if of and not form.text(APART):
        here.thing(of, seed.Mix)
        keeping.correct(of, body, form)
        return
    mix = book.add(body, id=form.entry, by=here.who()).about
    told = replace(find(book, job).body, mix=mix)
    book.correct(job, told, id=form.text(JOB_ENTRY) or None, by=here.who())


def _form(kept: Kept, form: forms.Form, *, more: int = 0) -> str:
    of = form.text("of") if "of" in form.texts else _of(kept)
    filled = max(lines_of(form.given), default=0)
    lines = max(filled + SPARE if filled else FIRST, _asked(form.text("lines")))
    return render_template(
        "mix_form.html",
        kept=kept,
        form=form,
        of=of,
        lines=min(MOST_LINES, lines + more),
        lots=_lots(form),
        bases=bases(),
        chosen=chosen_basis,
        groups=[(word, WORDS[word]) for word in GROUPS],
        seasons=[(word, WORDS[word]) for word in SEASONS],
        stands=[(word, WORDS[word]) for word in STANDS],
        sharing=shared(kept, of),
        bags=lambda line: max(1, form.last(f"{line}bag{{}}_weight", MOST_BAGS)),
        job_entry=form.text(JOB_ENTRY),
    )


def _asked(lines: str) -> int:
    """Return how many lines a form had; what is no such number comes from no form."""
    return int(lines) if lines.isdecimal() and len(lines) < MOST_DIGITS else 0


def _of(kept: Kept) -> str:
    """Return the mix that the form is of, empty for a new one."""
    return "" if request.args.get("new") or kept_mix(kept) is None else kept.body.mix or ""


def bases() -> list[tuple[str, Phrase]]:
    """Return what a rate can be typed in, the reader's own units first."""
    mine = here.style().system
    other: System = "metric" if mine == "us" else "us"
    pairs = [*_TYPED[mine], _OF_FULL, *_TYPED[other]]
    return [(f"{basis}|{unit}", _called_basis(basis, unit)) for basis, unit in pairs]


def _called_basis(basis: str, unit: str) -> Phrase:
    match basis:
        case "bulk":
            return say("{unit} bulk", unit=unit)
        case "pls":
            return say("{unit} PLS", unit=unit)
        case "live seeds":
            return say("live {unit}", unit=unit)
        case _:
            return say("% of its full rate")


def chosen_basis(form: forms.Form, name: str, options: list[tuple[str, Phrase]]) -> str:
    """Return the option to show as chosen: the basis counts where the unit is not offered."""
    text = form.text(f"{name}_basis")
    basis = text.partition("|")[0] or _USUAL.get(name.rpartition("_")[2], "bulk")
    fitting = [value for value, _ in options if value.partition("|")[0] == basis]
    return text if text in fitting else next(iter(fitting), "")


def _lots(form: forms.Form) -> list[tuple[str, str]]:
    """Return the lots on the shelf, and those the form names, by species."""
    book = here.book()
    things = {thing.id: thing for thing in book.things("lot", limit=MOST_LOTS)}
    for number in lines_of(form.given):
        id = form.text(f"line{number}_seed")
        if id not in things and named(book, id, seed.Lot) is not None:
            things[id] = book.get(id)
    called = ((id, _called(thing)) for id, thing in things.items())
    return sorted(called, key=lambda option: option[1].casefold())


def _called(thing: Thing) -> str:
    lot = here.body(thing, seed.Lot)
    species = here.seeds(lot.species)
    return f"{species} · {lot.name}" if lot.name else species


def shared(kept: Kept, mix: str) -> Sharing | None:
    """Name the other jobs that have the mix."""
    if not mix:
        return None
    things = here.book().things("job", of=mix, limit=MOST_JOBS + 2)
    others = [here.body(each, work.Job).name for each in things if each.id != kept.thing.id]
    return Sharing(tuple(others[:MOST_JOBS]), more=len(others) > MOST_JOBS) if others else None
