"""The Stand step: plants counted in the field, and what came up of the seed."""

from dataclasses import dataclass

from flask import Blueprint, render_template, request, url_for
from flask.typing import ResponseReturnValue
from markupsafe import Markup

from evenstand.book.book import Book
from evenstand.book.kinds import work
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import PLANTS, Amount
from evenstand.engine.stand.place import Place
from evenstand.engine.stand.stand import stand as stand_of
from evenstand.engine.stand.surer import HALF_RANGE, more_places
from evenstand.report.stand_charts import places_chart, stand_strip
from evenstand.tasks.boxes.kept import body_of
from evenstand.tasks.job.kept import Kept, job_drill
from evenstand.tasks.seed.count_form import read_within
from evenstand.tasks.stand.count import places_of
from evenstand.tasks.stand.form import WAYS, read_places_form, refuse_other_species, way_texts
from evenstand.tasks.stand.job import read_kept_stand, stand_alone
from evenstand.tasks.stand.kept import bodies_of, counts_of, sown_on, wish_of
from evenstand.tasks.stand.seed_down import SeedDown, species_of
from evenstand.tasks.stand.stand import Stood
from evenstand.tasks.stand.wish_form import CROPS, KINDS, read_wish_form, wish_texts

from ..site import forms, here, keeping
from ..site.editing import saved
from ..site.spine import Step, StepLine
from .filling import kept_job

blueprint = Blueprint("stand", __name__)
ENOUGH = 5  # places from which counts speak for themselves
CROP_WORDS = {
    "winter wheat": say("winter wheat"),
    "canola": say("canola"),
    "alfalfa, seeded this spring": say("alfalfa, seeded this spring"),
    "alfalfa, first hay year": say("alfalfa, first hay year"),
}
KIND_WORDS = {
    "small grain": say("small grain"),
    "pea": say("pea"),
    "canola": say("canola"),
    "alfalfa": say("alfalfa"),
    "native grass": say("native grass"),
    "unknown": say("nothing known"),
}


@dataclass(frozen=True)
class ShownStand:
    """What the counts tell with its drawings, or what stands in the way."""

    found: Stood | None = None
    down: SeedDown | None = None
    strip: Markup | None = None
    places: Markup | None = None
    missing: MeasurementError | None = None


@blueprint.get("/jobs/<job>/stand-count")
def show(job: str) -> ResponseReturnValue:
    """Show what came up, and how many places a wanted range still takes."""
    kept, asked = kept_job(job), forms.Form(request.args.to_dict())
    try:
        within = read_within(asked.given) if "within" in asked.given else HALF_RANGE
    except MeasurementError as error:
        return _page(kept, asked=asked.refused(error)), 422
    return _page(kept, asked=asked, within=within)


@blueprint.post("/jobs/<job>/stand-count")
def add(job: str) -> ResponseReturnValue:
    """Keep one place or some: they only add to those that were counted before."""
    kept = kept_job(job)

    def keep(form: forms.Form) -> str:
        keeping.add(read_count(form, kept), form)
        return url_for("stand.show", job=job)

    return saved(keep, lambda form: _page(kept, form=form))


@blueprint.post("/jobs/<job>/stand-count/wish")
def settle(job: str) -> ResponseReturnValue:
    """Keep what the stand is judged by."""
    kept, counts = kept_job(job), bodies_of(counts_of(here.book(), job))

    def keep(form: forms.Form) -> str:
        body = read_wish_form(form.given, job, species=_species(kept), counts=counts)
        keeping.settle(wish_of(here.book(), job), body, form)
        return url_for("stand.show", job=job)

    return saved(keep, lambda form: _page(kept, wished=form))


def read_count(form: forms.Form, kept: Kept, *, but: str = "") -> work.StandCount:
    """Read places from a form.

    Parameters
    ----------
    but : str
        Id of a count that is corrected: it need not agree with itself.

    Raises
    ------
    MeasurementError
        Each under its field.
    """
    job, book = kept.thing.id, here.book()
    sown = sown_on(book, job, body_of(wish_of(book, job), work.StandWish))
    spacing = job_drill(kept).between_open if kept.drill else None
    count = read_places_form(form.given, job, spacing=spacing, sown=sown)
    others = [each for each in counts_of(book, job) if each.id != but]
    refuse_other_species(count, bodies_of(others), form.given)
    return count


