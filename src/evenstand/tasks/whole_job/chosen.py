"""The setting that was taken for a box."""

from evenstand.book.book import Book
from evenstand.book.kinds.work import Chosen
from evenstand.engine.quantities.errors import MeasurementError

from ..calibration.setting import where_next
from ..job.kept import Kept, job_drill
from ..parsing import reading
from ..parsing.given import Given
from .calibration import set_job


def read_chosen(given: Given, kept: Kept, book: Book) -> Chosen:
    """Read which notch is taken; its odds are worked out anew, not believed.

    Raises
    ------
    MeasurementError
        For a setting off the scale.
    """
    setting = reading.setting(given, job_drill(kept), key="take")
    gear = given.texts.get("gear", "")
    return Chosen(
        job=kept.thing.id,
        drill=kept.drill_id,
        box=kept.box,
        setting=setting,
        gear=gear,
        odds=_odds(book, kept, setting=setting, gear=gear),
    )


def _odds(book: Book, kept: Kept, *, setting: float, gear: str) -> float | None:
    try:
        found = where_next(set_job(book, kept))
    except MeasurementError:
        return None
    for candidate in found.choice.candidates:
        if candidate.setting == setting and candidate.gear.name == (gear or candidate.gear.name):
            return min(1.0, max(0.0, candidate.odds))
    return None
