"""A rate at once, without a job; drill and job can be kept from what was typed."""

from dataclasses import dataclass, replace
from urllib.parse import urlencode

from flask import Blueprint, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from markupsafe import Markup
from msgspec import structs

from evenstand.book.kinds import machine, work
from evenstand.report.charts import result_strip
from evenstand.tasks.calibration.form import read_catch
from evenstand.tasks.calibration.now import Now, rate_now, to_keep, turns_now
from evenstand.tasks.calibration.turning import GROUNDS
from evenstand.tasks.job.form import read_job
from evenstand.tasks.job.kept import find, standing
from evenstand.tasks.parsing.given import Given, listed

from ..site import forms, here, keeping
from ..site.editing import saved
from ..site.forms import Form

blueprint = Blueprint("now", __name__)
ANOTHER = "another"  # chosen where the drill is not one of the book
# What the form asks for that saves a job; the rest goes along unseen.
ASKED = (
    *("job_name", "drill_name", "wanted", "wanted_unit", "setting", "gear"),
    *("scale_low", "scale_high", "scale_step", "drill_entry", "catch_entry", "more", "another"),
)


@dataclass(frozen=True)
class Chosen:
    """The drill that is calibrated: its id, empty for one that is not in the book, and itself."""

    id: str
    drill: machine.Drill | None


@blueprint.get("/calibrate")
def show() -> ResponseReturnValue:
    """Show the rate of what is typed, as soon as it can be known."""
    form = forms.asked()
    if not form.text("more"):
        return _page(form)
    again = "; ".join(filter(None, (form.text("again"), form.given.texts.get("net", ""))))
    rest = {key: text for key, text in form.rest.items() if key not in ("net", "more")}
    return redirect(f"{url_for('now.show')}?{urlencode(rest | {'again': again})}")


@blueprint.post("/calibrate")
def keep() -> ResponseReturnValue:
    """Keep drill, job and catches; the job goes on with the next notch."""

    def keep_all(form: Form) -> str:
        chosen = _chosen(form)
        drill, catches = to_keep(form.given, chosen.drill)
        job = _job(form.given)
        about = chosen.id
        if chosen.drill is None:
            about = keeping.add(drill, form.under("drill_entry"), "name").about
        elif drill != chosen.drill:
            keeping.correct(about, drill, forms.blank())
        made = keeping.add(structs.replace(job, drill=about), form).about
        for number, given in enumerate(catches):
            body = read_catch(given, find(here.book(), made))
            keeping.add(body, form.under("catch_entry") if number == 0 else forms.blank())
        return url_for("set.show", job=made)

    return saved(keep_all, _page)


def _job(given: Given) -> work.Job:
    """Read the job: its name and the rate that is wanted, asked for where it was not given yet."""
    rate = "target" if "target" in given else "wanted"
    given.text(rate)
    names = {"name": "job_name", "wanted1_rate": rate, "wanted1_tolerance": "tolerance"}
    texts = {key: given.texts[name] for key, name in names.items() if name in given}
    return read_job(replace(given, texts=texts, path=lambda key: given.path(names.get(key, key))))


def _chosen(form: Form) -> Chosen:
    """Return the drill that was chosen; without a choice the newest of the book."""
    said = form.text("drill")
    if said == ANOTHER:
        return Chosen("", None)
    newest = [thing.id for thing in here.book().things("drill", limit=1)]
    id = said or (newest[0] if newest else "")
    return Chosen(id, standing(here.book(), id, machine.Drill) if id else None)


def _page(form: Form) -> str:
    chosen, style = _chosen(form), here.style()
    ground = form.text("ground") or GROUNDS[style.system][0]
    found = rate_now(form.given, chosen.drill)
    return render_template(
        "now.html",
        form=form,
        found=found,
        chosen=chosen,
        drills=here.book().many.names("drill"),
        ground=ground,
        turns=turns_now(form.given, chosen.drill, ground=ground),
        again=listed(form.text("again")),
        asked=ASKED,
        new_id=here.book().new_id,
        strip=_strip(found),
    )


def _strip(found: Now) -> Markup | None:
    if found.caught is None:
        return None
    measured, target = found.caught.measured, found.caught.target
    return Markup(result_strip(measured.static, target, here.style()))