def _species(kept: Kept) -> tuple[str, ...]:
    """Return the species that seed is asked of; all seed without a mix has no name."""
    return species_of(here.book(), kept.body) or ("",)


def _page(
    kept: Kept,
    *,
    form: forms.Form | None = None,
    wished: forms.Form | None = None,
    asked: forms.Form | None = None,
    within: float = HALF_RANGE,
) -> str:
    counts, species = counts_of(here.book(), kept.thing.id), _species(kept)
    wish = wish_of(here.book(), kept.thing.id)
    said = body_of(wish, work.StandWish)
    shown = _shown(kept, counts)
    return render_template(
        "stand.html",
        kept=kept,
        found=shown.found,
        down=shown.down,
        shown=shown,
        asked=asked or forms.Form({}),
        within=within,
        more=more_places(shown.found.stand, wanted=within) if shown.found else None,
        missing=shown.missing,
        form=form or _blank(kept, counts),
        wished=wished or forms.opened(wish, wish_texts(said, species=species) if said else {}),
        wish=wish,
        sown=sown_on(here.book(), kept.thing.id, said),
        species=species,
        counts=[(thing, _in_one(thing, kept)) for thing in counts],
        ways=tuple(WAYS),
        crops=[(crop, CROP_WORDS[crop]) for crop in CROPS],
        usual=[(kind, KIND_WORDS[kind]) for kind in KINDS],
    )


def _shown(kept: Kept, counts: tuple[Thing, ...]) -> ShownStand:
    if not counts:
        return ShownStand()
    try:
        found, down = read_kept_stand(here.book(), kept, today=here.this_month())
    except MeasurementError as error:
        return ShownStand(missing=error)
    style, ranged = here.style(), found.stand.range
    dots = places_chart(_places(kept, bodies_of(counts)), ranged, wish=found.wish, style=style)
    strip = stand_strip(ranged, found.wish, style)
    return ShownStand(found, down, Markup(strip), Markup(dots))


def _places(kept: Kept, counts: list[work.StandCount]) -> tuple[Place, ...]:
    return places_of(counts, spacing=job_drill(kept).between_open if kept.drill else None)


def _in_one(thing: Thing, kept: Kept) -> Amount | None:
    """Return the stand by one entry alone; None where it cannot be told."""
    try:
        return PLANTS(stand_of(_places(kept, bodies_of([thing]))).range.value)
    except MeasurementError:
        return None


def _blank(kept: Kept, counts: tuple[Thing, ...]) -> forms.Form:
    """Fill in how one counted last, and today."""
    texts = {"way": "row", "day": here.today()}
    names = species_of(here.book(), kept.body)
    apart = request.args.get("apart") == "yes"
    if counts:
        last = bodies_of(counts)[-1]
        texts |= way_texts(last)
        names = tuple(seen.species for seen in last.places[0].plants)
        apart = names != ("",)
    if apart:
        texts |= {f"species{i}": name for i, name in enumerate(names, 1)}
    return forms.blank(texts)


def lines(book: Book, kept: Kept) -> list[StepLine]:
    """Say how far the counting is, with the stand."""
    if not counts_of(book, kept.thing.id):
        return [StepLine("later", say("needs plant counts from the field"))]
    try:
        found = stand_alone(book, kept)
    except MeasurementError as error:
        return [StepLine("open", error.need)]
    done = found.stand.basis == "own scatter" and found.stand.places >= ENOUGH
    return [StepLine("done" if done else "under way", _headline(found))]


def _headline(found: Stood) -> Phrase:
    ranged = found.stand.range
    if not found.stand.plants:
        return say("no plants in {n} spots", n=found.stand.places)
    return say(
        "{stand}, {low} to {high}",
        stand=PLANTS(ranged.value),
        low=PLANTS(ranged.low),
        high=PLANTS(ranged.high),
    )


STEP = Step(
    key="stand",
    title=say("Stand count"),
    question=say("What came up?"),
    lines=lines,
    endpoint="stand.show",
)
