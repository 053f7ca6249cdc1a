"""The Mix step: what is to grow, what each member comes to on every basis, what is missing."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from flask import Blueprint, render_template, url_for
from flask.typing import ResponseReturnValue
from markupsafe import Markup
from msgspec.structs import replace

from evenstand.book.book import Book
from evenstand.book.kinds import seed
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import COST, DENSITY, RATE
from evenstand.engine.statistics.budget import nominal
from evenstand.report.mix_strip import mix_strip
from evenstand.tasks.job.kept import Kept, named
from evenstand.tasks.mix.form import form_field
from evenstand.tasks.mix.kept import job_mix, lots_of
from evenstand.tasks.mix.lines import letters, mix_lines, mix_total
from evenstand.tasks.mix.mix import Mixed, read_mix
from evenstand.tasks.parsing.warned import Warned

from ..site import forms, guard, here, keeping
from ..site.editing import saved
from ..site.spine import Step, StepLine
from .filling import kept_job
from .mix_words import WORDS

blueprint = Blueprint("mix", __name__)
MOST_MIXES = 30  # to choose from, newest first

# What is missed of a member whose seed has no tag yet.
_OF_TAG = ("purity", "germination", "species", "lot", "seeds_per_lb")


@dataclass(frozen=True)
class Fix:
    """What stands in the way, and where it can be put right."""

    need: Phrase
    url: str
    act: Phrase
    about: str = ""


@blueprint.get("/jobs/<job>/mix")
def show(job: str) -> ResponseReturnValue:
    """Show what the mix comes to, or what it still needs."""
    kept = kept_job(job)
    mix = kept_mix(kept)
    if mix is None:
        return _choose(kept, forms.opened(kept.thing))
    found, missing = read(kept)
    return render_template(
        "mix.html",
        kept=kept,
        mix=mix,
        found=found,
        missing=missing,
        fix=fix(kept, mix, missing) if missing else None,
        lines=mix_lines(found, mix.members) if found else (),
        total=mix_total(found.mix) if found else None,
        strip=drawn(found) if found else None,
        treated=treated(here.book(), mix),
        gone=off_the_shelf(here.book(), mix),
        lot_url=lot_page,
        warned_url=warned_url(kept),
        assumed=once(found.assumed) if found else [],
        nominal=nominal,
        words=WORDS,
        mixes=_others(kept),
        form=forms.opened(kept.thing),
    )


@blueprint.post("/jobs/<job>/mix/choose")
def choose(job: str) -> ResponseReturnValue:
    """Let the job have a mix that is in the book."""
    kept = kept_job(job)

    def keep(form: forms.Form) -> str:
        chosen = form.text("mix")
        if named(here.book(), chosen, seed.Mix) is None:
            raise form.given.refuse("mix", say("choose one from the list"))
        keeping.correct(job, replace(kept.body, mix=chosen), form)
        return url_for("mix.show", job=job)

    return saved(keep, lambda form: _choose(kept, form))


def _choose(kept: Kept, form: forms.Form) -> str:
    return render_template("mix_choose.html", kept=kept, mixes=_others(kept), form=form)


def kept_mix(kept: Kept) -> seed.Mix | None:
    """Return the mix of a job, None where it has none."""
    return named(here.book(), kept.body.mix, seed.Mix)


def _others(kept: Kept) -> list[Thing]:
    """Return the newest mixes besides the job's own."""
    things = here.book().things("mix", limit=MOST_MIXES)
    return [each for each in things if each.id != kept.body.mix]


def read(kept: Kept) -> tuple[Mixed | None, MeasurementError | None]:
    """Work out the mix of a job, or what stands in the way."""
    try:
        return read_mix(job_mix(here.book(), kept), today=here.this_month()), None
    except MeasurementError as error:
        return None, error


def once(said: Iterable[Phrase]) -> list[Phrase]:
    """Return phrases in their order, each once."""
    found: list[Phrase] = []
    for phrase in said:
        if phrase not in found:
            found.append(phrase)
    return found


def drawn(found: Mixed) -> Markup:
    """Draw the parts of a mix; the drawing escapes what it writes."""
    return Markup(mix_strip(found.mix, letters(found.mix), here.style()))


