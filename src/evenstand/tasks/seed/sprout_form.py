"""A germination test at home as it is typed: into what is kept, and back."""

from collections.abc import Iterator

from evenstand.book.seed import Dish, GerminationTest, Lot
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import SEEDS
from evenstand.engine.seed.tag import Month

from ..parsing.dates import day
from ..parsing.given import Given
from ..parsing.writing import Writing
from .kept import read_kept

MOST_DISHES = 8
FIELDS = {"home_test": "dish1_sprouted", "home_hard": "hard"}


def read_sprout_form(given: Given, *, lot_id: str, lot: Lot, today: Month) -> GerminationTest:
    """Read a germination test from the fields of its form.

    Parameters
    ----------
    given : Given
        ``dish1_seeds`` and ``dish1_sprouted``…, ``hard``, ``started``, ``ended``;
        with the day alone that the seeds were laid out, they are counted later.

    Raises
    ------
    RefusalsError or MeasurementError
        Each under the field it was typed in.
    """
    form = Writing(given)
    dishes = tuple(_dishes(form))
    hard = form.count("hard", SEEDS, otherwise=0) if "hard" in given else None
    started, ended = day(form, "started"), day(form, "ended")
    if not dishes and started and not (ended or "hard" in given):
        dishes = tuple(_laid_out(form))
    if not dishes:
        text = "give the seeds that sprouted of those laid out, or only the day they were laid out"
        need = say(text)
        form.refuse(given.refuse("dish1_sprouted", need))
    if started and ended and ended < started:
        form.refuse(given.refuse("ended", say("give a day after the seeds were laid out")))
    test = GerminationTest(
        lot=lot_id,
        dishes=dishes,
        hard=hard,
        started=started,
        ended=ended,
        note=form.text("note"),
    )
    form.done()
    if not test.counted:
        return test
    try:
        read_kept(lot, today=today, test=test)
    except MeasurementError as refused:
        field = FIELDS.get(refused.field, refused.field)
        raise MeasurementError(field, given.texts.get(field), refused.need) from None
    return test


def _dishes(form: Writing) -> Iterator[Dish]:
    """Read the dishes that were counted; one that was only laid out is left empty."""
    for i in range(1, MOST_DISHES + 1):
        up, laid = f"dish{i}_sprouted", f"dish{i}_seeds"
        if not form.text(up):
            continue
        form.name(laid)
        seeds = form.count(laid, SEEDS, otherwise=1, least=1)
        sprouted = form.count(up, SEEDS, otherwise=0)
        if laid in form.given and sprouted > seeds:
            need = say("give from 0 to the {n} laid out", n=seeds)
            form.refuse(form.given.refuse(up, need))
        yield Dish(sprouted=sprouted, seeds=seeds)


def _laid_out(form: Writing) -> Iterator[Dish]:
    """Read the dishes that wait to be counted."""
    for i in range(1, MOST_DISHES + 1):
        if form.text(laid := f"dish{i}_seeds"):
            form.name(laid)
            yield Dish(seeds=form.count(laid, SEEDS, otherwise=1, least=1))


def sprout_texts(test: GerminationTest) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    texts = {"note": test.note, "started": test.started or "", "ended": test.ended or ""}
    for i, dish in enumerate(test.dishes, 1):
        up = "" if dish.sprouted is None else str(dish.sprouted)
        texts |= {f"dish{i}_sprouted": up, f"dish{i}_seeds": str(dish.seeds)}
    return texts | ({} if test.hard is None else {"hard": str(test.hard)})
