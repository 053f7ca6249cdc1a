"""A germination test at home as it is typed: into what is kept, and back."""

from collections.abc import Iterator

from msgspec.structs import replace

from evenstand.book.kinds.seed import Dish, GerminationTest, Lot
from evenstand.engine.quantities.phrases import say
from evenstand.engine.seed.tag import Month

from ..parsing.given import Given
from ..parsing.structs import numbered, read, texts
from ..parsing.writing import Writing
from .kept import read_kept

MOST_DISHES = 8


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
    with Writing(given) as form:
        test = read(form, GerminationTest, lot=lot_id, dishes=lambda: tuple(_dishes(form)))
        if not test.dishes and test.started and not (test.ended or "hard" in given):
            test = replace(test, dishes=tuple(_laid_out(form)))
        if not test.dishes:
            need = say(
                "enter how many sprouted and how many you laid out, "
                "or just the date you laid them out"
            )
            form.refuse(given.refuse("dish1_sprouted", need))
        if test.started and test.ended and test.ended < test.started:
            form.refuse(given.refuse("ended", say("enter a date after the seeds were laid out")))
    if not test.counted:
        return test
    with given.pointing(home_test="dish1_sprouted", home_hard="hard"):
        read_kept(lot, today=today, test=test)
    return test


def _dishes(form: Writing) -> Iterator[Dish]:
    """Read the dishes that were counted; one that was only laid out is left empty."""
    for i in numbered(form.given, "dish", ("sprouted",), most=MOST_DISHES):
        dish, laid = read(form, Dish, line=f"dish{i}_"), f"dish{i}_seeds"
        if laid in form.given and (dish.sprouted or 0) > dish.seeds:
            need = say("enter 0 to {n} (the number laid out)", n=dish.seeds)
            form.refuse(form.given.refuse(f"dish{i}_sprouted", need))
        yield dish


def _laid_out(form: Writing) -> Iterator[Dish]:
    """Read the dishes that wait to be counted."""
    for i in numbered(form.given, "dish", ("seeds",), most=MOST_DISHES):
        yield read(form, Dish, line=f"dish{i}_")


def sprout_texts(test: GerminationTest) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    written = texts(test)
    for i, dish in enumerate(test.dishes, 1):
        written |= texts(dish, line=f"dish{i}_")
    return written
