"""The months and days that tags and people write."""

import re
from datetime import date, timedelta

from evenstand.engine.quantities.phrases import say
from evenstand.engine.seed.tag import Month

from .given import Given
from .writing import Writing

_YEAR_FIRST = re.compile(r"(\d{4})[-/. ](\d{1,2})(?:[-/. ]\d{1,2})?(?:[T ].*)?")
_MONTH_FIRST = re.compile(r"(\d{1,2})[-/. ](\d{4})")
_NAMED = re.compile(r"([a-z]{3,10})\.?,? *(?:de )?(\d{4})|(\d{4}) +([a-z]{3,10})\.?")
_NAMES = (
    (
        "january", "february", "march", "april", "may", "june",
        "july", "august", "september", "october", "november", "december",
    ),
    (
        "enero", "febrero", "marzo", "abril", "mayo", "junio",
        "julio", "agosto", "septiembre", "octubre", "noviembre", "diciembre",
    ),
)  # fmt: skip
ELSEWHERE = timedelta(days=1)  # it may be tomorrow already where the day was written


def month(given: Given, key: str) -> Month:
    """Read a month: ``2026-03``, ``3/2026``, ``March 2026``, or a day of it, ``2026-03-15``.

    Raises
    ------
    MeasurementError
        For a year of two digits, which can be read in two ways, and for what is no month.
    """
    text = given.text(key).casefold()
    found = _numbers(text)
    if found is None:
        need = say("enter its month and year, such as {example}", example="2026-03")
        raise given.refuse(key, need)
    with given.pointing(tested=key):
        return Month(*found)


def _numbers(text: str) -> tuple[int, int] | None:
    if parts := _YEAR_FIRST.fullmatch(text):
        return int(parts[1]), int(parts[2])
    if parts := _MONTH_FIRST.fullmatch(text):
        return int(parts[2]), int(parts[1])
    if parts := _NAMED.fullmatch(text):
        name, year = parts[1] or parts[4], parts[2] or parts[3]
        numbered = (each for names in _NAMES for each in enumerate(names, 1))
        number = next((n for n, full in numbered if full.startswith(name)), None)
        return None if number is None else (int(year), number)
    return None


def day(form: Writing, key: str) -> str | None:
    """Read a day that has come, as a browser's own field of a date writes it.

    Returns
    -------
    str or None
        None where it was left empty.
    """
    text, today = form.text(key), date.today()
    try:
        found = date.fromisoformat(text) if text else None
    except ValueError:
        need = say("enter its year, month and day, such as {example}", example="2026-03-15")
        form.refuse(form.given.refuse(key, need))
        return None
    if found is not None and found > today + ELSEWHERE:
        need = say("enter a date that is not in the future: today is {today}", today=today)
        form.refuse(form.given.refuse(key, need))
    return found.isoformat() if found else None
