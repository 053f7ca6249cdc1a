"""A rate at once, without a job: what was turned, caught and weighed, and of which drill."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from msgspec import structs

from evenstand.book.kinds.machine import Drill
from evenstand.book.kinds.shape import Typed
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say, series
from evenstand.engine.quantities.units import FIELD, ROWS
from evenstand.engine.statistics.budget import nominal

from ..drill.form import read_drill
from ..drill.machines import engine_drill
from ..job.said import drill_in, wheel_in
from ..parsing import reading
from ..parsing.given import Given, listed
from ..parsing.reading import RUNS
from .catch import Caught, read_catch
from .turns import turns

WHEEL = ("rolled", "taped")
SCALE = ("scale_low", "scale_high", "scale_step")
OF_CATCH = ("setting", "gear", *RUNS, "per_turn", "rows_caught", "tare", "resolution", "note")


@dataclass(frozen=True)
class Now:
    """The rate, or what is still missing for it; ``refused`` is what does not fit."""

    caught: Caught | None
    missing: tuple[Phrase, ...] = ()
    refused: MeasurementError | None = None

    @property
    def needs(self) -> Phrase:
        """What is missing, in one phrase."""
        return series(self.missing)


def rate_now(given: Given, drill: Drill | None) -> Now:
    """Tell a rate as soon as it can be known.

    Parameters
    ----------
    given : Given
        ``rows``, ``spacing`` and ``rolled`` or ``taped`` with ``slip``, unless a
        drill tells them; one of ``turns``, ``crank_turns`` with ``per_turn``,
        ``distance`` and ``area``; ``net``, one weight or one for each bag;
        ``again``, weights of repeats; ``rows_caught``, all without;
        ``target`` and ``tolerance``.
    drill : Drill, optional
        A kept one.
    """
    whole = _with_drill(given, drill)
    missing = tuple(_missing(whole))
    if missing:
        return Now(None, missing)
    try:
        return Now(_caught(whole))
    except MeasurementError as error:
        return Now(None, refused=error)


def _with_drill(given: Given, drill: Drill | None) -> Given:
    """Put what a kept drill tells under the names of what is typed of any."""
    if drill is None:
        return given
    told: dict[str, Typed | None] = {
        "spacing": drill.spacing,
        "rolled": drill.rolled,
        "taped": drill.taped,
        "slip": drill.slip,
    }
    texts = {key: typed.text for key, typed in told.items() if typed} | {"rows": str(drill.rows)}
    if drill.crank_per_wheel and "crank_turns" in given and "per_turn" not in given:
        texts["per_turn"] = drill.crank_per_wheel.text
    return replace(given, texts={**texts, **given.texts})


def _missing(given: Given) -> Iterator[Phrase]:
    """Name what a rate needs and has not, in the order it is asked for."""
    run = next((key for key in RUNS if key in given), None)
    if "rows" not in given:
        yield say("rows")
    if "spacing" not in given:
        yield say("row spacing")
    if run in (None, "turns") and not any(key in given for key in WHEEL):
        yield say("distance per wheel turn")
    if run == "crank_turns" and "per_turn" not in given:
        yield say("distance per crank turn")
    if run is None:
        yield say("turns")
    if "net" not in given:
        yield say("seed weight")


def _caught(given: Given) -> Caught:
    texts = {"on": "static"} | dict(given.texts)
    every = "rows_caught" not in given and "area" not in given
    if every:
        texts["rows_caught"] = given.text("rows")
    whole = replace(given, texts=_weighed(texts))
    again = [whole.piece(_way(whole), text) for text in listed(given.texts.get("again", ""))]
    found = read_catch(whole, again)
    if not every:
        return found
    said = say("all {rows} caught", rows=ROWS(given.count("rows", ROWS)))
    return replace(found, assumed=(*found.assumed, said))


def _weighed(texts: dict[str, str]) -> dict[str, str]:
    """Call several weights by the name that a list of bags has."""
    texts.pop("again", None)
    if len(listed(texts["net"])) > 1:
        texts["weights"] = texts.pop("net")
    return texts


def _way(given: Given) -> str:
    return "weights" if "weights" in given else "net"


def turns_now(given: Given, drill: Drill | None, *, ground: str) -> float | None:
    """Tell how many whole turns stand for a piece of ground; None where that cannot be known.

    They are those of the crank where the drill has one.

    Parameters
    ----------
    ground : str
        As written: ``1/20 ac``.
    """
    whole = _with_drill(given, drill)
    try:
        wheel = wheel_in(whole)
        if wheel is None:
            return None
        area = whole.piece("area", ground).exact("area", FIELD)
        made = turns(engine_drill(*drill_in(whole)), wheel, area=area).course.turns
    except MeasurementError:
        return None
    crank = drill.crank_per_wheel.value if drill and drill.crank_per_wheel else 1.0
    return float(max(1, round(nominal(made) * crank)))


def to_keep(given: Given, drill: Drill | None) -> tuple[Drill, list[Given]]:
    """Return the drill that was told of, and each catch as the form of a job's catch has it.

    Parameters
    ----------
    given : Given
        As `rate_now` has it, with ``setting``; with ``drill_name``, ``scale_low``,
        ``scale_high`` and ``scale_step`` where no kept drill tells them.

    Raises
    ------
    MeasurementError
        For what is missing for a rate, a setting that the lever has not, and
        all that the form of a drill refuses.
    """
    found = rate_now(given, drill)
    if found.refused:
        raise found.refused
    if found.missing:
        raise given.refuse("net", say("enter the catch first"))
    body = _drill_of(given, drill)
    reading.setting(given, engine_drill(body))
    texts = {key: given.texts[key] for key in OF_CATCH if key in given}
    texts.setdefault("rows_caught", str(body.rows))
    weights = [given.text("net"), *listed(given.texts.get("again", ""))]
    return body, [replace(given, texts=texts | {"net": weight}) for weight in weights]


def _drill_of(given: Given, drill: Drill | None) -> Drill:
    """Return a kept drill, or one of what was typed; its lever's scale must be known."""
    if drill and drill.scale:
        return drill
    own = {"name": "drill_name"}
    keys = (*SCALE, *(() if drill else ("rows", "spacing", *WHEEL, "slip")))
    texts = {key: given.texts[key] for key in keys if key in given}
    named = {"name": drill.name} if drill else {"name": given.texts.get("drill_name", "")}
    typed = replace(given, texts=texts, path=lambda key: given.path(own.get(key, key)))
    for key in ("scale_low", "scale_high"):
        typed.text(key)
    frame = {} if drill is None else {"rows": str(drill.rows), "spacing": drill.spacing.text}
    body = read_drill(replace(typed, texts=texts | named | frame))
    return structs.replace(drill, scale=body.scale) if drill else body
