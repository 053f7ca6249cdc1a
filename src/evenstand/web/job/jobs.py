"""Jobs: the list, a new one, the page with its seven steps."""

from collections.abc import Sequence
from dataclasses import dataclass

from flask import Blueprint, render_template, request, url_for
from flask.typing import ResponseReturnValue
from msgspec.structs import replace

from evenstand.book.book import Book
from evenstand.book.kinds import machine, work
from evenstand.book.kinds.bodies import Newer
from evenstand.book.storage.thing import Thing
from evenstand.engine.drill.drill import number
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.tasks.job.form import MOST_WANTED, job_texts, read_field, read_job
from evenstand.tasks.job.kept import charts_of, find, named

from ..site import forms, here
from ..site.editing import Editing
from ..site.spine import Step, StepLine

MOST_SHOWN = 40  # jobs on a page
FIELD_ENTRY = "field_entry"  # the id under which a field typed with the job is kept
FINISHED = say("finished")
SHOW_BOXES = "show_boxes"  # sent to see the lines of the drill that was chosen, not to save


@dataclass(frozen=True)
class ShownJob:
    """A job in the list: where, with what, how far."""

    thing: Thing
    name: str
    where: str
    drill: str
    state: Phrase
    done: bool


def blueprint(steps: Sequence[Step]) -> Blueprint:
    """Make the blueprint of the jobs over the steps of the app."""
    pages = Blueprint("jobs", __name__)
    pages.add_url_rule("/", "index", index)
    pages.add_url_rule("/jobs/<job>", "show", lambda job: show(job, steps))
    EDITING.serve(pages, new="/jobs/new", edit="/jobs/<job>/edit", remove="/jobs/<job>/remove")
    return pages


def index() -> ResponseReturnValue:
    """List the jobs, newest first."""
    book = here.book()
    after = here.any_thing(request.args["after"]) if request.args.get("after") else None
    things = book.things("job", after=after, limit=MOST_SHOWN + 1)
    newer = [each for each in things[:MOST_SHOWN] if isinstance(each.body, Newer)]
    shown = _shown(book, [each for each in things[:MOST_SHOWN] if each not in newer])
    more = things[MOST_SHOWN - 1].id if len(things) > MOST_SHOWN else None
    drills = bool(book.things("drill", limit=1))
    return render_template(
        "jobs.html", jobs=shown, newer=newer, more=more, drills=drills, later=bool(after)
    )


def _shown(book: Book, things: Sequence[Thing]) -> list[ShownJob]:
    """Look up what is shown of all jobs together."""
    jobs = [(thing, here.body(thing, work.Job)) for thing in things]
    ids = [thing.id for thing in things]
    fields = book.many.things(job.field for _, job in jobs)
    drills = book.many.things(job.drill for _, job in jobs)
    chosen, caught = book.many.newest("setting", of=ids), book.many.tally("catch", of=ids)
    finished = book.many.newest("finished", of=ids)
    return [
        ShownJob(
            thing,
            job.name,
            _name(fields.get(job.field or "")),
            _name(drills.get(job.drill or "")),
            FINISHED
            if thing.id in finished
            else _state(_settings(book, chosen.get(thing.id), job), caught.get(thing.id, 0)),
            done=thing.id in chosen or thing.id in finished,
        )
        for thing, job in jobs
    ]


def _name(thing: Thing | None) -> str:
    named = thing and isinstance(thing.body, work.Field | machine.Drill)
    return str(getattr(thing.body, "name", "")) if thing and named else ""


def _settings(book: Book, newest: Thing | None, job: work.Job) -> Phrase | None:
    """Say the setting of each box, each but the first box's with its name."""
    if newest is None:
        return None
    of = newest.body.job if isinstance(newest.body, work.Chosen) else ""
    things = [newest] if len(job.wanted) < 2 else book.things("setting", of=of)
    last: dict[str, work.Chosen] = {}
    for body in (thing.body for thing in things):
        if isinstance(body, work.Chosen):
            last.setdefault(body.box, body)
    boxes = [wanted.box for wanted in job.wanted]
    said = {
        f"b{i}": say("{box} {setting}", box=box, setting=number(last[box].setting))
        if i
        else Phrase("{setting}", {"setting": number(last[box].setting)})
        for i, box in enumerate(boxes)
        if box in last and last[box].accepted
    }
    return Phrase(" · ".join(f"{{{name}}}" for name in said), said) if said else None