def treated(book: Book, mix: seed.Mix) -> list[str]:
    """Return the names of lots that are treated."""
    bodies = [thing.body for thing in lots_of(book, mix)]
    lots = [lot for lot in bodies if isinstance(lot, seed.Lot)]
    return [lot.name or lot.species for lot in lots if lot.tag.treated or lot.treated_with]


def off_the_shelf(book: Book, mix: seed.Mix) -> list[str]:
    """Return the names of lots that were taken off the list since."""
    lots = [(thing, here.body(thing, seed.Lot)) for thing in lots_of(book, mix)]
    return [lot.name or lot.species for thing, lot in lots if thing.removed]


def fix(kept: Kept, mix: seed.Mix, missing: MeasurementError) -> Fix:
    """Say where what is missing can be written: the tag, the form, the lot, the job."""
    match missing.path:
        case ("lots", int(number), *_):
            return _in_lot(lots_of(here.book(), mix)[number - 1], missing)
        case ("mix", int(number), key) if key in _OF_TAG and _has_no_tag(mix.members[number - 1]):
            name = mix.members[number - 1].name
            url = url_for("seed.new", species=name)
            return Fix(say("its tag has not been entered yet"), url, say("Enter its tag"), name)
        case ("mix", int(number), *_) if number > len(mix.members):  # what the boxes put in beside
            url = url_for("boxes.show", job=kept.thing.id)
            return Fix(missing.need, url, say("To the boxes"))
        case ("field", *_):
            return Fix(missing.need, url_for("jobs.edit", job=kept.thing.id), say("Fix it"))
        case _:
            return _in_form(kept, mix, missing)


def _in_lot(lot: Thing, missing: MeasurementError) -> Fix:
    body = here.body(lot, seed.Lot)
    url = url_for("seed.edit", lot=lot.id)
    return Fix(missing.need, url, say("Go to its tag"), body.name or body.species)


def _has_no_tag(member: seed.Member) -> bool:
    return not (member.lot or member.carrier)


def _in_form(kept: Kept, mix: seed.Mix, missing: MeasurementError) -> Fix:
    numbers = range(1, len(mix.members) + 1)
    field = form_field(missing, numbers)
    need, name = missing.need, ""
    match missing.path:
        case ("mix", int(number), key):
            name = mix.members[number - 1].name
            if key == "share" and missing.given is None:
                need = say("enter its rate, or let Evenstand find the rates")
    anchor = f"f-{field}" if field else None
    url = url_for("mix_form.edit", job=kept.thing.id, _anchor=anchor)
    return Fix(need, url, say("Fix it"), name)


def warned_url(kept: Kept) -> Callable[[Warned], str]:
    """Return what links an input that is asked about to its form, for who may change it."""
    if not guard.may("mix_form.edit"):
        return lambda each: ""
    mix = kept_mix(kept) or seed.Mix(name="", members=())
    return lambda each: fix(kept, mix, MeasurementError(each.path, "", each.say)).url


def lot_page(lot: str) -> str:
    """Return the page of a lot."""
    return url_for("seed.show", lot=lot)


def lines(book: Book, kept: Kept) -> list[StepLine]:
    """Say how far the mix is, with its live seeds, its weight and its cost."""
    mix = named(book, kept.body.mix, seed.Mix)
    if mix is None:
        if kept.body.wanted:
            return [StepLine("later", say("none entered: the rate is known"))]
        return [StepLine("open", say("choose what to grow"))]
    found, missing = read(kept)
    if missing:
        stands = fix(kept, mix, missing)
        named_need = say("{name}: {need}", name=stands.about, need=stands.need)
        return [StepLine("under way", named_need if stands.about else stands.need)]
    return [StepLine("done", _headline(found))] if found else []


def _headline(found: Mixed) -> Phrase:
    mix = found.mix
    known = {
        "seeds": DENSITY(nominal(mix.seeds)),
        "bulk": RATE(nominal(mix.bulk_rate)),
    }
    if mix.cost is None:
        return say("{seeds} live, {bulk} total", **known)
    cost = COST(nominal(mix.cost))
    return say("{seeds} live, {bulk} total, {cost}", cost=cost, **known)


STEP = Step(
    key="mix",
    title=say("Mix"),
    question=say("What do I want to grow, and what does each tag say I have?"),
    lines=lines,
    endpoint="mix.show",
)
