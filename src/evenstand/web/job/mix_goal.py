"""Rates found by the solver: cheapest, or nearest to the wish, within limits."""

import re
from dataclasses import dataclass
from math import fsum
from typing import TYPE_CHECKING

from flask import Blueprint, render_template, request
from flask.typing import ResponseReturnValue

from evenstand.book.kinds import seed
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import RATE
from evenstand.tasks.job.kept import Kept
from evenstand.tasks.mix.form import GROUPS, mix_texts
from evenstand.tasks.mix.goal_form import (
    GOALS,
    MOST_LIMITS,
    WHAT,
    goal_field,
    goal_table,
    limit_numbers,
    with_rates,
)
from evenstand.tasks.mix.kept import job_mix
from evenstand.tasks.mix.lines import MixLine, mix_lines, mix_total

from ..site import forms, here
from ..site.solver import solved
from .filling import kept_job
from .mix import Fix, drawn, fix, kept_mix, lot_page, once, warned_url
from .mix_form import JOB_ENTRY, UNITS, shared

if TYPE_CHECKING:
    from evenstand.tasks.mix.solving import Solved

blueprint = Blueprint("mix_goal", __name__)
SPARE, FIRST = 2, 3  # empty limits behind those that are filled, and of a new goal

# Fields that hold no numbers.
_WORDS = re.compile(r"entry|job_entry|of|name|note|stand|\w+_(?:name|seed|basis|group|season)")
_CALLED = {
    "seeds": say("live seeds per area"),
    "weight": say("bulk weight per area"),
    "seed share": say("share of live seeds"),
    "weight share": say("share of weight"),
    "rate": say("rate of one species, if it's in the mix at all"),
    "species": say("number of species"),
    "cost": say("cost per area"),
}
_GROUPS = {
    "grass": say("all grasses"),
    "legume": say("all legumes"),
    "broadleaf": say("all broadleaf species"),
    "brassica": say("all brassicas"),
}


@dataclass(frozen=True)
class Answer:
    """What came of the search: the best mix, or why there is none."""

    solved: "Solved | None" = None
    refused: Phrase | None = None
    fix: Fix | None = None
    office: bool = False


@blueprint.get("/jobs/<job>/mix/goal")
def show(job: str) -> ResponseReturnValue:
    """Show the goal and its limits, and the best mix where it was asked for."""
    kept = kept_job(job)
    mix = kept_mix(kept)
    if mix is None or not mix.members:
        return render_template("mix_goal.html", kept=kept, mix=None)
    form = forms.Form({**forms.blank().texts, **request.args})
    if "goal" not in request.args:
        return _page(kept, mix, form=form, answer=Answer())
    form, answer = _search(kept, mix, form)
    return _page(
        kept, mix, form=form, answer=answer
    ), 422 if answer.refused or answer.office else 200


def _search(kept: Kept, mix: seed.Mix, form: forms.Form) -> tuple[forms.Form, Answer]:
    given = form.given
    try:
        goal = {"mix_goal": goal_table(given, here.style())}
        found = solved(job_mix(here.book(), kept), goal, today=here.this_month())
        return form, Answer(solved=found, office=found is None)
    except MeasurementError as error:
        field = goal_field(error, given)
        if field is None:
            return form, Answer(refused=error.need, fix=fix(kept, mix, error))
        return form.refused(error.at(field)), Answer(refused=error.need)


def _page(kept: Kept, mix: seed.Mix, *, form: forms.Form, answer: Answer) -> str:
    lines = max(limit_numbers(form.given), default=0)
    page = {
        "kept": kept,
        "mix": mix,
        "form": form,
        "answer": answer,
        "limits": min(MOST_LIMITS, lines + SPARE if lines else FIRST),
        "what": [(word, _CALLED[word]) for word in WHAT],
        "of": _scopes(mix),
        "goals": GOALS,
        "lot_url": lot_page,
        "warned_url": warned_url(kept),
    }
    if answer.solved is None:
        return render_template("mix_goal.html", **page)
    return render_template("mix_goal.html", **page, **_best(kept, mix, answer.solved))


def _best(kept: Kept, mix: seed.Mix, best: "Solved") -> dict[str, object]:
    """Return what the page shows of the best mix, and the form that takes its rates."""
    found = best.mixed
    taken = with_rates(mix, found, here.style().unit(RATE))
    ids = {"of": kept.body.mix or "", JOB_ENTRY: here.book().new_id()}
    costs = [each.cost for each in best.solution.purchases]
    known = [cost for cost in costs if cost is not None]
    return {
        "found": found,
        "assumed": once(found.assumed),
        "solution": best.solution,
        "advice": best.advice,
        "lines": _lines(best, taken),
        "total": mix_total(found.mix),
        "strip": drawn(found),
        "bought": fsum(known) if known and len(known) == len(costs) else None,
        "taking": _hidden(forms.opened(_thing(kept), mix_texts(taken, UNITS) | ids)),
        "sharing": shared(kept, kept.body.mix or ""),
    }


def _thing(kept: Kept) -> Thing:
    return here.book().get(str(kept.body.mix))


def _hidden(form: forms.Form) -> list[tuple[str, str]]:
    """Return the fields of a form as its reader would have typed them."""
    return [
        (name, text if _WORDS.fullmatch(name) else form.figures(name))
        for name, text in form.texts.items()
        if text
    ]


def _lines(best: "Solved", taken: seed.Mix) -> tuple[MixLine, ...]:
    seeds = tuple(member for member in taken.members if not member.carrier)
    return mix_lines(best.mixed, seeds)


def _scopes(mix: seed.Mix) -> list[tuple[str, Phrase | str]]:
    """Return what a limit can be on: all, a group, a species of the mix."""
    species = dict.fromkeys(each.name for each in mix.members if not each.carrier)
    groups = [(group, _GROUPS[group]) for group in GROUPS]
    return [("", say("the whole mix")), *groups, *((name, name) for name in species)]