def _state(settings: Phrase | None, caught: int) -> Phrase:
    if settings:
        return say("set to {setting}", setting=settings)
    if caught:
        return say("1 catch") if caught == 1 else say("{n} catches", n=caught)
    return say("no catches yet")


def _start(_: None) -> dict[str, str]:
    book = here.book()
    texts = {FIELD_ENTRY: book.new_id()}
    drills = book.things("drill", limit=1)
    if drills:
        texts["drill"] = request.args.get("drill", drills[0].id)
    return texts


def _read(form: forms.Form, _: None, thing: Thing | None) -> work.Job:
    """Read the job, whose mix stays; a field that was typed with it is kept first."""
    given, book = form.given, here.book()
    body, field = read_job(given), read_field(given)
    if thing:
        body = replace(body, mix=here.body(thing, work.Job).mix)
    for key, kind in (("drill", machine.Drill), ("field", work.Field)):
        if key in given and named(book, given.text(key), kind) is None:
            raise given.refuse(key, say("choose one from the list"))
    if field is None:
        return body
    kept = book.add(field, id=form.text(FIELD_ENTRY) or None, by=here.who())
    return replace(body, field=kept.about)


def show(job: str, steps: Sequence[Step]) -> ResponseReturnValue:
    """Show the seven steps of a job, each with its state and headline number."""
    here.thing(job, work.Job)
    book = here.book()
    kept = find(book, job)
    lines = [(step, step.lines(book, kept)) for step in steps]
    return render_template("job.html", kept=kept, steps=lines, next=_next(lines))


def _next(lines: list[tuple[Step, list[StepLine]]]) -> tuple[Step, StepLine] | None:
    """Return the first line that can be worked on."""
    for step, each in lines:
        for line in each:
            if line.state in ("open", "under way"):
                return step, line
    return None


def _form(form: forms.Form, _: None, thing: Thing | None) -> str:
    book = here.book()
    drill = named(book, form.text("drill") or None, machine.Drill)
    id = form.text("field")
    boxes = [box.name for box in drill.boxes] if drill else []
    filled = [i for i in range(1, MOST_WANTED + 1) if form.text(f"wanted{i}_rate")]
    return render_template(
        "job_form.html",
        form=_with_boxes(form, boxes, new=thing is None),
        thing=thing,
        drills=_choices(book, "drill", id=form.text("drill"), chosen=drill),
        fields=_choices(book, "field", id=id, chosen=named(book, id, work.Field)),
        drill=drill,
        charts=charts_of(book, form.text("drill") or None),
        lines=min(MOST_WANTED, max(1, len(boxes), *filled)),
        field_entry=form.text(FIELD_ENTRY),
    )


def _choices(
    book: Book, kind: str, *, id: str, chosen: machine.Drill | work.Field | None
) -> list[tuple[str, str]]:
    """Return what stands on a list, and what is chosen where it was taken off it."""
    names = book.many.names(kind)
    if chosen is None or id in dict(names):
        return names
    return [*names, (id, chosen.name)]


def _with_boxes(form: forms.Form, boxes: Sequence[str], *, new: bool) -> forms.Form:
    """Let each line be that of a box of the drill, unless a rate was kept without one."""
    if len(boxes) < 2:
        return form
    said = [form.text(f"wanted{i}_box") for i in range(1, MOST_WANTED + 1)]
    free = [box for box in boxes if box not in said]
    texts = dict(form.texts)
    for i, box in enumerate(said, start=1):
        open_ = new or box or not form.text(f"wanted{i}_rate")
        if box not in boxes and open_ and free:
            texts[f"wanted{i}_box"] = free.pop(0)
    return forms.Form(texts, form.errors, form.kept)


EDITING = Editing(
    kind=work.Job,
    of=lambda job: None,
    read=_read,
    texts=lambda job: {FIELD_ENTRY: here.book().new_id()} | job_texts(job),
    page=_form,
    shown=lambda owner, job: url_for("jobs.show", job=job),
    left=lambda owner: url_for("jobs.index"),
    start=_start,
    look=SHOW_BOXES,
)
