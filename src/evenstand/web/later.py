"""Steps whose pages say what they will need."""

from collections.abc import Callable

from flask import Blueprint, abort, render_template, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.book import Book
from evenstand.engine.words import Phrase, say
from evenstand.tasks.kept import Kept, find

from . import here
from .spine import Line, Step

blueprint = Blueprint("later", __name__)


def _line(headline: Phrase) -> Callable[[Book, Kept], list[Line]]:
    return lambda book, kept: [Line("later", headline)]


def _step(key: str, title: Phrase, *, question: Phrase, headline: Phrase) -> Step:
    return Step(
        key=key, title=title, question=question, lines=_line(headline), endpoint="later.step"
    )


SOW = _step(
    "sow",
    say("Sow"),
    question=say("Is it really going down at that rate?"),
    headline=say("needs a setting, and the first load weighed back"),
)

# What to have at hand when the step comes, by step.
NEEDS: dict[str, tuple[Phrase, ...]] = {
    "sow": (
        say("the setting that was chosen in Set"),
        say("what was filled in, what was left, and the area sown meanwhile"),
    ),
}
PAGES = {step.key: step for step in (SOW,)}


@blueprint.get("/jobs/<job>/<step>")
def step(job: str, step: str) -> ResponseReturnValue:
    """Say what a step asks and what it needs."""
    if step not in PAGES:
        abort(404)
    kept = find(here.book(), job)
    back = url_for("jobs.show", job=job)
    return render_template("later.html", step=PAGES[step], needs=NEEDS[step], kept=kept, back=back)
